//! The shelf against what the season says of its stock otherwise, and patched against made anew.

use brimful::model::age::Ages;
use brimful::model::id::{CountedIds, Ids, LotId};
use brimful::model::measure::Units;
use brimful::model::whom::ForWhom;
use brimful::season::{
    ActError, BoxChange, Desk, HaulMend, KitHow, LogHow, Memory, Mend, Moment, PutHow, Season, Shelf, SplitHow, Sqlite,
    StockWish, Ware, Which,
};
use brimful::store::Store;
use jiff::civil::date;
use proptest::prelude::*;

use crate::dice::Dice;
use crate::play::season as season_id;

const NAMES: [&str; 5] = ["comb", "soap bar", "notebook", "skipping rope", "cup"];
const MORE: [&str; 6] = ["", ", teal", ", coral", ", for a girl", ", ages 6-8", ", teal, tote 2"];

/// Somebody who does things by the season's own acts, and keeps a shelf beside it.
struct Keeper<S> {
    season: Season<S>,
    dice: Dice,
    shelf: Shelf,
    done: u32,
}

impl<S: Store> Keeper<S> {
    fn new(store: S, seed: u64) -> Keeper<S> {
        let mut ids = CountedIds::new(0x31);
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: date(2027, 1, 15) };
        let season = Season::new(store, Box::new(ids), desk, moment);
        let shelf = season.shelf().unwrap();
        Keeper { season, dice: Dice::new(seed), shelf, done: 0 }
    }

    /// Tries something, patches the shelf, and compares it with one made anew.
    fn step(&mut self) {
        let tried = self.something();
        self.done += u32::from(tried.is_ok());
        let touched = self.season.take_touched();
        assert!(tried.is_ok() || touched.is_empty(), "refused, yet it changed {touched:?}");
        self.shelf = self.season.restock(&self.shelf, &touched).unwrap();
        let anew = self.season.shelf().unwrap();
        assert_eq!(self.shelf.wares(), anew.wares(), "{tried:?}");
        assert_eq!(self.shelf, anew, "{tried:?}");
        self.must_agree();
    }

    fn lots(&mut self) -> Vec<LotId> {
        let wares: Vec<_> = self.shelf.wares().to_vec();
        let ware = self.dice.pick(&wares).map(|ware| ware.lots.to_vec());
        ware.unwrap_or_default()
    }

    fn units(&mut self) -> Units {
        Units::new(self.dice.between(1, 4)).unwrap()
    }

    fn giftbox(&mut self) -> String {
        self.dice.between(1, 3).to_string()
    }

    fn something(&mut self) -> Result<(), ActError> {
        let (lots, units, giftbox) = (self.lots(), self.units(), self.giftbox());
        let which = Which::Lots(&lots);
        let other = self.giftbox();
        let season = &mut self.season;
        let done = match self.dice.between(0, 21) {
            0..=3 => {
                self.log();
                return Ok(());
            }
            4 => season.plan("girl 6-8 ocean"),
            5 => season.put(&giftbox, units, which, &PutHow { aside: true, ..PutHow::default() }),
            6 | 7 => season.put(&giftbox, units, which, &PutHow::default()),
            8 => season.each("1-3", which, self.dice.chance(50)),
            9 => season.take(&giftbox, units, which),
            10 => season.carry(&giftbox, &other, units, which),
            11 => season.loose(units, which, ""),
            12 => season.lose(units, which, "torn"),
            13 => season.found(units, which),
            14 => season.count_of(units, which),
            15 | 16 => return self.mend(&lots),
            17 => return self.remake(),
            18 => season.step(&giftbox, BoxChange::Close),
            19 => return self.mend_haul(),
            20 => season.redo(),
            _ => season.undo(),
        };
        done.map(|_| ())
    }

    fn log(&mut self) {
        let mut text = String::from("tax 0.37\n");
        for _ in 0..self.dice.between(1, 3) {
            let name = self.dice.pick(&NAMES).unwrap();
            let more = self.dice.pick(&MORE).unwrap();
            let price = self.dice.pick(&[" 1.00", " .35", ""]).unwrap();
            text.push_str(&format!("{} {name}{more}{price}\n", self.dice.between(1, 6)));
        }
        let day = i8::try_from(self.dice.between(1, 28)).unwrap();
        let how = LogHow { date: Some(date(2026, 12, day)), open_price: true, ..LogHow::default() };
        self.season.log(&text, &how).unwrap();
    }

    fn mend(&mut self, lots: &[LotId]) -> Result<(), ActError> {
        let mut mend = Mend::default();
        match self.dice.between(0, 6) {
            0 => mend.name = self.dice.pick(&NAMES).map(str::to_owned),
            1 => mend.units = Some(self.units()),
            2 => mend.paid = Some(Some(rust_decimal::Decimal::new(i64::from(self.dice.between(0, 900)), 2))),
            3 => mend.tote = Some(Some("shelf 9".to_owned())),
            4 => mend.for_whom = Some(Some(ForWhom::Boy)),
            5 => mend.ages = Some(Ages::new(3, Some(5))),
            _ => mend.colours = Some(vec!["teal".to_owned()]),
        }
        self.season.mend(Which::Lots(lots), &mend).map(|_| ())
    }

    fn mend_haul(&mut self) -> Result<(), ActError> {
        let hauls = self.season.hauls()?.hauls;
        let handles: Vec<String> = hauls.into_iter().map(|haul| haul.handle).collect();
        let Some(handle) = self.dice.pick(&handles) else { return Ok(()) };
        let mut mend = HaulMend::default();
        if self.dice.chance(50) {
            mend.tax = Some(rust_decimal::Decimal::new(i64::from(self.dice.between(0, 300)), 2));
        } else {
            mend.date = Some(date(2026, 11, i8::try_from(self.dice.between(1, 28)).unwrap()));
        }
        self.season.mend_haul(&handle, &mend).map(|_| ())
    }

    fn remake(&mut self) -> Result<(), ActError> {
        if self.dice.chance(50) {
            let how = SplitHow { of: 1, units: Some(Units::ONE), name: Some("small pack".to_owned()) };
            return self.season.split("comb", &how).map(|_| ());
        }
        let parts = vec![(Units::ONE, "cup".to_owned()), (Units::ONE, "notebook".to_owned())];
        let how = KitHow { name: "filled cup".to_owned(), count: Units::ONE, parts, category: None, tote: None };
        self.season.kit(&how).map(|_| ())
    }

    /// What is on hand, told a second time by the stock list.
    fn must_agree(&self) {
        let stock = self.season.stock(&StockWish::default()).unwrap();
        let there: Vec<&Ware> = self.shelf.wares().iter().map(|ware| &**ware).filter(|ware| ware.on_hand > 0).collect();
        assert_eq!(there.len(), stock.things.len());
        for (ware, line) in there.iter().zip(&stock.things) {
            assert_eq!((&*ware.title, ware.on_hand), (line.name.as_str(), line.on_hand));
            let lots = ware.lots.iter().map(|lot| self.season.store().lot(*lot).unwrap().unwrap());
            assert_eq!(ware.free(), lots.map(|lot| lot.free().count()).sum::<u32>());
            assert_eq!((&*ware.each, &*ware.tote), (line.each.as_str(), line.totes.join(", ").as_str()));
            assert_eq!(ware.category, line.category);
            assert_eq!(ware.ages.map(|ages| ages.to_string()).unwrap_or_default(), line.ages);
        }
        assert_eq!(self.shelf.units_on_hand(), u64::from(stock.on_hand));
        for (place, ware) in self.shelf.wares().iter().enumerate() {
            assert_eq!(self.shelf.place_of(ware), Some(place));
            for lot in &ware.lots {
                assert_eq!(self.shelf.holding(*lot), Some(ware));
            }
        }
        let first: Vec<Ware> = self.season.first_wares(3).unwrap();
        assert_eq!(first.iter().collect::<Vec<_>>(), there.into_iter().take(3).collect::<Vec<_>>());
        let (board, costs) = (self.season.board().unwrap(), self.season.costs().unwrap());
        assert_eq!(board.spent, costs.spent.words());
        assert_eq!((board.on_hand, board.aside), (u64::from(stock.on_hand), self.aside()));
        assert_eq!(board.hauls, self.season.hauls().unwrap().hauls.len());
    }

    fn aside(&self) -> u64 {
        let lots = self.season.store().lots().unwrap();
        lots.iter().map(|lot| u64::from(lot.standing.aside.count())).sum()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_patched_shelf_is_the_shelf(seed: u64, acts in 1_u32..120) {
        let mut keeper = Keeper::new(Memory::new(season_id()), seed);
        (0..acts).for_each(|_| keeper.step());
    }
}

#[test]
fn a_patched_shelf_is_the_shelf_in_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let store = Sqlite::open_or_create(&folder.path().join("season.brimful"), season_id()).unwrap();
    let mut keeper = Keeper::new(store, 2027);
    (0..400).for_each(|_| keeper.step());
    assert!(keeper.done > 180, "only {} of 400 things were done", keeper.done);
    assert!(keeper.season.check().unwrap().troubles.is_empty());
}
