//! Rule 8, first part: who it is for.

use super::draft::WhomSaid;
use super::taken::What;
use super::work::Work;
use crate::model::whom::ForWhom;

/// Finds *girl*, *boys*, *unisex* …
pub(super) fn whom(work: &mut Work<'_>) {
    work.scan(|work, at| {
        let said = word(work, at)?;
        let from = if at > 0 && work.is(at - 1, &["for"]) { at - 1 } else { at };
        let mut end = at + 1;
        if work.is(end, &["'"]) && work.glued(end) {
            end += 1;
        }
        if work.is(end, &["or", "and", "&", "/"]) && word(work, end + 1).is_some() {
            end += 1;
        }
        work.take(from..end, What::Whom);
        work.draft.whom.push(said);
        Some(end)
    });
}

fn word(work: &Work<'_>, at: usize) -> Option<WhomSaid> {
    if work.hangs(at, at + 1) && !work.is(at + 1, &["'"]) {
        return None;
    }
    match work.word(at)? {
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
