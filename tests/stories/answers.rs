//! The contract with scripts: exit codes, JSON with a version, names for who writes.

use crate::shell::Computer;

#[test]
fn every_answer_has_json_with_a_version() {
    let home = Computer::new();
    home.ok(&["log", "4 combs 1.00, tote 2"]);
    home.ok(&["box", "plan", "girl 6-8 ocean"]);
    home.ok(&["put", "1", "comb"]);
    for args in [
        &["stock"][..],
        &["where-is", "comb"],
        &["box", "list"],
        &["box", "show", "1"],
        &["review"],
        &["review", "--lacks", "toy"],
        &["cost"],
        &["cost", "1"],
        &["cost", "--of", "comb"],
        &["history"],
        &["hauls"],
        &["check"],
        &["paths"],
    ] {
        home.json(args);
    }
    let review = home.json(&["review", "--lacks", "toy"]);
    assert_eq!((&review["boxes"][0]["box"], &review["boxes"][0]["for"]), (&"1".into(), &"girl".into()));
    let step = &home.json(&["history"])["steps"][0];
    assert_eq!(
        (&step["what"], &step["undone"], &step["by"]),
        (&"Put 1 comb into box 1.".into(), &false.into(), &"".into())
    );
}

#[test]
fn exit_codes_are_the_answer() {
    let home = Computer::new();
    home.ok(&["log", "4 combs 1.00"]);
    home.ok(&["box", "plan", "girl 6-8"]);
    for (code, args) in [
        (0, &["review"][..]),
        (1, &["review", "--lacks", "hygiene"]),
        (2, &["review", "--lacks", "treasure"]),
        (1, &["where-is", "anchor"]),
        (0, &["where-is", "comb"]),
        (1, &["put", "1", "9 combs"]),
        (2, &["put", "9", "comb"]),
        (2, &["put", "1"]),
        (2, &["put", "1", "0", "combs"]),
        (2, &["no-such-command"]),
        (2, &["log", "--on", "yesteryear", "comb 1.00"]),
        (0, &["--help"]),
        (0, &["put", "--help"]),
        (0, &["--version"]),
        (0, &["check"]),
        (0, &[]),
    ] {
        let said = home.say(args);
        assert_eq!(said.code, code, "{args:?}: {}{}", said.out, said.err);
        assert_eq!(said.err.is_empty(), code == 0 || !said.out.is_empty(), "{args:?}: {}", said.err);
    }
}

#[test]
fn who_writes_is_said_once_and_never_guessed() {
    let home = Computer::new();
    home.ok(&["log", "comb .50"]);
    home.ok(&["--by", "robin", "log", "soap .50"]);
    home.ok(&["log", "ruler .50"]);
    let by: Vec<String> = (home.json(&["history"])["steps"].as_array().unwrap().iter())
        .map(|step| step["by"].as_str().unwrap().to_owned())
        .collect();
    assert_eq!(by, ["robin", "robin", ""]);
}

#[test]
fn looking_makes_no_file() {
    let home = Computer::new();
    let look = |args: &[&str]| {
        let mut command = home.command(args);
        command.env_remove("BRIMFUL_FILE").env("XDG_DATA_HOME", home.path("data"));
        command.output().unwrap()
    };
    for args in [&["stock"][..], &["box", "list"], &["review"], &["history"], &["cost"], &["paths"], &[]] {
        let output = look(args);
        assert!(output.status.success(), "{args:?}: {}", String::from_utf8_lossy(&output.stderr));
    }
    assert!(!home.path("data").exists());
    let first = String::from_utf8(look(&[]).stdout).unwrap();
    assert!(first.contains("`brimful log` writes it down") && first.contains("plans one"), "{first}");
    let missing = home.no(2, &["stock"]);
    assert!(missing.contains("season.brimful: there is no season there; `brimful log` begins one"), "{missing}");
}

#[test]
fn what_is_typed_never_reaches_the_terminal_raw() {
    let home = Computer::new();
    home.ok(&["log", "comb .50 (\u{1b}]0;owned\u{7}note)", "2 \u{202e}soaps \u{9b}31m.50"]);
    home.ok(&["box", "plan", "girl 6-8 \u{1b}[2Jocean"]);
    home.ok(&["--by", "r\u{1b}[31mobin", "put", "1", "comb", "--why", "\u{1b}[5mblink"]);
    for args in [&["stock", "--batches"][..], &["box", "show", "1"], &["history"], &["box", "list"]] {
        let out = home.ok(args);
        assert!(out.chars().all(|c| c == '\n' || !c.is_control()), "{args:?}: {out:?}");
    }
}
