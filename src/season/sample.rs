//! The sample: an invented drive, logged, planned and packed by the same acts that a person does.

use std::path::{Path, PathBuf};

use jiff::civil::{Date, date};
use thiserror::Error;

use super::{ActError, Desk, LogHow, Moment, NotLogged, PutHow, Season};
use crate::model::id::{CountedIds, Ids, SeasonId};
use crate::model::measure::Units;
use crate::season::BoxChange;
use crate::store::{Sqlite, Store, StoreError, make_private_folder};

const PROFILE: &str = include_str!("../../sample/profile.toml");
const BOXES: &str = include_str!("../../sample/boxes.txt");
const PACKING: &str = include_str!("../../sample/packing.txt");
const HAULS: &[(&str, &str)] = &[
    ("01-opening-count", include_str!("../../sample/hauls/01-opening-count.txt")),
    ("02-winter-markdown", include_str!("../../sample/hauls/02-winter-markdown.txt")),
    ("03-after-the-hearts", include_str!("../../sample/hauls/03-after-the-hearts.txt")),
    ("04-thrift-spring", include_str!("../../sample/hauls/04-thrift-spring.txt")),
    ("05-after-the-bunnies", include_str!("../../sample/hauls/05-after-the-bunnies.txt")),
    ("06-neighbour", include_str!("../../sample/hauls/06-neighbour.txt")),
    ("07-sewing-day", include_str!("../../sample/hauls/07-sewing-day.txt")),
    ("08-summer-sale", include_str!("../../sample/hauls/08-summer-sale.txt")),
    ("09-back-to-school", include_str!("../../sample/hauls/09-back-to-school.txt")),
    ("10-by-post", include_str!("../../sample/hauls/10-by-post.txt")),
    ("11-thrift-summer-end", include_str!("../../sample/hauls/11-thrift-summer-end.txt")),
    ("12-september", include_str!("../../sample/hauls/12-september.txt")),
    ("13-reading-club", include_str!("../../sample/hauls/13-reading-club.txt")),
    ("14-autumn-clearout", include_str!("../../sample/hauls/14-autumn-clearout.txt")),
    ("15-corner-bazaar-autumn", include_str!("../../sample/hauls/15-corner-bazaar-autumn.txt")),
];

/// The day after the last haul of the sample.
const PACKED_ON: Date = date(2027, 10, 14);
/// The sample's acts are told to have been done on that day from noon on (UTC), a second apart.
const FIRST_MILLIS: u64 = 1_823_515_200_000;

/// Why the sample could not be made. These files are part of the program, so it is the program's fault.
#[derive(Debug, Error)]
pub enum SampleError {
    /// A line of it can't be read or done.
    #[error("the sample's {file}, line {line}: {why}")]
    Line {
        /// Which file.
        file: &'static str,
        /// Which line, from 1; 0: the whole file.
        line: usize,
        /// What is wrong.
        why: String,
    },
    /// Its file can't be written or opened.
    #[error("{path}: {error}")]
    Store {
        /// Where.
        path: PathBuf,
        /// Why.
        error: StoreError,
    },
}

/// Opens the sample in a folder, and makes it if it isn't there. With `fresh` it is made anew, and the
/// old one is kept beside it under another name. Gives the file's path.
pub fn open_sample(folder: &Path, fresh: bool) -> Result<PathBuf, SampleError> {
    let path = folder.join("season.brimful");
    let failed = |error: StoreError| SampleError::Store { path: path.clone(), error };
    if fresh && path.exists() {
        set_aside(&path).map_err(failed)?;
    }
    if path.exists() {
        Sqlite::open(&path).map_err(failed)?;
        return Ok(path);
    }
    // Made in a folder apart and renamed when it is whole: a sample half made is no sample.
    make_private_folder(folder).map_err(failed)?;
    let apart =
        tempfile::Builder::new().prefix(".brimful-").tempdir_in(folder).map_err(|error| failed(error.into()))?;
    let making = apart.path().join("season.brimful");
    let mut ids = CountedIds::new(0x5a);
    let season = SeasonId::new(ids.fresh());
    let store = Sqlite::open_or_create(&making, season).map_err(failed)?;
    drop(fill(store)?);
    std::fs::rename(&making, &path).map_err(|error| failed(error.into()))?;
    Ok(path)
}

