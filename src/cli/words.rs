//! Words of a call: how many of what.

use super::shell::Failure;
use crate::model::measure::Units;

/// `3 toothbrushes`: how many, one if nobody says, and of what.
pub fn count_and_thing(words: &[String]) -> Result<(Units, String), Failure> {
    let joined = words.join(" ");
    let (first, rest) = joined.trim().split_once(' ').unwrap_or((joined.trim(), ""));
    let (count, thing) = match first.parse::<u64>() {
        Ok(count) if !rest.trim().is_empty() => (count, rest.trim()),
        _ => (1, joined.trim()),
    };
    let units = u32::try_from(count).ok().and_then(Units::new).filter(|units| !units.is_zero());
    let units = units.ok_or_else(|| Failure::Call(format!("{count} is no number of things; from 1 to a million")))?;
    if thing.is_empty() {
        return Err(Failure::Call("of what? Write for example: 3 toothbrushes".to_owned()));
    }
    Ok((units, thing.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_before_words_is_how_many() {
        let read = |words: &str| count_and_thing(&[words.to_owned()]).map(|(units, thing)| (units.count(), thing));
        assert_eq!(read("3 toothbrushes").unwrap(), (3, "toothbrushes".into()));
        assert_eq!(read("notebook, teal").unwrap(), (1, "notebook, teal".into()));
        assert!(read("0 combs").is_err());
        assert!(read("5000000000 combs").is_err());
        assert!(read("").is_err());
    }
}
