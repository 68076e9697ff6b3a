//! Rows for the projection.

use std::sync::Arc;

use rusqlite::{OptionalExtension, Params, Row, params};

use super::{Sqlite, code};
use crate::model::category::Category;
use crate::model::event::{Event, Subject};
use crate::model::giftbox::{BoxFacts, BoxState};
use crate::model::haul::HaulFacts;
use crate::model::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, PlacementId};
use crate::model::lot::LotFacts;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::project::{Tables, Told};
use crate::model::rows::{ActRow, Allowance, BoxRow, Folded, HaulRow, LotRow, OutRow, PlacementRow, Standing, Way};
use crate::store::StoreError;

type Read<T> = fn(&Row<'_>) -> rusqlite::Result<T>;

impl Sqlite {
    pub(super) fn one<T>(&self, sql: &str, params: impl Params, read: Read<T>) -> Result<Option<T>, StoreError> {
        Ok(self.connection.prepare_cached(sql)?.query_row(params, read).optional()?)
    }

    pub(super) fn many<T>(&self, sql: &str, params: impl Params, read: Read<T>) -> Result<Vec<T>, StoreError> {
        let mut statement = self.connection.prepare_cached(sql)?;
        let rows = statement.query_map(params, read)?.collect::<Result<_, _>>()?;
        Ok(rows)
    }

    fn write(&self, sql: &str, params: impl Params) -> Result<(), StoreError> {
        self.connection.prepare_cached(sql)?.execute(params)?;
        Ok(())
    }

    fn put_placement(&self, row: &PlacementRow) -> Result<(), StoreError> {
        let sql = "INSERT INTO placement (placement, lot, giftbox, aside, units, bare, cost, wow, inside, why, allowed,
                       allowed_by, at)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)";
        self.write(
            sql,
            params![
                row.placement.bytes(),
                row.lot.bytes(),
                row.giftbox.bytes(),
                row.aside.count(),
                row.units.count(),
                row.bare.count(),
                row.cost.minor(),
                row.wow,
                row.inside.as_ref().map(PlacementId::bytes),
                row.why,
                row.allowed.as_ref().map(|allowed| &allowed.why),
                row.allowed.as_ref().map(|allowed| &allowed.by),
                code::order_key(&row.since),
            ],
        )
    }

    fn put_out(&self, row: &OutRow) -> Result<(), StoreError> {
        let sql = "INSERT INTO gone (event, lot, way, units, bare, cost) VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
        let (units, bare, cost) = (row.units.count(), row.bare.count(), row.cost.minor());
        self.write(sql, params![row.event.bytes(), row.lot.bytes(), way_word(row.way), units, bare, cost])
    }

    fn put_lot_row(&self, row: &LotRow) -> Result<(), StoreError> {
        let sql =
            "INSERT INTO lot (lot, haul, name, title, kind, category, tote, units, paid, facts, withdrawn, at, last,
                       unpriced, about, cost_in, units_in, on_hand, on_hand_cost, aside, boxed, boxed_cost, loose,
                       loose_cost, lost, lost_cost, returned, returned_cost, passed, passed_cost, bare)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19,
                       ?20, ?21, ?22, ?23, ?24, ?25, ?26, ?27, ?28, ?29, ?30, ?31)";
        let (facts, at) = (code::to_json(&row.facts)?, code::order_key(&row.added));
        let Standing { units_in, on_hand, on_hand_cost, aside, boxed, boxed_cost, .. } = row.standing;
        let Standing { loose, loose_cost, lost, lost_cost, returned, returned_cost, passed, passed_cost, bare, .. } =
            row.standing;
        self.write(
            sql,
            params![
                row.lot.bytes(),
                row.haul.as_ref().map(HaulId::bytes),
                row.facts.name,
                row.facts.title(),
                row.facts.kind,
                row.facts.category.as_ref().map(|category| category.word().to_owned()),
                row.facts.tote,
                row.facts.units.count(),
                row.facts.paid.map(Money::minor),
                facts,
                row.withdrawn,
                at,
                row.last.bytes(),
                row.unpriced,
                row.about,
                row.cost_in.minor(),
                units_in.count(),
                on_hand.count(),
                on_hand_cost.minor(),
                aside.count(),
                boxed.count(),
                boxed_cost.minor(),
                loose.count(),
                loose_cost.minor(),
                lost.count(),
                lost_cost.minor(),
                returned.count(),
                returned_cost.minor(),
                passed.count(),
                passed_cost.minor(),
                bare.count(),
            ],
        )
    }
}

