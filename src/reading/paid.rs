//! What was paid and what it would have cost: prices, scopes and discounts put together.

use rust_decimal::{Decimal, RoundingStrategy};

use super::Context;
use super::draft::{Draft, Price, Scope};
use super::outright::{Field, sum_of};
use super::question::{About, Question};
use super::units::Tally;
use crate::catalogue::same_word;
use crate::model::currency::Currency;
use crate::model::habit::AtMeans;
use crate::model::lot::Source;
use crate::model::money::Money;

/// What was paid, and the regular price.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Sums {
    pub paid: Option<Money>,
    pub regular: Option<Money>,
}

/// Why a sum can't be told.
enum Open {
    /// It hangs on the number of units, which is asked already.
    Units,
    /// This question settles it.
    Ask(String),
}

/// Works out both sums; a question about the price leaves both open.
pub(super) fn sums(draft: &mut Draft, tally: &Tally, source: Source, ctx: &Context<'_>) -> Sums {
    let mut sums = worked_out(draft, tally, source, ctx);
    for field in [Field::Regular, Field::Paid] {
        let Some(words) = draft.outright.of(field) else { continue };
        let said = sum_of(words, ctx);
        let why = format!("\"{words}\": that is no amount");
        draft.questions.retain(|question| question.about != About::Paid);
        match field {
            Field::Paid => sums.paid = said,
            _ => sums.regular = said,
        }
        if said.is_none() {
            ask(draft, why);
        }
    }
    sums
}

fn worked_out(draft: &mut Draft, tally: &Tally, source: Source, ctx: &Context<'_>) -> Sums {
    if draft.asks(About::Paid) {
        return Sums::default();
    }
    let shop = draft.shops.first().map(String::as_str).or(ctx.shop);
    let habit = shop.and_then(|shop| Some((shop, ctx.habits.at(shop)?)));
    match work_out(draft, tally, ctx.profile.currency, habit.map(|(_, means)| means)) {
        // What was made cost what it is said to have cost, or nothing.
        Ok(Sums { paid: None, regular }) if source == Source::Made => Sums { paid: Some(Money::ZERO), regular },
        Ok(sums) => {
            // Where nothing hung on the habit, it goes without saying.
            let hung = habit.is_some() && work_out(draft, tally, ctx.profile.currency, None).is_err();
            if let Some((shop, means)) = habit.filter(|_| hung) {
                let what = if means == AtMeans::Each { "each" } else { "all of them" };
                draft.remembered.push(format!("the price read as for {what}, as last time at {shop}"));
            }
            let later = sums.paid.is_none() && ctx.price_asked;
            if later {
                ask(draft, "what did it cost?".to_owned());
            }
            sums
        }
        Err(Open::Units) => Sums::default(),
        Err(Open::Ask(why)) => {
            ask(draft, why);
            Sums::default()
        }
    }
}

fn ask(draft: &mut Draft, why: String) {
    draft.ask(Question::new(About::Paid, why));
}

fn open(why: &str) -> Open {
    Open::Ask(why.to_owned())
}

fn work_out(draft: &Draft, tally: &Tally, currency: Currency, at: Option<AtMeans>) -> Result<Sums, Open> {
    if draft.free {
        if !draft.prices.is_empty() || !draft.offs.is_empty() {
            return Err(open("it was free, and a price is said"));
        }
        return Ok(Sums { paid: Some(Money::ZERO), regular: None });
    }
    let price = |regular: bool| match draft.prices.iter().filter(|p| p.regular == regular).collect::<Vec<_>>()[..] {
        [] => Ok(None),
        [one] => Ok(Some(one)),
        _ => Err(open("two prices are said")),
    };
    let (said, before) = (price(false)?, price(true)?);
    let off = match draft.offs[..] {
        [] => None,
        [one] => Some(one),
        _ => return Err(open("it is marked down twice")),
    };
    let till = Till { draft, tally, currency, at };
    match (said, before, off) {
        (None, None, _) => Ok(Sums::default()),
        (Some(said), None, None) => Ok(Sums { paid: Some(till.sum(said, said, None)?), regular: None }),
        (None, Some(before), None) => Ok(Sums { paid: None, regular: Some(till.sum(before, before, None)?) }),
        (Some(one), None, Some(off)) | (None, Some(one), Some(off)) => {
            Ok(Sums { paid: Some(till.sum(one, one, Some(off))?), regular: Some(till.sum(one, one, None)?) })
        }
        (Some(said), Some(before), off) => till.both(said, before, off),
    }
}

