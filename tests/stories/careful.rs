//! What can hurt and what a drive forbids: refused with its reason, allowed with one, and told.

use crate::shell::Computer;

/// Two boxes and a few things that want care.
fn stocked() -> Computer {
    let home = Computer::new();
    home.ok(&[
        "log",
        "12 balloons .60",
        "a pack of 40 marbles .60",
        "4 combs .40",
        "2 shampoos 1.00",
        "3 whistles .30",
    ]);
    home.ok(&["box", "plan", "2 girl 6-8"]);
    home.ok(&["box", "plan", "girl 9-12"]);
    home
}

#[test]
fn a_balloon_stays_out_of_the_box_of_a_six_year_old_until_somebody_gives_a_reason() {
    let home = stocked();
    let no = home.tell(&["put", "1", "balloon"], "");
    assert_eq!(no.code, 1);
    for words in [
        "balloons: not for this age, box 1 for 6–8.",
        "Children under 8 can choke or suffocate",
        "Source: 16 CFR 1500.19(b)(2).",
        "The drive's own list and local law decide; this is no certification.",
        "`--allow \"reason\"`",
    ] {
        assert!(no.err.contains(words), "{words}: {}", no.err);
    }
    assert_eq!(home.json(&["box", "show", "1"])["things"], 0, "nothing was half done");
    assert_eq!(home.tell(&["aside", "1", "balloon"], "").code, 1, "nor is it set aside");
    home.ok(&["put", "3", "balloon"]);

    home.ok(&["put", "1", "balloon", "--allow", "the drive hands them out blown up"]);
    // Once allowed in this box, one more of it is.
    home.ok(&["put", "1", "balloon"]);
    assert_eq!(home.tell(&["put", "2", "balloon"], "").code, 1, "in another box it is not");
    let card = home.json(&["box", "show", "1"]);
    assert_eq!(card["cautions"][0]["allowed"], "the drive hands them out blown up");
    assert_eq!(card["cautions"][0]["level"], "not-for-age");
    assert!(home.ok(&["box", "show", "1"]).contains("✗ balloons: not for this age; allowed: the drive hands"));
    home.ok(&["box", "close", "1"]);
}

#[test]
fn a_box_with_something_forbidden_in_it_is_not_closed() {
    let home = stocked();
    home.ok(&["put", "3", "balloon"]);
    // The box is for younger children now.
    home.ok(&["box", "edit", "3", "girl 6-8"]);
    let found = home.tell(&["cautions"], "");
    assert_eq!(found.code, 1);
    assert!(found.out.contains("Box 3, 6–8\n ✗ balloons: not for this age\n"), "{}", found.out);
    let no = home.tell(&["box", "close", "3"], "");
    assert_eq!(
        (no.code, no.err.trim_end()),
        (1, "brimful: Box 3 holds balloons: not for this age. Take it out, or allow it with a reason that is kept.")
    );
    let allowed = home.ok(&["--by", "ann", "allow", "3", "balloon", "--why", "no longer six"]);
    assert!(allowed.starts_with("Allowed balloons in box 3: no longer six."), "{allowed}");
    assert!(home.ok(&["history"]).contains("Allowed balloons in box 3: no longer six."));
    assert!(home.ok(&["cautions", "3"]).contains("not for this age; allowed by ann: no longer six"));
    home.ok(&["allow", "3", "balloon", "--no-longer"]);
    assert_eq!(home.tell(&["cautions", "3"], "").code, 1);
    home.ok(&["undo"]);
    home.ok(&["box", "close", "3"]);
}

#[test]
fn what_wants_a_look_goes_in_and_says_so() {
    let home = stocked();
    let said = home.ok(&["put", "1", "shampoo"]);
    assert!(said.contains("Look twice: shampoos, liquids."), "{said}");
    let told = home.ok(&["cautions", "1"]);
    assert!(told.contains(" ! shampoos: look twice\n") && told.contains("To do: close it well"), "{told}");
    assert!(home.ok(&["cautions", "comb"]).starts_with("Nothing known to be careful of: combs."));
    // For the parent: it goes in without a word, and the sheet's sentence stands ready.
    let said = home.ok(&["put", "3", "marbles"]);
    assert!(!said.contains("marbles,"), "{said}");
    let marble = &home.json(&["cautions", "3"])["cautions"][0];
    assert_eq!(marble["level"], "tell-parent");
    assert!(marble["sheet"].as_str().unwrap().starts_with("Marbles: please keep them away"));
}

const RULES: &str = r#"
name = "Quillhaven Gift Box Drive 2027"
currency = "USD"
checklist = [{ category = "hygiene", count = 1 }]
[[band]]
ages = [6, 8]
[[band]]
ages = [9, 12]
[[rule]]
words = ["whistle"]
level = "forbidden"
reason = "they disturb the classes"
[[rule]]
about = "balloon"
level = "allow"
ages = [6, 8]
reason = "a helper blows them up"
"#;

#[test]
fn a_drive_forbids_and_allows_in_its_own_words() {
    let home = stocked();
    home.write("rules.toml", RULES);
    home.ok(&["profile", "rules.toml"]);
    let no = home.tell(&["put", "3", "whistle"], "");
    assert_eq!(no.code, 1);
    assert!(
        no.err.contains("whistles: the drive forbids it, box 3 for 9–12. Your drive forbids it: they disturb"),
        "{}",
        no.err
    );
    home.ok(&["put", "1", "balloon"]);
    // Its own rules come back from the file as they were written.
    let toml = home.ok(&["profile"]);
    assert!(toml.contains("they disturb the classes") && toml.contains("a helper blows them up"), "{toml}");
}

#[test]
fn a_thing_bought_for_a_box_that_may_not_have_it_is_logged_and_not_set_aside() {
    let home = stocked();
    let said = home.ok(&["log", "2 balloons .20 for box 1", "1 comb .10 for box 1"]);
    assert!(said.contains("Not set aside: balloons: not for this age, box 1 for 6–8."), "{said}");
    let card = home.json(&["box", "show", "1"]);
    assert_eq!((&card["aside"], &card["contents"][0]["name"]), (&1.into(), &"comb".into()));
}

#[test]
fn a_kit_is_judged_by_what_is_in_it() {
    let home = stocked();
    home.ok(&["kit", "party bag", "--with", "2 balloons", "--with", "comb"]);
    let no = home.tell(&["put", "1", "party bag"], "");
    assert!(no.code == 1 && no.err.contains("balloons: not for this age"), "{no:?}");
    // Nor do they get past it as one batch of two.
    home.ok(&["kit", "party bag", "--with", "balloon", "--with", "comb"]);
    home.ok(&["combine", "party bag"]);
    let no = home.tell(&["put", "1", "party bag"], "");
    assert!(no.code == 1 && no.err.contains("balloons: not for this age"), "{no:?}");
}

#[test]
fn a_rule_about_a_caution_that_nobody_knows_is_refused_by_name() {
    let home = stocked();
    home.write("rules.toml", &RULES.replace("about = \"balloon\"", "about = \"baloon\""));
    let no = home.tell(&["profile", "rules.toml"], "");
    assert_eq!(no.code, 2);
    assert!(
        no.err.contains("rule.about: no built-in caution is called \"baloon\"; there is small-part,"),
        "{}",
        no.err
    );
}
