//! An event as it lies in the file: plain bytes that are never written again, and their hash.

use serde_json::{Map, Value};
use sha2::{Digest, Sha256};
use thiserror::Error;

use super::event::{Clock, Event};
use super::fact::Fact;
use super::id::{ActId, DeviceId, EventId};

/// The version of bodies that this program writes.
pub const VERSION: u64 = 1;

/// An event as stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// Its id.
    pub uid: EventId,
    /// The device that wrote it.
    pub device: DeviceId,
    /// That device's count.
    pub seq: u64,
    /// The clock, packed.
    pub clock: u64,
    /// Who.
    pub by: String,
    /// The act.
    pub act: ActId,
    /// What kind of fact.
    pub kind: String,
    /// The fact as JSON, with its version under `v`.
    pub body: String,
    /// SHA-256 over all of the above; it shows damage, not tampering.
    pub hash: [u8; 32],
}

/// Why a stored event can't be used.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum KeptError {
    /// The hash does not fit the bytes.
    #[error("event {0} is damaged: its bytes don't fit their hash")]
    Damaged(EventId),
    /// The body can't be read as that kind of fact.
    #[error("event {uid} ({kind}) can't be read: {why}")]
    Unreadable {
        /// Which.
        uid: EventId,
        /// What it says it is.
        kind: String,
        /// What is wrong with it.
        why: String,
    },
    /// A newer program wrote it.
    #[error("event {uid} was written by a newer Brimful (body version {version}); update this one")]
    Newer {
        /// Which.
        uid: EventId,
        /// The version it has.
        version: u64,
    },
}

impl Kept {
    /// Writes an event down.
    pub fn from_event(event: &Event) -> Kept {
        let (kind, body) = write(&event.fact);
        let mut kept = Kept {
            uid: event.uid,
            device: event.device,
            seq: event.seq,
            clock: event.clock.kept(),
            by: event.by.clone(),
            act: event.act,
            kind,
            body,
            hash: [0; 32],
        };
        kept.hash = kept.hash_of_bytes();
        kept
    }

    /// Reads an event: checks the hash, raises an old body, refuses unknown fields.
    pub fn event(&self) -> Result<Event, KeptError> {
        if self.hash != self.hash_of_bytes() {
            return Err(KeptError::Damaged(self.uid));
        }
        let unreadable = |why: String| KeptError::Unreadable { uid: self.uid, kind: self.kind.clone(), why };
        let clock = Clock::from_kept(self.clock).ok_or_else(|| unreadable("its clock is past the year 2199".into()))?;
        let mut body: Map<String, Value> = serde_json::from_str(&self.body).map_err(|e| unreadable(e.to_string()))?;
        match body.remove("v").and_then(|v| v.as_u64()) {
            Some(VERSION) => {}
            Some(version) if version > VERSION => return Err(KeptError::Newer { uid: self.uid, version }),
            _ => return Err(unreadable("it has no version that was ever written".into())),
        }
        let whole = serde_json::json!({ "kind": self.kind, "body": body });
        let fact: Fact = serde_json::from_value(whole).map_err(|e| unreadable(e.to_string()))?;
        let (device, seq, by, act) = (self.device, self.seq, self.by.clone(), self.act);
        Ok(Event { uid: self.uid, device, seq, clock, by, act, fact })
    }

    fn hash_of_bytes(&self) -> [u8; 32] {
        let mut hasher = Sha256::new();
        let parts: [&[u8]; 8] = [
            self.uid.bytes(),
            self.device.bytes(),
            &self.seq.to_be_bytes(),
            &self.clock.to_be_bytes(),
            self.by.as_bytes(),
            self.act.bytes(),
            self.kind.as_bytes(),
            self.body.as_bytes(),
        ];
        for part in parts {
            hasher.update((part.len() as u64).to_be_bytes());
            hasher.update(part);
        }
        hasher.finalize().into()
    }
}

/// The kind and the body of a fact.
fn write(fact: &Fact) -> (String, String) {
    // Facts are plain structs with string keys: they can always be written as JSON.
    let mut whole = serde_json::to_value(fact).unwrap_or_default();
    let kind = whole["kind"].as_str().unwrap_or_default().to_owned();
    let mut body = Map::from_iter([("v".to_owned(), VERSION.into())]);
    if let Value::Object(fields) = whole["body"].take() {
        body.extend(fields);
    }
    (kind, Value::Object(body).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::fact::{BoxStep, Found};
    use crate::model::id::{CountedIds, Ids};
    use crate::model::measure::Units;

    fn event(fact: Fact) -> Event {
        let mut ids = CountedIds::new(7);
        let clock = Clock::default().next(1_800_000_000_000);
        Event { uid: ids.event(), device: ids.device(), seq: 1, clock, by: "ann".into(), act: ids.act(), fact }
    }

    fn found() -> Event {
        event(Fact::Found(Found { lot: CountedIds::new(8).lot(), units: Units::ONE }))
    }

    #[test]
    fn written_and_read_is_the_same() {
        let event = found();
        let kept = Kept::from_event(&event);
        assert_eq!(kept.kind, "found");
        assert!(kept.body.contains("\"v\":1"), "{}", kept.body);
        assert_eq!(kept.event().unwrap(), event);
    }

    #[test]
    fn a_changed_byte_is_seen() {
        let mut kept = Kept::from_event(&found());
        kept.body = kept.body.replace("\"units\":1", "\"units\":2");
        assert!(matches!(kept.event(), Err(KeptError::Damaged(_))));
    }

    #[test]
    fn unknown_fields_and_newer_versions_are_refused() {
        let giftbox = CountedIds::new(9).giftbox();
        let rewrite = |from: &str, to: &str| {
            let mut kept = Kept::from_event(&event(Fact::BoxClosed(BoxStep { giftbox })));
            kept.body = kept.body.replace(from, to);
            kept.hash = kept.hash_of_bytes();
            kept.event().unwrap_err().to_string()
        };
        assert!(rewrite("\"giftbox\"", "\"extra\":1,\"giftbox\"").contains("unknown field"));
        assert!(rewrite("\"v\":1", "\"v\":2").contains("newer Brimful"));
        assert!(rewrite("\"v\":1", "\"v\":0").contains("no version"));
    }

    /// A body as the first release wrote it, byte for byte, must be read for ever.
    #[test]
    fn a_body_of_the_first_release_is_read() {
        let mut kept = Kept::from_event(&found());
        kept.kind = "counted".to_owned();
        kept.body = r#"{"v":1,"expected":10,"found":9,"lot":"018f2b6e-0000-7000-8000-000000000001","seen":"018f2b6e-0000-7000-8000-000000000002"}"#.to_owned();
        kept.hash = kept.hash_of_bytes();
        let Fact::Counted(count) = kept.event().unwrap().fact else { panic!("not a count") };
        assert_eq!((count.found.count(), count.expected.count()), (9, 10));
    }
}
