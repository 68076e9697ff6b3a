//! Kinds as they are written: one line a kind.
//!
//! `name | other names | size | weight | press | more`, where
//! - the name is in the singular, and so are the other names, with commas between;
//! - the size is in millimetres, largest first: `190x20x18`; the weight in grams;
//! - press is stiff, firm, springy, soft or loose;
//! - more is any of these, with semicolons between: `set` (given as a set: 24 crayons are one thing, so that a
//!   count of them is asked), `several` (a set by its own name, counted as one: a tea set), `flat`, `fold`, `roll`,
//!   `upright` (how it may lie), `room 100x65x30` (fixed room inside), `bag 200x80x40` (room that swells),
//!   `!hazard` with millimetres where it has any (`!ball 32`), `do …` (a chore), `needs …` and `with …`
//!   (other kinds, with commas between).

use thiserror::Error;

use crate::model::category::Category;
use crate::model::kind::{Hazard, Kind, Lies, Press, Room, Typical};
use crate::model::measure::{Decigrams, Dims, Millimetres};

/// Why a line can't be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{file}, line {line}: {why}")]
pub struct Slip {
    /// The file's name.
    pub file: &'static str,
    /// The line, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub why: String,
}

type Part<T> = Result<T, String>;

/// The kinds of one file.
pub fn kinds(file: &'static str, text: &str, category: &Category) -> Result<Vec<Kind>, Slip> {
    let lines = (1..).zip(text.lines()).filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    lines.map(|(line, words)| kind(words, category).map_err(|why| Slip { file, line, why })).collect()
}

fn kind(line: &str, category: &Category) -> Part<Kind> {
    let cells: Vec<&str> = line.split('|').map(str::trim).collect();
    let [name, also, size, weight, press, more] = cells[..] else {
        return Err(format!("{} parts, not 6: name | other names | size | weight | press | more", cells.len()));
    };
    let grams: u32 = weight.parse().map_err(|_| format!("\"{weight}\" is no weight in grams"))?;
    let mut typical = Typical {
        size: dims(size)?,
        weight: Decigrams(grams.saturating_mul(10)),
        several: false,
        press: pressed(press)?,
        lies: Lies::default(),
        room: None,
        careful: Vec::new(),
        chores: Vec::new(),
        needs: Vec::new(),
        with: Vec::new(),
    };
    let mut set = false;
    for item in more.split(';').map(str::trim).filter(|item| !item.is_empty()) {
        set |= item == "set";
        add(&mut typical, item)?;
    }
    let (name, also, category) = (name.to_owned(), names(also), category.clone());
    Ok(Kind { name, also, category, set, typical: Some(typical) })
}

fn names(cell: &str) -> Vec<String> {
    cell.split(',').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect()
}

/// `190x20x18`.
fn dims(words: &str) -> Part<Dims> {
    let sides: Option<Vec<Millimetres>> =
        words.split('x').map(|side| side.trim().parse().ok().map(Millimetres)).collect();
    match sides {
        Some(sides) if sides.len() == 3 => Ok(Dims(sides)),
        _ => Err(format!("\"{words}\" is no size in millimetres: 190x20x18")),
    }
}

fn pressed(word: &str) -> Part<Press> {
    Ok(match word {
        "stiff" => Press::Stiff,
        "firm" => Press::Firm,
        "springy" => Press::Springy,
        "soft" => Press::Soft,
        "loose" => Press::Loose,
        other => return Err(format!("\"{other}\": stiff, firm, springy, soft or loose")),
    })
}

fn add(typical: &mut Typical, item: &str) -> Part<()> {
    if let Some(hazard) = item.strip_prefix('!') {
        typical.careful.push(hazard_of(hazard)?);
        return Ok(());
    }
    match item.split_once(' ').unwrap_or((item, "")) {
        ("set" | "several", "") => typical.several = true,
        ("flat", "") => typical.lies.flat = true,
        ("fold", "") => typical.lies.fold = true,
        ("roll", "") => typical.lies.roll = true,
        ("upright", "") => typical.lies.upright = true,
        ("room", size) => typical.room = Some(Room { size: dims(size)?, swells: false }),
        ("bag", size) => typical.room = Some(Room { size: dims(size)?, swells: true }),
        ("do", chore) if !chore.is_empty() => typical.chores.push(chore.to_owned()),
        ("needs", kinds) => typical.needs.extend(names(kinds)),
        ("with", kinds) => typical.with.extend(names(kinds)),
        _ => return Err(format!("\"{item}\" says nothing that is known")),
    }
    Ok(())
}

