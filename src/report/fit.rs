//! Whether the lid closes over a box, and in which order to pack it.

use serde::Serialize;

use super::Report;
use crate::model::measure::Decigrams;
use crate::model::text::counted;

/// Names beyond this many are only counted.
const NAMED: usize = 6;

/// Whether all that is in a box or set aside for it goes in, and how.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FitReport {
    /// What people call the box.
    #[serde(rename = "box")]
    pub label: String,
    /// The box in a line.
    #[serde(skip)]
    pub heading: String,
    /// Whether it counts as fitting: by what somebody said of the lid, else by what was found.
    pub fits: bool,
    /// What the search came to: `fits`, `tight`, `not_found`, `impossible`, `sizes_unknown`; `empty` for an empty box.
    pub answer: &'static str,
    /// The same in words.
    pub why: String,
    /// What somebody said of the lid; empty: nobody did, or something came in since.
    pub lid_said: String,
    /// How the lid closes over what is packed; empty where nothing is.
    pub lid: String,
    /// What of it is not as one would wish.
    pub notes: Vec<String>,
    /// Things whose size nobody knows.
    pub sizes_unknown: Vec<String>,
    /// Things whose size is only the typical one of their kind.
    pub sizes_typical: Vec<String>,
    /// What the best way leaves out.
    pub left_out: Vec<FitCount>,
    /// What to do, one after the other.
    pub order: Vec<FitStep>,
    /// The box from above, from the bottom up.
    pub layers: Vec<FitLayer>,
    /// How full it is; none where nothing is in it.
    pub filled: Option<FitFill>,
    /// What it weighs.
    pub weight: FitWeight,
    /// What room is left, in words; empty where something is left out.
    pub room: String,
    /// What of the stock the box still needs, and would drop in on top of it all.
    pub drops_in: Vec<String>,
}

/// So many of a thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FitCount {
    /// What it is called.
    pub thing: String,
    /// How many.
    pub count: u16,
}

/// One step of packing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FitStep {
    /// What it is called.
    pub thing: String,
    /// How many of it.
    pub count: u16,
    /// What it is put into; empty: the box.
    pub into: String,
    /// Where in the box; empty where it is put into something.
    pub place: String,
    /// The whole of it in words, numbered.
    #[serde(skip)]
    pub words: String,
}

/// A slice of the box from above.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FitLayer {
    /// Where it begins above the bottom, in millimetres.
    pub from_mm: i32,
    /// Where it ends.
    pub to_mm: i32,
    /// The picture from the back to the front, a letter for each spot.
    pub rows: Vec<String>,
    /// What the letters are.
    pub legend: Vec<FitLetter>,
    /// All of it as lines of text.
    #[serde(skip)]
    pub lines: Vec<String>,
}

/// What a letter of a layer stands for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FitLetter {
    /// The letter, small where the thing comes up from a layer below.
    pub letter: char,
    /// What it is called.
    pub thing: String,
    /// How many of it.
    pub count: u16,
}

/// How full a box is, in thousandths of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct FitFill {
    /// What is stiff.
    pub stiff: i64,
    /// What is soft, as it is pressed.
    pub soft: i64,
    /// What is left.
    pub free: i64,
    /// To what share of their volume soft things are pressed, in hundredths; none if they aren't.
    pub soft_pressed_to: Option<u8>,
}

/// What a box weighs when all is in it, without the box itself.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct FitWeight {
    /// In grams, as far as it is known.
    pub grams: f64,
    /// The most that the drive allows.
    pub limit_grams: Option<f64>,
    /// Things whose weight nobody knows.
    pub unknown: Vec<String>,
}

impl FitFill {
    fn words(&self) -> String {
        let percent = |share: i64| format!("{}.{} %", share / 10, share % 10);
        let pressed = self.soft_pressed_to.map(|to| format!("; soft things are pressed to {to} %")).unwrap_or_default();
        format!("stiff {}, soft {}, free {}{pressed}", percent(self.stiff), percent(self.soft), percent(self.free))
    }
}

