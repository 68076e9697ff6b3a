//! Opening a season's file: what is refused before anything is touched, the settings of the
//! connection, the way from an older schema to today's.

use std::fs::{File, OpenOptions};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, TransactionBehavior};

use super::place::is_on_a_share;
use super::schema::{APPLICATION_ID, MIGRATIONS, TRIGGERS};
use crate::model::id::SeasonId;
use crate::store::StoreError;

/// Looks at a file without touching it: a season, or why not.
pub fn identify(path: &Path) -> Result<(), StoreError> {
    let mut header = Vec::new();
    File::open(path)?.take(100).read_to_end(&mut header)?;
    if !header.starts_with(b"SQLite format 3\0") {
        return Err(StoreError::NotADatabase);
    }
    // SQLite's file format, section 1.3: the application id stands at offset 68, big-endian.
    match header.get(68..72) {
        Some(id) if id == APPLICATION_ID.to_be_bytes() => Ok(()),
        _ => Err(StoreError::Foreign),
    }
}

/// Makes a new season's file, whole or not at all, readable by its owner only.
pub fn create(path: &Path, season: SeasonId) -> Result<(), StoreError> {
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    make_private_folder(folder)?;
    // A temporary file is made with mode 0600, and so is what SQLite lays beside it.
    let temporary = tempfile::Builder::new().prefix(".brimful-").tempfile_in(folder).map_err(as_read_only)?;
    {
        let mut connection = Connection::open(temporary.path())?;
        connection.pragma_update(None, "application_id", APPLICATION_ID)?;
        migrate(&mut connection, MIGRATIONS)?;
        connection.execute("INSERT INTO meta (key, value) VALUES ('season', ?1)", [season.bytes()])?;
        connection.close().map_err(|(_, error)| error)?;
    }
    temporary.as_file().sync_all()?;
    match temporary.persist_noclobber(path) {
        Ok(_) => Ok(()),
        // Another process was faster: its file is as good.
        Err(error) if error.error.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
        Err(error) => Err(error.error.into()),
    }
}

/// Makes a folder and its parents; new ones are for their owner only.
pub fn make_private_folder(folder: &Path) -> Result<(), StoreError> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder).map_err(as_read_only)
}

/// Where a new file can't be laid, the place is not for writing, whatever word the system has for it.
fn as_read_only(error: std::io::Error) -> StoreError {
    match error.kind() {
        std::io::ErrorKind::StorageFull => StoreError::Full,
        std::io::ErrorKind::NotFound => StoreError::ReadOnly,
        _ => error.into(),
    }
}

/// Opens a season's file for reading and writing.
pub fn connect(path: &Path) -> Result<Connection, StoreError> {
    identify(path)?;
    OpenOptions::new().write(true).open(path)?;
    let mut connection = Connection::open(path)?;
    settle(&mut connection, if is_on_a_share(path) { "DELETE" } else { "WAL" })?;
    let found: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let known = schema_number(MIGRATIONS);
    if found > known {
        return Err(StoreError::Newer { found, known });
    }
    if found < known {
        copy_before(&connection, path, found)?;
        migrate(&mut connection, MIGRATIONS)?;
    }
    connection.execute_batch(TRIGGERS)?;
    Ok(connection)
}

/// The settings that every connection needs; most are forgotten when it closes.
/// On a network share the file keeps to the plain rollback journal, slower but safe there.
fn settle(connection: &mut Connection, journal: &str) -> Result<(), StoreError> {
    connection.busy_timeout(Duration::from_secs(5))?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
    connection.pragma_update_and_check(None, "journal_mode", journal, |_| Ok(()))?;
    for (name, value) in [("synchronous", "FULL"), ("foreign_keys", "ON"), ("trusted_schema", "OFF")] {
        connection.pragma_update(None, name, value)?;
    }
    connection.pragma_update(None, "cell_size_check", "ON")?;
    // Without this, REPLACE deletes an event past the trigger that forbids it.
    connection.pragma_update(None, "recursive_triggers", "ON")?;
    connection.pragma_update_and_check(None, "journal_size_limit", 16 * 1024 * 1024, |_| Ok(()))?;
    connection.set_transaction_behavior(TransactionBehavior::Immediate);
    connection.set_prepared_statement_cache_capacity(64);
    Ok(())
}

