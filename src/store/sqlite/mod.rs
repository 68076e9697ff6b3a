//! A season in one SQLite file.
//!
//! `open` decides what is refused and sets the connection up; `tables` keeps and reads rows for the
//! projection; `ask` answers questions; this file does what changes the file.

mod ask;
mod code;
pub mod foreign;
mod open;
mod place;
pub(crate) use open::make_private_folder;
mod schema;
mod tables;

use std::collections::BTreeSet;
use std::path::Path;

use rusqlite::{Connection, OptionalExtension, params};

use super::{CommitError, Committed, Joined, NewAct, Store, StoreError, committed};
use crate::model::commit::holds;
use crate::model::event::{Clock, Event};
use crate::model::id::SeasonId;
use crate::model::kept::Kept;
use crate::model::project::{PROJECTION, Tables, act_row, refresh};

/// A season's file, open.
#[derive(Debug)]
pub struct Sqlite {
    connection: Connection,
    season: SeasonId,
    /// Where the file is a copy, because its own place can't be written to.
    _copy: Option<tempfile::TempDir>,
}

impl Sqlite {
    /// Opens a season's file; one that isn't there is begun with the given id.
    pub fn open_or_create(path: &Path, season: SeasonId) -> Result<Sqlite, StoreError> {
        // An empty file is what a full disk or a crash of something else leaves; it holds nothing to lose.
        match std::fs::metadata(path) {
            Ok(found) if found.is_file() && found.len() == 0 => std::fs::remove_file(path)?,
            _ => {}
        }
        if !path.exists() {
            open::create(path, season)?;
        }
        Sqlite::open(path)
    }

    /// A season that is gone when it is dropped: for looking at what isn't there yet.
    pub fn nowhere(season: SeasonId) -> Result<Sqlite, StoreError> {
        let folder = tempfile::Builder::new().prefix("brimful-").tempdir()?;
        let path = folder.path().join(foreign::NAME);
        open::create(&path, season)?;
        Sqlite::from_connection(open::connect(&path)?, Some(folder))
    }

    /// Opens a season's file for reading and writing.
    pub fn open(path: &Path) -> Result<Sqlite, StoreError> {
        Sqlite::from_connection(open::connect(path)?, None)
    }

    /// Opens a season's file for reading: as it is, or through a copy where it can't be written to.
    pub fn open_to_read(path: &Path) -> Result<Sqlite, StoreError> {
        match Sqlite::open(path) {
            Err(StoreError::ReadOnly) => {
                let copy = foreign::private_copy(path)?;
                let connection = open::connect(&copy.path().join(foreign::NAME))?;
                Sqlite::from_connection(connection, Some(copy))
            }
            opened => opened,
        }
    }

    fn from_connection(connection: Connection, copy: Option<tempfile::TempDir>) -> Result<Sqlite, StoreError> {
        let read = |row: &rusqlite::Row<'_>| code::column(row, 0, SeasonId::from_bytes);
        let season = connection.query_row("SELECT value FROM meta WHERE key = 'season'", [], read)?;
        let mut store = Sqlite { connection, season, _copy: copy };
        if store.projection()? != Some(PROJECTION) {
            store.in_transaction(Sqlite::make_anew)?;
        }
        Ok(store)
    }

    fn projection(&self) -> Result<Option<u32>, StoreError> {
        let read = |row: &rusqlite::Row<'_>| row.get(0);
        let sql = "SELECT value FROM meta WHERE key = 'projection'";
        Ok(self.connection.query_row(sql, [], read).optional()?)
    }

