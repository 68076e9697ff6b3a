//! A person at one computer, with a folder and a season's file of their own.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

/// What a call came to.
#[derive(Debug)]
pub struct Said {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// One computer: its folder holds the season's file and the computer's own state.
pub struct Computer {
    folder: tempfile::TempDir,
}

impl Computer {
    pub fn new() -> Computer {
        Computer { folder: tempfile::tempdir().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn file(&self) -> PathBuf {
        self.path("season.brimful")
    }

    pub fn write(&self, name: &str, text: &str) -> PathBuf {
        std::fs::write(self.path(name), text).unwrap();
        self.path(name)
    }

    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_brimful"));
        command
            .args(args)
            .current_dir(self.folder.path())
            .env_clear()
            .env("HOME", self.folder.path())
            .env("TZ", "UTC")
            .env("BRIMFUL_FILE", self.file())
            .env("BRIMFUL_STATE", self.path("state"))
            .env("BRIMFUL_CONFIG", self.path("config"))
            .env("BRIMFUL_TODAY", "2027-10-14");
        command
    }

    pub fn tell(&self, args: &[&str], input: &str) -> Said {
        let mut command = self.command(args);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        Said {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    pub fn say(&self, args: &[&str]) -> Said {
        self.tell(args, "")
    }

    /// A call that must succeed; what it printed.
    pub fn ok(&self, args: &[&str]) -> String {
        let said = self.say(args);
        assert_eq!(said.code, 0, "{args:?}: {}{}", said.out, said.err);
        said.out
    }

    /// A call whose answer must be no, or that must be refused; what it complained of.
    pub fn no(&self, code: i32, args: &[&str]) -> String {
        let said = self.say(args);
        assert_eq!(said.code, code, "{args:?}: {}{}", said.out, said.err);
        said.err
    }

    /// A call's answer as JSON.
    pub fn json(&self, args: &[&str]) -> Value {
        let said = self.say(&[args, &["--json"]].concat());
        assert!(said.code < 2, "{args:?}: {}", said.err);
        let value: Value = serde_json::from_str(&said.out).unwrap();
        assert_eq!(value["version"], 1);
        value
    }

    /// All that is shown of the season, to compare two of them by.
    pub fn shown(&self) -> Vec<Value> {
        [&["stock", "--batches"][..], &["box", "list"], &["review", "--all"], &["cost"], &["hauls"]]
            .iter()
            .map(|args| self.json(args))
            .collect()
    }

    pub fn join(&self, other: &Path) -> String {
        self.ok(&["join", other.to_str().unwrap()])
    }
}

/// The line of a table that begins with these words.
pub fn line<'t>(text: &'t str, begin: &str) -> &'t str {
    text.lines().find(|line| line.trim_start().starts_with(begin)).unwrap_or_else(|| panic!("no {begin:?} in\n{text}"))
}
