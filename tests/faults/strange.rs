//! Events that no Brimful writes, whole and with the right hash: a joined file may hold anything.

use brimful::model::commit::Holdings;
use brimful::model::event::{Clock, Event};
use brimful::model::fact::{BoxStep, Fact, Found, Gone, KitMade, LotAdded, Moved, OfAct, Part, Placing, Split};
use brimful::model::id::{CountedIds, DeviceId, Ids, SeasonId};
use brimful::model::kept::Kept;
use brimful::model::lot::LotFacts;
use brimful::model::measure::Units;
use brimful::model::money::Money;
use brimful::store::{Memory, Sqlite, Store, check};

struct Stranger {
    ids: CountedIds,
    device: DeviceId,
    seq: u64,
    kept: Vec<Kept>,
}

impl Stranger {
    fn new() -> Stranger {
        let mut ids = CountedIds::new(0x77);
        let device = ids.device();
        Stranger { ids, device, seq: 0, kept: Vec::new() }
    }

    fn writes(&mut self, fact: Fact) {
        self.seq += 1;
        let clock = Clock::default().next(1_800_000_000_000 + self.seq);
        let (uid, act) = (self.ids.event(), self.ids.act());
        let event = Event { uid, device: self.device, seq: self.seq, clock, by: String::new(), act, fact };
        self.kept.push(Kept::from_event(&event));
    }
}

fn units(count: u32) -> Units {
    Units::new(count).unwrap()
}

fn facts(name: &str, count: u32, paid: i64) -> LotFacts {
    LotFacts { name: name.to_owned(), units: units(count), paid: Money::new(paid), ..LotFacts::default() }
}

/// Batches made of each other, one placement in two batches, prices below nothing, boxes and acts that never were.
fn strange() -> Vec<Kept> {
    let mut s = Stranger::new();
    let (a, b, c) = (s.ids.lot(), s.ids.lot(), s.ids.lot());
    let (giftbox, placement, elsewhere) = (s.ids.giftbox(), s.ids.placement(), s.ids.placement());
    s.writes(Fact::Split(Split { lot: b, units: units(2), into: a, facts: facts("a", 4, 100) }));
    s.writes(Fact::Split(Split { lot: a, units: units(2), into: b, facts: facts("b", 4, 100) }));
    s.writes(Fact::LotAdded(LotAdded { lot: c, haul: Some(s.ids.clone().haul()), facts: facts("", 0, -500) }));
    s.writes(Fact::LotAdded(LotAdded { lot: c, haul: None, facts: facts("again", 9, 9) }));
    for lot in [a, b, c] {
        let placing = Placing { placement, lot, giftbox, units: units(3) };
        s.writes(Fact::PutIn(placing.clone()));
        s.writes(Fact::TakenBack(Placing { units: units(900_000), ..placing.clone() }));
        s.writes(Fact::SetAside(placing.clone()));
        s.writes(Fact::LetGo(Placing { units: units(7), ..placing }));
        let moved =
            Moved { placement, lot, giftbox, to_placement: placement, to_box: s.ids.giftbox(), units: units(1) };
        s.writes(Fact::Moved(moved));
        s.writes(Fact::Lost(Gone { lot, units: units(1_000_000), words: "\u{1b}[2J".into() }));
        s.writes(Fact::Found(Found { lot, units: units(0) }));
    }
    let parts = vec![Part { lot: a, units: units(1) }, Part { lot: a, units: units(1) }];
    s.writes(Fact::KitMade(KitMade { parts, into: a, facts: facts("self", 1, 1) }));
    s.writes(Fact::TakenBack(Placing { placement: elsewhere, lot: s.ids.clone().lot(), giftbox, units: units(1) }));
    s.writes(Fact::BoxClosed(BoxStep { giftbox }));
    s.writes(Fact::Voided(OfAct { act: s.ids.clone().act() }));
    let own = s.kept[0].act;
    s.writes(Fact::Voided(OfAct { act: own }));
    s.writes(Fact::Restored(OfAct { act: own }));
    s.kept
}

#[test]
fn strange_events_do_no_harm_and_the_laws_hold() {
    let season = || SeasonId::new(CountedIds::new(1).fresh());
    let folder = tempfile::tempdir().unwrap();
    let mut file = Sqlite::open_or_create(&folder.path().join("s.brimful"), season()).unwrap();
    let mut memory = Memory::new(season());
    let strange = strange();
    file.join(&strange).unwrap();
    memory.join(&strange).unwrap();
    assert_eq!(file.lots().unwrap(), memory.lots().unwrap());
    assert_eq!(file.outs().unwrap(), memory.outs().unwrap());
    assert_eq!(check(&file).unwrap(), []);
    assert_eq!(file.profile().unwrap(), None);
    assert!(!file.lots().unwrap().is_empty());
    for lot in file.lots().unwrap() {
        let at = lot.standing;
        let whole = at.on_hand_cost + at.boxed_cost + at.loose_cost + at.lost_cost + at.passed_cost;
        assert_eq!(lot.cost_in, whole, "{lot:?}");
        assert!(!lot.cost_in.is_negative());
        assert_eq!(at.units_in + at.bare, at.on_hand + at.boxed + at.loose + at.lost + at.passed, "{lot:?}");
    }
}

/// A file that was copied, and both copies written to by one device: two events at one count, and none lost.
#[test]
fn two_events_at_one_count_and_gaps_are_told() {
    let mut memory = Memory::new(SeasonId::new(CountedIds::new(1).fresh()));
    let mut s = Stranger::new();
    for number in [1, 2] {
        let facts = facts(&format!("comb {number}"), 1, 10);
        let lot = s.ids.lot();
        s.seq = 0;
        s.writes(Fact::LotAdded(LotAdded { lot, haul: None, facts }));
    }
    memory.join(&s.kept).unwrap();
    assert_eq!(memory.lots().unwrap().len(), 2);
    let troubles = check(&memory).unwrap();
    assert_eq!(troubles.len(), 1, "{troubles:?}");
    assert!(troubles[0].what.contains("wrote two events number 1"), "{troubles:?}");
    s.seq = 4;
    let (lot, facts) = (s.ids.lot(), facts("soap", 1, 10));
    s.writes(Fact::LotAdded(LotAdded { lot, haul: None, facts }));
    memory.join(&s.kept).unwrap();
    let troubles = check(&memory).unwrap();
    assert!(troubles.iter().any(|trouble| trouble.what.contains("events 2 to 4")), "{troubles:?}");
}
