//! The moving average: what one has cost so far. A report only; no cost is kept by it.

use rust_decimal::Decimal;

use crate::model::measure::Units;
use crate::model::money::Money;

/// Units and their cost under a moving average: each purchase changes the average, each issue
/// takes units at it. Exact to 28 digits; amounts in minor units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct MovingAverage {
    units: u64,
    cost: Decimal,
}

impl MovingAverage {
    /// Units that came, and what they cost.
    pub fn came(&mut self, units: Units, cost: Money) {
        self.units += u64::from(units.count());
        self.cost += Decimal::from(cost.minor());
    }

    /// Units that went; the part of the cost that goes with them. More than there are takes all.
    pub fn went(&mut self, units: Units) -> Decimal {
        let going = u64::from(units.count()).min(self.units);
        let Some(each) = self.each() else { return Decimal::ZERO };
        let cost = if going == self.units { self.cost } else { each * Decimal::from(going) };
        self.units -= going;
        self.cost -= cost;
        cost
    }

    /// Units that came back with their part of the cost, in minor units.
    pub fn back(&mut self, units: Units, cost: Decimal) {
        self.units += u64::from(units.count());
        self.cost += cost;
    }

    /// What one costs on average, in minor units; none when nothing is left.
    pub fn each(&self) -> Option<Decimal> {
        (self.units > 0).then(|| self.cost / Decimal::from(self.units))
    }

    /// What all that is left costs, in minor units.
    pub fn balance(&self) -> Decimal {
        self.cost
    }
}
