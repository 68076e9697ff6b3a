//! Files that are not as they should be: each is refused for its own reason, and left as it was.

use std::process::Command;

use rusqlite::Connection;

use crate::shell::Computer;

fn begun() -> Computer {
    let home = Computer::new();
    home.ok(&["log", "4 combs 1.00"]);
    home.ok(&["box", "plan", "6-8"]);
    home
}

/// Runs each kind of call on a file and holds that all refuse it, that it is not changed, and why.
fn refused(home: &Computer, name: &str, why: &str) {
    let path = home.path(name);
    let before = std::fs::read(&path).unwrap();
    let file = path.to_str().unwrap();
    for args in [&["stock"][..], &["log", "comb 1.00"], &["undo"], &["check"], &["rebuild"]] {
        let err = home.no(2, &[&["--file", file], args].concat());
        assert!(err.contains(why), "{args:?}: {err}");
        assert!(err.contains(name), "{args:?} says which file: {err}");
    }
    let good = begun();
    let err = good.no(2, &["join", file]);
    assert!(err.contains(why) && err.contains(name), "{err}");
    assert_eq!(good.json(&["stock"])["on_hand"], 4);
    assert_eq!(std::fs::read(&path).unwrap(), before, "{name} was changed");
}

#[test]
fn a_file_that_is_no_database() {
    let home = Computer::new();
    home.write("letter.txt", &"Dear diary. ".repeat(1000));
    refused(&home, "letter.txt", "it isn't a database");
}

#[test]
fn a_database_of_another_program() {
    let home = Computer::new();
    let other = Connection::open(home.path("other.db")).unwrap();
    other.execute_batch("CREATE TABLE event (uid TEXT); INSERT INTO event VALUES ('x');").unwrap();
    drop(other);
    refused(&home, "other.db", "a database of another program");
}

#[test]
fn a_file_of_a_newer_program() {
    let home = begun();
    let season = Connection::open(home.file()).unwrap();
    season.pragma_update(None, "user_version", 7).unwrap();
    drop(season);
    refused(&home, "season.brimful", "a newer Brimful wrote this file (version 7, this one knows 1)");
}

#[test]
fn a_damaged_file() {
    let home = begun();
    let mut bytes = std::fs::read(home.file()).unwrap();
    // The second page on: the header still says what file it is.
    let end = bytes.len();
    bytes[4096..end].fill(0x5a);
    std::fs::write(home.path("torn.brimful"), bytes).unwrap();
    let file = home.path("torn.brimful");
    let err = home.no(2, &["--file", file.to_str().unwrap(), "stock"]);
    assert!(err.contains("the file is damaged"), "{err}");
    let good = begun();
    let err = good.no(2, &["join", file.to_str().unwrap()]);
    assert!(err.contains("the file is damaged"), "{err}");
    assert!(good.ok(&["check"]).starts_with("All is well"));
}

#[test]
fn one_changed_byte_of_an_event_is_named_and_never_joined() {
    let home = begun();
    let season = Connection::open(home.file()).unwrap();
    let changed = "DROP TRIGGER event_stays; UPDATE event SET body = replace(body, '\"units\":4', '\"units\":5')";
    season.execute_batch(changed).unwrap();
    drop(season);
    let said = home.say(&["check"]);
    assert_eq!(said.code, 1, "{}{}", said.out, said.err);
    assert!(said.out.contains("is damaged: its bytes don't fit their hash"), "{}", said.out);
    let good = begun();
    let err = good.no(2, &["join", home.file().to_str().unwrap()]);
    assert!(err.contains("its bytes don't fit their hash"), "{err}");
    assert_eq!(good.json(&["stock"])["on_hand"], 4);
}

#[test]
fn rows_that_drifted_are_found_and_made_anew() {
    let home = begun();
    let season = Connection::open(home.file()).unwrap();
    season.execute_batch("UPDATE giftbox SET number = 99; DELETE FROM act").unwrap();
    drop(season);
    let said = home.say(&["check"]);
    assert_eq!(said.code, 1);
    assert!(
        said.out.contains("what is shown of boxes doesn't follow") && said.out.contains("brimful rebuild"),
        "{}",
        said.out
    );
    home.ok(&["rebuild"]);
    assert!(home.ok(&["check"]).starts_with("All is well"));
    assert!(home.ok(&["box", "show", "1"]).starts_with("Box 1"));
}

#[test]
fn triggers_that_were_dropped_stand_again_at_the_next_opening() {
    let home = begun();
    Connection::open(home.file())
        .unwrap()
        .execute_batch("DROP TRIGGER event_stays; DROP TRIGGER event_remains")
        .unwrap();
    home.ok(&["stock"]);
    let season = Connection::open(home.file()).unwrap();
    for sql in ["UPDATE event SET by = 'eve'", "DELETE FROM event"] {
        assert!(season.execute(sql, []).unwrap_err().to_string().contains("an event is never"));
    }
}

