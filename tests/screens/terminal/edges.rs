//! A line that can't be kept stays in the line.

use std::process::Command;

use super::seat::{Home, Seat};

/// The bytes of a disk of its own on which there is room for a season, but not for much more.
const SMALL_DISK: &str = "1m";

#[test]
fn a_file_that_another_program_holds_loses_no_words() {
    let home = Home::new();
    home.told(&["log", "comb .50"]);
    let mut seat = home.open(&[]);
    let other = rusqlite::Connection::open(home.file()).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    seat.types("a12 toothbrushes 1.50⏎").waits_for("nother Brimful is writing to this file; nothing was lost");
    seat.waits_for("bought › 12 toothbrushes 1.50");
    other.execute_batch("ROLLBACK").unwrap();
    seat.types("⏎").waits_for("Added 12 toothbrushes.");
}

/// A disk that no other program sees, full to the last byte: made where the system lets one make it.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_loses_no_words() {
    let may_mount = Command::new("unshare").args(["-rm", "true"]).status().is_ok_and(|status| status.success());
    if !may_mount {
        println!("no disk of its own can be made here: not tried");
        return;
    }
    let home = Home::new();
    let disk = home.path("disk");
    std::fs::create_dir(&disk).unwrap();
    let script = format!(
        "mount -t tmpfs -o size={SMALL_DISK} none disk && exec {} --by mira --file disk/season.brimful",
        super::seat::PROGRAM
    );
    let mut seat = Seat::run(home.command("/usr/bin/unshare", &["-rm", "/bin/sh", "-c", &script]), 80, 24);
    seat.waits_for("The table is empty.");
    seat.types("a2 combs .50⏎").waits_for("Logged 1 line, 0.50 paid");
    // The very disk that the program sees.
    let rest = format!("/proc/{}/root{}/rest", seat.pid(), disk.display());
    let filled = std::fs::write(&rest, vec![0; 4 << 20]);
    assert_eq!(filled.unwrap_err().kind(), std::io::ErrorKind::StorageFull);

    seat.types("12 toothbrushes 1.50⏎").waits_for("the disk is full; nothing of this was saved");
    seat.waits_for("bought › 12 toothbrushes 1.50");
    std::fs::remove_file(&rest).unwrap();
    seat.types("⏎").waits_for("Added 12 toothbrushes.");
    seat.back_to("› a writes").back_to("14 on hand");
    seat.quits();
}
