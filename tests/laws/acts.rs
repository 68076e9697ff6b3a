//! What people do: each way of doing something looks at the season as it shows itself and proposes
//! facts, mostly possible ones. None where there is nothing to do it with.
#![expect(clippy::unnecessary_wraps, reason = "ways that are always open stand in one table with those that are not")]

use brimful::model::age::Ages;
use brimful::model::category::Category;
use brimful::model::fact::{
    BoxDay, BoxMended, BoxPlanned, BoxStep, Counted, Fact, Found, Gone, HaulLogged, HaulMended, KindLearned,
    KindMeasured, KitMade, LotAdded, LotMended, Moved, OfAct, Part, PartOut, Parted, PlacementField, PlacementMended,
    Placing, ProfileSet, Returned, Split,
};
use brimful::model::giftbox::{BoxFacts, BoxField, BoxState};
use brimful::model::haul::{HaulFacts, HaulField};
use brimful::model::id::{BoxId, HaulId, Ids, LotId, PlacementId};
use brimful::model::lot::{Level, LotFacts, LotField, Source};
use brimful::model::measure::{Dims, Millimetres, Units};
use brimful::model::money::Money;
use brimful::model::profile::Profile;
use brimful::model::project::Tables;
use brimful::model::rows::{LotRow, PlacementRow};
use brimful::store::Store;
use jiff::civil::date;

use crate::play::Person;

type Way = fn(&mut Person) -> Option<Vec<Fact>>;

/// Ways of doing something and how often each is tried.
const WAYS: &[(u32, Way)] = &[
    (3, Person::log_haul),
    (2, Person::add_line),
    (5, Person::plan_box),
    (8, Person::set_aside),
    (3, Person::let_go),
    (18, Person::put_in),
    (8, Person::put_in_what_waits),
    (5, Person::pack_several),
    (9, Person::take_back),
    (8, Person::carry),
    (5, Person::give_loose),
    (4, Person::lose),
    (4, Person::find),
    (3, Person::return_some),
    (1, Person::learn),
    (6, Person::count),
    (4, Person::split),
    (4, Person::make_kit),
    (4, Person::part),
    (4, Person::mend_units),
    (4, Person::mend_paid),
    (2, Person::mend_name),
    (3, Person::level),
    (4, Person::mend_haul),
    (2, Person::mend_placement),
    (1, Person::mend_box),
    (5, Person::step_box),
    (1, Person::drop_box),
    (1, Person::close_lid),
    (1, Person::set_rules),
    (9, Person::undo),
    (6, Person::redo),
    (1, Person::undo_out_of_turn),
];

/// How many of the newest batches and boxes people mostly have to do with.
const RECENT_LOTS: usize = 14;
const RECENT_BOXES: usize = 10;

fn units(count: u32) -> Units {
    Units::new(count).unwrap()
}

fn money(cents: u32) -> Money {
    Money::new(cents.into()).unwrap()
}

impl Person {
    /// Something that can be proposed now.
    pub fn something(&mut self) -> Vec<Fact> {
        let all = WAYS.iter().map(|(weight, _)| weight).sum::<u32>();
        for _ in 0..100 {
            let mut at = self.dice.between(1, all);
            let way = WAYS.iter().find(|(weight, _)| {
                let here = at <= *weight;
                at = at.saturating_sub(*weight);
                here
            });
            if let Some(facts) = way.and_then(|(_, way)| way(self)) {
                return facts;
            }
        }
        self.log_haul().unwrap()
    }

    fn some_lot(&mut self) -> Option<LotRow> {
        let lot = self.dice.pick_late(&self.lots, RECENT_LOTS)?;
        self.store.lot(lot).unwrap()
    }

    /// A batch with free units, and some number of those; rarely one more than there are.
    fn some_units(&mut self) -> Option<(LotRow, Units)> {
        let row = self.some_lot()?;
        let free = row.free().count();
        if free == 0 && !self.dice.chance(4) {
            return None;
        }
        let wanted = match self.dice.between(0, 99) {
            0..=3 => free + 1,
            4..=33 => free.max(1),
            _ => self.dice.between(1, free.clamp(1, 3)),
        };
        Some((row, units(wanted)))
    }

    /// An open box; rarely any.
    fn some_box(&mut self) -> Option<BoxId> {
        let giftbox = self.dice.pick_late(&self.boxes, RECENT_BOXES)?;
        let row = self.store.giftbox(giftbox).unwrap()?;
        (row.state == BoxState::Open || self.dice.chance(4)).then_some(giftbox)
    }

