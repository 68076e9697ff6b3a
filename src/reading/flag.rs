//! Rule 13, second part: properties to be careful about.

use super::line::Line;
use super::taken::What;

const ANYWHERE: [(&str, &str); 13] = [
    ("assorted colours", "assorted"),
    ("assorted colors", "assorted"),
    ("assorted designs", "assorted"),
    ("assorted prints", "assorted"),
    ("assorted styles", "assorted"),
    ("assorted", "assorted"),
    ("asstd", "assorted"),
    ("asst", "assorted"),
    ("small parts", "small-parts"),
    ("used", "used"),
    ("sealed", "sealed"),
    ("breakable", "breakable"),
    ("liquid", "liquid"),
];
const APART: [(&str, &str); 9] = [
    ("battery", "battery"),
    ("batteries", "battery"),
    ("balloon", "balloon"),
    ("balloons", "balloon"),
    ("cord", "cord"),
    ("cords", "cord"),
    ("magnet", "magnet"),
    ("magnets", "magnet"),
    ("sharp", "sharp"),
];

/// Finds flags; the second kind only after a comma, *with* or *has*, for else it is the thing itself.
pub(super) fn flags(line: &mut Line<'_>) {
    line.scan(|line, at| {
        if let Some((flag, end)) = find(line, at, &ANYWHERE) {
            let denied = at > 0 && line.is(at - 1, &["no", "not", "without"]);
            let with = at > 0 && line.is(at - 1, &["with", "has", "is"]);
            return (!denied).then(|| keep(line, if with { at - 1 } else { at }, end, flag));
        }
        let and =
            line.is(at, &["and", "&"]) && at.checked_sub(1).is_some_and(|before| line.took(before) == Some(What::Flag));
        let mut start = if and || line.is(at, &["with", "has", ","]) { at + 1 } else { return None };
        if line.is(start, &["a", "an", "with", "has"]) {
            start += 1;
        }
        let (flag, end) = find(line, start, &APART)?;
        Some(keep(line, at, end, flag))
    });
}

fn find(line: &Line<'_>, at: usize, list: &[(&str, &'static str)]) -> Option<(&'static str, usize)> {
    list.iter().find_map(|&(words, flag)| {
        let end = line.phrase(at, words).filter(|&end| !line.hangs(at, end))?;
        Some((flag, end))
    })
}

/// Takes the words but leaves a comma, which parts what stands around it.
fn keep(line: &mut Line<'_>, at: usize, end: usize, flag: &'static str) -> usize {
    let from = if line.is(at, &[","]) { at + 1 } else { at };
    line.take(from..end, What::Flag);
    line.draft.flags.push(flag);
    end
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, read};

    #[test]
    fn flags_where_they_stand_apart() {
        for (line, flags, thing) in [
            ("used comb 1.00", vec!["used"], "comb"),
            ("comb, used, sealed 1.00", vec!["sealed", "used"], "comb"),
            ("liquid soap 1.00", vec!["liquid"], "soap"),
            ("doll small parts 1.00", vec!["small-parts"], "doll"),
            ("doll with small parts 1.00", vec!["small-parts"], "doll"),
            ("torch with battery 1.00", vec!["battery"], "torch"),
            ("torch, batteries 1.00", vec!["battery"], "torch"),
            ("torch has a cord, magnet 1.00", vec!["cord", "magnet"], "torch"),
            ("torch with magnets and cord 1.00", vec!["cord", "magnet"], "torch"),
            ("5 yards of cord 1.00", vec![], "cord"),
            ("balloon 1.00", vec![], "balloon"),
            ("magnet set 1.00", vec![], "magnet set"),
            ("unused comb 1.00", vec![], "unused comb"),
        ] {
            assert_eq!(read(line).flags, flags, "{line}");
            assert_eq!(name(line), thing, "{line}");
        }
        assert!(read("doll no small parts 1.00").flags.is_empty());
    }
}