    /// Does all of it or nothing; the lock is taken first, so nothing read in it can be stale.
    fn in_transaction<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&mut Sqlite) -> Result<T, E>,
    ) -> Result<T, E> {
        self.run("BEGIN IMMEDIATE")?;
        let done = work(self).and_then(|done| self.run("COMMIT").map(|()| done).map_err(E::from));
        if done.is_err() && !self.connection.is_autocommit() {
            self.run("ROLLBACK")?;
        }
        done
    }

    fn run(&self, sql: &str) -> Result<(), StoreError> {
        Ok(self.connection.execute_batch(sql)?)
    }

    fn newest_clock(&self) -> Result<Clock, StoreError> {
        let read = |row: &rusqlite::Row<'_>| code::number(row, 0);
        let newest = self.connection.query_row("SELECT COALESCE(MAX(clock), 0) FROM event", [], read)?;
        Ok(Clock::from_kept(newest).unwrap_or(Clock::LATEST))
    }

    fn append(&self, kept: &Kept) -> Result<(), StoreError> {
        let sql = "INSERT INTO event (uid, device, seq, clock, by, act, kind, body, hash)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)";
        self.connection.prepare_cached(sql)?.execute(params![
            kept.uid.bytes(),
            kept.device.bytes(),
            code::int(kept.seq),
            code::int(kept.clock),
            kept.by,
            kept.act.bytes(),
            kept.kind,
            kept.body,
            kept.hash,
        ])?;
        Ok(())
    }

    /// Notes what an event speaks of, and its act if it is the first of it.
    fn index(&mut self, event: &Event) -> Result<(), StoreError> {
        let at = code::order_key(&event.order());
        for subject in event.fact.subjects() {
            let (what, id) = code::subject_key(&subject);
            let sql = "INSERT INTO about (what, id, at) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING";
            self.connection.prepare_cached(sql)?.execute(params![what, id, at])?;
        }
        if self.act(event.act)?.is_none() {
            self.put_act(&act_row(event))?;
        }
        Ok(())
    }

    fn make_anew(&mut self) -> Result<(), StoreError> {
        for name in schema::PROJECTION_NAMES {
            self.run(&format!("DROP TABLE IF EXISTS {name}"))?;
        }
        self.run(schema::PROJECTION_TABLES)?;
        let mut touched = BTreeSet::new();
        for kept in self.kept()? {
            let event = kept.event()?;
            self.index(&event)?;
            touched.extend(event.fact.subjects());
        }
        refresh(self, touched)?;
        let sql = "INSERT INTO meta (key, value) VALUES ('projection', ?1)
                   ON CONFLICT (key) DO UPDATE SET value = excluded.value";
        self.connection.execute(sql, [PROJECTION])?;
        Ok(())
    }

    fn keep(&mut self, act: &NewAct) -> Result<Committed, CommitError> {
        holds(self, &act.facts())??;
        let seq = self.newest_of(act.device)?.map_or(0, |(seq, _)| seq);
        let events = act.events(seq, self.newest_clock()?);
        let done = committed(&events)?;
        for event in &events {
            self.append(&Kept::from_event(event))?;
            self.index(event)?;
        }
        refresh(self, events.iter().flat_map(|event| event.fact.subjects()).collect())?;
        Ok(done)
    }

    fn take_in(&mut self, theirs: &[Kept]) -> Result<Joined, StoreError> {
        let mut joined = Joined::default();
        let mut acts = BTreeSet::new();
        for kept in theirs {
            kept.event()?;
            match self.stored(kept.uid)? {
                Some(ours) if ours == *kept => joined.known += 1,
                Some(_) => return Err(StoreError::Damaged(format!("event {} says something else there", kept.uid))),
                None => {
                    joined.events += 1;
                    if self.act(kept.act)?.is_none() {
                        acts.insert(kept.act);
                    }
                    self.append(kept)?;
                }
            }
        }
        joined.acts = acts.len() as u64;
        if joined.events > 0 {
            self.make_anew()?;
        }
        Ok(joined)
    }

    fn close(&self) -> Result<(), StoreError> {
        self.run("PRAGMA optimize; PRAGMA wal_checkpoint(TRUNCATE)")
    }
}