fn way_word(way: Way) -> &'static str {
    match way {
        Way::Loose => "loose",
        Way::Lost => "lost",
        Way::Returned => "returned",
        Way::Passed => "passed",
    }
}

fn way_from(word: &str) -> Way {
    match word {
        "loose" => Way::Loose,
        "lost" => Way::Lost,
        "returned" => Way::Returned,
        _ => Way::Passed,
    }
}

fn state_word(state: BoxState) -> &'static str {
    match state {
        BoxState::Open => "open",
        BoxState::Closed => "closed",
        BoxState::HandedIn => "handed_in",
        BoxState::CameBack => "came_back",
        BoxState::Dropped => "dropped",
    }
}

fn state_from(word: &str) -> BoxState {
    match word {
        "closed" => BoxState::Closed,
        "handed_in" => BoxState::HandedIn,
        "came_back" => BoxState::CameBack,
        "dropped" => BoxState::Dropped,
        _ => BoxState::Open,
    }
}

pub(super) const ACT: &str = "SELECT act, device, by, at, live, steps_back, undone_by FROM act";

pub(super) fn act(row: &Row<'_>) -> rusqlite::Result<ActRow> {
    Ok(ActRow {
        act: code::column(row, 0, ActId::from_bytes)?,
        device: code::column(row, 1, DeviceId::from_bytes)?,
        by: row.get(2)?,
        order: code::column(row, 3, code::order_from)?,
        live: row.get(4)?,
        steps_back: row.get(5)?,
        undone_by: code::maybe(row, 6, code::order_from)?,
    })
}

pub(super) const HAUL: &str = "SELECT haul, facts, at, shop, refunds FROM haul";

pub(super) fn haul(row: &Row<'_>) -> rusqlite::Result<HaulRow> {
    // What has a column of its own is read from there, so that no column can drift unseen.
    let facts = HaulFacts { shop: row.get(3)?, ..code::json(row, 1)? };
    Ok(HaulRow {
        haul: code::column(row, 0, HaulId::from_bytes)?,
        facts,
        refunds: code::money(row, 4)?,
        logged: code::column(row, 2, code::order_from)?,
    })
}

pub(super) const GIFTBOX: &str = "SELECT giftbox, facts, twin, state, withdrawn, at, number FROM giftbox";

pub(super) fn giftbox(row: &Row<'_>) -> rusqlite::Result<BoxRow> {
    Ok(BoxRow {
        giftbox: code::column(row, 0, BoxId::from_bytes)?,
        facts: BoxFacts { number: row.get(6)?, ..code::json(row, 1)? },
        twin: row.get(2)?,
        state: state_from(&row.get::<_, String>(3)?),
        withdrawn: row.get(4)?,
        planned: code::column(row, 5, code::order_from)?,
    })
}

pub(super) const LOT: &str =
    "SELECT lot, haul, facts, withdrawn, at, last, unpriced, about, cost_in, units_in, on_hand,
    on_hand_cost, aside, boxed, boxed_cost, loose, loose_cost, lost, lost_cost, passed, passed_cost, bare,
    name, category, tote, paid, kind, units, returned, returned_cost FROM lot";