    fn some_placement(&mut self, of: impl Fn(&PlacementRow) -> Units) -> Option<(PlacementRow, Units)> {
        let row = self.some_lot()?;
        let rows = self.store.placements_of(row.lot).unwrap();
        let holding: Vec<PlacementRow> = rows.into_iter().filter(|row| !of(row).is_zero()).collect();
        let row = self.dice.pick(&holding)?;
        let open = self.store.giftbox(row.giftbox).unwrap()?.state == BoxState::Open;
        if !open && !self.dice.chance(4) {
            return None;
        }
        let most = of(&row).count();
        let wanted = if self.dice.chance(3) { most + 1 } else { self.dice.between(1, most) };
        Some((row, units(wanted)))
    }

    /// A placement of the batch in the box: a new one, or one that is there.
    fn placement(&mut self, lot: LotId, giftbox: BoxId, but: Option<PlacementId>) -> PlacementId {
        let rows = self.store.placements_of(lot).unwrap();
        let fits = |row: &&PlacementRow| row.giftbox == giftbox && Some(row.placement) != but;
        let there: Vec<PlacementId> = rows.iter().filter(fits).map(|row| row.placement).collect();
        let again = self.dice.chance(50);
        self.dice.pick(&there).filter(|_| again).unwrap_or_else(|| self.ids.placement())
    }

    fn line(&mut self, haul: Option<HaulId>) -> Fact {
        let count = self.dice.between(1, 12);
        let paid = match self.dice.between(0, 9) {
            0 => None,
            1 => Some(money(0)),
            2 => Some(money(self.dice.between(1, 5))),
            3 => Some(money(self.dice.between(1, 99_999_999))),
            _ => Some(money(self.dice.between(1, 2000))),
        };
        let facts = LotFacts { name: "comb".to_owned(), units: units(count), paid, ..LotFacts::default() };
        Fact::LotAdded(LotAdded { lot: self.ids.lot(), haul, facts })
    }

    fn log_haul(&mut self) -> Option<Vec<Fact>> {
        let haul = self.ids.haul();
        let mut facts = HaulFacts::on(date(2027, 3, 14));
        if self.dice.chance(60) {
            facts.tax = money(self.dice.between(0, 150));
        }
        if self.dice.chance(30) {
            facts.postage = money(self.dice.between(1, 700));
        }
        if self.dice.chance(40) {
            facts.coupon = money(self.dice.between(1, 3000));
        }
        let mut all = vec![Fact::HaulLogged(HaulLogged { haul, facts })];
        for _ in 0..self.dice.between(1, 3) {
            all.push(self.line(Some(haul)));
        }
        Some(all)
    }

    fn add_line(&mut self) -> Option<Vec<Fact>> {
        let late = self.dice.pick_late(&self.hauls, RECENT_BOXES);
        let haul = late.filter(|haul| self.store.haul(*haul).unwrap().is_some());
        let haul = haul.filter(|_| self.dice.chance(70));
        Some(vec![self.line(haul)])
    }

    fn plan_box(&mut self) -> Option<Vec<Fact>> {
        let ages = Ages::new(6, Some(8)).unwrap();
        let number = self.dice.between(1, 40);
        let facts = BoxFacts { number, for_whom: None, ages, theme: "ocean".to_owned(), palette: Vec::new() };
        Some(vec![Fact::BoxPlanned(BoxPlanned { giftbox: self.ids.giftbox(), facts })])
    }

    /// A batch that nobody counts from now on, or that is counted again.
    fn level(&mut self) -> Option<Vec<Fact>> {
        let row = self.some_lot()?;
        let level = self.dice.pick(&[None, Some(Level::Plenty), Some(Level::Low), Some(Level::Gone)])?;
        Some(vec![Fact::LotMended(LotMended { lot: row.lot, set: vec![LotField::Level(level)] })])
    }

    fn set_aside(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_units()?;
        let (lot, giftbox) = (row.lot, self.some_box()?);
        let placement = self.placement(lot, giftbox, None);
        Some(vec![Fact::SetAside(Placing { placement, lot, giftbox, units })])
    }

    fn let_go(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_placement(|row| row.aside)?;
        let (placement, lot, giftbox) = (row.placement, row.lot, row.giftbox);
        Some(vec![Fact::LetGo(Placing { placement, lot, giftbox, units })])
    }

    fn put_in(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_units()?;
        let (lot, giftbox) = (row.lot, self.some_box()?);
        let placement = self.placement(lot, giftbox, None);
        Some(vec![Fact::PutIn(Placing { placement, lot, giftbox, units })])
    }

    fn put_in_what_waits(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_placement(|row| row.aside)?;
        let (placement, lot, giftbox) = (row.placement, row.lot, row.giftbox);
        Some(vec![Fact::PutIn(Placing { placement, lot, giftbox, units })])
    }

