//! A haul: one shopping trip or gift.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::money::Money;

/// What is said of a haul as a whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HaulFacts {
    /// The day.
    pub date: Date,
    /// The shop, or who gave it; empty where nobody said.
    #[serde(default)]
    pub shop: String,
    /// Tax over all lines.
    #[serde(default)]
    pub tax: Money,
    /// Postage over all lines.
    #[serde(default)]
    pub postage: Money,
    /// Coupon off all lines.
    #[serde(default)]
    pub coupon: Money,
    /// What nobody can explain, over or under all lines; settled by spreading it over them.
    #[serde(default, skip_serializing_if = "nothing")]
    pub unexplained: Money,
    /// What the receipt says at its foot.
    #[serde(default)]
    pub receipt: Option<Money>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn nothing(amount: &Money) -> bool {
    amount.is_zero()
}

/// One field of a haul set to a value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HaulField {
    /// The day.
    Date(Date),
    /// The shop or giver.
    Shop(String),
    /// Tax.
    Tax(Money),
    /// Postage.
    Postage(Money),
    /// Coupon.
    Coupon(Money),
    /// What nobody can explain.
    Unexplained(Money),
    /// Receipt total.
    Receipt(Option<Money>),
}

impl HaulFacts {
    /// An empty haul of this day.
    pub fn on(date: Date) -> HaulFacts {
        let none = Money::ZERO;
        HaulFacts {
            date,
            shop: String::new(),
            tax: none,
            postage: none,
            coupon: none,
            unexplained: none,
            receipt: None,
        }
    }

    /// Sets one field.
    pub fn set(&mut self, field: HaulField) {
        match field {
            HaulField::Date(date) => self.date = date,
            HaulField::Shop(shop) => self.shop = shop,
            HaulField::Tax(tax) => self.tax = tax,
            HaulField::Postage(postage) => self.postage = postage,
            HaulField::Coupon(coupon) => self.coupon = coupon,
            HaulField::Unexplained(amount) => self.unexplained = amount,
            HaulField::Receipt(receipt) => self.receipt = receipt,
        }
    }

    /// The fields in which `wanted` differs from this.
    pub fn changes_to(&self, wanted: &HaulFacts) -> Vec<HaulField> {
        let fields = [
            (self.date != wanted.date, HaulField::Date(wanted.date)),
            (self.shop != wanted.shop, HaulField::Shop(wanted.shop.clone())),
            (self.tax != wanted.tax, HaulField::Tax(wanted.tax)),
            (self.postage != wanted.postage, HaulField::Postage(wanted.postage)),
            (self.coupon != wanted.coupon, HaulField::Coupon(wanted.coupon)),
            (self.unexplained != wanted.unexplained, HaulField::Unexplained(wanted.unexplained)),
            (self.receipt != wanted.receipt, HaulField::Receipt(wanted.receipt)),
        ];
        fields.into_iter().filter_map(|(differs, field)| differs.then_some(field)).collect()
    }

    /// What comes on top of the lines: tax and postage less the coupon, and what nobody can explain; at
    /// most all of `lines` off.
    pub fn on_top(&self, lines: Money) -> Money {
        let net = self.tax + self.postage - self.coupon + self.unexplained;
        net.max(-lines)
    }
}

/// What explains the difference between a receipt and its lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Explains {
    /// More or less tax than was said.
    Tax,
    /// More or less postage.
    Postage,
    /// Another coupon.
    Coupon,
    /// Nothing does: the difference is spread over the lines by their prices.
    Nothing,
    /// The receipt was noted wrongly: the lines are right.
    Receipt,
}

impl Explains {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Explains; 5] =
        [Explains::Tax, Explains::Postage, Explains::Coupon, Explains::Nothing, Explains::Receipt];

    /// What it says of the difference: `it was tax`.
    pub fn words(self) -> &'static str {
        match self {
            Explains::Tax => "it was tax",
            Explains::Postage => "it was postage",
            Explains::Coupon => "it was a coupon",
            Explains::Nothing => "nobody knows: spread it over the lines",
            Explains::Receipt => "the lines are right, the receipt was noted wrongly",
        }
    }

    /// The field of the haul which that changes, where `over` more is on the receipt than on the
    /// lines, which come to `total`; none where it would come to less than nothing.
    pub fn field(self, facts: &HaulFacts, over: Money, total: Money) -> Option<HaulField> {
        let from_nothing = |sum: Money| (sum >= Money::ZERO).then_some(sum);
        match self {
            Explains::Tax => from_nothing(facts.tax + over).map(HaulField::Tax),
            Explains::Postage => from_nothing(facts.postage + over).map(HaulField::Postage),
            Explains::Coupon => from_nothing(facts.coupon - over).map(HaulField::Coupon),
            Explains::Nothing => Some(HaulField::Unexplained(facts.unexplained + over)),
            Explains::Receipt => Some(HaulField::Receipt(Some(total))),
        }
    }
}
