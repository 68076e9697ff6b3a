//! Rule 1: what an amount of money looks like.

use rust_decimal::Decimal;

use super::draft::{Price, Scope};
use super::line::Line;
use super::number::{below_hundred, number};
use super::question::About;
use super::sign::{Sign, sign_at};
use super::taken::What;
use super::words::{PLACES, SMALL};

const COINS: [(&str, &str, i64); 5] = [
    ("penny", "pennies", 1),
    ("nickel", "nickels", 5),
    ("dime", "dimes", 10),
    ("quarter", "quarters", 25),
    ("half-dollar", "half-dollars", 50),
];
const CENTS: [&str; 4] = ["c", "¢", "cent", "cents"];
const DOLLARS: [&str; 4] = ["dollar", "dollars", "buck", "bucks"];
const ELSEWHERE: [&str; 12] =
    ["euro", "euros", "pound", "pounds", "pence", "quid", "yen", "peso", "pesos", "rupee", "rupees", "francs"];

/// An amount in the line.
struct Amount {
    value: Decimal,
    end: usize,
    coin: bool,
}

/// What stands here, if it speaks of money.
enum Found {
    Amount(Amount),
    /// Up to here something is said that the drive's currency doesn't explain.
    Doubt(usize, String),
}

/// Finds every amount.
pub(super) fn amounts(line: &mut Line<'_>) {
    line.scan(|line, at| match find(line, at)? {
        Found::Amount(Amount { value, end, coin }) => {
            line.take(at..end, What::Price);
            let price = Price {
                amount: value,
                regular: false,
                scope: Scope::Bare,
                deal: None,
                at: false,
                from: at,
                to: end,
                coin,
            };
            line.draft.prices.push(price);
            Some(end)
        }
        Found::Doubt(end, why) => {
            if counts_dollars(line, at, end) {
                line.ask(About::Units, format!("\"{}\": is it how many there are?", line.typed(at..end)));
            }
            line.doubt(at..end, About::Paid, &why);
            Some(end)
        }
    });
    give_back_coins(line);
}

fn find(line: &Line<'_>, at: usize) -> Option<Found> {
    let found =
        signed(line, at).or_else(|| with_word(line, at)).or_else(|| coin(line, at)).or_else(|| bare(line, at))?;
    let after_dash = at > 0 && line.is(at - 1, &["-"]) && line.glued(at);
    match found {
        Found::Amount(Amount { end, .. }) if after_dash => Some(Found::Doubt(end, "is the dash a minus?".to_owned())),
        Found::Amount(Amount { end, .. }) if goes_on(line, end) => {
            Some(Found::Doubt(end + 2, "is it one of two prices?".to_owned()))
        }
        found => Some(found),
    }
}

/// A dash and a number hang on to the amount: `$1-2`.
fn goes_on(line: &Line<'_>, end: usize) -> bool {
    line.is(end, &["-"]) && line.glued(end) && line.glued(end + 1) && line.number(end + 1).is_some()
}

/// `$3`, `3 €`, and the signs of other currencies.
fn signed(line: &Line<'_>, at: usize) -> Option<Found> {
    let currency = line.ctx.profile.currency;
    if let Some((sign, end)) = sign_at(line, at, currency) {
        if line.number(end).is_some() {
            let behind = end + 1;
            let behind = if line.is(behind, &DOLLARS) { behind + 1 } else { behind };
            return Some(checked(line, sign, end, behind));
        }
        return None;
    }
    line.number(at)?;
    let (sign, end) = sign_at(line, at + 1, currency)?;
    let belongs_to_next = line.number(end).is_some() && line.glued(end) && !line.glued(at + 1);
    (!belongs_to_next).then(|| checked(line, sign, at, end))
}

/// The number at `number` with its sign, unless sign or decimals are not the drive's.
fn checked(line: &Line<'_>, sign: Sign, number: usize, end: usize) -> Found {
    let currency = line.ctx.profile.currency;
    let comma = line.is(end, &[","]) && line.glued(end) && line.glued(end + 1) && line.number(end + 1).is_some();
    let (value, decimals) = line.number(number).map_or((None, 0), |token| (token.decimal(), token.decimals()));
    match (sign, value) {
        (Sign::Other, _) => Found::Doubt(end, format!("this drive reckons in {}", currency.code())),
        _ if comma => Found::Doubt(end + 2, "is the comma a decimal point?".to_owned()),
        (Sign::Own, Some(value)) if decimals <= usize::from(currency.digits()) => {
            Found::Amount(Amount { value, end, coin: false })
        }
        _ => Found::Doubt(end, format!("{} has {} decimals", currency.code(), currency.digits())),
    }
}

