//! Boxes and acts told a second time, as `oracle` tells batches.
//!
//! What the laws leave open and this model takes from the program: of boxes with one number those
//! off the plan are counted last.

use std::collections::BTreeMap;

use brimful::model::event::Event;
use brimful::model::fact::Fact;
use brimful::model::giftbox::{BoxField, BoxState};
use brimful::model::id::BoxId;

use crate::oracle::Told;

/// A box as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    pub label: String,
    pub state: BoxState,
    pub withdrawn: bool,
}

/// A box before the others of its number are known.
struct Draft {
    number: u32,
    state: BoxState,
    live: bool,
    spoken_of: bool,
    place: usize,
}

/// All boxes that are planned, or that something live still speaks of.
pub fn boxes(told: &Told<'_>) -> BTreeMap<BoxId, Planned> {
    let mut drafts: BTreeMap<BoxId, Draft> = BTreeMap::new();
    for (place, event) in told.all.iter().enumerate() {
        let Fact::BoxPlanned(b) = &event.fact else { continue };
        let (number, state, live) = (b.facts.number, BoxState::Open, told.holds(event));
        drafts.entry(b.giftbox).or_insert(Draft { number, state, live, spoken_of: live, place });
    }
    for event in &told.live {
        for giftbox in named(event) {
            let Some(draft) = drafts.get_mut(&giftbox) else { continue };
            draft.spoken_of = true;
            draft.tell(&event.fact);
        }
    }
    drafts.retain(|_, draft| draft.spoken_of);
    let before = |one: &Draft, other: &Draft| {
        let last = |draft: &Draft| (draft.state == BoxState::Dropped, draft.place);
        one.number == other.number && last(one) < last(other)
    };
    let label = |draft: &Draft| match drafts.values().filter(|other| before(other, draft)).count() {
        0 => draft.number.to_string(),
        nth => format!("{}{}", draft.number, "abcdefghijklmnopqrstuvwxyz".chars().nth(nth).unwrap_or('z')),
    };
    let planned = |draft: &Draft| Planned { label: label(draft), state: draft.state, withdrawn: !draft.live };
    drafts.iter().map(|(giftbox, draft)| (*giftbox, planned(draft))).collect()
}

impl Draft {
    fn tell(&mut self, fact: &Fact) {
        match fact {
            Fact::BoxClosed(_) => self.state = BoxState::Closed,
            Fact::BoxReopened(_) => self.state = BoxState::Open,
            Fact::BoxHandedIn(_) => self.state = BoxState::HandedIn,
            Fact::BoxCameBack(_) => self.state = BoxState::CameBack,
            Fact::BoxDropped(_) => self.state = BoxState::Dropped,
            Fact::BoxMended(b) => {
                for field in &b.set {
                    if let BoxField::Number(number) = field {
                        self.number = *number;
                    }
                }
            }
            _ => {}
        }
    }
}

fn named(event: &Event) -> Vec<BoxId> {
    match &event.fact {
        Fact::SetAside(b) | Fact::LetGo(b) | Fact::PutIn(b) | Fact::TakenBack(b) => vec![b.giftbox],
        Fact::Moved(b) => vec![b.giftbox, b.to_box],
        Fact::PlacementMended(b) => vec![b.giftbox],
        Fact::BoxMended(b) => vec![b.giftbox],
        Fact::BoxClosed(b) | Fact::BoxReopened(b) | Fact::BoxDropped(b) | Fact::LidCloses(b) => vec![b.giftbox],
        Fact::BoxHandedIn(b) | Fact::BoxCameBack(b) => vec![b.giftbox],
        _ => Vec::new(),
    }
}
