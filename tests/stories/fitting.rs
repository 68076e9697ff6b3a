//! Does the lid close: asked of small boxes whose answer anybody can work out, and of the sample's.

use crate::shell::Computer;

const RULES: &str = "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\n\
                     checklist = [{ category = \"school\", count = 2 }, { category = \"toy\", count = 1 }]\n\
                     [box]\ninside_mm = [120, 330, 200]\nweight_limit_g = 1500\n[[band]]\nages = [6, 8]\n";

/// A drive with a box of 330 × 200 × 120 mm, one box planned, and things in it that were measured.
fn packed(things: &[(&str, &str)]) -> Computer {
    let home = Computer::new();
    home.write("rules.toml", RULES);
    home.ok(&["profile", "rules.toml"]);
    home.ok(&["box", "plan", "girl 6-8 ocean"]);
    for (name, measures) in things {
        home.ok(&["log", "--open-price", &format!("{name} {measures}")]);
        home.ok(&["put", "1", name]);
    }
    home
}

#[test]
fn without_the_size_of_the_box_it_says_how_to_give_it() {
    let home = Computer::new();
    home.ok(&["box", "plan", "girl 6-8 ocean"]);
    let told = home.no(1, &["fit", "1"]);
    assert!(told.contains("inside_mm = [330, 200, 120]"), "{told}");
    home.no(2, &["fit", "7"]);
    home.no(2, &["fit"]);
}

#[test]
fn an_empty_box_has_nothing_to_fit() {
    let home = packed(&[]);
    assert!(home.ok(&["fit", "1"]).contains("Nothing is in it or set aside for it yet."));
    assert_eq!(home.no(1, &["fit", "1", "--closes"]), "brimful: Nothing is in box 1.\n");
}

#[test]
fn what_fits_is_told_with_the_way_to_pack_it() {
    let home = packed(&[("storybook", "240x170x12 mm"), ("board game", "300x190x60 mm")]);
    let told = home.json(&["fit", "1", "--tries", "50"]);
    assert_eq!((&told["fits"], &told["answer"], &told["why"]), (&true.into(), &"fits".into(), &"It all fits.".into()));
    let order = told["order"].as_array().unwrap();
    let things: Vec<&str> = order.iter().map(|step| step["thing"].as_str().unwrap()).collect();
    assert_eq!(order.len(), 2, "{things:?}");
    // 300 × 190 × 60 and 240 × 170 × 12 of 330 × 200 × 120: 3 909 600 of 7 920 000.
    let filled = &told["filled"];
    let taken = filled["stiff"].as_i64().unwrap() + filled["soft"].as_i64().unwrap();
    assert!((492..=494).contains(&taken), "{filled}");
    let text = home.ok(&["fit", "1", "--tries", "50"]);
    assert!(text.starts_with("Box 1 · girl 6–8, ocean\nIt all fits. The lid closes"), "{text}");
    assert!(text.contains(" 1. Lay in ") && text.contains("mm above the bottom:"), "{text}");
}

#[test]
fn two_that_never_go_in_together_are_named_until_somebody_says_that_the_lid_closes() {
    let home = packed(&[("board game", "300x190x70 mm"), ("puzzle", "280x190x60 mm")]);
    let told = home.say(&["fit", "1", "--tries", "50"]);
    assert_eq!(told.code, 1);
    assert!(told.out.contains("each go in, but never both"), "{}", told.out);
    let said = home.ok(&["fit", "1", "--closes"]);
    assert_eq!(
        said,
        "Noted that the lid of box 1 closes. `brimful undo` takes it back.\nIt holds until something more goes in.\n"
    );
    let told = home.ok(&["fit", "1", "--tries", "50"]);
    assert!(told.contains("The lid closes: You said so.\nBy the sizes: It can't fit"), "{told}");
    // What is only taken out leaves it closed; what goes in asks anew.
    home.ok(&["take", "1", "puzzle"]);
    assert_eq!(home.json(&["fit", "1", "--tries", "50"])["lid_said"], "The lid closes: You said so.");
    home.ok(&["put", "1", "puzzle"]);
    assert_eq!(home.json(&["fit", "1", "--tries", "50"])["lid_said"], "The lid closes: You said so.");
    home.ok(&["log", "--open-price", "toy car 60x60x40 mm"]);
    home.ok(&["put", "1", "toy car"]);
    assert_eq!(home.json(&["fit", "1", "--tries", "50"])["lid_said"], "");
    home.ok(&["undo"]);
    assert_eq!(home.json(&["fit", "1", "--tries", "50"])["fits"], true);
}

#[test]
fn what_is_set_aside_counts_but_nobody_has_seen_the_lid_over_it() {
    let home = packed(&[("board game", "300x190x70 mm")]);
    home.ok(&["--by", "ann", "fit", "1", "--closes"]);
    assert_eq!(home.json(&["fit", "1", "--tries", "50"])["lid_said"], "The lid closes: ann said so.");
    home.ok(&["log", "--open-price", "puzzle 280x190x60 mm"]);
    home.ok(&["aside", "1", "puzzle"]);
    let told = home.say(&["fit", "1", "--tries", "50"]);
    assert_eq!(told.code, 1);
    let note = "1 thing is only set aside for it. Without what is set aside: The lid closes: ann said so.";
    assert!(told.out.contains(note), "{}", told.out);
}