#[test]
fn an_empty_file_is_begun() {
    let home = Computer::new();
    home.write("season.brimful", "");
    home.ok(&["log", "comb 1.00"]);
    assert_eq!(home.json(&["stock"])["on_hand"], 1);
}

/// As somebody who may read the file but write nowhere near it.
#[cfg(unix)]
#[test]
fn a_place_that_cant_be_written_to_can_still_be_read() {
    use std::os::unix::fs::PermissionsExt;
    use std::os::unix::process::CommandExt;

    let home = begun();
    let (file, folder) = (home.file(), home.path("."));
    let mode =
        |path: &std::path::Path, mode| std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    mode(&file, 0o444);
    mode(&folder, 0o555);
    // No mode stops the superuser, who therefore becomes somebody else for this.
    let id = Command::new("id").arg("-u").output().unwrap();
    let superuser = id.stdout.starts_with(b"0\n");
    let run = |args: &[&str]| {
        // The copy of the program lies where anybody may run it.
        let open = tempfile::tempdir().unwrap();
        mode(open.path(), 0o777);
        let program = open.path().join("brimful");
        std::fs::copy(env!("CARGO_BIN_EXE_brimful"), &program).unwrap();
        let mut command = Command::new(&program);
        command
            .args(args)
            .env_clear()
            .env("HOME", open.path())
            .env("BRIMFUL_FILE", &file)
            .env("BRIMFUL_STATE", open.path());
        command.current_dir(open.path());
        if superuser {
            command.uid(65534).gid(65534);
        }
        let output = command.output().unwrap();
        (
            output.status.code().unwrap(),
            String::from_utf8(output.stdout).unwrap(),
            String::from_utf8(output.stderr).unwrap(),
        )
    };
    let (code, out, err) = run(&["stock"]);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("combs"), "{out}");
    let (code, _, err) = run(&["put", "1", "comb"]);
    assert_eq!(code, 2);
    assert!(err.contains("this place can't be written to; nothing was saved"), "{err}");
    mode(&folder, 0o755);
    mode(&file, 0o644);
    assert_eq!(home.json(&["stock"])["on_hand"], 4);
}

#[cfg(target_os = "linux")]
#[test]
fn a_new_file_where_none_can_be_is_refused() {
    let home = Computer::new();
    let err = home.no(2, &["--file", "/proc/season.brimful", "log", "comb 1.00"]);
    assert!(err.contains("/proc/season.brimful") && err.contains("can't be written to"), "{err}");
}

/// A disk of 600 kB that fills up while hauls are logged, in a mount that only this script sees.
#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_fills_up() {
    const SCRIPT: &str = "mount -t tmpfs -o size=600k tmpfs \"$1\" || exit 77\n\
        export BRIMFUL_FILE=\"$1/s.brimful\" BRIMFUL_STATE=\"$2\"\n\
        logged=0\n\
        while \"$3\" log --again '2 combs 1.00' '3 soaps .50' '4 cups .50' >/dev/null 2>\"$2/err\"; do\n\
            logged=$((logged + 1)); [ $logged -lt 2000 ] || exit 1\n\
        done\n\
        cat \"$2/err\"; echo \"logged $logged\"; \"$3\" check; \"$3\" hauls | grep -c '^ .....  20'\n";
    let home = Computer::new();
    let (disk, state) = (home.path("disk"), home.path("state"));
    std::fs::create_dir_all(&disk).unwrap();
    std::fs::create_dir_all(&state).unwrap();
    let run = |flags: &str| {
        let mut command = Command::new("unshare");
        command.args([flags, "sh", "-c", SCRIPT, "sh"]).args([&disk, &state]).arg(env!("CARGO_BIN_EXE_brimful"));
        command.output().ok().filter(|output| output.status.success())
    };
    // The superuser may mount; others may where the system lets them have a world of their own.
    let Some(output) = run("-m").or_else(|| run("-rm")) else {
        println!(
            "this system lets nobody mount a small disk here; what a full one does is tried in store::sqlite alone"
        );
        return;
    };
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.contains("s.brimful: the disk is full; nothing of this was saved."), "{out}");
    assert!(out.contains("All is well"), "{out}");
    let number = |line: &str| line.trim_start_matches("logged ").parse::<u32>().unwrap();
    let logged = number(out.lines().find(|line| line.starts_with("logged ")).unwrap());
    assert!(logged > 3, "{out}");
    assert_eq!(number(out.lines().last().unwrap()), logged, "what was acknowledged is there, and nothing else: {out}");
}
