//! What a computer keeps for itself, beside any season's file, which may be copied about: which
//! device it is in each season, and the short name of who writes.

use std::fs::{File, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::sqlite::make_private_folder;
use super::{Committed, Store, StoreError};
use crate::model::id::{DeviceId, EventId, Ids, SeasonId};

/// The state folder.
#[derive(Debug, Clone)]
pub struct State {
    folder: PathBuf,
}

/// Which device this computer is in one season, and the last event it knows to have written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeviceState {
    /// The device.
    pub device: DeviceId,
    /// Its count of events when it last wrote.
    pub seq: u64,
    /// The event at that count.
    pub last: Option<EventId>,
}

impl State {
    /// The state kept in this folder; the folder is made when something is first kept.
    pub fn new(folder: PathBuf) -> State {
        State { folder }
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The device that this computer is in a season.
    ///
    /// A file that lacks what this computer wrote last (brought back from a backup, or a copy that
    /// went its own way) gets a new device: its old count may go on elsewhere.
    pub fn device(&self, store: &impl Store, ids: &mut impl Ids) -> Result<DeviceId, StoreError> {
        if let Some(known) = self.read(store)? {
            let there = if known.seq == 0 { None } else { store.at(known.device, known.seq)? };
            if there == known.last {
                return Ok(known.device);
            }
        }
        let fresh = DeviceState { device: ids.device(), seq: 0, last: None };
        self.write(&self.device_file(store), &fresh)?;
        Ok(fresh.device)
    }

    /// Notes what was written last.
    pub fn wrote(&self, store: &impl Store, device: DeviceId, done: Committed) -> Result<(), StoreError> {
        let now = DeviceState { device, seq: done.seq, last: Some(done.last) };
        self.write(&self.device_file(store), &now)
    }

    /// The short name of who writes; none until somebody was asked.
    pub fn by(&self) -> Result<Option<String>, StoreError> {
        match std::fs::read_to_string(self.folder.join("by")) {
            Ok(name) => Ok(Some(name.trim().to_owned())),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// Remembers that name.
    pub fn set_by(&self, name: &str) -> Result<(), StoreError> {
        self.replace(&self.folder.join("by"), name.as_bytes())
    }

    /// What was being typed when the program was last left; none where nothing was.
    pub fn draft(&self, season: SeasonId) -> Result<Option<String>, StoreError> {
        match std::fs::read_to_string(self.draft_file(season)) {
            Ok(text) => Ok(Some(text).filter(|text| !text.is_empty())),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// Keeps what is being typed in place of what was kept before; nothing typed is nothing kept.
    pub fn keep_draft(&self, season: SeasonId, text: &str) -> Result<(), StoreError> {
        let file = self.draft_file(season);
        if !text.is_empty() {
            return self.replace(&file, text.as_bytes());
        }
        match std::fs::remove_file(file) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(error.into()),
            _ => Ok(()),
        }
    }

    /// Adds to a note of a crash, for the owner's eyes alone, and tells where it is.
    pub fn note_crash(&self, name: &str, text: &str) -> Result<PathBuf, StoreError> {
        make_private_folder(&self.folder)?;
        let path = self.folder.join(name);
        let mut options = OpenOptions::new();
        options.append(true).create(true);
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        options.open(&path)?.write_all(text.as_bytes())?;
        Ok(path)
    }

    fn draft_file(&self, season: SeasonId) -> PathBuf {
        self.folder.join(format!("draft-{season}.txt"))
    }

    fn device_file(&self, store: &impl Store) -> PathBuf {
        self.folder.join(format!("device-{}.json", store.season()))
    }

    fn read(&self, store: &impl Store) -> Result<Option<DeviceState>, StoreError> {
        match std::fs::read(self.device_file(store)) {
            // A file that can't be understood is as good as none: a new device is always safe.
            Ok(bytes) => Ok(serde_json::from_slice(&bytes).ok()),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    fn write(&self, path: &Path, state: &DeviceState) -> Result<(), StoreError> {
        let text = serde_json::to_vec(state).map_err(|error| StoreError::Io(error.to_string()))?;
        self.replace(path, &text)
    }

    /// Replaces a file whole, so that a crash leaves the old one or the new one.
    fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
        make_private_folder(&self.folder)?;
        let mut temporary = tempfile::Builder::new().prefix(".brimful-").tempfile_in(&self.folder)?;
        temporary.write_all(bytes)?;
        temporary.as_file().sync_all()?;
        temporary.persist(path).map_err(|error| StoreError::from(error.error))?;
        if let Ok(folder) = File::open(&self.folder) {
            // Not every system can sync a folder; the file itself is safe either way.
            _ = folder.sync_all();
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, SeasonId};
    use crate::store::Memory;
    use crate::store::conformance::{Player, planned};

    #[test]
    fn the_same_device_goes_on_and_a_restored_file_gets_a_new_one() {
        let folder = tempfile::tempdir().unwrap();
        let state = State::new(folder.path().join("state"));
        let mut ids = CountedIds::new(4);
        let mut season = Memory::new(SeasonId::new(ids.fresh()));
        let device = state.device(&season, &mut ids).unwrap();
        let backup = season.clone();
        let mut player = Player::as_device(device);
        let done = player.act(&mut season, vec![planned(&mut ids, 1)]).unwrap();
        state.wrote(&season, device, done).unwrap();
        assert_eq!(state.device(&season, &mut ids).unwrap(), device);
        let later = state.device(&backup, &mut ids).unwrap();
        assert_ne!(later, device);
    }

    #[test]
    fn an_act_kept_just_before_a_crash_does_not_make_a_new_device() {
        let folder = tempfile::tempdir().unwrap();
        let state = State::new(folder.path().to_owned());
        let mut ids = CountedIds::new(4);
        let mut season = Memory::new(SeasonId::new(ids.fresh()));
        let device = state.device(&season, &mut ids).unwrap();
        let mut player = Player::as_device(device);
        let done = player.act(&mut season, vec![planned(&mut ids, 1)]).unwrap();
        state.wrote(&season, device, done).unwrap();
        player.act(&mut season, vec![planned(&mut ids, 2)]).unwrap();
        assert_eq!(state.device(&season, &mut ids).unwrap(), device);
    }

    #[test]
    fn a_draft_is_kept_until_it_is_empty() {
        let folder = tempfile::tempdir().unwrap();
        let state = State::new(folder.path().join("state"));
        let mut ids = CountedIds::new(4);
        let (season, other) = (SeasonId::new(ids.fresh()), SeasonId::new(ids.fresh()));
        assert_eq!(state.draft(season).unwrap(), None);
        state.keep_draft(season, "12 combs .50\n3 so").unwrap();
        state.keep_draft(season, "12 combs .50\n3 soaps").unwrap();
        assert_eq!(state.draft(season).unwrap().as_deref(), Some("12 combs .50\n3 soaps"));
        assert_eq!(state.draft(other).unwrap(), None);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = std::fs::metadata(state.draft_file(season)).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600);
        }
        state.keep_draft(season, "").unwrap();
        assert_eq!(state.draft(season).unwrap(), None);
        assert!(!state.draft_file(season).exists());
        state.keep_draft(season, "").unwrap();
    }
}
