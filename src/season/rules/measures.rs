//! The box's sides and its weight, in words and back. Kept in whole millimetres and whole grams.

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

use super::rule::Read;
use crate::model::measure::{Decigrams, Dims, Millimetres};

/// The longest side that makes sense, in millimetres.
const LONGEST: u32 = 2000;
/// The heaviest box that makes sense, in grams.
const HEAVIEST: u32 = 100_000;

/// A unit's names, and how many of the smallest it holds: so many at so many decimals.
type Unit = (&'static [&'static str], i64, u32);

/// In millimetres; an inch is 25.4 of them.
const LENGTHS: [Unit; 3] = [(&["cm"], 10, 0), (&["mm"], 1, 0), (&["inches", "inch", "in", "\""], 254, 1)];
/// In grams; a pound is 453.59237 of them by definition, an ounce a sixteenth of it.
const WEIGHTS: [Unit; 4] = [
    (&["kilograms", "kilos", "kg"], 1000, 0),
    (&["pounds", "pound", "lbs", "lb"], 45_359_237, 5),
    (&["ounces", "ounce", "oz"], 28_349_523_125, 9),
    (&["grams", "gram", "g"], 1, 0),
];

/// `33 x 20 x 12 cm`.
pub fn sides_words(dims: &Dims) -> String {
    let sides: Vec<String> = dims.0.iter().map(|side| Decimal::new(side.0.into(), 1).normalize().to_string()).collect();
    format!("{} cm", sides.join(" x "))
}

/// `3 kg`, `950 g`.
pub fn weight_words(weight: Decigrams) -> String {
    let grams = Decimal::new(weight.0.into(), 1);
    if grams < Decimal::ONE_THOUSAND { format!("{} g", grams.normalize()) } else { kilograms(grams) }
}

fn kilograms(grams: Decimal) -> String {
    format!("{} kg", (grams / Decimal::ONE_THOUSAND).normalize())
}

/// Three sides with their unit, in any order.
pub fn sides(words: &str) -> Read<Dims> {
    let lower = words.to_lowercase().replace('×', "x").replace(" by ", "x");
    let (numbers, unit) = unit(&lower, &LENGTHS)
        .ok_or_else(|| format!("\"{words}\" has no cm, mm or in at its end; write for example 33 x 20 x 12 cm"))?;
    let side = |number: &str| {
        let tenths = measured(number, unit)?;
        (1..=LONGEST).contains(&tenths).then_some(Millimetres(tenths))
    };
    let sides: Option<Vec<Millimetres>> = numbers.split('x').map(side).collect();
    match sides {
        Some(mut sides) if sides.len() == 3 => {
            sides.sort_unstable_by(|a, b| b.cmp(a));
            Ok(Dims(sides))
        }
        _ => Err(format!("\"{words}\" is not three sides of 1 mm to 2 m; write for example 33 x 20 x 12 cm")),
    }
}

/// A weight with its unit.
pub fn weight(words: &str) -> Read<Decigrams> {
    let lower = words.to_lowercase();
    let (number, unit) = unit(&lower, &WEIGHTS)
        .ok_or_else(|| format!("\"{words}\" has no kg, g, lb or oz at its end; write for example 3 kg"))?;
    let grams = measured(number, unit).filter(|grams| (1..=HEAVIEST).contains(grams));
    let tenths = grams.and_then(|grams| grams.checked_mul(10)).map(Decigrams);
    tenths.ok_or_else(|| format!("\"{words}\" is no weight of 1 g to 100 kg; write for example 3 kg"))
}

/// What stands before the unit, and the unit.
fn unit<'w>(words: &'w str, units: &[Unit]) -> Option<(&'w str, Unit)> {
    let named = |unit: &Unit| unit.0.iter().find_map(|name| words.strip_suffix(name)).map(|rest| (rest, *unit));
    let (rest, unit) = units.iter().find_map(named)?;
    rest.ends_with([' ', '.', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9']).then_some((rest, unit))
}

/// A number of a unit in whole smallest ones, half up.
fn measured(number: &str, (_, many, decimals): Unit) -> Option<u32> {
    let number: Decimal = number.trim().parse().ok()?;
    let whole = number.checked_mul(Decimal::new(many, decimals))?;
    whole.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero).to_u32()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(words: &str) -> Option<Vec<u32>> {
        sides(words).ok().map(|dims| dims.0.iter().map(|side| side.0).collect())
    }

    #[test]
    fn sides_in_any_order_and_unit() {
        assert_eq!(mm("12 x 33 x 20 cm"), Some(vec![330, 200, 120]));
        assert_eq!(mm("330x200x120mm"), Some(vec![330, 200, 120]));
        // 13 in are 330.2 mm, 7.5 in are 190.5, 5 in are 127.
        assert_eq!(mm("13 by 7.5 by 5 in"), Some(vec![330, 191, 127]));
        assert_eq!(mm("33.3 × 20 × 12 CM"), Some(vec![333, 200, 120]));
        for wrong in ["33 x 20 x 12", "33 x 20 cm", "33 x 20 x 0 cm", "330 x 20 x 12 cm", "33 x 20 x 12 min", "cm", ""]
        {
            assert_eq!(mm(wrong), None, "{wrong}");
        }
        assert_eq!(sides_words(&sides("333 x 200 x 120 mm").unwrap()), "33.3 x 20 x 12 cm");
    }

    #[test]
    fn weights_to_the_gram() {
        let grams = |words| weight(words).ok().map(|weight| weight.0 / 10);
        assert_eq!(grams("3 kg"), Some(3000));
        assert_eq!(grams("950g"), Some(950));
        assert_eq!(grams("2.25 kg"), Some(2250));
        // 6.5 × 453.59237 = 2948.35…; 40 × 28.349523125 = 1133.98…
        assert_eq!((grams("6.5 lb"), grams("40 oz")), (Some(2948), Some(1134)));
        assert_eq!((grams("3"), grams("0 g"), grams("101 kg"), grams("-1 kg")), (None, None, None, None));
        assert_eq!((weight_words(Decigrams(30_000)), weight_words(Decigrams(9_500))), ("3 kg".into(), "950 g".into()));
    }
}
