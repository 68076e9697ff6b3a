//! A season of one box, in which things are bought and given, by real acts on a store in memory.

use brimful::model::age::Ages;
use brimful::model::commit::Holdings;
use brimful::model::fact::{BoxPlanned, Fact, LotAdded, Placing};
use brimful::model::giftbox::BoxFacts;
use brimful::model::id::{BoxId, CountedIds, DeviceId, Ids, LotId, SeasonId};
use brimful::model::lot::LotFacts;
use brimful::model::measure::Units;
use brimful::model::money::Money;
use brimful::store::{Memory, NewAct, Store};

pub struct Shop {
    store: Memory,
    ids: CountedIds,
    device: DeviceId,
    giftbox: BoxId,
    now: u64,
}

impl Shop {
    pub fn new() -> Shop {
        let mut ids = CountedIds::new(3);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let (device, giftbox) = (ids.device(), ids.giftbox());
        let mut shop = Shop { store, ids, device, giftbox, now: 1_800_000_000_000 };
        let ages = Ages::new(6, Some(8)).unwrap();
        let facts = BoxFacts { number: 1, for_whom: None, ages, theme: String::new(), palette: Vec::new() };
        shop.act(Fact::BoxPlanned(BoxPlanned { giftbox, facts }));
        shop
    }

    /// A batch for so many cents in all.
    pub fn buys(&mut self, count: u32, cents: i64) -> LotId {
        let lot = self.ids.lot();
        let (units, paid) = (Units::new(count).unwrap(), Some(Money::new(cents).unwrap()));
        let facts = LotFacts { name: "comb".to_owned(), units, paid, ..LotFacts::default() };
        self.act(Fact::LotAdded(LotAdded { lot, haul: None, facts }));
        lot
    }

    /// Puts units of one batch into the box; what they cost.
    pub fn gives(&mut self, lot: LotId, count: u32) -> i64 {
        let (placement, giftbox, units) = (self.ids.placement(), self.giftbox, Units::new(count).unwrap());
        self.act(Fact::PutIn(Placing { placement, lot, giftbox, units }));
        self.store.placement(placement).unwrap().unwrap().cost.minor()
    }

    /// Puts units of the oldest batches into the box until there are enough; what they cost together.
    pub fn gives_oldest(&mut self, count: u32) -> i64 {
        let (mut wanted, mut cost) = (count, 0);
        for row in self.store.lots().unwrap() {
            let some = wanted.min(row.free().count());
            if some > 0 {
                cost += self.gives(row.lot, some);
                wanted -= some;
            }
        }
        assert_eq!(wanted, 0, "there are enough");
        cost
    }

    /// Units on hand and what they cost.
    pub fn balance(&self) -> (u32, i64) {
        let lots = self.store.lots().unwrap();
        let units: Units = lots.iter().map(|row| row.standing.on_hand).sum();
        let cost: Money = lots.iter().map(|row| row.standing.on_hand_cost).sum();
        (units.count(), cost.minor())
    }

    fn act(&mut self, fact: Fact) {
        self.now += 1000;
        let (act, event) = (self.ids.act(), self.ids.event());
        let (device, by, now_millis) = (self.device, String::new(), self.now);
        self.store.commit(&NewAct { act, device, by, now_millis, facts: vec![(event, fact)] }).unwrap();
    }
}
