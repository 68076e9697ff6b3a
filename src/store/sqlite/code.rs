//! Between the model's types and what lies in columns.

use rusqlite::types::Type;
use rusqlite::{Error, Row};
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::model::event::{Clock, Order, Subject};
use crate::model::id::{DeviceId, EventId};
use crate::model::kept::Kept;
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::store::StoreError;

/// An order as bytes that sort the same way: clock, device, seq, uid.
pub fn order_key(order: &Order) -> [u8; 48] {
    let mut key = [0; 48];
    key[..8].copy_from_slice(&order.clock.kept().to_be_bytes());
    key[8..24].copy_from_slice(order.device.bytes());
    key[24..32].copy_from_slice(&order.seq.to_be_bytes());
    key[32..].copy_from_slice(order.uid.bytes());
    key
}

/// The order that a key stands for.
pub fn order_from(key: &[u8]) -> Option<Order> {
    let number = |part: &[u8]| part.try_into().ok().map(u64::from_be_bytes);
    Some(Order {
        clock: Clock::from_kept(number(key.get(..8)?)?)?,
        device: DeviceId::from_bytes(key.get(8..24)?)?,
        seq: number(key.get(24..32)?)?,
        uid: EventId::from_bytes(key.get(32..48)?)?,
    })
}

/// A subject as two columns.
pub fn subject_key(subject: &Subject) -> (i64, &[u8]) {
    match subject {
        Subject::Act(act) => (0, act.bytes()),
        Subject::Profile => (1, &[]),
        Subject::Haul(haul) => (2, haul.bytes()),
        Subject::Box(giftbox) => (3, giftbox.bytes()),
        Subject::Lot(lot) => (4, lot.bytes()),
        Subject::Placement(placement) => (5, placement.bytes()),
        Subject::Lessons => (6, &[]),
    }
}

/// A count as SQLite's integer; every kept count fits.
pub fn int(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

fn wrong(column: usize, kind: Type) -> Error {
    Error::FromSqlConversionFailure(column, kind, "a column holds something that was never written there".into())
}

/// Reads a column through a function that may find it impossible.
pub fn column<T>(row: &Row<'_>, index: usize, read: impl FnOnce(&[u8]) -> Option<T>) -> Result<T, Error> {
    let bytes = row.get_ref(index)?.as_blob().map_err(|_| wrong(index, Type::Blob))?;
    read(bytes).ok_or_else(|| wrong(index, Type::Blob))
}

/// The same for a column that may be NULL.
pub fn maybe<T>(row: &Row<'_>, index: usize, read: impl FnOnce(&[u8]) -> Option<T>) -> Result<Option<T>, Error> {
    let bytes = row.get_ref(index)?.as_blob_or_null().map_err(|_| wrong(index, Type::Blob))?;
    bytes.map(|bytes| read(bytes).ok_or_else(|| wrong(index, Type::Blob))).transpose()
}

/// A count of units.
pub fn units(row: &Row<'_>, index: usize) -> Result<Units, Error> {
    let count: u32 = row.get(index)?;
    // A sum of several counts may pass the most that one may name.
    Ok(Units::total(count))
}

/// An amount.
pub fn money(row: &Row<'_>, index: usize) -> Result<Money, Error> {
    Ok(Money::total(row.get(index)?))
}

/// A non-negative number.
pub fn number(row: &Row<'_>, index: usize) -> Result<u64, Error> {
    let number: i64 = row.get(index)?;
    u64::try_from(number).map_err(|_| wrong(index, Type::Integer))
}

/// A value kept as JSON text.
pub fn json<T: DeserializeOwned>(row: &Row<'_>, index: usize) -> Result<T, Error> {
    let text: String = row.get(index)?;
    serde_json::from_str(&text).map_err(|e| Error::FromSqlConversionFailure(index, Type::Text, Box::new(e)))
}

/// A value as JSON text.
pub fn to_json<T: Serialize>(value: &T) -> Result<String, StoreError> {
    serde_json::to_string(value).map_err(|e| StoreError::Io(e.to_string()))
}

/// The columns of an event, in the order [`kept`] reads them.
pub const EVENT: &str =
    "event.uid, event.device, event.seq, event.clock, event.by, event.act, event.kind, event.body, event.hash";

/// An event as stored.
pub fn kept(row: &Row<'_>) -> Result<Kept, Error> {
    Ok(Kept {
        uid: column(row, 0, EventId::from_bytes)?,
        device: column(row, 1, DeviceId::from_bytes)?,
        seq: number(row, 2)?,
        clock: number(row, 3)?,
        by: row.get(4)?,
        act: column(row, 5, crate::model::id::ActId::from_bytes)?,
        kind: row.get(6)?,
        body: row.get(7)?,
        hash: column(row, 8, |bytes| bytes.try_into().ok())?,
    })
}

impl From<Error> for StoreError {
    fn from(error: Error) -> StoreError {
        use rusqlite::ErrorCode;
        match error.sqlite_error_code() {
            Some(ErrorCode::NotADatabase) => StoreError::NotADatabase,
            Some(ErrorCode::DiskFull) => StoreError::Full,
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Locked,
            Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied) => StoreError::ReadOnly,
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::ConstraintViolation | ErrorCode::TypeMismatch) => {
                StoreError::Damaged(error.to_string())
            }
            Some(_) => StoreError::Io(error.to_string()),
            None => StoreError::Damaged(error.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids};

    #[test]
    fn keys_sort_as_orders_do_and_come_back() {
        let mut ids = CountedIds::new(3);
        let mut order = |millis, seq| {
            let clock = Clock::default().next(millis);
            Order { clock, device: ids.device(), seq, uid: ids.event() }
        };
        let orders = [order(9, 1), order(300, 2), order(70_000, 300), order(70_000, 5)];
        for a in &orders {
            assert_eq!(order_from(&order_key(a)).unwrap(), *a);
            for b in &orders {
                assert_eq!(order_key(a).cmp(&order_key(b)), a.cmp(b));
            }
        }
    }
}
