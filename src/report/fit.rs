//! Whether the lid closes over a box, and in which order to pack it.

use serde::Serialize;

use super::Report;
use crate::model::id::PlacementId;
use crate::model::measure::Decigrams;
use crate::model::text::{counted, listed_up_to};

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
    /// Whether it closes only with a hard push.
    #[serde(skip)]
    pub hard_push: bool,
    /// That it weighs more than the drive allows; empty: it doesn't, or nobody says how much it allows.
    pub too_heavy: String,
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
    /// The same as one packs it, stage after stage.
    #[serde(skip)]
    pub stages: Vec<FitStage>,
    /// Where each thing whose size is known went.
    #[serde(skip)]
    pub places: Vec<FitPlace>,
    /// How full it is; none where nothing is in it.
    pub filled: Option<FitFill>,
    /// What it weighs.
    pub weight: FitWeight,
    /// What room is left, in words; empty where something is left out.
    pub room: String,
    /// The largest block that would go in besides, in millimetres.
    #[serde(skip)]
    pub largest_mm: Option<[i32; 3]>,
    /// What of the stock the box still needs, and would drop in on top of it all.
    pub drops_in: Vec<String>,
    /// What of it would go in only once all is packed anew, as far as that was asked for.
    #[serde(skip)]
    pub repacked: Vec<String>,
    /// How many ways were tried.
    #[serde(skip)]
    pub tried: u64,
}

/// Where a thing of the box went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FitPlace {
    /// Which units they are.
    pub placement: PlacementId,
    /// The letter of it, or of the holder that it is in.
    pub letter: Option<char>,
    /// The stages in which any of it goes in, by number from 0.
    pub stages: Vec<usize>,
    /// What it is in; empty: the box itself.
    pub inside: String,
    /// How many of it found no room.
    pub left_out: u16,
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
    /// Whether it is soft, and stuffed in.
    #[serde(skip)]
    pub soft: bool,
    /// The letter of it, or of what it is put into.
    #[serde(skip)]
    pub letter: Option<char>,
    /// The stage in which it goes in, by number from 0; none where it is put into something.
    #[serde(skip)]
    pub stage: Option<usize>,
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

/// Something seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FitPiece {
    /// How far from the left and from the front it begins, in millimetres.
    pub lo: [i32; 2],
    /// Where it ends.
    pub hi: [i32; 2],
    /// Its letter, small where it was there before.
    pub letter: char,
    /// Whether it is soft.
    pub soft: bool,
}

/// What goes in beside each other, nothing of it on anything else of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FitStage {
    /// How high above the bottom the lowest of it is, in millimetres.
    pub from_mm: i32,
    /// What the letters are: first what goes in now, then what comes up from below.
    pub signs: Vec<FitSign>,
    /// What one sees from above, to be drawn one over the other.
    pub pieces: Vec<FitPiece>,
}

/// What a letter of a stage stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FitSign {
    /// The letter, small where it was there before.
    pub letter: char,
    /// What it is called.
    pub thing: String,
    /// How many of it.
    pub count: u16,
    /// Whether it is soft.
    pub soft: bool,
    /// Whether it was there before.
    pub from_below: bool,
    /// What is inside it.
    pub inside: Vec<FitCount>,
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

impl FitPiece {
    /// Square millimetres that it covers.
    pub fn area(&self) -> i64 {
        i64::from(self.hi[0] - self.lo[0]) * i64::from(self.hi[1] - self.lo[1])
    }
}

impl FitSign {
    /// Something is inside it.
    pub fn holds(&mut self, count: FitCount) {
        match self.inside.iter_mut().find(|known| known.thing == count.thing) {
            Some(known) => known.count += count.count,
            None => self.inside.push(count),
        }
    }

    /// One more of it.
    pub fn add(&mut self, other: FitSign) {
        self.count += other.count;
        other.inside.into_iter().for_each(|count| self.holds(count));
    }
}

impl FitCount {
    /// `2 × comb`
    pub fn words(&self) -> String {
        match self.count {
            1 => self.thing.clone(),
            count => format!("{count} × {}", self.thing),
        }
    }
}

impl FitFill {
    fn words(&self) -> String {
        let share = |share: i64| format!("{}.{}", share / 10, share % 10);
        let pressed = self.soft_pressed_to.map(|to| format!("; soft things are pressed to {to} of 100"));
        let (stiff, soft, free) = (share(self.stiff), share(self.soft), share(self.free));
        format!("stiff {stiff}, soft {soft}, free {free} of 100{}", pressed.unwrap_or_default())
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

    /// That it is over the drive's limit, in a sentence; empty: it isn't, as far as weights are known.
    pub fn too_heavy(&self) -> String {
        let Some((over, limit)) = self.over().zip(self.limit_grams) else { return String::new() };
        let (all, over, limit) = (kilos(self.grams), kilos(over), kilos(limit));
        format!("Too heavy: it weighs {all}, {over} over the {limit} that the drive allows.")
    }

    fn words(&self) -> String {
        let least = if self.unknown.is_empty() { "" } else { "at least " };
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

fn kilos(grams: f64) -> String {
    format!("{:.3} kg", grams / 1000.0)
}

impl FitReport {
    fn heads(&self) -> Vec<String> {
        let said = (!self.lid_said.is_empty()).then(|| self.lid_said.clone());
        let by_sizes = if self.lid_said.is_empty() { "" } else { "By the sizes: " };
        let mut heads = vec![self.heading.clone()];
        heads.extend((!self.too_heavy.is_empty()).then(|| self.too_heavy.clone()));
        heads.extend(said);
        heads.push(format!("{by_sizes}{} {}", self.why, self.lid).trim_end().to_owned());
        heads.extend(self.notes.iter().cloned());
        heads
    }

    /// The order of packing, under what it leaves out.
    fn steps(&self) -> Vec<String> {
        let without: Vec<String> = self.left_out.iter().map(FitCount::words).collect();
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

/// `a`, `a and b`, `a; b, blue and c`; of a long list the last ones are only counted.
pub fn listed(names: &[String]) -> String {
    if names.is_empty() { "nothing".to_owned() } else { listed_up_to(names, NAMED, NAMED) }
}
