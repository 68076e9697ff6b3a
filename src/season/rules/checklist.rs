//! A checklist in words: `3 hygiene, 4 school, 1 toothbrush`.

use super::rule::Read;
use crate::catalogue::Catalogue;
use crate::model::category::Category;
use crate::model::profile::{Line, Profile, Wanted};
use crate::model::text::normal;

/// The most of one line.
const MOST: u32 = 99;
/// What stands for a checklist that asks for nothing.
const NOTHING: &str = "nothing";

/// The checklist as one would type it. A name that would be read as something else is told what it is.
pub fn words(lines: &[Line], profile: &Profile, catalogue: &Catalogue) -> String {
    if lines.is_empty() {
        return NOTHING.to_owned();
    }
    let line = |line: &Line| {
        let (name, sort) = match &line.of {
            Wanted::Category(category) => (category.words(), "category"),
            Wanted::Kind(kind) => (kind.as_str(), "kind"),
        };
        let plain = wanted(name, profile, catalogue).is_ok_and(|of| of == line.of);
        if plain { format!("{} {name}", line.count) } else { format!("{} {sort} {name}", line.count) }
    };
    lines.iter().map(line).collect::<Vec<_>>().join(", ")
}

/// The checklist that the words name; a line without a number asks for one.
pub fn read(words: &str, profile: &Profile, catalogue: &Catalogue) -> Read<Vec<Line>> {
    if normal(words) == NOTHING {
        return Ok(Vec::new());
    }
    let mut lines: Vec<Line> = Vec::new();
    for part in words.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()) {
        let line = line(part, profile, catalogue)?;
        if lines.iter().any(|known| known.of == line.of) {
            return Err(format!("{} stands there twice; write it once with the number of all", line.of.words()));
        }
        lines.push(line);
    }
    if lines.is_empty() {
        return Err("write what a box must hold: 3 hygiene, 4 school, 1 toothbrush; or: nothing".to_owned());
    }
    Ok(lines)
}

fn line(part: &str, profile: &Profile, catalogue: &Catalogue) -> Read<Line> {
    let name = normal(part);
    let (first, rest) = name.split_once(' ').unwrap_or((&name, ""));
    let (count, name) = match first.parse::<u32>() {
        Ok(count) => (count, rest),
        Err(_) => (1, name.as_str()),
    };
    if !(1..=MOST).contains(&count) {
        return Err(format!("\"{part}\": a line asks for 1 to {MOST}"));
    }
    if name.is_empty() {
        return Err(format!("\"{part}\": {count} of what? Write for example {count} school"));
    }
    Ok(Line { of: wanted(name, profile, catalogue)?, count })
}

/// What a name asks for: a category where there is such a one, else a kind that is known.
fn wanted(name: &str, profile: &Profile, catalogue: &Catalogue) -> Read<Wanted> {
    if let Some(name) = name.strip_prefix("category ") {
        return Ok(Wanted::Category(Category::from(name)));
    }
    if let Some(name) = name.strip_prefix("kind ") {
        return Ok(Wanted::Kind(name.to_owned()));
    }
    let category = Category::from(name);
    if !matches!(category, Category::Own(_)) || profile.categories().contains(&category) {
        return Ok(Wanted::Category(category));
    }
    let kind = Wanted::Kind(name.to_owned());
    if profile.bands.iter().flat_map(|band| &band.checklist).any(|line| line.of == kind) {
        return Ok(kind);
    }
    let known = catalogue.named(name).map(|kind| Wanted::Kind(kind.name.clone()));
    known.ok_or_else(|| {
        format!("\"{name}\" is no category and no kind that is known; write \"category {name}\" or \"kind {name}\"")
    })
}