pub(super) fn lot(row: &Row<'_>) -> rusqlite::Result<LotRow> {
    let standing = Standing {
        units_in: code::units(row, 9)?,
        on_hand: code::units(row, 10)?,
        on_hand_cost: code::money(row, 11)?,
        aside: code::units(row, 12)?,
        boxed: code::units(row, 13)?,
        boxed_cost: code::money(row, 14)?,
        loose: code::units(row, 15)?,
        loose_cost: code::money(row, 16)?,
        lost: code::units(row, 17)?,
        lost_cost: code::money(row, 18)?,
        returned: code::units(row, 28)?,
        returned_cost: code::money(row, 29)?,
        passed: code::units(row, 19)?,
        passed_cost: code::money(row, 20)?,
        bare: code::units(row, 21)?,
    };
    let facts = LotFacts {
        name: row.get(22)?,
        category: row.get::<_, Option<String>>(23)?.map(Category::from),
        tote: row.get(24)?,
        paid: row.get::<_, Option<i64>>(25)?.map(Money::total),
        kind: row.get(26)?,
        units: code::units(row, 27)?,
        ..code::json(row, 2)?
    };
    Ok(LotRow {
        lot: code::column(row, 0, LotId::from_bytes)?,
        haul: code::maybe(row, 1, HaulId::from_bytes)?,
        facts,
        withdrawn: row.get(3)?,
        added: code::column(row, 4, code::order_from)?,
        last: code::column(row, 5, EventId::from_bytes)?,
        unpriced: row.get(6)?,
        about: row.get(7)?,
        cost_in: code::money(row, 8)?,
        standing,
    })
}

pub(super) const PLACEMENT: &str = "SELECT placement, lot, giftbox, aside, units, bare, cost, wow, inside, why, allowed, allowed_by, at FROM placement";

pub(super) fn placement(row: &Row<'_>) -> rusqlite::Result<PlacementRow> {
    Ok(PlacementRow {
        placement: code::column(row, 0, PlacementId::from_bytes)?,
        lot: code::column(row, 1, LotId::from_bytes)?,
        giftbox: code::column(row, 2, BoxId::from_bytes)?,
        aside: code::units(row, 3)?,
        units: code::units(row, 4)?,
        bare: code::units(row, 5)?,
        cost: code::money(row, 6)?,
        wow: row.get(7)?,
        inside: code::maybe(row, 8, PlacementId::from_bytes)?,
        why: row.get(9)?,
        allowed: allowance(row.get(10)?, row.get(11)?),
        since: code::column(row, 12, code::order_from)?,
    })
}

fn allowance(why: Option<String>, by: Option<String>) -> Option<Allowance> {
    why.map(|why| Allowance { why, by: by.unwrap_or_default() })
}

pub(super) const OUT: &str = "SELECT event, lot, way, units, bare, cost FROM gone";

pub(super) fn out(row: &Row<'_>) -> rusqlite::Result<OutRow> {
    Ok(OutRow {
        event: code::column(row, 0, EventId::from_bytes)?,
        lot: code::column(row, 1, LotId::from_bytes)?,
        way: way_from(&row.get::<_, String>(2)?),
        units: code::units(row, 3)?,
        bare: code::units(row, 4)?,
        cost: code::money(row, 5)?,
    })
}

impl Tables for Sqlite {
    type Error = StoreError;

    fn events_about(&self, subject: Subject) -> Result<Vec<Told>, StoreError> {
        let (what, id) = code::subject_key(&subject);
        let sql = format!(
            "SELECT {}, COALESCE(act.live, 1) FROM about JOIN event ON event.uid = substr(about.at, 33)
             LEFT JOIN act ON act.act = event.act WHERE about.what = ?1 AND about.id = ?2 ORDER BY about.at",
            code::EVENT
        );
        let rows = self.many(&sql, params![what, id], |row| Ok((code::kept(row)?, row.get(9)?)))?;
        rows.into_iter().map(|(kept, live)| Ok(Told { event: Arc::new(kept.event()?), live })).collect()
    }

    fn events_of(&self, act: ActId) -> Result<Vec<Arc<Event>>, StoreError> {
        let sql = format!("SELECT {} FROM event WHERE act = ?1 ORDER BY clock, device, seq, uid", code::EVENT);
        let rows = self.many(&sql, [act.bytes()], code::kept)?;
        rows.into_iter().map(|kept| Ok(Arc::new(kept.event()?))).collect()
    }

    fn act(&self, id: ActId) -> Result<Option<ActRow>, StoreError> {
        self.one(&format!("{ACT} WHERE act = ?1"), [id.bytes()], act)
    }

