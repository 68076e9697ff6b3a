//! Where a thing is.

use serde::Serialize;

use super::Report;

/// Where the things that some words mean are.
#[derive(Debug, Clone, Serialize)]
pub struct Places {
    /// What was asked.
    pub words: String,
    /// The things, closest name first.
    pub things: Vec<Place>,
}

/// Where one thing is.
#[derive(Debug, Clone, Serialize)]
pub struct Place {
    /// What it is called.
    pub name: String,
    /// Units by tote; an empty tote: nobody said.
    pub totes: Vec<InTote>,
    /// Units by box.
    pub boxes: Vec<InBox>,
}

/// Units in a tote.
#[derive(Debug, Clone, Serialize)]
pub struct InTote {
    /// The tote; empty: not said.
    pub tote: String,
    /// How many.
    pub units: u32,
}

/// Units in or for a box.
#[derive(Debug, Clone, Serialize)]
pub struct InBox {
    /// The box.
    #[serde(rename = "box")]
    pub label: String,
    /// In it.
    pub units: u32,
    /// Set aside for it, still in the tote.
    pub aside: u32,
}

impl Report for Places {
    fn text(&self) -> String {
        if self.things.is_empty() {
            return format!("Nothing is called \"{}\".\n", self.words);
        }
        self.things.iter().map(|place| format!("{}\n", place.line())).collect()
    }
}

impl Place {
    fn line(&self) -> String {
        let tote = |place: &InTote| match place.tote.as_str() {
            "" => format!("{}, place not said", place.units),
            tote => format!("{} in {tote}", place.units),
        };
        let giftbox = |place: &InBox| match (place.units, place.aside) {
            (units, 0) => format!("{units} in box {}", place.label),
            (0, aside) => format!("{aside} of them set aside for box {}", place.label),
            (units, aside) => format!("{units} in box {0}, {aside} set aside for it", place.label),
        };
        let mut parts: Vec<String> = self.totes.iter().map(tote).collect();
        parts.extend(self.boxes.iter().map(giftbox));
        if parts.is_empty() {
            parts.push("none left".to_owned());
        }
        format!("{}: {}", self.name, parts.join("; "))
    }
}