#[test]
fn a_closed_box_has_closed() {
    let home = packed(&[("board game", "300x190x70 mm"), ("puzzle", "280x190x60 mm")]);
    home.ok(&["box", "close", "1"]);
    let told = home.ok(&["fit", "1", "--tries", "50"]);
    assert!(told.contains("The lid closes: You closed the box with all that is in it."), "{told}");
}

#[test]
fn what_nobody_measured_is_named_and_the_rest_answered() {
    let home = packed(&[("storybook", "240x170x12 mm")]);
    home.ok(&["log", "--open-price", "thingamajig as toy"]);
    home.ok(&["put", "1", "thingamajig"]);
    let told = home.say(&["fit", "1", "--tries", "50"]);
    assert_eq!(told.code, 1);
    let why = "Nobody can tell yet: the size isn't known of thingamajig. Without it: It all fits.";
    assert!(told.out.contains(why), "{}", told.out);
    assert!(told.out.contains("nobody knows what thingamajig weighs"), "{}", told.out);
}

#[test]
fn what_was_measured_once_holds_for_all_of_the_kind() {
    let home = packed(&[]);
    home.ok(&["log", "--open-price", "2 thingamajigs as toy"]);
    home.ok(&["put", "1", "2", "thingamajigs"]);
    assert!(home.ok(&["size"]).contains("Nothing was measured yet"));
    let said = home.ok(&["size", "thingamajig", "28", "x", "19", "x", "7", "cm"]);
    assert!(said.starts_with("Thingamajig is 280 × 190 × 70 mm from now on."), "{said}");
    let told = home.json(&["fit", "1", "--tries", "50"]);
    assert_eq!(told["why"], "It can't fit: two of thingamajig never go in together.");
    home.ok(&["size", "thingamajig", "300x190x50mm"]);
    assert_eq!(home.ok(&["size"]), "thingamajig               300 × 190 × 50 mm\n");
    let told = home.json(&["fit", "1", "--tries", "50"]);
    assert_eq!((&told["answer"], &told["sizes_typical"]), (&"fits".into(), &serde_json::json!([])));
    assert!(home.no(2, &["size", "thingamajig", "300x190mm"]).contains("is no size; say three sides"));
}

#[test]
fn a_box_over_the_weight_is_told() {
    let home = packed(&[("storybook", "240x170x12 mm 1620 g")]);
    let told = home.say(&["fit", "1", "--tries", "50"]);
    assert_eq!(told.code, 1);
    let heavy = "Too heavy: it weighs 1.620 kg, 0.120 kg over the 1.500 kg that the drive allows.";
    assert!(told.out.starts_with(&format!("Box 1 · girl 6–8, ocean\n{heavy}\nIt all fits. ")), "{}", told.out);
    let json = home.say(&["fit", "1", "--tries", "50", "--json"]);
    assert_eq!(json.code, 1);
    let told: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!((&told["fits"], &told["too_heavy"]), (&true.into(), &heavy.into()));
}

#[test]
fn things_tucked_in_are_put_into_their_holder_first() {
    let home = packed(&[("pencil case", "210x90x40 mm")]);
    home.ok(&["log", "--open-price", "2 erasers 40x20x10 mm", "ruler 300x30x3 mm"]);
    home.ok(&["put", "1", "2 erasers", "--inside", "pencil case"]);
    home.ok(&["aside", "1", "ruler"]);
    let told = home.json(&["fit", "1", "--tries", "50"]);
    let first = &told["order"][0];
    assert_eq!(
        (&first["thing"], &first["count"], &first["into"]),
        (&"eraser".into(), &2.into(), &"pencil case".into())
    );
}

#[test]
fn what_it_still_needs_and_would_drop_in_is_named() {
    let home = packed(&[("storybook", "240x170x12 mm as school")]);
    home.ok(&["log", "--open-price", "toy car 60x60x40 mm", "toy castle 500x400x300 mm"]);
    let told = home.json(&["fit", "1", "--tries", "50"]);
    assert_eq!(told["drops_in"], serde_json::json!(["toy car"]));
}

#[test]
fn each_box_of_the_sample_gets_an_answer() {
    let home = Computer::new();
    home.ok(&["sample", "here"]);
    let file = home.path("here/season.brimful");
    for label in 1..=24 {
        let said = home.say(&["--file", file.to_str().unwrap(), "fit", &label.to_string(), "--tries", "40", "--json"]);
        let told: serde_json::Value = serde_json::from_str(&said.out).unwrap();
        assert_eq!(said.code, i32::from(told["fits"] != true), "{}{}", said.out, said.err);
        let answers = ["empty", "fits", "tight", "not_found", "impossible", "sizes_unknown"];
        assert!(answers.contains(&told["answer"].as_str().unwrap()), "box {label}");
        // What is left out and what is put in are all the things that have a size.
        let counts =
            |list: &str| -> u64 { told[list].as_array().unwrap().iter().map(|it| it["count"].as_u64().unwrap()).sum() };
        let (packed, left) = (counts("order"), counts("left_out"));
        let there = home.json(&["--file", file.to_str().unwrap(), "box", "show", &label.to_string()]);
        let held = there["things"].as_u64().unwrap() + there["aside"].as_u64().unwrap();
        let unknown = told["sizes_unknown"].as_array().unwrap().len() as u64;
        assert_eq!(packed + left, held - unknown, "box {label}");
    }
}
