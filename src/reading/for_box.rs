//! `for box 12`: a line bought for one box.

use super::line::Line;
use super::question::About;
use super::taken::What;

/// Finds the box that a line is for.
pub(super) fn boxes(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let start = line.any_phrase(at, &["for the box", "for box", "into box"])?;
        let label = if line.is(start, &["#", "no", "nr", "number"]) { start + 1 } else { start };
        let label = if line.is(label, &["."]) && !line.glued(label + 1) { label + 1 } else { label };
        let number = line.whole(label)?;
        let twin = line.word(label + 1).filter(|word| line.glued(label + 1) && word.chars().count() == 1);
        let said = format!("{number}{}", twin.unwrap_or_default());
        let end = label + 1 + usize::from(twin.is_some());
        if line.hangs_behind(end) {
            return None;
        }
        line.take(at..end, What::Box);
        line.draft.boxes.push(said);
        Some(end)
    });
    line.draft.boxes.dedup();
    if line.draft.boxes.len() > 1 {
        let why = format!("boxes {}: for which of them?", line.draft.boxes.join(" and "));
        line.ask(About::Box, why);
    }
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, questions, read, units};

    #[test]
    fn a_line_may_be_for_one_box() {
        for (line, label) in [
            ("a doll 3.00 for box 12", "12"),
            ("for box 7: a doll 3.00", "7"),
            ("doll for box #12b, 3.00", "12b"),
            ("a doll for the box 12, 3.00", "12"),
            ("a doll for box no. 3 3.00", "3"),
        ] {
            let reading = read(line);
            assert_eq!(reading.for_box.as_deref(), Some(label), "{line}");
            assert_eq!((name(line).as_str(), units(line)), ("doll", Some(1)), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        let theme = read("cup for the ocean box 1.00");
        assert_eq!((theme.for_box, theme.theme.as_deref()), (None, Some("ocean")));
        assert_eq!(questions("doll 3.00 for box 7 for box 8"), ["box"]);
    }
}