impl FitWeight {
    /// A weight in tenths of a gram, and the drive's limit.
    pub fn new(weight: u32, limit: Option<Decigrams>, unknown: Vec<String>) -> FitWeight {
        FitWeight { grams: Decigrams(weight).grams(), limit_grams: limit.map(Decigrams::grams), unknown }
    }

    /// How far it is over the drive's limit, in grams.
    pub fn over(&self) -> Option<f64> {
        self.limit_grams.map(|limit| self.grams - limit).filter(|over| *over > 0.0)
    }

    fn words(&self) -> String {
        let least = if self.unknown.is_empty() { "" } else { "at least " };
        let kilos = |grams: f64| format!("{:.3} kg", grams / 1000.0);
        let limit = match (self.over(), self.limit_grams) {
            (Some(over), Some(limit)) => format!(", {} over the {} that the drive allows", kilos(over), kilos(limit)),
            (None, Some(limit)) => format!(" of the {} that the drive allows", kilos(limit)),
            (_, None) => String::new(),
        };
        let open = if self.unknown.is_empty() {
            String::new()
        } else {
            format!("; nobody knows what {} weighs", listed(&self.unknown))
        };
        format!("{least}{}{limit}{open}", kilos(self.grams))
    }
}

impl FitReport {
    fn heads(&self) -> Vec<String> {
        let said = (!self.lid_said.is_empty()).then(|| self.lid_said.clone());
        let by_sizes = if self.lid_said.is_empty() { "" } else { "By the sizes: " };
        let mut heads = vec![self.heading.clone()];
        heads.extend(said);
        heads.push(format!("{by_sizes}{} {}", self.why, self.lid).trim_end().to_owned());
        heads.extend(self.notes.iter().cloned());
        heads
    }

    /// The order of packing, under what it leaves out.
    fn steps(&self) -> Vec<String> {
        let counted = |left: &FitCount| match left.count {
            1 => left.thing.clone(),
            count => format!("{count} × {}", left.thing),
        };
        let without: Vec<String> = self.left_out.iter().map(counted).collect();
        let without = if without.is_empty() { String::new() } else { format!(" without {}", listed(&without)) };
        let head = (!self.order.is_empty()).then(|| format!("To pack it{without}:"));
        head.into_iter().chain(self.order.iter().map(|step| format!(" {}", step.words))).collect()
    }

    fn figures(&self) -> Vec<String> {
        let mut lines = Vec::new();
        lines.extend(self.filled.map(|fill| format!("filled   {}", fill.words())));
        lines.extend(self.filled.map(|_| format!("weight   {}", self.weight.words())));
        if !self.room.is_empty() {
            lines.push(format!("room     {}", self.room));
        }
        if !self.drops_in.is_empty() {
            lines.push(format!("needed, on hand, and would drop in: {}", listed(&self.drops_in)));
        }
        if !self.sizes_typical.is_empty() {
            let things = counted(self.sizes_typical.len() as u64, "thing", "things");
            lines.push(format!("typical sizes were taken for {things}: {}", listed(&self.sizes_typical)));
        }
        lines
    }
}

impl Report for FitReport {
    fn text(&self) -> String {
        let layers = self.layers.iter().map(|layer| layer.lines.clone());
        let figures = self.figures().iter().map(|line| format!(" {line}")).collect();
        let parts = [self.heads(), self.steps()].into_iter().chain(layers).chain([figures]);
        let parts: Vec<String> = parts.filter(|lines| !lines.is_empty()).map(|lines| lines.join("\n")).collect();
        parts.join("\n\n") + "\n"
    }
}

/// `a`, `a and b`, `a; b, blue and c`; a long list is cut.
pub fn listed(names: &[String]) -> String {
    let joint = if names.iter().any(|name| name.contains(',')) { "; " } else { ", " };
    match names {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [before @ .., last] if names.len() <= NAMED => format!("{} and {last}", before.join(joint)),
        [first @ .., _] => {
            let shown = NAMED.min(first.len());
            format!("{} and {} more", first[..shown].join(joint), names.len() - shown)
        }
    }
}
