//! Another computer's file: foreign input, looked at in a copy so that it is never touched.

use std::path::Path;

use rusqlite::Connection;

use super::code;
use super::open::identify;
use super::schema::MIGRATIONS;
use crate::model::kept::Kept;
use crate::store::StoreError;

/// The events of another season's file, each checked; refused whole if anything is wrong with it.
pub fn read_foreign(path: &Path) -> Result<Vec<Kept>, StoreError> {
    identify(path)?;
    let copy = private_copy(path)?;
    let connection = Connection::open(copy.path().join(NAME))?;
    connection.pragma_update(None, "trusted_schema", "OFF")?;
    connection.pragma_update(None, "cell_size_check", "ON")?;
    let found: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let known = u32::try_from(MIGRATIONS.len()).unwrap_or(u32::MAX);
    if found > known {
        return Err(StoreError::Newer { found, known });
    }
    let verdict: String = connection.pragma_query_value(None, "quick_check", |row| row.get(0))?;
    if verdict != "ok" {
        return Err(StoreError::Damaged(verdict));
    }
    let sql = format!("SELECT {} FROM event ORDER BY clock, device, seq, uid", code::EVENT);
    let mut statement = connection.prepare(&sql)?;
    let events = statement.query_map([], code::kept)?.collect::<Result<Vec<Kept>, _>>()?;
    for kept in &events {
        kept.event()?;
    }
    Ok(events)
}

/// The name of the file inside [`private_copy`].
pub const NAME: &str = "season.brimful";

/// A copy of a file, and of what was written but not yet settled into it, in a folder of its own.
pub fn private_copy(path: &Path) -> Result<tempfile::TempDir, StoreError> {
    let folder = tempfile::Builder::new().prefix("brimful-").tempdir()?;
    let copy = folder.path().join(NAME);
    std::fs::copy(path, &copy)?;
    let mut wal = path.as_os_str().to_owned();
    wal.push("-wal");
    if Path::new(&wal).exists() {
        std::fs::copy(&wal, folder.path().join("season.brimful-wal"))?;
    }
    #[cfg(unix)]
    for entry in std::fs::read_dir(folder.path())? {
        // A copy of a read-only file is read-only; this one is ours to open.
        use std::os::unix::fs::PermissionsExt;
        std::fs::set_permissions(entry?.path(), std::fs::Permissions::from_mode(0o600))?;
    }
    Ok(folder)
}