fn hazard_of(words: &str) -> Part<Hazard> {
    let (name, size) = match words.rsplit_once(' ') {
        Some((name, size)) if size.parse::<u32>().is_ok() => (name, size.parse().ok()),
        _ => (words, None),
    };
    Ok(match (name, size) {
        ("ball", Some(mm)) => Hazard::Ball(mm),
        ("cord", Some(mm)) => Hazard::Cord(mm),
        ("small part", None) => Hazard::SmallPart,
        ("marble", None) => Hazard::Marble,
        ("balloon", None) => Hazard::Balloon,
        ("neck loop", None) => Hazard::NeckLoop,
        ("drawstring", None) => Hazard::Drawstring,
        ("magnet", None) => Hazard::Magnet,
        ("battery", None) => Hazard::Battery,
        ("button cell", None) => Hazard::ButtonCell,
        ("sharp", None) => Hazard::Sharp,
        ("launched", None) => Hazard::Launched,
        ("weapon", None) => Hazard::Weapon,
        ("flame", None) => Hazard::Flame,
        ("plastic bag", None) => Hazard::PlasticBag,
        ("swells", None) => Hazard::Swells,
        ("liquid", None) => Hazard::Liquid,
        ("melts", None) => Hazard::Melts,
        ("food", None) => Hazard::Food,
        ("medicine", None) => Hazard::Medicine,
        ("latex", None) => Hazard::Latex,
        ("glass", None) => Hazard::Glass,
        _ => return Err(format!("\"!{words}\" is no hazard that is known, or lacks its millimetres")),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_says_all_of_a_kind() {
        let line = "pencil case | pencil pouch | 210x90x45 | 60 | firm | bag 200x80x40; !small part; do wash; with pencil, pen";
        let kind = kind(line, &Category::School).unwrap();
        let typical = kind.typical.unwrap();
        assert_eq!((kind.name.as_str(), kind.also, kind.set), ("pencil case", vec!["pencil pouch".to_owned()], false));
        assert_eq!(typical.weight, Decigrams(600));
        assert_eq!(typical.press.share(), 10);
        assert!(typical.room.unwrap().swells);
        assert_eq!((typical.careful, typical.chores), (vec![Hazard::SmallPart], vec!["wash".to_owned()]));
        assert_eq!((typical.with, typical.needs), (vec!["pencil".to_owned(), "pen".to_owned()], Vec::new()));
        let ball = super::kind("ball | | 90x90x90 | 90 | springy | !ball 90", &Category::Toy).unwrap();
        assert_eq!(ball.typical.unwrap().careful, [Hazard::Ball(90)]);
    }

    #[test]
    fn a_slip_of_the_hand_is_told_with_its_line() {
        for (line, why) in [
            ("comb | | 180x40x5 | 15 | stiff", "5 parts, not 6: name | other names | size | weight | press | more"),
            ("comb | | 180x40 | 15 | stiff |", "\"180x40\" is no size in millimetres: 190x20x18"),
            ("comb | | 180x40x5 | heavy | stiff |", "\"heavy\" is no weight in grams"),
            ("comb | | 180x40x5 | 15 | hard |", "\"hard\": stiff, firm, springy, soft or loose"),
            ("comb | | 180x40x5 | 15 | stiff | bent", "\"bent\" says nothing that is known"),
            (
                "comb | | 180x40x5 | 15 | stiff | !ball",
                "\"!ball\" is no hazard that is known, or lacks its millimetres",
            ),
        ] {
            let text = format!("# head\n\n{line}\n");
            let slip = kinds("hygiene.txt", &text, &Category::Hygiene).unwrap_err();
            assert_eq!(slip.to_string(), format!("hygiene.txt, line 3: {why}"));
        }
    }
}