    fn pack_several(&mut self) -> Option<Vec<Fact>> {
        let giftbox = self.some_box()?;
        let mut all = Vec::new();
        let mut seen = Vec::new();
        for _ in 0..self.dice.between(2, 4) {
            let Some((row, units)) = self.some_units() else { continue };
            let lot = row.lot;
            if seen.contains(&lot) {
                continue;
            }
            seen.push(lot);
            let placement = self.placement(lot, giftbox, None);
            all.push(Fact::PutIn(Placing { placement, lot, giftbox, units }));
        }
        (!all.is_empty()).then_some(all)
    }

    fn take_back(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_placement(|row| row.units)?;
        let (placement, lot, giftbox) = (row.placement, row.lot, row.giftbox);
        Some(vec![Fact::TakenBack(Placing { placement, lot, giftbox, units })])
    }

    fn carry(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_placement(|row| row.units)?;
        let to_box = self.some_box()?;
        let to_placement = self.placement(row.lot, to_box, Some(row.placement));
        let (placement, lot, giftbox) = (row.placement, row.lot, row.giftbox);
        Some(vec![Fact::Moved(Moved { placement, lot, giftbox, to_placement, to_box, units })])
    }

    fn gone(&mut self) -> Option<Gone> {
        let (row, units) = self.some_units()?;
        Some(Gone { lot: row.lot, units, words: "to a neighbour".to_owned() })
    }

    fn give_loose(&mut self) -> Option<Vec<Fact>> {
        Some(vec![Fact::GivenLoose(self.gone()?)])
    }

    fn lose(&mut self) -> Option<Vec<Fact>> {
        Some(vec![Fact::Lost(self.gone()?)])
    }

    fn return_some(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_units()?;
        let haul = self.dice.pick_late(&self.hauls, RECENT_LOTS)?;
        let refund = money(self.dice.between(0, 300));
        Some(vec![Fact::Returned(Returned { lot: row.lot, units, haul, refund })])
    }

    fn learn(&mut self) -> Option<Vec<Fact>> {
        let name = if self.dice.chance(50) { "sundial" } else { "lantern" }.to_owned();
        if self.dice.chance(50) {
            let dims = Dims([200, 150, self.dice.between(1, 90)].map(Millimetres).to_vec());
            return Some(vec![Fact::KindMeasured(KindMeasured { name, dims })]);
        }
        Some(vec![Fact::KindLearned(KindLearned { name, category: Category::Toy })])
    }

    fn find(&mut self) -> Option<Vec<Fact>> {
        let lot = self.some_lot()?.lot;
        Some(vec![Fact::Found(Found { lot, units: units(self.dice.between(1, 3)) })])
    }

    fn count(&mut self) -> Option<Vec<Fact>> {
        let row = self.some_lot()?;
        let there = row.standing.on_hand.count();
        let expected = units(if self.dice.chance(4) { there + 1 } else { there });
        let found = units((there + self.dice.between(0, 4)).saturating_sub(2));
        Some(vec![Fact::Counted(Counted { lot: row.lot, found, expected, seen: row.last })])
    }

    fn split(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_units()?;
        let bundles = Units::new(self.dice.between(1, units.count() * 2)).unwrap();
        let (name, source) = ("bundle".to_owned(), Source::Split);
        let facts = LotFacts { name, source, units: bundles, ..LotFacts::default() };
        Some(vec![Fact::Split(Split { lot: row.lot, units, into: self.ids.lot(), facts })])
    }

    /// Sets parted into what is left of them and what was taken out.
    fn part(&mut self) -> Option<Vec<Fact>> {
        let (row, units) = self.some_units()?;
        let of = |source, count| LotFacts { source, units: count, paid: None, ..row.facts.clone() };
        let shares = [self.dice.between(0, 5), self.dice.between(1, 5), self.dice.between(0, 3)];
        let outs = self.dice.between(1, 3) as usize;
        let into = shares.into_iter().skip(3 - outs).map(|share| {
            let facts = of(Source::Part, units);
            PartOut { lot: self.ids.lot(), facts, share }
        });
        let into = into.collect();
        Some(vec![Fact::Parted(Parted { lot: row.lot, units, into })])
    }

    fn make_kit(&mut self) -> Option<Vec<Fact>> {
        let mut parts: Vec<Part> = Vec::new();
        for _ in 0..3 {
            let Some((row, units)) = self.some_units() else { continue };
            // Twice from one batch now and then, which must come to the same as once.
            if parts.iter().all(|part| part.lot != row.lot) || self.dice.chance(10) {
                parts.push(Part { lot: row.lot, units });
            }
        }
        let (name, source, kits) = ("filled case".to_owned(), Source::Kit, self.dice.between(1, 3));
        let facts = LotFacts { name, source, units: units(kits), ..LotFacts::default() };
        (!parts.is_empty()).then(|| vec![Fact::KitMade(KitMade { parts, into: self.ids.lot(), facts })])
    }