fn schema_number(steps: &[&str]) -> u32 {
    u32::try_from(steps.len()).unwrap_or(u32::MAX)
}

/// Goes the steps that a file has not gone yet, each in a transaction of its own.
pub fn migrate(connection: &mut Connection, steps: &[&str]) -> Result<(), StoreError> {
    let found: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    for (number, step) in (1_u32..).zip(steps).filter(|(number, _)| *number > found) {
        let transaction = connection.transaction()?;
        transaction.execute_batch(step)?;
        transaction.pragma_update(None, "user_version", number)?;
        transaction.commit()?;
    }
    Ok(())
}

/// Keeps a sound copy beside the file before its schema is changed.
pub fn copy_before(connection: &Connection, path: &Path, version: u32) -> Result<PathBuf, StoreError> {
    let stamp = jiff::Timestamp::now().strftime("%Y%m%dT%H%M%SZ").to_string();
    let mut name = path.as_os_str().to_owned();
    name.push(format!(".before-v{}-{stamp}", version + 1));
    let copy = PathBuf::from(name);
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let temporary = tempfile::Builder::new().prefix(".brimful-").tempfile_in(folder)?;
    // The empty file that is there already keeps its mode, so the copy is private too.
    connection.execute("VACUUM INTO ?1", [temporary.path().to_string_lossy()])?;
    let verdict: String =
        Connection::open(temporary.path())?.pragma_query_value(None, "quick_check", |row| row.get(0))?;
    if verdict != "ok" {
        return Err(StoreError::Damaged(verdict));
    }
    temporary.as_file().sync_all()?;
    temporary.persist(&copy).map_err(|error| StoreError::from(error.error))?;
    Ok(copy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::CountedIds;
    use crate::model::id::Ids;

    fn season() -> SeasonId {
        SeasonId::new(CountedIds::new(1).fresh())
    }

    #[test]
    fn a_step_to_a_newer_schema_keeps_the_events_and_a_copy() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.brimful");
        create(&path, season()).unwrap();
        let mut connection = connect(&path).unwrap();
        let copy = copy_before(&connection, &path, 1).unwrap();
        let steps = [MIGRATIONS[0], "CREATE TABLE later (word TEXT NOT NULL) STRICT;"];
        migrate(&mut connection, &steps).unwrap();
        let version: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
        assert_eq!(version, 2);
        assert!(identify(&copy).is_ok());
        drop(connection);
        assert!(matches!(connect(&path), Err(StoreError::Newer { found: 2, known: 1 })));
    }

    #[test]
    fn a_step_that_fails_leaves_the_file_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.brimful");
        create(&path, season()).unwrap();
        let mut connection = connect(&path).unwrap();
        let steps = [MIGRATIONS[0], "CREATE TABLE later (word TEXT); CREATE TABLE later (word TEXT);"];
        assert!(migrate(&mut connection, &steps).is_err());
        let version: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
        assert_eq!(version, 1);
        let later = connection.prepare("SELECT * FROM later");
        assert!(later.is_err());
    }

    #[cfg(unix)]
    #[test]
    fn the_file_and_its_companions_are_private() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.brimful");
        create(&path, season()).unwrap();
        let connection = connect(&path).unwrap();
        connection.execute("INSERT INTO meta (key, value) VALUES ('x', 1)", []).unwrap();
        for entry in folder.path().read_dir().unwrap() {
            let entry = entry.unwrap();
            let mode = entry.metadata().unwrap().permissions().mode() & 0o777;
            assert_eq!(mode, 0o600, "{:?}", entry.file_name());
        }
    }
}