/// Plays the sample into an empty season.
pub fn fill<S: Store>(store: S) -> Result<Season<S>, SampleError> {
    let mut ids = CountedIds::new(0x5b);
    let desk = Desk::Fixed { device: ids.device(), by: "robin".to_owned() };
    let moment = Moment { now_millis: FIRST_MILLIS, today: PACKED_ON };
    let mut season = Season::new(store, Box::new(ids), desk, moment);
    at("profile.toml", 0, season.set_profile(PROFILE))?;
    for (name, text) in HAULS {
        tick(&mut season);
        season.log(text, &LogHow::default()).map_err(|error| not_logged(name, error))?;
    }
    for (number, words) in (1..).zip(BOXES.lines()) {
        tick(&mut season);
        at("boxes.txt", number, season.plan(words))?;
    }
    let mut giftbox = String::new();
    for (number, line) in (1..).zip(PACKING.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        tick(&mut season);
        at("packing.txt", number, pack(&mut season, &mut giftbox, line))?;
    }
    Ok(season)
}

fn tick<S: Store>(season: &mut Season<S>) {
    let Moment { now_millis, today } = season.moment;
    season.at(Moment { now_millis: now_millis + 1000, today });
}

/// One line of what was packed: `box 12`, `in 2 washcloth, teal`, `inside pouch: 2 erasers`, `close`.
fn pack<S: Store>(season: &mut Season<S>, giftbox: &mut String, line: &str) -> Result<(), ActError> {
    let (verb, words) = line.split_once(' ').unwrap_or((line, ""));
    let (words, why) = match words.split_once('(') {
        Some((words, why)) => (words.trim(), Some(why.trim_end_matches(')').to_owned())),
        None => (words.trim(), None),
    };
    let mut how = PutHow { why, ..PutHow::default() };
    let mut words = words;
    match verb {
        "box" => {
            words.clone_into(giftbox);
            return Ok(());
        }
        "close" => return season.step(giftbox, BoxChange::Close).map(|_| ()),
        "in" => {}
        "aside" => how.aside = true,
        "inside" => {
            let (holder, inner) = words.split_once(':').unwrap_or((words, ""));
            how.inside = Some(holder.trim().to_owned());
            words = inner.trim();
        }
        other => return Err(ActError::NotUnderstood(format!("\"{other}\" is no way to pack"))),
    }
    if let Some(rest) = words.strip_prefix("wow ") {
        (how.wow, words) = (true, rest);
    }
    let (count, words) = match words.split_once(' ').map(|(first, rest)| (first.parse().ok(), rest)) {
        Some((Some(count), rest)) => (count, rest),
        _ => (1, words),
    };
    let units = Units::new(count).unwrap_or(Units::ONE);
    season.put(giftbox, units, words, &how).map(|_| ())
}

fn at<T>(file: &'static str, line: usize, done: Result<T, ActError>) -> Result<T, SampleError> {
    done.map_err(|error| SampleError::Line { file, line, why: error.to_string() })
}

fn not_logged(file: &'static str, error: NotLogged) -> SampleError {
    let why = match error {
        NotLogged::Doubts(doubts) => doubts.join("\n"),
        NotLogged::Twice(twin) => twin.words(),
        NotLogged::Act(error) => error.to_string(),
    };
    SampleError::Line { file, line: 0, why }
}

fn with_suffix(path: &Path, suffix: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(suffix);
    PathBuf::from(name)
}

/// Renames a season's file so that a new one can take its place; nothing is deleted.
fn set_aside(path: &Path) -> Result<(), StoreError> {
    // Opening and closing settles what stands beside the file into it.
    drop(Sqlite::open(path)?);
    let kept = (1..=9999_u32).map(|number| with_suffix(path, &format!(".old-{number}"))).find(|kept| !kept.exists());
    if let Some(kept) = kept {
        std::fs::rename(path, kept)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::Memory;

    #[test]
    fn every_file_of_the_sample_is_played() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample/hauls");
        let mut names: Vec<String> =
            folder.read_dir().unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        let played: Vec<String> = HAULS.iter().map(|(name, _)| format!("{name}.txt")).collect();
        assert_eq!(names, played);
        for (name, text) in HAULS {
            let there = std::fs::read_to_string(folder.join(format!("{name}.txt"))).unwrap();
            assert_eq!(there, *text);
        }
    }

    #[test]
    fn the_sample_is_the_same_each_time() {
        let season = || SeasonId::new(CountedIds::new(0x5a).fresh());
        let once = fill(Memory::new(season())).unwrap();
        let again = fill(Memory::new(season())).unwrap();
        assert_eq!(once.store().kept().unwrap(), again.store().kept().unwrap());
    }
}