    fn mend(&mut self, field: LotField) -> Option<Vec<Fact>> {
        let lot = self.some_lot()?.lot;
        Some(vec![Fact::LotMended(LotMended { lot, set: vec![field] })])
    }

    fn mend_units(&mut self) -> Option<Vec<Fact>> {
        let count = self.dice.between(1, 12);
        self.mend(LotField::Units(units(count)))
    }

    fn mend_paid(&mut self) -> Option<Vec<Fact>> {
        let cents = self.dice.between(0, 3000);
        let paid = (!self.dice.chance(15)).then(|| money(cents));
        self.mend(LotField::Paid(paid))
    }

    fn mend_name(&mut self) -> Option<Vec<Fact>> {
        let name = self.dice.pick(&["comb, wide", "comb, fine", "brush"])?;
        self.mend(LotField::Name(name.to_owned()))
    }

    fn mend_haul(&mut self) -> Option<Vec<Fact>> {
        let haul = self.dice.pick_late(&self.hauls, RECENT_BOXES)?;
        self.store.haul(haul).unwrap()?;
        let amount = money(self.dice.between(0, 2500));
        let odd = if self.dice.chance(50) { amount } else { -amount };
        let field = self.dice.pick(&[
            HaulField::Tax(amount),
            HaulField::Postage(amount),
            HaulField::Coupon(amount),
            HaulField::Unexplained(odd),
        ])?;
        Some(vec![Fact::HaulMended(HaulMended { haul, set: vec![field] })])
    }

    fn mend_placement(&mut self) -> Option<Vec<Fact>> {
        let (row, _) = self.some_placement(|row| row.units)?;
        let allowed = if row.allowed.is_some() { "" } else { "a helper is there" };
        let set = vec![
            PlacementField::Wow(!row.wow),
            PlacementField::Why("the right colour".to_owned()),
            PlacementField::Allowed(allowed.to_owned()),
        ];
        let (placement, lot, giftbox) = (row.placement, row.lot, row.giftbox);
        Some(vec![Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set })])
    }

    fn mend_box(&mut self) -> Option<Vec<Fact>> {
        let giftbox = self.some_box()?;
        let number = self.dice.between(1, 40);
        Some(vec![Fact::BoxMended(BoxMended { giftbox, set: vec![BoxField::Number(number)] })])
    }

    fn step_box(&mut self) -> Option<Vec<Fact>> {
        let giftbox = self.dice.pick_late(&self.boxes, RECENT_BOXES)?;
        let (step, day) = (BoxStep { giftbox }, BoxDay { giftbox, date: date(2027, 11, 15) });
        let fact = match self.store.giftbox(giftbox).unwrap()?.state {
            BoxState::Open if self.dice.chance(60) => return None,
            BoxState::Open => Fact::BoxClosed(step),
            BoxState::Closed if self.dice.chance(30) => Fact::BoxHandedIn(day),
            BoxState::HandedIn => Fact::BoxCameBack(day),
            BoxState::Closed | BoxState::CameBack => Fact::BoxReopened(step),
            BoxState::Dropped => return None,
        };
        Some(vec![fact])
    }

    fn drop_box(&mut self) -> Option<Vec<Fact>> {
        let giftbox = self.some_box()?;
        Some(vec![Fact::BoxDropped(BoxStep { giftbox })])
    }

    fn close_lid(&mut self) -> Option<Vec<Fact>> {
        let giftbox = self.some_box()?;
        Some(vec![Fact::LidCloses(BoxStep { giftbox })])
    }

    fn set_rules(&mut self) -> Option<Vec<Fact>> {
        let name = format!("Drive {}", self.dice.between(1, 9));
        Some(vec![Fact::ProfileSet(ProfileSet { profile: Profile { name, ..Profile::default() } })])
    }

    fn undo(&mut self) -> Option<Vec<Fact>> {
        let act = self.undoable()?;
        Some(vec![Fact::Voided(OfAct { act })])
    }

    fn redo(&mut self) -> Option<Vec<Fact>> {
        let act = self.redoable()?;
        Some(vec![Fact::Restored(OfAct { act })])
    }

    fn undo_out_of_turn(&mut self) -> Option<Vec<Fact>> {
        let act = self.dice.pick_late(&self.acts, 8).filter(|_| self.out_of_turn)?;
        Some(vec![Fact::Voided(OfAct { act })])
    }
}
