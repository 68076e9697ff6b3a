//! What may have been paid: the amounts of a line, each for all it may be meant for.

use rust_decimal::{Decimal, RoundingStrategy};

use super::rewrite::{Rewrite, name_at};
use crate::model::currency::Currency;
use crate::model::money::Money;
use crate::reading::draft::{Price, Scope};
use crate::reading::line::Line;
use crate::reading::money::{amounts, is_elsewhere};
use crate::reading::question::About;
use crate::reading::report::Reading;
use crate::reading::taken::What;
use crate::reading::token::Shape;
use crate::reading::write::amount;

/// What was bought, as far as it is known.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Bought {
    pub units: Option<u32>,
    /// Where packs are named.
    pub packs: Option<u32>,
}

/// What may have been paid for all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paid {
    sum: Decimal,
    regular: Option<Decimal>,
    /// So many were bought then.
    units: Option<u32>,
}

/// How often a price is paid, if so many units were bought.
struct Times {
    factor: Decimal,
    units: Option<u32>,
}

/// Ways to write a line that say what was paid.
pub(super) fn ways(line: &Line<'_>, reading: &Reading) -> Vec<String> {
    let bought = Bought {
        units: reading.units.map(crate::model::measure::Units::count),
        packs: reading.per_pack.map(|_| reading.packs),
    };
    let base = counted_by_deal(line, reading);
    let mut ways: Vec<String> =
        paid(line, bought).iter().filter_map(|paid| write(base.clone(), line, bought, paid)).collect();
    let free = without(base, line);
    let free = [free.clone().end("free").write(), free.add(0, "free").write()];
    if line.draft.free || ways.is_empty() {
        ways.splice(0..0, free);
    }
    ways
}

/// Where only a deal says how many there are, that is said by itself, since the deal will go.
fn counted_by_deal<'a>(line: &'a Line<'a>, reading: &Reading) -> Rewrite<'a> {
    let rewrite = Rewrite::of(line);
    let counted = line.draft.counts.iter().any(|count| !count.article) || !line.draft.pack.counts.is_empty();
    let deal = line.draft.prices.iter().any(|price| price.deal.is_some());
    match (reading.units, reading.per_pack) {
        (Some(_), Some(size)) if deal && !counted => {
            rewrite.strike_all(&[What::Pack]).lead(&format!("{} packs of {size}", reading.packs))
        }
        (Some(units), None) if deal && !counted => rewrite.lead(&units.to_string()),
        _ => rewrite,
    }
}

/// A line without any word about its price.
fn without<'a>(rewrite: Rewrite<'a>, line: &Line<'_>) -> Rewrite<'a> {
    let mut rewrite = rewrite.strike_all(&[What::Price, What::MarkedDown, What::Free]).without_filler();
    for (range, _) in line.draft.doubts.iter().filter(|(_, about)| *about == About::Paid) {
        let minus = range.start.checked_sub(1).filter(|&before| sign(line, before, "-"));
        rewrite = rewrite.strike(minus.unwrap_or(range.start)..range.end);
    }
    rewrite
}

fn sign(line: &Line<'_>, at: usize, sign: &str) -> bool {
    line.tokens.get(at).is_some_and(|token| token.shape == Shape::Sign && token.text == sign)
}

/// The line with this price and no other; `None` where it is no amount.
pub(super) fn write(rewrite: Rewrite<'_>, line: &Line<'_>, bought: Bought, paid: &Paid) -> Option<String> {
    let currency = line.ctx.profile.currency;
    let plain = |sum: Decimal| Money::from_decimal(sum, currency).map(|money| amount(money, currency));
    let regular = match paid.regular {
        Some(regular) => format!(" was {}", plain(regular)?),
        None => String::new(),
    };
    let all = if regular.is_empty() && bought.units != Some(1) { " for all" } else { "" };
    let words = if paid.sum.is_zero() && paid.regular.is_none() {
        "free".to_owned()
    } else {
        format!("{}{all}{regular}", plain(paid.sum)?)
    };
    let first = (0..line.tokens.len()).find(|&at| {
        let doubt = line.draft.doubts.iter().any(|(range, about)| *about == About::Paid && range.contains(&at));
        doubt || matches!(line.took(at), Some(What::Price | What::MarkedDown | What::Free))
    });
    let behind_name = first.filter(|&first| name_at(line).is_some_and(|name| name < first));
    let mut rewrite = without(rewrite, line).add(behind_name.unwrap_or(line.tokens.len()), &words);
    if let Some(units) = paid.units {
        rewrite = rewrite.strike_all(&[What::Count]).lead(&units.to_string());
    }
    Some(rewrite.write())
}

