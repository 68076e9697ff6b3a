//! What a season is asked.

use jiff::civil::Date;
use rusqlite::{Row, params};

use super::{Sqlite, code, tables};
use crate::model::category::Category;
use crate::model::checklist::Held;
use crate::model::commit::Holdings;
use crate::model::event::Event;
use crate::model::id::{BoxId, DeviceId, EventId, HaulId, LotId, PlacementId, SeasonId};
use crate::model::kept::Kept;
use crate::model::money::KnownSum;
use crate::model::profile::Profile;
use crate::model::rows::{ActRow, BoxRow, HaulRow, LotRow, OutRow, PlacementRow, known};
use crate::store::{CommitError, Committed, InBox, Joined, NewAct, Store, StoreError, Totals};

impl Sqlite {
    /// The event with this id as stored.
    pub(super) fn stored(&self, uid: EventId) -> Result<Option<Kept>, StoreError> {
        self.one(&format!("SELECT {} FROM event WHERE uid = ?1", code::EVENT), [uid.bytes()], code::kept)
    }
}

const IN_BOX: &str = "SELECT giftbox, category, kind, wow, placement.units, placement.aside, cost, unpriced, about
    FROM placement JOIN lot ON lot.lot = placement.lot";

fn in_box(row: &Row<'_>) -> rusqlite::Result<InBox> {
    let (units, cost) = (code::units(row, 4)?, code::money(row, 6)?);
    let (unpriced, about): (bool, bool) = (row.get(7)?, row.get(8)?);
    let held = Held {
        category: row.get::<_, Option<String>>(1)?.map(Category::from),
        kind: row.get(2)?,
        wow: row.get(3)?,
        units,
        aside: code::units(row, 5)?,
    };
    Ok(InBox { giftbox: code::column(row, 0, BoxId::from_bytes)?, held, cost: known(cost, units, unpriced, about) })
}

impl Holdings for Sqlite {
    fn placement(&self, placement: PlacementId) -> Result<Option<PlacementRow>, StoreError> {
        let sql = format!("{} WHERE placement = ?1 ORDER BY at LIMIT 1", tables::PLACEMENT);
        self.one(&sql, [placement.bytes()], tables::placement)
    }

    fn placements_in(&self, giftbox: BoxId) -> Result<Vec<PlacementRow>, StoreError> {
        let sql = format!("{} WHERE giftbox = ?1 ORDER BY at, placement", tables::PLACEMENT);
        self.many(&sql, [giftbox.bytes()], tables::placement)
    }

    fn profile(&self) -> Result<Option<Profile>, StoreError> {
        self.one("SELECT profile FROM drive", [], |row| code::json(row, 0))
    }

    fn keeps_amounts(&self) -> Result<bool, StoreError> {
        let found = self.one("SELECT EXISTS (SELECT 1 FROM lot WHERE paid IS NOT NULL)", [], |row| row.get(0))?;
        Ok(found.unwrap_or(false))
    }
}

impl Store for Sqlite {
    fn season(&self) -> SeasonId {
        self.season
    }

    fn commit(&mut self, act: &NewAct) -> Result<Committed, CommitError> {
        self.in_transaction(|store| store.keep(act))
    }

    fn join(&mut self, theirs: &[Kept]) -> Result<Joined, StoreError> {
        self.in_transaction(|store| store.take_in(theirs))
    }

    fn rebuild(&mut self) -> Result<(), StoreError> {
        self.in_transaction(Sqlite::make_anew)
    }

    fn unsound(&self) -> Result<Vec<String>, StoreError> {
        let found = self.many("PRAGMA quick_check", [], |row| row.get::<_, String>(0))?;
        Ok(found.into_iter().filter(|line| line != "ok").collect())
    }

    fn kept(&self) -> Result<Vec<Kept>, StoreError> {
        self.many(&format!("SELECT {} FROM event ORDER BY clock, device, seq, uid", code::EVENT), [], code::kept)
    }

    fn newest_of(&self, device: DeviceId) -> Result<Option<(u64, EventId)>, StoreError> {
        let sql = "SELECT seq, uid FROM event WHERE device = ?1 ORDER BY seq DESC, uid DESC LIMIT 1";
        self.one(sql, [device.bytes()], |row| Ok((code::number(row, 0)?, code::column(row, 1, EventId::from_bytes)?)))
    }

    fn at(&self, device: DeviceId, seq: u64) -> Result<Option<EventId>, StoreError> {
        let sql = "SELECT uid FROM event WHERE device = ?1 AND seq = ?2 ORDER BY uid DESC LIMIT 1";
        self.one(sql, params![device.bytes(), code::int(seq)], |row| code::column(row, 0, EventId::from_bytes))
    }

    fn foreign_commits(&self) -> Result<i64, StoreError> {
        let version = self.one("PRAGMA data_version", [], |row| row.get(0))?;
        Ok(version.unwrap_or_default())
    }

