//! What goes out of date before the box is opened.

use jiff::civil::Date;

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "expiry",
    about: "out of date when the box is opened",
    under: None,
    source: "common practice: a thing should be good on the day the box is opened",
    sheet: "Please look at its date before it is used.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let written = scene.thing.expires?;
    let opened = scene.when.opened?;
    let Some(last) = last_day(written) else {
        let text = format!("It is good until \"{written}\", and nobody knows which day that is. Look at its date.");
        return Some(say(Level::LookTwice, Remedy::Allow, text));
    };
    if last >= opened {
        return None;
    }
    let text = format!(
        "This is good until {last}, and the box is opened about {opened}, at the earliest. \
         Use it up yourself, and choose a fresher one."
    );
    Some(say(Level::LookTwice, Remedy::LeaveOut, text))
}

/// The last day on which it is good; a month counts to its end.
fn last_day(written: &str) -> Option<Date> {
    let written = written.trim();
    let day = written.parse::<Date>().ok();
    day.or_else(|| format!("{written}-01").parse::<Date>().ok().map(Date::last_of_month))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::{RULE, last_day};
    use crate::cautions::testing::of_kind;
    use crate::cautions::{Child, Remedy, When};

    const CHILD: Child = Child { youngest: 6, oldest: 8 };

    #[test]
    fn good_on_the_day_is_good() {
        let opened = When { opened: Some(date(2028, 1, 20)) };
        for (written, remedy) in [
            ("2028-01-19", Some(Remedy::LeaveOut)),
            ("2028-01-20", None),
            ("2027-12", Some(Remedy::LeaveOut)),
            ("2028-01", None),
            ("next spring", Some(Remedy::Allow)),
        ] {
            let mut tube = of_kind("toothpaste");
            tube.expires = Some(written);
            assert_eq!(RULE.judge(&tube, CHILD, opened).map(|caution| caution.remedy), remedy, "{written}");
            assert_eq!(RULE.judge(&tube, CHILD, When::default()), None);
        }
        assert_eq!(RULE.judge(&of_kind("toothpaste"), CHILD, opened), None);
    }

    #[test]
    fn a_month_counts_to_its_end() {
        assert_eq!(last_day("2028-02"), Some(date(2028, 2, 29)));
        assert_eq!([last_day(""), last_day("2028-13")], [None, None]);
    }
}