/// What may have been paid, most likely first.
pub(super) fn paid(line: &Line<'_>, bought: Bought) -> Vec<Paid> {
    let prices = prices(line);
    let offs = offs(line);
    let mut found: Vec<Paid> = Vec::new();
    let mut add = |sum: Decimal, regular: Option<Decimal>, units: Option<u32>| {
        let one = Paid { sum, regular: regular.filter(|regular| *regular > sum), units };
        let known = found.iter().any(|known| known.sum == sum && known.units == units && one.regular.is_none());
        if !sum.is_sign_negative() && !known && !found.contains(&one) {
            found.push(one);
        }
    };
    if let (Some(said), Some(before)) = (prices.iter().find(|p| !p.regular), prices.iter().find(|p| p.regular)) {
        for times in times(line, before, bought) {
            add(said.amount, before.amount.checked_mul(times.factor), None);
        }
    }
    for price in &prices {
        for times in times(line, price, bought) {
            let all = |one: Decimal| one.checked_mul(times.factor);
            for one in reduced(price.amount, &offs, line.ctx.profile.currency) {
                if let Some(sum) = all(one) {
                    add(sum, all(price.amount), times.units);
                }
            }
            if let Some(sum) = all(price.amount) {
                add(sum, None, times.units);
            }
        }
    }
    if let [first, second] = prices.as_slice()
        && first.amount != second.amount * Decimal::ONE_HUNDRED
    {
        let dearer = first.amount.max(second.amount);
        add(first.amount.min(second.amount), Some(dearer), None);
        if let Some(both) = first.amount.checked_add(second.amount) {
            add(both, None, None);
        }
    }
    found
}

/// An amount less what was taken off: all of it, then each by itself.
fn reduced(amount: Decimal, offs: &[Decimal], currency: Currency) -> Vec<Decimal> {
    let less = |amount: Decimal, off: &Decimal| {
        let left = (Decimal::ONE_HUNDRED - *off) / Decimal::ONE_HUNDRED;
        let reduced = amount.checked_mul(left).unwrap_or(amount);
        reduced.round_dp_with_strategy(currency.digits().into(), RoundingStrategy::MidpointAwayFromZero)
    };
    let all = (!offs.is_empty()).then(|| offs.iter().fold(amount, less));
    all.into_iter().chain(offs.iter().map(|off| less(amount, off))).collect()
}

/// Percentages taken off, also those in doubtful words.
fn offs(line: &Line<'_>) -> Vec<Decimal> {
    let mut offs = line.draft.offs.clone();
    for words in doubtful(line) {
        let part = [("third", 3), ("quarter", 4), ("half", 2)].into_iter().find(|(word, _)| words.contains(word));
        offs.extend(part.map(|(_, part)| Decimal::ONE_HUNDRED / Decimal::from(part)));
        let percent = words.contains('%') || words.contains("percent") || words.contains("off");
        let number = Line::new(&words, line.ctx).tokens.iter().find_map(crate::reading::token::Token::decimal);
        offs.extend(number.filter(|_| percent && !signed(&words)));
    }
    offs.retain(|off| *off <= Decimal::ONE_HUNDRED);
    offs
}

/// The words that left the price open, lower case.
fn doubtful(line: &Line<'_>) -> impl Iterator<Item = String> {
    let doubts = line.draft.doubts.iter().filter(|(_, about)| *about == About::Paid);
    doubts.map(|(range, _)| line.typed(range.clone()).to_lowercase())
}

/// The prices of a line, also those in doubtful words.
fn prices(line: &Line<'_>) -> Vec<Price> {
    let mut prices: Vec<Price> = Vec::new();
    for price in &line.draft.prices {
        prices.extend(with_cents(line, price));
        prices.push(price.clone());
    }
    for words in doubtful(line) {
        let taken_off = words.contains("off");
        for amount in amounts_in(line, &words) {
            if taken_off && let Some(first) = prices.first_mut() {
                // A dollar off three dollars.
                let left = Price { amount: first.amount - amount, ..first.clone() };
                first.regular = true;
                prices.insert(0, left);
            } else {
                prices.push(bare(amount));
            }
        }
    }
    prices
}

fn bare(amount: Decimal) -> Price {
    Price { amount, regular: false, scope: Scope::Bare, deal: None, at: false, from: 0, to: 0, coin: false }
}

