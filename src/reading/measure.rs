//! Rule 12: how long, wide, high and heavy it is.

use std::ops::Range;

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

use super::line::Line;
use super::question::About;
use super::taken::What;
use super::words::{PLACES, SMALL};
use crate::model::measure::{Decigrams, Dims, Millimetres};

/// Tenths of a millimetre in one.
const LENGTHS: [(&[&str], i64); 5] = [
    (&["in", "inch", "inches", "\""], 254),
    (&["cm", "centimetre", "centimetres", "centimeter", "centimeters"], 100),
    (&["mm", "millimetre", "millimetres", "millimeter", "millimeters"], 10),
    (&["ft", "foot", "feet", "'"], 3048),
    (&["m", "metre", "metres", "meter", "meters"], 10_000),
];
/// Units of volume and power; the size of the drive's things is not told in them.
const OTHERS: [&str; 12] = ["ml", "cl", "l", "litre", "liter", "litres", "liters", "gal", "qt", "mah", "volt", "watt"];
/// The international pound in ten-millionths of a gram (exact by definition)…
const POUND: i64 = 4_535_923_700;
/// … and the ounce, a sixteenth of it, in billionths.
const OUNCE: i64 = 28_349_523_125;

/// Finds sizes and weights.
pub(super) fn measures(line: &mut Line<'_>) {
    line.scan(|line, at| {
        line.number(at).filter(|_| !line.hangs_before(at))?;
        sides(line, at).or_else(|| weight(line, at)).or_else(|| other(line, at))
    });
}

/// `5x3x2 in`, `12 x 8 cm`, `24 in x 36 in`, `7 in long`.
fn sides(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let mut numbers = vec![line.number(at)?.decimal()?];
    let mut end = at + 1;
    while numbers.len() < 3 {
        let next = if length(line, end).is_some() { end + 1 } else { end };
        let Some(value) = line.is(next, &["x", "by"]).then(|| line.number(next + 1)?.decimal()).flatten() else {
            break;
        };
        numbers.push(value);
        end = next + 2;
    }
    // A 12-inch ruler; but a 4-in-1 tool is no length.
    if line.is(end, &["-"]) && line.glued(end) && !line.is(end + 1, &["in"]) {
        end += 1;
    }
    let tenths = length(line, end)?;
    if numbers.len() == 1 && line.is(end, &["in"]) && !is_inches(line, end) {
        return None;
    }
    end += 1;
    if line.is(end, &["long", "wide", "tall", "high", "deep"]) {
        end += 1;
    } else if numbers.len() == 1 && line.is(end - 1, &["in"]) && line.number(at)?.decimals() == 2 {
        line.doubt(at..end, About::Paid, "is that a price, or inches?");
        return Some(end);
    }
    let sides: Option<Vec<Millimetres>> = numbers.into_iter().map(|number| millimetres(number, tenths)).collect();
    keep_sides(line, at..end, sides);
    Some(end)
}

fn keep_sides(line: &mut Line<'_>, range: Range<usize>, sides: Option<Vec<Millimetres>>) {
    match sides {
        Some(mut sides) => {
            sides.sort_unstable_by(|a, b| b.cmp(a));
            line.take(range, What::Measure);
            line.draft.dims.push(Dims(sides));
        }
        None => line.doubt(range, About::Measure, "such a size makes no sense"),
    }
}

fn length(line: &Line<'_>, at: usize) -> Option<i64> {
    // The sign for feet belongs to the number before it; else it is a quotation mark, or that of 8's.
    let quotes = line.is(at, &["'"]) && (!line.glued(at) || (line.glued(at + 1) && line.word(at + 1).is_some()));
    LENGTHS.iter().find(|(words, _)| line.is(at, words) && !quotes).map(|&(_, tenths)| tenths)
}

/// *in* before a place, bundles, a number or a colour is not inches.
fn is_inches(line: &Line<'_>, at: usize) -> bool {
    let next = at + 1;
    if line.number(next).is_some() && line.is(next + 1, &["c", "¢", "cent", "cents"]) {
        return true;
    }
    let Some(word) = line.word(next) else { return line.number(next).is_none_or(|number| number.decimals() > 0) };
    let plain_colour = line.ctx.catalogue.colours().named(word).is_some_and(|colour| !colour.thing);
    let leads_on = ["bundle", "bundles", "the", "my", "a", "our", "all", "total", "each"].contains(&word);
    !(plain_colour || leads_on || PLACES.contains(&word) || (SMALL.contains(&word) && word != "x"))
}

fn millimetres(number: Decimal, tenths: i64) -> Option<Millimetres> {
    let exact = number.checked_mul(Decimal::new(tenths, 1))?;
    let whole = exact.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero).to_u32()?;
    (1..=100_000).contains(&whole).then_some(Millimetres(whole))
}

