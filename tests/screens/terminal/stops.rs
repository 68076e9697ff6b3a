//! Whatever stops the program, the terminal is left as one would want to find it.

use brimful::season::{Moment, State};
use brimful::tui::{Guard, Notes};

use super::seat::{Home, Seat, until};

/// Set for a copy of this very program that is to panic in a terminal.
const TO_PANIC: &str = "BRIMFUL_TEST_PANICS";

#[track_caller]
fn is_ended_by(signal: &str, told: &str) {
    let home = Home::new();
    let mut seat = home.open(&["sample"]);
    seat.waits_for("Checklist of box");
    assert!(!seat.takes_lines_as_before() && seat.ask(vt100::Screen::alternate_screen));
    seat.signals(signal);
    let ended = seat.ends();
    assert_eq!(ended.signal(), Some(told), "{ended}");
    seat.is_left_tidy();
}

#[test]
fn a_request_to_end_leaves_the_terminal_tidy() {
    is_ended_by("TERM", "Terminated");
}

#[test]
fn a_closed_line_leaves_the_terminal_tidy() {
    is_ended_by("HUP", "Hangup");
}

#[test]
fn an_interrupt_from_outside_leaves_the_terminal_tidy() {
    is_ended_by("INT", "Interrupt");
}

/// The letter of how a process stands: T is stopped.
fn state_of(pid: u32) -> char {
    let stat = std::fs::read_to_string(format!("/proc/{pid}/stat")).unwrap();
    // The name before it may hold anything, also a bracket.
    stat.rsplit_once(") ").unwrap().1.chars().next().unwrap()
}

#[cfg(target_os = "linux")]
#[track_caller]
fn is_put_aside_and_comes_back(seat: &mut Seat, put_aside: impl Fn(&mut Seat)) {
    put_aside(seat);
    until("it is stopped", || state_of(seat.pid()) == 'T');
    seat.waits("the usual screen is back", |screen| !screen.alternate_screen());
    seat.is_left_tidy();
    seat.signals("CONT");
    seat.waits_for("bought › 12 toothbrushes 1.5");
    assert!(seat.ask(vt100::Screen::alternate_screen) && seat.ask(vt100::Screen::bracketed_paste));
    assert!(!seat.takes_lines_as_before());
}

#[cfg(target_os = "linux")]
#[test]
fn ctrl_z_puts_it_aside_and_coming_back_finds_every_word() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.types("a12 toothbrushes 1.5").waits_for("bought › 12 toothbrushes 1.5");
    is_put_aside_and_comes_back(&mut seat, |seat| seat.sends(b"\x1a"));
    // By a signal, and a second time.
    is_put_aside_and_comes_back(&mut seat, |seat| seat.signals("TSTP"));
    seat.types("0⏎").waits_for("Logged 1 line, 1.50 paid");
    seat.back_to("› a writes").back_to("Items");
    seat.quits();
}

/// Runs one test of this very program in a terminal.
fn myself(home: &Home, test: &str) -> Seat {
    let program = std::env::current_exe().unwrap();
    let name = format!("terminal::stops::{test}");
    let args = ["--exact", &name, "--nocapture", "--test-threads=1"];
    let mut command = home.command(program.to_str().unwrap(), &args);
    command.env(TO_PANIC, "1");
    Seat::run(command, 80, 24)
}

/// The terminal, taken by a program that is to panic.
fn taken() -> Guard {
    let clock = Box::new(|| Moment { now_millis: 0, today: jiff::civil::date(2027, 10, 14) });
    let state = State::new(std::env::var_os("BRIMFUL_STATE").unwrap().into());
    Guard::enter(true, Notes { state, clock }).unwrap()
}

/// What the program noted of its end.
fn note(home: &Home) -> String {
    std::fs::read_to_string(home.path("state/crash-2027-10-14.txt")).unwrap()
}

fn is_to_panic() -> bool {
    std::env::var_os(TO_PANIC).is_some()
}

#[test]
fn a_panic_is_told_on_the_usual_screen() {
    if is_to_panic() {
        let _guard = taken();
        println!("drawn before");
        panic!("the table broke");
    }
    let home = Home::new();
    let mut seat = myself(&home, "a_panic_is_told_on_the_usual_screen");
    assert!(!seat.ends().success());
    assert!(seat.wrote().contains("\x1b[?1049h"), "it never took the screen");
    seat.waits_for("stopped where it should not have").waits_without("drawn before");
    assert!(note(&home).contains("the table broke"), "{}", note(&home));
    seat.is_left_tidy();
}

#[test]
fn a_panic_behind_the_screens_ends_the_program() {
    if is_to_panic() {
        let _guard = taken();
        _ = std::thread::spawn(|| panic!("the shelf broke")).join();
        println!("and goes on");
        return;
    }
    let home = Home::new();
    let mut seat = myself(&home, "a_panic_behind_the_screens_ends_the_program");
    assert_eq!(seat.ends().exit_code(), 101);
    seat.waits_for("stopped where it should not have").waits_without("and goes on");
    assert!(note(&home).contains("the shelf broke"), "{}", note(&home));
    seat.is_left_tidy();
}