/// `50c`, `fifty cents`, `3 dollars and 40 cents`, `a dollar fifty`.
fn with_word(line: &Line<'_>, at: usize) -> Option<Found> {
    let (value, end) = quantity(line, at)?;
    if line.is(end, &ELSEWHERE) || (line.is(end, &["p"]) && line.glued(end)) {
        return Some(Found::Doubt(end + 1, format!("this drive reckons in {}", line.ctx.profile.currency.code())));
    }
    let dollars = line.is(end, &DOLLARS);
    let cents = line.is(end, &CENTS) && !is_letter_c(line, end);
    if !dollars && !cents {
        return None;
    }
    if !line.ctx.profile.currency.has_dollars_and_cents() {
        return Some(Found::Doubt(end + 1, format!("this drive reckons in {}", line.ctx.profile.currency.code())));
    }
    if dollars && counts_dollars(line, at, end + 1) {
        return Some(Found::Doubt(end + 1, "is that the price of each, or of all?".to_owned()));
    }
    if dollars {
        return Some(with_change(line, at, value, end + 1));
    }
    if line.number(at).is_some_and(|token| token.decimals() == 2 && value < Decimal::ONE) {
        return Some(Found::Doubt(end + 1, "is it less than a cent?".to_owned()));
    }
    let value = value.checked_mul(Decimal::new(1, 2))?;
    Some(Found::Amount(Amount { value, end: end + 1, coin: false }))
}

/// `two dollar combs`: two combs at a dollar, or combs at two dollars. Not behind an article or
/// another number, where it can only be the price.
fn counts_dollars(line: &Line<'_>, at: usize, end: usize) -> bool {
    let singular = line.is(end - 1, &["dollar", "buck"]) && !line.is(at, &["a", "one", "half"]);
    let led = at
        .checked_sub(1)
        .is_some_and(|before| line.is(before, &["a", "an", "the", "-", "for", "at"]) || line.number(before).is_some());
    let several = line.whole(at).is_some_and(|value| value > 1) || number(line, at).is_some_and(|n| n.value > 1);
    // Behind the name no count is expected.
    let named = (0..at).any(|i| line.word(i).is_some_and(|word| !SMALL.contains(&word)));
    singular
        && several
        && !led
        && !named
        && line.word(end).is_some_and(|word| !SMALL.contains(&word) && !PLACES.contains(&word))
}

/// The letter C as a kind of battery, not as cents.
fn is_letter_c(line: &Line<'_>, at: usize) -> bool {
    let battery = line.word(at + 1).is_some_and(|word| word.starts_with("batter") || word.starts_with("cell"));
    line.is(at, &["c"]) && ((!line.glued(at) && battery) || line.hangs_behind(at + 1))
}

/// A word for money of another place.
pub(super) fn is_elsewhere(word: &str) -> bool {
    ELSEWHERE.contains(&word)
}

/// A number, or one in words, or *a*, that may count coins.
fn quantity(line: &Line<'_>, at: usize) -> Option<(Decimal, usize)> {
    if let Some(end) = line.any_phrase(at, &["half a", "half"])
        && line.is(end, &["dollar", "buck"])
    {
        return Some((Decimal::new(5, 1), end));
    }
    if let Some(token) = line.number(at) {
        return Some((token.decimal()?, at + 1));
    }
    let number = number(line, at)?;
    Some((Decimal::from(number.value), number.end))
}

/// What may follow dollars: `and 40 cents`, `fifty`, `and a half`.
fn with_change(line: &Line<'_>, at: usize, dollars: Decimal, end: usize) -> Found {
    let coin = line.is(at, &["a", "one"]) && line.is(end - 1, &["dollar", "buck"]) && end == at + 2;
    let and = if line.is(end, &["and", "&"]) { end + 1 } else { end };
    let sum = |change: Decimal, end| match dollars.checked_add(change) {
        Some(value) => Found::Amount(Amount { value, end, coin: false }),
        None => Found::Doubt(end, "the amount is too large".to_owned()),
    };
    if let Some((cents, after)) = quantity(line, and)
        && line.is(after, &CENTS)
        && cents < Decimal::ONE_HUNDRED
    {
        return sum(cents * Decimal::new(1, 2), after + 1);
    }
    if and > end {
        if let Some(after) = line.phrase(and, "a half") {
            return sum(Decimal::new(5, 1), after);
        }
        if let Some(Found::Amount(change)) = self::coin(line, and) {
            return sum(change.value, change.end);
        }
    }
    match below_hundred(line, end) {
        Some((cents, after)) if !line.hangs(end, after) => {
            let kept = line.is(after, &PLACES) && line.whole(after + 1).is_some();
            let next_is_name = !kept && line.word(after).is_some_and(|word| !SMALL.contains(&word));
            if next_is_name {
                return Found::Doubt(after, "is the last number cents, or a count?".to_owned());
            }
            sum(Decimal::new(cents.into(), 2), after)
        }
        _ => Found::Amount(Amount { value: dollars, end, coin }),
    }
}

/// `a penny`, `two dimes`; the coin word and the number must agree.
fn coin(line: &Line<'_>, at: usize) -> Option<Found> {
    if !line.ctx.profile.currency.has_dollars_and_cents() {
        return None;
    }
    let count = number(line, at)?;
    let word = line.word(count.end)?;
    let &(_, many, cents) = COINS.iter().find(|(one, many, _)| *one == word || *many == word)?;
    if (count.value == 1) == (word == many) {
        return None;
    }
    let value = Decimal::new(i64::from(count.value).checked_mul(cents)?, 2);
    Some(Found::Amount(Amount { value, end: count.end + 1, coin: true }))
}