/// `$1 50` as a dollar fifty.
fn with_cents(line: &Line<'_>, price: &Price) -> Option<Price> {
    let (range, _) = line.draft.doubts.iter().find(|(range, _)| {
        let between = line.tokens.get(price.to..range.start).unwrap_or_default();
        range.start >= price.to && between.iter().all(|token| token.text == ".")
    })?;
    let token = line.tokens.get(range.start).filter(|token| token.text.len() == 2)?;
    let cents = Decimal::from(token.whole()?) / Decimal::ONE_HUNDRED;
    price.amount.is_integer().then(|| Price { amount: price.amount + cents, ..price.clone() })
}

/// Whether a number may be the cents of the amount before it.
pub(super) fn has_cents(line: &Line<'_>) -> bool {
    line.draft.prices.iter().any(|price| with_cents(line, price).is_some())
}

/// Amounts in doubtful words: read as money, else each number that looks like it.
fn amounts_in(line: &Line<'_>, words: &str) -> Vec<Decimal> {
    let mut sub = Line::new(words, line.ctx);
    amounts(&mut sub);
    if !sub.draft.prices.is_empty() {
        return sub.draft.prices.iter().map(|price| price.amount).collect();
    }
    let points = words.replace(',', ".");
    let fresh = Line::new(&points, line.ctx);
    let small = |text: &str| matches!(text, "c" | "¢" | "p" | "cents" | "pence");
    let cents = !words.contains('$') && fresh.tokens.iter().any(|token| small(&token.text));
    let mut found = Vec::new();
    for token in fresh.tokens.iter().filter(|token| token.decimals() > 0 || cents || signed(words)) {
        let Some(value) = token.decimal() else { continue };
        found.extend((!cents || token.decimals() > 0).then_some(value));
        found.extend(cents.then(|| value / Decimal::ONE_HUNDRED));
    }
    found
}

/// Whether a sign or a word of money stands in these words.
fn signed(words: &str) -> bool {
    let sign =
        Currency::all_signs().into_iter().any(|sign| !sign.is_empty() && !sign.is_ascii() && words.contains(sign));
    sign || words.contains('$') || words.split(' ').any(is_elsewhere)
}

/// How often a price may be paid, most likely first.
fn times(line: &Line<'_>, price: &Price, bought: Bought) -> Vec<Times> {
    let once = |factor: Decimal| Times { factor, units: None };
    let Some(units) = bought.units.filter(|units| *units > 0) else { return vec![once(Decimal::ONE)] };
    let things = bought.packs.unwrap_or(units);
    let each = price.at || price.scope != Scope::Bare || by_each(line);
    let mut found = Vec::new();
    if let Some(deal) = price.deal.filter(|deal| *deal > 0) {
        found.push(once(Decimal::from(things) / Decimal::from(deal)));
        let deals = things.div_ceil(deal);
        let more = bought.packs.is_none().then(|| deals.saturating_mul(deal)).filter(|more| *more != units);
        found.extend(more.map(|more| Times { factor: Decimal::from(deals), units: Some(more) }));
    }
    if price.scope == Scope::Per("pair".to_owned()) && units.is_multiple_of(2) {
        found.push(once(Decimal::from(units / 2)));
    }
    if let Some(portion) = portion(line).filter(|portion| *portion <= units) {
        found.push(once(Decimal::from(units) / Decimal::from(portion)));
    }
    if each && (price.deal.is_none() || price.scope == Scope::Each) {
        found.push(once(things.into()));
    }
    if price.deal.is_none() {
        found.push(once(Decimal::ONE));
    }
    if each && bought.packs.is_some() {
        found.push(once(units.into()));
    }
    found
}

/// `6x1.00`, `12 x .10`.
fn by_each(line: &Line<'_>) -> bool {
    let times = |c: char| c.is_ascii_digit() || matches!(c, 'x' | '*' | ' ');
    doubtful(line).any(|words| words == "each" || (words.contains(['x', '*']) && words.chars().all(times)))
}

/// `1.00 a dozen`, `5.00 a hundred`, `$2 for 3`: for how many the price is.
fn portion(line: &Line<'_>) -> Option<u32> {
    doubtful(line).find_map(|words| {
        let fresh = Line::new(&words, line.ctx);
        let whole = || fresh.tokens.iter().find_map(crate::reading::token::Token::whole);
        match words.as_str() {
            words if words.contains("dozen") => Some(12),
            words if words.contains("hundred") => Some(100),
            _ if fresh.tokens.len() == 1 => whole().filter(|portion| *portion > 0),
            _ => None,
        }
    })
}
