//! What was done, newest first.

use serde::{Serialize, Serializer};

use super::Report;

/// Acts, newest first.
#[derive(Debug, Clone, Serialize)]
pub struct History {
    /// The acts.
    pub steps: Vec<Step>,
}

/// Milliseconds since 1970, told as a day and a time.
#[derive(Debug, Clone, Copy)]
pub struct Moment(pub u64);

/// One act.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// When.
    pub when: Moment,
    /// Who; may be empty.
    pub by: String,
    /// What, in a sentence.
    pub what: String,
    /// Whether it was taken back.
    pub undone: bool,
}

impl Moment {
    fn timestamp(self) -> jiff::Timestamp {
        let millis = i64::try_from(self.0).unwrap_or(i64::MAX);
        jiff::Timestamp::from_millisecond(millis).unwrap_or(jiff::Timestamp::UNIX_EPOCH)
    }

    /// The day and the time here: `2027-10-14 12:00`.
    pub fn here(self) -> String {
        let here = self.timestamp().to_zoned_datetime(jiff::tz::TimeZone::system());
        here.strftime("%Y-%m-%d %H:%M").to_string()
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.timestamp().to_string().serialize(to)
    }
}

impl Report for History {
    fn text(&self) -> String {
        if self.steps.is_empty() {
            return "Nothing was done yet.\n".to_owned();
        }
        let line = |step: &Step| {
            let when = step.when.here();
            let by = if step.by.is_empty() { String::new() } else { format!(" {}:", step.by) };
            let undone = if step.undone { " (taken back)" } else { "" };
            format!("{when}{by} {}{undone}\n", step.what)
        };
        self.steps.iter().map(line).collect()
    }
}