/// `1.25`, `.29`: exactly as many decimals as the currency has.
fn bare(line: &Line<'_>, at: usize) -> Option<Found> {
    let token = line.number(at)?;
    let digits = usize::from(line.ctx.profile.currency.digits());
    let is_amount = digits > 0 && token.decimals() == digits;
    if !is_amount || line.is(at + 1, &["%"]) || line.phrase(at + 1, "percent").is_some() {
        return None;
    }
    Some(Found::Amount(Amount { value: token.decimal()?, end: at + 1, coin: false }))
}

/// A coin word with a name behind it is part of that name where another amount was said
/// (a penny whistle .75), or where the catalogue knows it.
fn give_back_coins(line: &mut Line<'_>) {
    let (coins, others): (Vec<Price>, Vec<Price>) = line.draft.prices.drain(..).partition(|price| price.coin);
    let mut kept = others;
    for coin in coins {
        let next = line.word(coin.to).filter(|word| !SMALL.contains(word));
        let last = line.tokens.get(coin.to - 1).map(|token| token.text.clone()).unwrap_or_default();
        let known = next.is_some_and(|next| line.ctx.catalogue.named(&format!("{last} {next}")).is_some());
        if known || (next.is_some() && !kept.is_empty()) {
            for token in line.tokens.get_mut(coin.from..coin.to).into_iter().flatten() {
                token.took = None;
            }
        } else {
            kept.push(coin);
        }
    }
    kept.sort_by_key(|price| price.from);
    line.draft.prices = kept;
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{paid, paid_in, questions};

    #[test]
    fn amounts_in_figures() {
        for (line, amount) in [
            ("comb 1.25", "1.25"),
            ("comb .29", "0.29"),
            ("$3 comb", "3.00"),
            ("$ 3 comb", "3.00"),
            ("comb $.50", "0.50"),
            ("comb $1.5", "1.50"),
            ("comb 3$", "3.00"),
            ("comb 50c", "0.50"),
            ("comb 50 ¢", "0.50"),
            ("comb $1,250.00", "1250.00"),
            ("comb 10 cents", "0.10"),
            ("comb 5 bucks", "5.00"),
        ] {
            assert_eq!(paid(line).as_deref(), Some(amount), "{line}");
        }
    }

    #[test]
    fn amounts_in_words() {
        for (line, amount) in [
            ("comb a penny", "0.01"),
            ("comb a nickel", "0.05"),
            ("comb two dimes", "0.20"),
            ("comb a quarter", "0.25"),
            ("comb for a dollar", "1.00"),
            ("comb a dollar fifty", "1.50"),
            ("comb a dollar twenty-five", "1.25"),
            ("comb a dollar and a half", "1.50"),
            ("comb half a dollar", "0.50"),
            ("comb three dollars and 40 cents", "3.40"),
            ("comb 2 dollars 5 cents", "2.05"),
            ("comb fifty cents", "0.50"),
            ("penny whistle .75", "0.75"),
            ("a penny whistle .75", "0.75"),
            ("quarter zip sweater 4.00", "4.00"),
        ] {
            assert_eq!(paid(line).as_deref(), Some(amount), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn what_is_no_clear_amount_asks() {
        for line in [
            "comb €2",
            "comb 2 euros",
            "comb $1.255",
            "comb $1,25",
            "comb 0.50c",
            "comb -1.25",
            "comb A$3",
            "comb 3",
            "comb 1.5",
            "penny whistle",
            "comb a dime 1.00",
            "comb 50p",
            "comb 3.50 EUR",
            "a dollar fifty combs",
        ] {
            assert_eq!(paid(line), None, "{line}");
            assert!(questions(line).contains(&"paid"), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn other_currencies_have_their_own_decimals() {
        assert_eq!(paid_in("JPY", "comb ¥300").as_deref(), Some("300"));
        assert_eq!(paid_in("JPY", "comb 300 JPY").as_deref(), Some("300"));
        assert_eq!(paid_in("JPY", "comb 1.25"), None);
        assert_eq!(paid_in("KWD", "comb 1.250").as_deref(), Some("1.250"));
        assert_eq!(paid_in("KWD", "comb 1.25"), None);
        assert_eq!(paid_in("KWD", "comb 1.5 KWD").as_deref(), Some("1.500"));
        assert_eq!(paid_in("EUR", "comb 1.25").as_deref(), Some("1.25"));
        assert_eq!(paid_in("EUR", "comb 3 €").as_deref(), Some("3.00"));
        assert_eq!(paid_in("EUR", "comb 50c"), None);
        assert_eq!(paid_in("EUR", "comb $3"), None);
        assert_eq!(paid_in("SEK", "comb 25 kr").as_deref(), Some("25.00"));
        assert_eq!(paid_in("BRL", "comb R$ 4").as_deref(), Some("4.00"));
        assert_eq!(paid_in("CAD", "comb C$ 4").as_deref(), Some("4.00"));
        assert_eq!(paid_in("GBP", "comb £2").as_deref(), Some("2.00"));
    }
}
