//! The tables, as SQL.

/// Marks a file as a season: "Brim" in ASCII.
pub const APPLICATION_ID: u32 = 0x4272_696d;

/// The steps from an empty file to today's. Only `event` and `meta` are ever migrated.
pub const MIGRATIONS: &[&str] = &["
    CREATE TABLE event (
        uid    BLOB NOT NULL PRIMARY KEY CHECK (length(uid) = 16),
        device BLOB NOT NULL CHECK (length(device) = 16),
        seq    INTEGER NOT NULL CHECK (seq > 0),
        clock  INTEGER NOT NULL CHECK (clock > 0),
        by     TEXT NOT NULL,
        act    BLOB NOT NULL CHECK (length(act) = 16),
        kind   TEXT NOT NULL,
        body   TEXT NOT NULL,
        hash   BLOB NOT NULL CHECK (length(hash) = 32)
    ) STRICT;
    CREATE INDEX event_by_device ON event (device, seq);
    CREATE INDEX event_by_act ON event (act);
    CREATE INDEX event_in_order ON event (clock, device, seq, uid);
    CREATE TABLE meta (key TEXT NOT NULL PRIMARY KEY, value ANY NOT NULL) STRICT;
"];

/// Made sure of at every open: an event is never changed and never deleted, by nobody.
/// REPLACE deletes first; `recursive_triggers` makes it meet the second trigger.
pub const TRIGGERS: &str = "
    CREATE TRIGGER IF NOT EXISTS event_stays BEFORE UPDATE ON event
        BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END;
    CREATE TRIGGER IF NOT EXISTS event_remains BEFORE DELETE ON event
        BEGIN SELECT RAISE(ABORT, 'an event is never deleted'); END;
";

/// The rows that follow from the events. The laws of cost and units stand beside them as checks.
pub const PROJECTION_TABLES: &str = "
    CREATE TABLE about (
        what INTEGER NOT NULL,
        id   BLOB NOT NULL,
        at   BLOB NOT NULL,
        PRIMARY KEY (what, id, at)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE act (
        act        BLOB NOT NULL PRIMARY KEY,
        device     BLOB NOT NULL,
        by         TEXT NOT NULL,
        at         BLOB NOT NULL,
        seq        INTEGER NOT NULL,
        live       INTEGER NOT NULL,
        steps_back INTEGER NOT NULL,
        undone_by  BLOB
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX act_in_order ON act (at);
    CREATE INDEX act_by_device ON act (device, seq);
    CREATE INDEX act_undoable ON act (device, at) WHERE live AND NOT steps_back;
    CREATE INDEX act_redoable ON act (device) WHERE undone_by IS NOT NULL;
    CREATE TABLE drive (profile TEXT NOT NULL) STRICT;
    CREATE TABLE haul (
        haul  BLOB NOT NULL PRIMARY KEY,
        date  TEXT NOT NULL,
        shop  TEXT NOT NULL,
        at    BLOB NOT NULL,
        refunds INTEGER NOT NULL CHECK (refunds >= 0),
        facts TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE giftbox (
        giftbox   BLOB NOT NULL PRIMARY KEY,
        number    INTEGER NOT NULL,
        twin      INTEGER NOT NULL,
        state     TEXT NOT NULL,
        withdrawn INTEGER NOT NULL,
        at        BLOB NOT NULL,
        facts     TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX giftbox_by_number ON giftbox (number, twin);
    CREATE TABLE lot (
        lot          BLOB NOT NULL PRIMARY KEY,
        haul         BLOB,
        name         TEXT NOT NULL,
        title        TEXT NOT NULL,
        kind         TEXT,
        category     TEXT,
        tote         TEXT,
        units        INTEGER NOT NULL,
        paid         INTEGER,
        facts        TEXT NOT NULL,
        withdrawn    INTEGER NOT NULL,
        at           BLOB NOT NULL,
        last         BLOB NOT NULL,
        unpriced     INTEGER NOT NULL,
        about        INTEGER NOT NULL,
        cost_in      INTEGER NOT NULL,
        units_in     INTEGER NOT NULL,
        on_hand      INTEGER NOT NULL CHECK (on_hand >= 0),
        on_hand_cost INTEGER NOT NULL CHECK (on_hand_cost >= 0),
        aside        INTEGER NOT NULL CHECK (aside >= 0),
        boxed        INTEGER NOT NULL,
        boxed_cost   INTEGER NOT NULL CHECK (boxed_cost >= 0),
        loose        INTEGER NOT NULL,
        loose_cost   INTEGER NOT NULL CHECK (loose_cost >= 0),
        lost         INTEGER NOT NULL,
        lost_cost    INTEGER NOT NULL CHECK (lost_cost >= 0),
        returned     INTEGER NOT NULL,
        returned_cost INTEGER NOT NULL CHECK (returned_cost >= 0),
        passed       INTEGER NOT NULL,
        passed_cost  INTEGER NOT NULL CHECK (passed_cost >= 0),
        bare         INTEGER NOT NULL CHECK (bare >= 0),
        CHECK (cost_in = on_hand_cost + boxed_cost + loose_cost + lost_cost + returned_cost + passed_cost),
        CHECK (on_hand > 0 OR on_hand_cost = 0),
        CHECK (units_in = on_hand + boxed + loose + lost + returned + passed - bare)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX lot_of_haul ON lot (haul);
    CREATE INDEX lot_in_order ON lot (at);
    CREATE INDEX lot_by_title ON lot (title, at);
    CREATE INDEX lot_on_hand ON lot (title) WHERE on_hand > 0 AND NOT withdrawn;
    -- One row of sums, so that no screen has to go over all batches for them. A batch is written by
    -- DELETE and INSERT alone.
    CREATE TABLE total (
        spent    INTEGER NOT NULL,
        unpriced INTEGER NOT NULL,
        doubtful INTEGER NOT NULL,
        on_hand  INTEGER NOT NULL,
        aside    INTEGER NOT NULL
    ) STRICT;
    INSERT INTO total VALUES (0, 0, 0, 0, 0);
    CREATE TRIGGER lot_comes AFTER INSERT ON lot BEGIN
        UPDATE total SET
            spent = spent + iif(new.haul IS NULL, 0, new.cost_in),
            unpriced = unpriced + iif(new.haul IS NOT NULL AND new.unpriced, new.units, 0),
            doubtful = doubtful + (new.haul IS NOT NULL AND new.about AND new.units > 0),
            on_hand = on_hand + new.on_hand,
            aside = aside + new.aside;
    END;
    CREATE TRIGGER lot_goes AFTER DELETE ON lot BEGIN
        UPDATE total SET
            spent = spent - iif(old.haul IS NULL, 0, old.cost_in),
            unpriced = unpriced - iif(old.haul IS NOT NULL AND old.unpriced, old.units, 0),
            doubtful = doubtful - (old.haul IS NOT NULL AND old.about AND old.units > 0),
            on_hand = on_hand - old.on_hand,
            aside = aside - old.aside;
    END;
    CREATE TABLE placement (
        placement BLOB NOT NULL,
        lot       BLOB NOT NULL,
        giftbox   BLOB NOT NULL,
        aside     INTEGER NOT NULL CHECK (aside >= 0),
        units     INTEGER NOT NULL CHECK (units >= 0),
        bare      INTEGER NOT NULL CHECK (bare >= 0 AND bare <= units),
        cost      INTEGER NOT NULL CHECK (cost >= 0 AND (units > bare OR cost = 0)),
        wow       INTEGER NOT NULL,
        inside    BLOB,
        why       TEXT NOT NULL,
        allowed   TEXT,
        allowed_by TEXT,
        at        BLOB NOT NULL,
        -- A placement belongs to one batch; a stranger's file that says otherwise is shown as it is.
        PRIMARY KEY (placement, lot)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX placement_in_box ON placement (giftbox);
    CREATE INDEX placement_of_lot ON placement (lot);
    CREATE TABLE gone (
        event BLOB NOT NULL,
        lot   BLOB NOT NULL,
        way   TEXT NOT NULL,
        units INTEGER NOT NULL,
        bare  INTEGER NOT NULL CHECK (bare >= 0 AND bare <= units),
        cost  INTEGER NOT NULL CHECK (cost >= 0 AND (units > bare OR cost = 0)),
        PRIMARY KEY (event, lot)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX gone_of_lot ON gone (lot);
";

/// The names of those tables, to drop them.
pub const PROJECTION_NAMES: &[&str] =
    &["about", "act", "drive", "haul", "giftbox", "lot", "total", "placement", "gone"];