impl Drop for Sqlite {
    fn drop(&mut self) {
        // Tidying only: whatever is not settled now is settled by whoever opens the file next.
        _ = self.close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::fact::{Fact, LotAdded};
    use crate::model::id::{CountedIds, Ids};
    use crate::model::lot::LotFacts;
    use crate::model::measure::Units;
    use crate::store::check;
    use crate::store::conformance::{Player, planned};

    fn begun() -> (tempfile::TempDir, Sqlite) {
        let folder = tempfile::tempdir().unwrap();
        let season = SeasonId::new(CountedIds::new(1).fresh());
        let store = Sqlite::open_or_create(&folder.path().join("season.brimful"), season).unwrap();
        (folder, store)
    }

    #[test]
    fn an_event_is_never_changed_replaced_or_deleted() {
        let (_folder, mut store) = begun();
        Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(5), 1)]).unwrap();
        let count = |store: &Sqlite| {
            let sql = "SELECT COUNT(*) FROM event WHERE by = 'ann'";
            store.connection.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap()
        };
        assert_eq!(count(&store), 1);
        let copied = "SELECT uid, device, seq, clock, 'eve', act, kind, body, hash FROM event";
        for sql in [
            "UPDATE event SET by = 'eve'".to_owned(),
            "DELETE FROM event".to_owned(),
            format!("REPLACE INTO event {copied}"),
            format!("INSERT OR REPLACE INTO event {copied}"),
            format!("INSERT INTO event {copied} WHERE true ON CONFLICT (uid) DO UPDATE SET by = 'eve'"),
        ] {
            let error = store.connection.execute(&sql, []).unwrap_err().to_string();
            assert!(error.contains("an event is never"), "{sql}: {error}");
        }
        assert_eq!(count(&store), 1);
    }

    #[test]
    fn settings_are_made_at_every_open() {
        let (folder, store) = begun();
        drop(store);
        let store = Sqlite::open(&folder.path().join("season.brimful")).unwrap();
        let text = |name| store.connection.pragma_query_value(None, name, |row| row.get::<_, String>(0)).unwrap();
        let number = |name| store.connection.pragma_query_value(None, name, |row| row.get::<_, i64>(0)).unwrap();
        assert_eq!(text("journal_mode"), "wal");
        for (name, value) in [
            ("synchronous", 2),
            ("foreign_keys", 1),
            ("trusted_schema", 0),
            ("cell_size_check", 1),
            ("recursive_triggers", 1),
            ("busy_timeout", 5000),
            ("application_id", i64::from(schema::APPLICATION_ID)),
            ("user_version", 1),
        ] {
            assert_eq!(number(name), value, "{name}");
        }
        let defensive = store.connection.db_config(rusqlite::config::DbConfig::SQLITE_DBCONFIG_DEFENSIVE).unwrap();
        assert!(defensive);
    }

    #[test]
    fn a_full_disk_is_said_and_nothing_is_half_there() {
        let (_folder, mut store) = begun();
        let pages: i64 = store.connection.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
        store.connection.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(())).unwrap();
        let mut ids = CountedIds::new(5);
        let many = |ids: &mut CountedIds| (1..200).map(|number| planned(ids, number)).collect();
        let error = Player::new(1).act(&mut store, many(&mut ids)).unwrap_err();
        assert!(matches!(error, CommitError::Store(StoreError::Full)), "{error:?}");
        assert_eq!(store.kept().unwrap().len(), 0);
        assert_eq!(store.boxes().unwrap().len(), 0);
        store.connection.pragma_update_and_check(None, "max_page_count", 100_000, |_| Ok(())).unwrap();
        Player::new(1).act(&mut store, many(&mut ids)).unwrap();
        assert_eq!(store.boxes().unwrap().len(), 199);
    }

    #[test]
    fn a_held_lock_is_said() {
        let (folder, mut store) = begun();
        let other = Sqlite::open(&folder.path().join("season.brimful")).unwrap();
        other.run("BEGIN IMMEDIATE").unwrap();
        store.connection.busy_timeout(std::time::Duration::from_millis(20)).unwrap();
        let error = Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(5), 1)]).unwrap_err();
        assert!(matches!(error, CommitError::Store(StoreError::Locked)), "{error:?}");
        other.run("ROLLBACK").unwrap();
        Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(6), 1)]).unwrap();
    }

    #[test]
    fn rows_of_another_projection_are_made_anew_at_open() {
        let (folder, mut store) = begun();
        Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(5), 7)]).unwrap();
        store.run("UPDATE giftbox SET number = 99; UPDATE meta SET value = 0 WHERE key = 'projection'").unwrap();
        drop(store);
        let store = Sqlite::open(&folder.path().join("season.brimful")).unwrap();
        assert_eq!(store.boxes().unwrap()[0].facts.number, 7);
    }

    #[test]
    fn a_damaged_event_is_named_and_never_taken_in() {
        let (_folder, mut store) = begun();
        Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(5), 7)]).unwrap();
        let mut theirs = store.kept().unwrap();
        theirs[0].body = theirs[0].body.replace('7', "8");
        assert!(store.join(&theirs).unwrap_err().to_string().contains("damaged"));
        assert_eq!(store.kept().unwrap().len(), 1);
    }

    #[test]
    fn another_programs_commits_are_seen_and_ones_own_are_not() {
        let (folder, mut store) = begun();
        let mut other = Sqlite::open(&folder.path().join("season.brimful")).unwrap();
        let before = store.foreign_commits().unwrap();
        Player::new(1).act(&mut store, vec![planned(&mut CountedIds::new(5), 7)]).unwrap();
        assert_eq!(store.foreign_commits().unwrap(), before);
        Player::new(2).act(&mut other, vec![planned(&mut CountedIds::new(6), 8)]).unwrap();
        assert_ne!(store.foreign_commits().unwrap(), before);
        assert_eq!(store.boxes().unwrap().len(), 2);
    }

    #[test]
    fn sums_or_titles_that_drifted_are_found() {
        let (_folder, mut store) = begun();
        let lot = |ids: &mut CountedIds, name: &str| {
            let facts = LotFacts { name: name.into(), units: Units::ONE, ..LotFacts::default() };
            Fact::LotAdded(LotAdded { lot: ids.lot(), haul: None, facts })
        };
        let mut ids = CountedIds::new(5);
        let facts = vec![lot(&mut ids, "comb"), lot(&mut ids, "soap")];
        Player::new(1).act(&mut store, facts).unwrap();
        assert_eq!(check(&store).unwrap(), []);
        for wrong in ["UPDATE total SET on_hand = 7", "UPDATE lot SET title = 'zither' WHERE title = 'comb'"] {
            store.run(wrong).unwrap();
            assert_eq!(check(&store).unwrap().len(), 1, "{wrong}");
            store.rebuild().unwrap();
            assert_eq!(check(&store).unwrap(), []);
        }
    }
}