/// `3 oz`, `85 g`, `1 lb 4 oz`, `0.2 kg`.
fn weight(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let (mut grams, mut end, pounds) = one_weight(line, at)?;
    if pounds && let Some((more, after, false)) = one_weight(line, end) {
        grams = grams.checked_add(more)?;
        end = after;
    }
    let tenths = grams.checked_mul(Decimal::TEN)?.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero);
    match tenths.to_u32().filter(|tenths| (1..=10_000_000).contains(tenths)) {
        Some(tenths) => {
            line.take(at..end, What::Measure);
            line.draft.weights.push(Decigrams(tenths));
        }
        None => line.doubt(at..end, About::Measure, "such a weight makes no sense"),
    }
    Some(end)
}

fn one_weight(line: &Line<'_>, at: usize) -> Option<(Decimal, usize, bool)> {
    let number = line.number(at)?.decimal()?;
    let word = line.word(at + 1)?;
    let sterling = line.ctx.profile.currency.code() == "GBP";
    let grams = match word {
        "g" | "gram" | "grams" => Decimal::ONE,
        "kg" | "kilo" | "kilos" => Decimal::ONE_THOUSAND,
        "oz" | "ounce" | "ounces" => Decimal::new(OUNCE, 9),
        "lb" | "lbs" => Decimal::new(POUND, 7),
        "pound" | "pounds" if !sterling => Decimal::new(POUND, 7),
        _ => return None,
    };
    Some((number.checked_mul(grams)?, at + 2, word.starts_with(['l', 'p'])))
}

/// `200 ml` stays in the name: the number counts nothing.
fn other(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let end = if line.is(at + 1, &OTHERS) { at + 2 } else { fluid_ounces(line, at + 1)? };
    line.take(at..end, What::Name);
    Some(end)
}

fn fluid_ounces(line: &Line<'_>, at: usize) -> Option<usize> {
    let fluid = line.any_phrase(at, &["fl", "fluid"])?;
    let next = if line.is(fluid, &["."]) { fluid + 1 } else { fluid };
    line.is(next, &["oz", "ounce", "ounces"]).then_some(next + 1)
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, paid, read, units};

    #[test]
    fn lengths_in_whole_millimetres() {
        for (words, expected) in [
            ("5x3x2 in", vec![127, 76, 51]),
            ("12 x 8 x 4 cm", vec![120, 80, 40]),
            ("4 x 8 x 12 cm", vec![120, 80, 40]),
            ("12 x 8 cm", vec![120, 80]),
            ("8.5x11 inches", vec![279, 216]),
            ("7 in long", vec![178]),
            ("20 cm", vec![200]),
            ("20cm", vec![200]),
            ("7\" long", vec![178]),
            ("24 in x 36 in", vec![914, 610]),
            ("6 ft", vec![1829]),
            ("12-inch", vec![305]),
        ] {
            let line = format!("{words} rope .50");
            let dims = read(&line).dims.map(|dims| dims.0.iter().map(|side| side.0).collect::<Vec<_>>());
            assert_eq!(dims, Some(expected), "{line}");
            assert_eq!((units(&line), name(&line).as_str()), (Some(1), "rope"), "{line}");
            assert!(about(&line).is_empty(), "{line}: {:?}", about(&line));
        }
    }

    #[test]
    fn weights_to_a_tenth_of_a_gram() {
        for (words, tenths) in [("3 oz", 850), ("85 g", 850), ("1 lb", 4536), ("0.2 kg", 2000), ("1 lb 4 oz", 5670)] {
            let line = format!("soap {words} .50");
            assert_eq!(read(&line).weight.map(|weight| weight.0), Some(tenths), "{line}");
            assert!(about(&line).is_empty(), "{line}");
        }
        assert_eq!(units("2 3 oz soaps 1.00"), Some(2));
    }

    #[test]
    fn in_is_not_always_inches() {
        assert_eq!(read("comb 1.25 in tote 4").place.as_deref(), Some("tote 4"));
        assert_eq!(paid("comb 1.25 in tote 4").as_deref(), Some("1.25"));
        assert_eq!(paid("comb 1.25 in pink").as_deref(), Some("1.25"));
        assert_eq!(read("24 pencils .50 in bundles of 8").dims, None);
        assert_eq!(about("ribbon 1.25 in"), ["paid"]);
    }

    #[test]
    fn volumes_count_nothing() {
        assert_eq!((units("200 ml shampoo 1.00"), name("200 ml shampoo 1.00").as_str()), (Some(1), "200 ml shampoo"));
        assert_eq!(units("2 shampoos 3 fl. oz. 1.00"), Some(2));
        assert!(about("2 shampoos 3 fl oz 1.00").is_empty());
    }
}