    fn each_lot(&self, see: &mut dyn FnMut(LotRow)) -> Result<(), StoreError> {
        let mut statement = self.connection.prepare_cached(&format!("{} ORDER BY title, at", tables::LOT))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            see(tables::lot(row)?);
        }
        Ok(())
    }

    fn lots(&self) -> Result<Vec<LotRow>, StoreError> {
        self.many(&format!("{} ORDER BY at", tables::LOT), [], tables::lot)
    }

    fn lots_titled(&self, title: &str) -> Result<Vec<LotRow>, StoreError> {
        self.many(&format!("{} WHERE title = ?1 ORDER BY at", tables::LOT), [title], tables::lot)
    }

    fn titles_on_hand(&self, limit: usize) -> Result<Vec<String>, StoreError> {
        let sql = "SELECT DISTINCT title FROM lot WHERE on_hand > 0 AND NOT withdrawn ORDER BY title LIMIT ?1";
        self.many(sql, [code::int(limit as u64)], |row| row.get(0))
    }

    fn totals(&self) -> Result<Totals, StoreError> {
        let sql = "SELECT spent, unpriced, doubtful, on_hand, aside, (SELECT COUNT(*) FROM haul) FROM total";
        let read = |row: &Row<'_>| {
            let (known, unpriced) = (code::money(row, 0)?, code::number(row, 1)?);
            let spent = KnownSum { known, unpriced, about: code::number(row, 2)? > 0 };
            let (on_hand, aside) = (code::number(row, 3)?, code::number(row, 4)?);
            Ok(Totals { spent, on_hand, aside, hauls: code::number(row, 5)? })
        };
        Ok(self.one(sql, [], read)?.unwrap_or_default())
    }

    fn latest_haul(&self, date: Date) -> Result<Option<HaulId>, StoreError> {
        let sql = "SELECT haul FROM haul WHERE date = ?1 ORDER BY at DESC LIMIT 1";
        self.one(sql, [date.to_string()], |row| code::column(row, 0, HaulId::from_bytes))
    }

    fn in_boxes(&self) -> Result<Vec<InBox>, StoreError> {
        self.many(&format!("{IN_BOX} ORDER BY giftbox, placement.at, placement"), [], in_box)
    }

    fn in_box(&self, giftbox: BoxId) -> Result<Vec<InBox>, StoreError> {
        let sql = format!("{IN_BOX} WHERE giftbox = ?1 ORDER BY placement.at, placement");
        self.many(&sql, [giftbox.bytes()], in_box)
    }

    fn boxes(&self) -> Result<Vec<BoxRow>, StoreError> {
        self.many(&format!("{} ORDER BY number, twin", tables::GIFTBOX), [], tables::giftbox)
    }

    fn hauls(&self) -> Result<Vec<HaulRow>, StoreError> {
        self.many(&format!("{} ORDER BY at", tables::HAUL), [], tables::haul)
    }

    fn placements(&self) -> Result<Vec<PlacementRow>, StoreError> {
        self.many(&format!("{} ORDER BY at, placement", tables::PLACEMENT), [], tables::placement)
    }

    fn placements_of(&self, lot: LotId) -> Result<Vec<PlacementRow>, StoreError> {
        let sql = format!("{} WHERE lot = ?1 ORDER BY at, placement", tables::PLACEMENT);
        self.many(&sql, [lot.bytes()], tables::placement)
    }

    fn outs(&self) -> Result<Vec<OutRow>, StoreError> {
        self.many(&format!("{} ORDER BY event, lot", tables::OUT), [], tables::out)
    }

    fn acts(&self, limit: usize) -> Result<Vec<ActRow>, StoreError> {
        let sql = format!("{} ORDER BY at DESC LIMIT ?1", tables::ACT);
        self.many(&sql, [code::int(limit as u64)], tables::act)
    }

    fn deeds(&self, limit: usize) -> Result<Vec<ActRow>, StoreError> {
        let sql = format!("{} WHERE NOT steps_back ORDER BY at DESC LIMIT ?1", tables::ACT);
        self.many(&sql, [code::int(limit as u64)], tables::act)
    }

    fn undoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError> {
        let sql = format!("{} WHERE device = ?1 AND live AND NOT steps_back ORDER BY at DESC LIMIT 1", tables::ACT);
        self.one(&sql, [device.bytes()], tables::act)
    }

    fn redoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError> {
        // Only what this device undid after the last new thing it did can be brought again.
        let newest = "SELECT seq FROM act WHERE device = ?1 AND NOT steps_back ORDER BY seq DESC LIMIT 1";
        let newest = self.one(newest, [device.bytes()], |row| code::number(row, 0))?.unwrap_or(0);
        let sql = format!("{} WHERE device = ?1 AND NOT steps_back AND undone_by IS NOT NULL", tables::ACT);
        let undone = self.many(&sql, [device.bytes()], tables::act)?;
        let later = undone.into_iter().filter_map(|row| row.undone_by.map(|by| (by, row)));
        let own = later.filter(|(by, _)| by.device == device && by.seq > newest);
        Ok(own.max_by_key(|(by, _)| by.seq).map(|(_, row)| row))
    }

    fn counts(&self) -> Result<Vec<Event>, StoreError> {
        let sql = format!(
            "SELECT {} FROM event JOIN act ON act.act = event.act WHERE kind = 'counted' AND act.live
             ORDER BY clock, event.device, event.seq, uid",
            code::EVENT
        );
        let rows = self.many(&sql, [], code::kept)?;
        rows.into_iter().map(|kept| Ok(kept.event()?)).collect()
    }
}
