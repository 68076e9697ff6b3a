//! Rule 8, first part: who it is for.

use super::draft::WhomSaid;
use super::line::Line;
use super::taken::What;
use crate::model::whom::ForWhom;

/// Finds *girl*, *boys*, *unisex* …
pub(super) fn whom(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let said = word(line, at)?;
        let from = if at > 0 && line.is(at - 1, &["for"]) { at - 1 } else { at };
        let mut end = at + 1;
        if line.is(end, &["'"]) && line.glued(end) {
            end += 1;
        }
        if line.is(end, &["or", "and", "&", "/"]) && word(line, end + 1).is_some() {
            end += 1;
        }
        line.take(from..end, What::Whom);
        line.draft.whom.push(said);
        Some(end)
    });
}

fn word(line: &Line<'_>, at: usize) -> Option<WhomSaid> {
    if line.hangs(at, at + 1) && !line.is(at + 1, &["'"]) {
        return None;
    }
    match line.word(at)? {
        "girl" | "girls" | "girl's" => Some(WhomSaid::Only(ForWhom::Girl)),
        "boy" | "boys" | "boy's" => Some(WhomSaid::Only(ForWhom::Boy)),
        "either" | "any" | "anyone" | "unisex" => Some(WhomSaid::Either),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::model::whom::ForWhom::{Boy, Girl};
    use crate::reading::testing::{name, read};

    #[test]
    fn one_or_either() {
        for (line, expected) in [
            ("comb girl 1.00", Some(Girl)),
            ("comb for girls 1.00", Some(Girl)),
            ("boys' comb 1.00", Some(Boy)),
            ("boy's comb 1.00", Some(Boy)),
            ("comb girl or boy 1.00", None),
            ("girls and boys comb 1.00", None),
            ("comb boy/girl 1.00", None),
            ("comb unisex 1.00", None),
            ("comb for anyone 1.00", None),
            ("comb either 1.00", None),
            ("comb 1.00", None),
        ] {
            let reading = read(line);
            assert_eq!(reading.for_whom, expected, "{line}");
            assert_eq!(name(line), "comb", "{line}");
            assert!(reading.questions.is_empty(), "{line}");
        }
    }
}
