//! What was done, newest first.

use serde::{Serialize, Serializer};

use super::Report;

/// Acts, newest first.
#[derive(Debug, Clone, Serialize)]
pub struct History {
    /// The acts.
    pub steps: Vec<Step>,
}

/// One act.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// Milliseconds since 1970.
    #[serde(serialize_with = "as_moment")]
    pub when: u64,
    /// Who; may be empty.
    pub by: String,
    /// What, in a sentence.
    pub what: String,
    /// Whether it was taken back.
    pub undone: bool,
}

fn moment(millis: u64) -> jiff::Timestamp {
    let millis = i64::try_from(millis).unwrap_or(i64::MAX);
    jiff::Timestamp::from_millisecond(millis).unwrap_or(jiff::Timestamp::UNIX_EPOCH)
}

fn as_moment<S: Serializer>(millis: &u64, to: S) -> Result<S::Ok, S::Error> {
    moment(*millis).to_string().serialize(to)
}

impl Report for History {
    fn text(&self) -> String {
        if self.steps.is_empty() {
            return "Nothing was done yet.\n".to_owned();
        }
        let line = |step: &Step| {
            let when = moment(step.when)
                .to_zoned_datetime(jiff::tz::TimeZone::system())
                .strftime("%Y-%m-%d %H:%M")
                .to_string();
            let by = if step.by.is_empty() { String::new() } else { format!(" {}:", step.by) };
            let undone = if step.undone { " (taken back)" } else { "" };
            format!("{when}{by} {}{undone}\n", step.what)
        };
        self.steps.iter().map(line).collect()
    }
}