/// The words around the prices, and what they multiply.
struct Till<'a> {
    draft: &'a Draft,
    tally: &'a Tally,
    currency: Currency,
    /// What *at* was said to mean in this shop.
    at: Option<AtMeans>,
}

impl Till<'_> {
    /// A regular price beside the one that was paid, and perhaps a discount that must agree.
    fn both(&self, said: &Price, before: &Price, off: Option<Decimal>) -> Result<Sums, Open> {
        let bare = before.scope == Scope::Bare && before.deal.is_none();
        let like = if bare { said } else { before };
        let paid = self.sum(said, said, None)?;
        let regular = self.sum(before, like, None)?;
        if let Some(off) = off
            && self.sum(before, like, Some(off))? != paid
        {
            return Err(open("the price before, what was taken off and what was paid don't agree"));
        }
        if paid > regular {
            return Err(open("it cost more than the regular price"));
        }
        Ok(Sums { paid: Some(paid), regular: Some(regular) })
    }

    /// The sum of one price for the whole line, with the scope of `like`; a discount is rounded
    /// for each thing priced and then multiplied, as a till does.
    fn sum(&self, price: &Price, like: &Price, off: Option<Decimal>) -> Result<Money, Open> {
        let times = self.times(like)?;
        let too_large = || open("the amount is too large");
        let one = match off {
            None => price.amount,
            Some(off) => {
                let left = (Decimal::ONE_HUNDRED - off) / Decimal::ONE_HUNDRED;
                let reduced = price.amount.checked_mul(left).ok_or_else(too_large)?;
                reduced.round_dp_with_strategy(self.currency.digits().into(), RoundingStrategy::MidpointAwayFromZero)
            }
        };
        let sum = one.checked_mul(Decimal::from(times)).ok_or_else(too_large)?;
        Money::from_decimal(sum, self.currency).ok_or_else(too_large)
    }

    /// How often a price is paid.
    fn times(&self, price: &Price) -> Result<u32, Open> {
        if let Some(deal) = price.deal {
            if price.scope != Scope::Bare && price.scope != Scope::Whole {
                return Err(open("is the price for the lot, or for each?"));
            }
            return self.deals(deal);
        }
        match &price.scope {
            Scope::Bare if price.at && self.several() => match self.at {
                Some(AtMeans::Each) => self.bought(),
                Some(AtMeans::All) => Ok(1),
                None => Err(open("is that for each, or for all?")),
            },
            Scope::Stray if self.several() => Err(open("is the price for each?")),
            Scope::Whole | Scope::Bare | Scope::Stray => Ok(1),
            Scope::Each => self.each(),
            Scope::Pack(word) => self.packs(word),
            Scope::Per(word) => self.per(word),
        }
    }

    fn several(&self) -> bool {
        self.tally.bought.is_none_or(|bought| bought > 1) || self.tally.packs > 1
    }

    /// Packs where packs are named, else units.
    fn bought(&self) -> Result<u32, Open> {
        match self.draft.pack.named {
            true if self.tally.packs_open => Err(Open::Units),
            true => Ok(self.tally.packs),
            false => self.tally.bought.ok_or(Open::Units),
        }
    }

    fn deals(&self, deal: u32) -> Result<u32, Open> {
        let bought = self.bought()?;
        match bought.checked_rem(deal) {
            Some(0) => Ok(bought / deal),
            _ => Err(Open::Ask(format!("{bought} is no multiple of {deal}"))),
        }
    }

    fn each(&self) -> Result<u32, Open> {
        let pack = self.draft.pack.named && self.tally.packs == 1;
        if !pack || self.tally.whole || self.tally.per_pack == Some(1) {
            return self.bought();
        }
        if self.tally.bought.is_none() {
            return Err(Open::Units);
        }
        Err(open("is that for each pack, or for each thing in it?"))
    }

    fn packs(&self, word: &str) -> Result<u32, Open> {
        if self.draft.pack.named { self.bought() } else { self.per(word) }
    }

    /// By units where the word names the unit, or the thing.
    fn per(&self, word: &str) -> Result<u32, Open> {
        let names_unit = self.tally.unit.as_deref() == Some(word);
        let names_thing = self.draft.name.split([' ', '-']).any(|part| same_word(part, word));
        let units = self.tally.bought.ok_or(Open::Units)?;
        if names_unit || names_thing || units == 1 {
            return Ok(units);
        }
        Err(Open::Ask(format!("how many times a {word} is it?")))
    }
}
