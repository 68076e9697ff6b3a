//! Sudden ends, closed pipes, and two at once.

use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;

use crate::shell::Computer;

/// Killed fifty times in the middle of logging: what was acknowledged is there, nothing is half there.
#[test]
fn killed_while_logging() {
    let home = Computer::new();
    home.ok(&["log", "--at", "before", "comb .50"]);
    let mut acknowledged = 0_usize;
    let mut cut_short = 0;
    for round in 0..50_u64 {
        let lines: Vec<String> = (0..40).map(|n| format!("2 combs r{round}n{n}q .50")).collect();
        let mut args = vec!["log"];
        args.extend(lines.iter().map(String::as_str));
        let mut child = home.command(&args).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        // At a moment that is another one in each round, from at once to long after it is done.
        std::thread::sleep(std::time::Duration::from_micros(round * 700));
        child.kill().unwrap();
        let mut told = String::new();
        child.stdout.take().unwrap().read_to_string(&mut told).unwrap();
        child.wait().unwrap();
        if told.starts_with("Logged 40 lines") {
            acknowledged += 1;
        } else {
            cut_short += 1;
        }
    }
    let hauls = home.json(&["hauls"])["hauls"].as_array().unwrap().clone();
    let hauls: Vec<_> = hauls.iter().filter(|haul| haul["shop"] != "before").collect();
    assert!(hauls.len() >= acknowledged, "{} hauls of {acknowledged} acknowledged", hauls.len());
    assert!(hauls.iter().all(|haul| haul["lines"] == 40), "half a haul");
    assert!(home.ok(&["check"]).starts_with("All is well"));
    println!("{acknowledged} acknowledged, {cut_short} cut short, {} kept", hauls.len());
    assert!(cut_short > 0, "no round was cut short: this test killed nobody");
    home.ok(&["log", "soap .50"]);
    assert!(home.ok(&["undo"]).starts_with("Took back: Logged 1 line"));
}

#[test]
fn two_writers_at_once_lose_nothing() {
    let home = Computer::new();
    home.ok(&["log", "60 combs 6.00"]);
    home.ok(&["box", "plan", "2 6-8"]);
    std::thread::scope(|scope| {
        for label in ["1", "2"] {
            let home = &home;
            scope.spawn(move || (0..20).for_each(|_| _ = home.ok(&["put", label, "comb"])));
        }
    });
    for label in ["1", "2"] {
        assert_eq!(home.json(&["box", "show", label])["things"], 20);
    }
    assert_eq!(home.json(&["stock"])["on_hand"], 20);
    assert!(home.ok(&["check"]).starts_with("All is well"));
}

/// Two take the last ones at once: one gets them, the other is told; on hand never goes below none.
#[test]
fn two_who_want_the_last_ones() {
    let home = Computer::new();
    home.ok(&["log", "10 combs 1.00"]);
    home.ok(&["box", "plan", "2 6-8"]);
    let got: i32 = std::thread::scope(|scope| {
        let run = |label: &'static str| {
            let home = &home;
            scope.spawn(move || (0..8).map(|_| 1 - home.say(&["put", label, "comb"]).code).sum::<i32>())
        };
        let (one, two) = (run("1"), run("2"));
        one.join().unwrap() + two.join().unwrap()
    });
    assert_eq!(got, 10);
    assert_eq!(home.json(&["stock"])["on_hand"], 0);
    assert!(!home.ok(&["review"]).contains("than there were"));
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let home = Computer::new();
    home.ok(&["sample", "here"]);
    let file = home.path("here/season.brimful");
    let args = ["--file", file.to_str().unwrap(), "history", "100000"];
    let mut child = home.command(&args).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut first = String::new();
    BufReader::with_capacity(16, child.stdout.take().unwrap()).read_line(&mut first).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success() && output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_finds_no_room_is_an_error() {
    let home = Computer::new();
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = home.command(&["profile"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("standard output can't be written"));
}

#[test]
fn bytes_that_are_no_text_do_no_harm() {
    let home = Computer::new();
    std::fs::write(home.path("noise.txt"), (0..=255_u8).cycle().take(4000).collect::<Vec<u8>>()).unwrap();
    assert!(home.no(2, &["log", "--from", "noise.txt"]).contains("this is no text file"));
    let noise = std::fs::File::open(home.path("noise.txt")).unwrap();
    let output = home.command(&["read"]).stdin(noise).output().unwrap();
    assert!(output.status.code().is_some());
    assert!(!String::from_utf8_lossy(&output.stderr).contains("panicked"));
}
