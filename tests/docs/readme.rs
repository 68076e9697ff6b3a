//! Every `console` block of the README is run, in order, and what it shows must be what comes out.
//!
//! `BLESS=1 cargo test --test docs` writes what came out into the README, to be read before it is kept.

use std::path::{Path, PathBuf};
use std::process::Command;

fn readme_path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")
}

/// A place to run the README's commands in, one after the other.
struct Place {
    folder: tempfile::TempDir,
    exported: Vec<(String, String)>,
}

impl Place {
    fn new() -> Place {
        Place { folder: tempfile::tempdir().unwrap(), exported: Vec::new() }
    }

    /// Runs one command line in a shell and gives all that it printed.
    fn run(&mut self, line: &str, shown: &str) -> String {
        if let Some((name, value)) = line.strip_prefix("export ").and_then(|rest| rest.split_once('=')) {
            self.exported.push((name.to_owned(), value.to_owned()));
            return String::new();
        }
        if let Some(file) = line.strip_prefix("cat ") {
            // The text that the page shows is the text that the next command reads.
            std::fs::write(self.folder.path().join(file), shown).unwrap();
        }
        let bin = Path::new(env!("CARGO_BIN_EXE_brimful")).parent().unwrap();
        let path = format!("{}:{}", bin.display(), std::env::var("PATH").unwrap());
        // A dollar sign in double quotes is money here, as a reader would type it in the line itself.
        let line = line.replace("for $3", "for \\$3");
        let output = Command::new("sh")
            .args(["-c", &format!("exec 2>&1; {line}")])
            .current_dir(self.folder.path())
            .env_clear()
            .env("PATH", path)
            .env("HOME", self.folder.path())
            .env("TZ", "UTC")
            .env("BRIMFUL_STATE", "state")
            .env("BRIMFUL_CONFIG", "config")
            .env("BRIMFUL_TODAY", "2027-10-14")
            .envs(self.exported.iter().cloned())
            .output()
            .unwrap();
        String::from_utf8(output.stdout).unwrap()
    }
}

/// The README with what its commands really print in place of what it shows.
fn played(page: &str) -> String {
    let mut place = Place::new();
    let mut out = String::new();
    let mut lines = page.lines().peekable();
    let mut inside = false;
    while let Some(line) = lines.next() {
        out.push_str(line);
        out.push('\n');
        inside = if inside { line != "```" } else { line == "```console" };
        let Some(command) = line.strip_prefix("$ ").filter(|_| inside) else { continue };
        let mut shown = String::new();
        while let Some(next) = lines.next_if(|next| !next.starts_with("$ ") && *next != "```") {
            shown.push_str(next);
            shown.push('\n');
        }
        out.push_str(&place.run(command, &shown));
    }
    out
}

/// Times of day differ from run to run.
fn without_clock(text: &str) -> String {
    let line = |line: &str| match line.as_bytes() {
        [b'2', b'0', _, _, b'-', _, _, b'-', _, _, b' ', _, _, b':', ..] => format!("DAY TIME{}", &line[16..]),
        _ => line.to_owned(),
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n")
}

/// Five letters that are new in every run.
fn without_handles(text: &str) -> String {
    let mut hauls = false;
    let line = |line: &str| {
        hauls = ["$ brimful hauls", "$ brimful settle"].contains(&line) || (hauls && !line.starts_with('$'));
        if hauls && line.len() > 6 && line.as_bytes()[6] == b' ' {
            format!(" -----{}", &line[6..])
        } else {
            line.to_owned()
        }
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_readme_shows_what_comes_out() {
    let page = std::fs::read_to_string(readme_path()).unwrap();
    let out = played(&page);
    let same = |text: &str| without_handles(&without_clock(text));
    if std::env::var_os("BLESS").is_some() && same(&out) != same(&page) {
        std::fs::write(readme_path(), &out).unwrap();
    }
    for (number, (shown, real)) in (1..).zip(same(&page).lines().zip(same(&out).lines())) {
        assert_eq!(shown, real, "README.md, about line {number}");
    }
    assert_eq!(same(&page).lines().count(), same(&out).lines().count());
}

#[test]
fn the_readme_shows_every_command() {
    let page = std::fs::read_to_string(readme_path()).unwrap();
    for (call, told) in [(vec!["--help"], "brimful "), (vec!["box", "--help"], "brimful box ")] {
        let help = Command::new(env!("CARGO_BIN_EXE_brimful")).args(&call).output().unwrap();
        let help = String::from_utf8(help.stdout).unwrap();
        let names = help.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
        let names: Vec<&str> = names.filter_map(|line| line.split_whitespace().next()).collect();
        assert!(names.len() > 8, "{names:?}");
        for name in names.iter().filter(|name| **name != "help") {
            assert!(page.contains(&format!("{told}{name}")), "README.md has no example of `{told}{name}`");
        }
    }
}

#[test]
fn its_two_commands_stand_on_lines_of_their_own() {
    let page = std::fs::read_to_string(readme_path()).unwrap();
    let commands: Vec<&str> = page.lines().filter_map(|line| line.strip_prefix("    cargo ")).collect();
    assert_eq!(commands, ["run --release -- sample", "test --locked"]);
}