    fn lot(&self, id: LotId) -> Result<Option<LotRow>, StoreError> {
        self.one(&format!("{LOT} WHERE lot = ?1"), [id.bytes()], lot)
    }

    fn lots_of(&self, id: HaulId) -> Result<Vec<LotRow>, StoreError> {
        self.many(&format!("{LOT} WHERE haul = ?1 ORDER BY at"), [id.bytes()], lot)
    }

    fn outs_of(&self, event: EventId) -> Result<Vec<OutRow>, StoreError> {
        self.many(&format!("{OUT} WHERE event = ?1 ORDER BY lot"), [event.bytes()], out)
    }

    fn giftbox(&self, id: BoxId) -> Result<Option<BoxRow>, StoreError> {
        self.one(&format!("{GIFTBOX} WHERE giftbox = ?1"), [id.bytes()], giftbox)
    }

    fn boxes_numbered(&self, number: u32) -> Result<Vec<BoxRow>, StoreError> {
        self.many(&format!("{GIFTBOX} WHERE number = ?1"), [number], giftbox)
    }

    fn haul(&self, id: HaulId) -> Result<Option<HaulRow>, StoreError> {
        self.one(&format!("{HAUL} WHERE haul = ?1"), [id.bytes()], haul)
    }

    fn put_act(&mut self, row: &ActRow) -> Result<(), StoreError> {
        let sql = "INSERT OR REPLACE INTO act (act, device, by, at, seq, live, steps_back, undone_by)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)";
        let (at, seq) = (code::order_key(&row.order), code::int(row.order.seq));
        let undone = row.undone_by.as_ref().map(code::order_key);
        let (act, device) = (row.act.bytes(), row.device.bytes());
        self.write(sql, params![act, device, row.by, at, seq, row.live, row.steps_back, undone])
    }

    fn put_lot(&mut self, folded: &Folded) -> Result<(), StoreError> {
        self.drop_lot(folded.row.lot)?;
        self.put_lot_row(&folded.row)?;
        folded.placements.iter().try_for_each(|row| self.put_placement(row))?;
        folded.outs.iter().try_for_each(|row| self.put_out(row))
    }

    fn drop_lot(&mut self, id: LotId) -> Result<(), StoreError> {
        for table in ["lot", "placement", "gone"] {
            self.write(&format!("DELETE FROM {table} WHERE lot = ?1"), [id.bytes()])?;
        }
        Ok(())
    }

    fn put_box(&mut self, row: &BoxRow) -> Result<(), StoreError> {
        let sql = "INSERT OR REPLACE INTO giftbox (giftbox, number, twin, state, withdrawn, at, facts)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)";
        let (number, state, at) = (row.facts.number, state_word(row.state), code::order_key(&row.planned));
        let (giftbox, facts) = (row.giftbox.bytes(), code::to_json(&row.facts)?);
        self.write(sql, params![giftbox, number, row.twin, state, row.withdrawn, at, facts])
    }

    fn drop_box(&mut self, id: BoxId) -> Result<(), StoreError> {
        self.write("DELETE FROM giftbox WHERE giftbox = ?1", [id.bytes()])
    }

    fn put_haul(&mut self, row: &HaulRow) -> Result<(), StoreError> {
        let sql = "INSERT OR REPLACE INTO haul (haul, date, shop, at, refunds, facts)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
        let (date, at) = (row.facts.date.to_string(), code::order_key(&row.logged));
        self.write(
            sql,
            params![row.haul.bytes(), date, row.facts.shop, at, row.refunds.minor(), code::to_json(&row.facts)?],
        )
    }

    fn drop_haul(&mut self, id: HaulId) -> Result<(), StoreError> {
        self.write("DELETE FROM haul WHERE haul = ?1", [id.bytes()])
    }

    fn put_profile(&mut self, profile: Option<&Profile>) -> Result<(), StoreError> {
        self.write("DELETE FROM drive", [])?;
        match profile {
            Some(profile) => self.write("INSERT INTO drive (profile) VALUES (?1)", [code::to_json(profile)?]),
            None => Ok(()),
        }
    }
}
