//! Lines as packers say them, each with what it must come to, typed by hand from the rules.
//!
//! A row: the line; the name; units and pieces; paid and regular; what is asked. A dash is "none".

use super::testing::{paid, questions, read, regular};

type Row = (&'static str, &'static str, &'static str, &'static str, &'static str, &'static str, &'static str);

#[rustfmt::skip]
const COUNTS_AND_PACKS: &[Row] = &[
    ("comb .50", "comb", "1", "-", "0.50", "-", ""),
    ("6 combs .60", "combs", "6", "-", "0.60", "-", ""),
    ("six combs 60c", "combs", "6", "-", "0.60", "-", ""),
    ("combs x6 $0.60", "combs", "6", "-", "0.60", "-", ""),
    ("6x combs 0.60", "combs", "6", "-", "0.60", "-", ""),
    ("qty 6 combs 60 cents", "combs", "6", "-", "0.60", "-", ""),
    ("a couple of balls 1.00", "balls", "2", "-", "1.00", "-", ""),
    ("a dozen erasers 1.20", "erasers", "12", "-", "1.20", "-", ""),
    ("half a dozen erasers 1.20", "erasers", "6", "-", "1.20", "-", ""),
    ("1 doz pencils 99c", "pencils", "12", "-", "0.99", "-", ""),
    ("spiral notebook 70 sheets .15", "spiral notebook", "-", "-", "0.15", "-", "units"),
    ("70 sheet notebooks .15", "notebooks", "-", "-", "0.15", "-", "units"),
    ("stickers 5 sheets .50", "stickers", "5", "-", "0.50", "-", ""),
    ("two dozen pencils 2.40", "pencils", "24", "-", "2.40", "-", ""),
    ("twenty-four pencils 2.40", "pencils", "24", "-", "2.40", "-", ""),
    ("3 pairs of socks 2.00", "socks", "3", "-", "2.00", "-", ""),
    ("socks 3 pairs 2.00", "socks", "3", "-", "2.00", "-", ""),
    ("3 pair socks 1.00 a pair", "socks", "3", "-", "3.00", "-", ""),
    ("a bar of soap .40", "soap", "1", "-", "0.40", "-", ""),
    ("bought 4 yo-yos at Mill Lane Market for 2.00", "yo-yos", "4", "-", "2.00", "-", ""),
    ("9 yo-yos 1.80, striped", "yo-yos striped", "9", "-", "1.80", "-", ""),
    ("2 tubes toothpaste 1.00", "toothpaste", "2", "-", "1.00", "-", ""),
    ("5 yards of ribbon 1.00", "ribbon", "5", "-", "1.00", "-", ""),
    ("12 pack pens 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("12-pack pens 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("12pk pens 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("pens 12 ct 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("pens, 12 count, 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("six-pack yo-yos 2.00", "yo-yos", "6", "-", "2.00", "-", ""),
    ("pack of 12 pens 1.00", "pens", "12", "-", "1.00", "-", ""),
    ("card of 6 barrettes 1.00", "barrettes", "6", "-", "1.00", "-", ""),
    ("2 packs of 12 pens 2.00", "pens", "24", "-", "2.00", "-", ""),
    ("2 12-packs pens 2.00", "pens", "24", "-", "2.00", "-", ""),
    ("2 x 12 pack pens 2.00", "pens", "24", "-", "2.00", "-", ""),
    ("pens 12pk x 2, 2.00", "pens", "24", "-", "2.00", "-", ""),
    ("pens 12pk x2 2.00", "pens", "24", "-", "2.00", "-", ""),
    ("box of 16 crayons .50", "crayons", "1", "16", "0.50", "-", ""),
    ("3 boxes of 16 crayons 1.50", "crayons", "3", "16", "1.50", "-", ""),
    ("crayons 24 pack .60", "crayons", "1", "24", "0.60", "-", ""),
    ("100 piece jigsaw 1.00", "jigsaw", "1", "100", "1.00", "-", ""),
    ("jigsaw 100 pc 1.00", "jigsaw", "1", "100", "1.00", "-", ""),
    ("2 jigsaws 100 pc 1.00 each", "jigsaws", "2", "100", "2.00", "-", ""),
    ("playing cards .75", "playing cards", "1", "-", "0.75", "-", ""),
    ("24 crayons 50c", "crayons", "-", "-", "0.50", "-", "units"),
    ("12 pencils 12 pack 1.00", "pencils", "-", "-", "1.00", "-", "units"),
    ("pack of pens 1.00", "pens", "-", "-", "1.00", "-", "units"),
    ("pack of crayons 1.00", "crayons", "1", "-", "1.00", "-", ""),
    ("a few stickers 50c", "stickers", "-", "-", "0.50", "-", "units"),
    ("some combs 1.00", "combs", "-", "-", "1.00", "-", "units"),
    ("several combs 1.00", "combs", "-", "-", "1.00", "-", "units"),
    ("a handful of erasers .25", "erasers", "-", "-", "0.25", "-", "units"),
    ("wallet 5", "wallet", "-", "-", "-", "-", "paid units"),
    ("comb 3 1.00", "comb", "-", "-", "1.00", "-", "units"),
    ("toy cars, 7, 2.49", "toy cars", "-", "-", "2.49", "-", "units"),
    ("combs tote 7 12 pack 1.00", "combs", "-", "-", "1.00", "-", "units"),
    ("24 pack coloured pencils 60 cents in bundles of 8", "coloured pencils", "3", "8", "0.60", "-", ""),
    ("2 packs of 24 pencils 1.00 split into 8s", "pencils", "6", "8", "1.00", "-", ""),
    ("24 pencils 1.00 makes 3 bundles of 8", "pencils", "3", "8", "1.00", "-", ""),
    ("20 pencils 1.00 in bundles of 8", "pencils", "-", "-", "1.00", "-", "units"),
];

#[rustfmt::skip]
const PRICES: &[Row] = &[
    ("4 notebooks 0.60", "notebooks", "4", "-", "0.60", "-", ""),
    ("4 notebooks 15 cents each", "notebooks", "4", "-", "0.60", "-", ""),
    ("4 notebooks .15 ea", "notebooks", "4", "-", "0.60", "-", ""),
    ("4 notebooks $.15ea", "notebooks", "4", "-", "0.60", "-", ""),
    ("4 notebooks 15c apiece", "notebooks", "4", "-", "0.60", "-", ""),
    ("2 packs of 5 vests 3.50 a pack", "vests", "10", "-", "7.00", "-", ""),
    ("2 packs of 5 vests 3.50 each", "vests", "10", "-", "7.00", "-", ""),
    ("2 packs of 5 vests 3.50 per pack", "vests", "10", "-", "7.00", "-", ""),
    ("pack of 6 combs 10c each", "combs", "6", "-", "-", "-", "paid"),
    ("box of 24 crayons 25c each", "crayons", "1", "24", "0.25", "-", ""),
    ("combs 2 for $3", "combs", "2", "-", "3.00", "-", ""),
    ("three for a dollar beads", "beads", "3", "-", "1.00", "-", ""),
    ("erasers 4/$1", "erasers", "4", "-", "1.00", "-", ""),
    ("6 soaps 2 for $3", "soaps", "6", "-", "9.00", "-", ""),
    ("5 soaps 2 for $3", "soaps", "5", "-", "-", "-", "paid"),
    ("combs 2 for $3 each", "combs", "2", "-", "-", "-", "paid"),
    ("6 pens at 10 cents", "pens", "6", "-", "-", "-", "paid"),
    ("pen at 10 cents", "pen", "1", "-", "0.10", "-", ""),
    ("6 pens at 10 cents each", "pens", "6", "-", "0.60", "-", ""),
    ("comb one dollar", "comb", "1", "-", "1.00", "-", ""),
    ("comb a dollar fifty", "comb", "1", "-", "1.50", "-", ""),
    ("comb a dollar twenty-five", "comb", "1", "-", "1.25", "-", ""),
    ("comb three dollars and 40 cents", "comb", "1", "-", "3.40", "-", ""),
    ("comb for a quarter", "comb", "1", "-", "0.25", "-", ""),
    ("comb two bucks", "comb", "1", "-", "2.00", "-", ""),
    ("comb a nickel", "comb", "1", "-", "0.05", "-", ""),
    ("2 combs a dime each", "combs", "2", "-", "0.20", "-", ""),
    ("penny whistle .75", "penny whistle", "1", "-", "0.75", "-", ""),
    ("4-colour pen 1.00", "4-colour pen", "1", "-", "1.00", "-", ""),
    ("red pen 1.00", "pen", "1", "-", "1.00", "-", ""),
    ("tiara 2.50 half off", "tiara", "1", "-", "1.25", "2.50", ""),
    ("tiara 2.50 half price", "tiara", "1", "-", "1.25", "2.50", ""),
    ("tiara 2.50 50% off", "tiara", "1", "-", "1.25", "2.50", ""),
    ("tiara 50 percent off 2.50", "tiara", "1", "-", "1.25", "2.50", ""),
    ("tiara was 2.50 1.00", "tiara", "1", "-", "1.00", "2.50", ""),
    ("tiara 1.00 reg 2.50", "tiara", "1", "-", "1.00", "2.50", ""),
    ("tiara 1.00 marked down from 2.50", "tiara", "1", "-", "1.00", "2.50", ""),
    ("toy boat was 6.99 75% off", "toy boat", "1", "-", "1.75", "6.99", ""),
    ("3 tees .99 each half off", "tees", "3", "-", "1.50", "2.97", ""),
    ("2 packs of 6 pens .99 a pack half off", "pens", "12", "-", "1.00", "1.98", ""),
    ("tiara was 8.00 half off 3.00", "tiara", "1", "-", "-", "-", "paid"),
    ("tiara 2.00 3.00", "tiara", "1", "-", "-", "-", "paid"),
    ("comb free", "comb", "1", "-", "0.00", "-", ""),
    ("3 combs for nothing", "combs", "3", "-", "0.00", "-", ""),
    ("comb, a gift", "comb", "1", "-", "0.00", "-", ""),
    ("a gift bag 50c", "gift bag", "1", "-", "0.50", "-", ""),
    ("comb free 1.00", "comb", "1", "-", "-", "-", "paid"),
    ("€2 comb", "comb", "1", "-", "-", "-", "paid"),
    ("toothbrush", "toothbrush", "1", "-", "-", "-", "paid"),
    ("10 glitter rulers 80c, 6+, purple", "glitter rulers", "10", "-", "0.80", "-", ""),
    ("9 combs 72c, green", "combs", "9", "-", "0.72", "-", ""),
    ("now only 1.00 comb on sale", "comb", "1", "-", "1.00", "-", ""),
    ("  COMB ,, 1.00 . ", "comb", "1", "-", "1.00", "-", ""),
    ("comb 1,250.00", "comb", "1", "-", "1250.00", "-", ""),
    ("comb $1-2", "comb", "1", "-", "-", "-", "paid"),
    ("comb 1.00-2.00", "comb", "1", "-", "-", "-", "paid"),
    ("6' jump rope 1.00", "jump rope", "1", "-", "1.00", "-", ""),
    ("comb 1.255", "comb", "1", "-", "-", "-", "paid"),
];

#[rustfmt::skip]
const WHOM_AND_WHERE: &[Row] = &[
    ("2 vests boys large 3.50", "vests", "2", "-", "3.50", "-", ""),
    ("shirt boys m 3.00", "shirt", "1", "-", "3.00", "-", ""),
    ("cardigan $3 girls size 10-12 forest green tote 7", "cardigan", "1", "-", "3.00", "-", ""),
    ("leggings 7-8 2.00", "leggings", "1", "-", "2.00", "-", "size"),
    ("leggings ages 7-8 2.00", "leggings", "1", "-", "2.00", "-", ""),
    ("leggings size 7-8 2.00", "leggings", "1", "-", "2.00", "-", ""),
    ("jump rope 7-8 1.00", "jump rope", "1", "-", "1.00", "-", "ages"),
    ("jump rope 6-8 1.00", "jump rope", "1", "-", "1.00", "-", ""),
    ("ball girl or boy 1.00", "ball", "1", "-", "1.00", "-", ""),
    ("3 balls 4+ 1.00", "balls", "3", "-", "1.00", "-", ""),
    ("ball not under 3 1.00", "ball", "1", "-", "1.00", "-", ""),
    ("soap dish 40c tote 4 teal", "soap dish", "1", "-", "0.40", "-", ""),
    ("tote bag 1.00", "tote bag", "1", "-", "1.00", "-", ""),
    ("combs 6 for 1.00 at Corner Bazaar", "combs", "6", "-", "1.00", "-", ""),
    ("socks at 50% off 2.00", "socks", "1", "-", "1.00", "2.00", ""),
    ("wipes 10 ct 79c exp 2027-03", "wipes", "10", "-", "0.79", "-", ""),
    ("tin 5x3x2 in .50 pink", "tin", "1", "-", "0.50", "-", ""),
    ("2 dolls 8 in tall 4.00", "dolls", "2", "-", "4.00", "-", ""),
    ("notebook .50 (5 left on the shelf, 2 for me)", "notebook", "1", "-", "0.50", "-", ""),
    ("3 cups 1.00, battery, breakable", "cups", "3", "-", "1.00", "-", ""),
    ("5 yards of cord 35 cents navy", "cord", "5", "-", "0.35", "-", ""),
    ("plush otter free from neighbour wow 4+", "plush otter", "1", "-", "0.00", "-", ""),
];

fn shown<T: ToString>(found: Option<T>) -> String {
    found.map_or_else(|| "-".to_owned(), |found| found.to_string())
}

/// Where a row's reading differs from what it must come to.
fn difference(row: &Row) -> Option<String> {
    let (line, name, units, pieces, must_pay, must_be_regular, asks) = *row;
    let found = read(line);
    let mut asked = questions(line);
    asked.sort_unstable();
    let found = [
        found.name.clone(),
        shown(found.units),
        shown(found.pieces),
        shown(paid(line)),
        shown(regular(line)),
        asked.join(" "),
    ];
    let wanted = [name, units, pieces, must_pay, must_be_regular, asks];
    (found != wanted).then(|| format!("{line}\n  found  {found:?}\n  wanted {wanted:?}"))
}

fn hold(rows: &[Row]) {
    let wrong: Vec<String> = rows.iter().filter_map(difference).collect();
    assert!(wrong.is_empty(), "{} of {} lines:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

#[test]
fn counts_and_packs() {
    hold(COUNTS_AND_PACKS);
}

#[test]
fn prices() {
    hold(PRICES);
}

#[test]
fn whom_and_where() {
    hold(WHOM_AND_WHERE);
}
