//! The settings file: how the terminal interface looks on this computer, and which keys do what.
//!
//! ```toml
//! theme = "light"          # or "dark", "none"
//! signs = "ascii"          # or "unicode"
//! mouse = false
//!
//! [keys]
//! undo = ["u", "F8"]
//! put-one = "A"
//! ```

use std::ops::Range;
use std::path::{Path, PathBuf};

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::shell::{Failure, env_path, folders};
use crate::tui::app::key::Key;
use crate::tui::app::keymap::{Keymap, Way, names};
use crate::tui::draw::look::Ground;

/// What the settings say; nothing, where they are silent.
#[derive(Debug, Default)]
pub struct Settings {
    /// The ground, or no colour at all.
    pub ground: Option<Ground>,
    /// Only ASCII signs.
    pub ascii: Option<bool>,
    /// Whether the mouse is listened to.
    pub mouse: Option<bool>,
    /// Which keys do what.
    pub keys: Keymap,
}

/// Where in the file something is wrong, and what.
type Wrong = (Range<usize>, String);

const NAME: &str = "settings.toml";
const KNOWN: &str = "the settings are theme, signs, mouse, and under [keys] the keys";

/// Where the settings are, if there are any.
pub fn path() -> Result<PathBuf, Failure> {
    let folder = env_path("BRIMFUL_CONFIG").map_or_else(|| folders().map(|dirs| dirs.config_dir().to_owned()), Ok)?;
    Ok(folder.join(NAME))
}

/// The settings of this computer; without a file there are none.
pub fn of_this_computer() -> Result<Settings, Failure> {
    let path = path()?;
    match std::fs::read(&path) {
        Ok(bytes) => read(&path, &bytes).map_err(Failure::Call),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(Settings::default()),
        Err(error) => Err(Failure::Call(format!("{}: {error}", path.display()))),
    }
}

fn read(path: &Path, bytes: &[u8]) -> Result<Settings, String> {
    let text = std::str::from_utf8(bytes).map_err(|_| format!("{}: this is no text file", path.display()))?;
    settings(text).map_err(|(at, why)| {
        let line = text[..at.start.min(text.len())].matches('\n').count() + 1;
        format!("{}, line {line}: {why}", path.display())
    })
}

fn settings(text: &str) -> Result<Settings, Wrong> {
    let table = DeTable::parse(text).map_err(|error| (error.span().unwrap_or_default(), error.message().to_owned()))?;
    let mut settings = Settings::default();
    for (name, value) in table.get_ref() {
        match name.get_ref().as_ref() {
            "theme" => {
                let grounds = [("dark", Ground::Dark), ("light", Ground::Light), ("none", Ground::Plain)];
                settings.ground = Some(one_of("theme", value, &grounds)?);
            }
            "signs" => settings.ascii = Some(one_of("signs", value, &[("ascii", true), ("unicode", false)])?),
            "mouse" => settings.mouse = Some(yes_or_no(value)?),
            "keys" => settings.keys = keymap(value)?,
            other => return Err((name.span(), format!("there is no setting \"{other}\"; {KNOWN}"))),
        }
    }
    Ok(settings)
}

fn one_of<T: Copy>(name: &str, value: &Spanned<DeValue<'_>>, choices: &[(&str, T)]) -> Result<T, Wrong> {
    let said = value.get_ref().as_str();
    let found = choices.iter().find(|(word, _)| said == Some(*word));
    found.map(|(_, meant)| *meant).ok_or_else(|| {
        let words: Vec<String> = choices.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        (value.span(), format!("{name} is one of {}", words.join(", ")))
    })
}

fn yes_or_no(value: &Spanned<DeValue<'_>>) -> Result<bool, Wrong> {
    match value.get_ref() {
        DeValue::Boolean(yes) => Ok(*yes),
        _ => Err((value.span(), "mouse is true or false".to_owned())),
    }
}

fn keymap(value: &Spanned<DeValue<'_>>) -> Result<Keymap, Wrong> {
    let DeValue::Table(table) = value.get_ref() else {
        return Err((value.span(), "keys is a part of its own: [keys], and beneath it undo = \"u\"".to_owned()));
    };
    let mut keys = Keymap::default();
    let mut given = Vec::new();
    for (name, value) in table {
        let way = way(name.get_ref()).map_err(|why| (name.span(), why))?;
        let bound = bound(value)?;
        if bound.is_empty() && way.needs_a_key() {
            let why = "what has no key is done by its name, so this one needs a key";
            return Err((value.span(), why.to_owned()));
        }
        keys.give(way, &bound);
        given.push((name, way));
    }
    // Only now: two actions may have changed their keys for each other's.
    given.sort_by_key(|(name, _)| name.span().start);
    for (name, way) in given {
        if let Some((key, other)) = keys.clash(way) {
            let (label, other) = (other.label, other.action.name());
            let why =
                format!("{key} means \"{label}\" already; take another key here, or give {other} another one too");
            return Err((name.span(), why));
        }
    }
    Ok(keys)
}

fn way(name: &str) -> Result<Way, String> {
    let way = Way::of_name(name).ok_or_else(|| {
        let names: Vec<String> = names().collect();
        format!("there is no action \"{name}\"; there are {}", names.join(", "))
    })?;
    match way.stays() {
        Some(why) => Err(format!("{name} can't be moved: {why}")),
        None => Ok(way),
    }
}

/// One key, or a list of them.
fn bound(value: &Spanned<DeValue<'_>>) -> Result<Vec<Key>, Wrong> {
    match value.get_ref() {
        DeValue::Array(list) => list.iter().map(key).collect(),
        _ => key(value).map(|key| vec![key]),
    }
}

fn key(value: &Spanned<DeValue<'_>>) -> Result<Key, Wrong> {
    let wrong = |why: String| (value.span(), why);
    let Some(name) = value.get_ref().as_str() else {
        return Err(wrong("a key stands in quotes: \"p\"; several in a list: [\"p\", \"F8\"]".to_owned()));
    };
    let key = Key::of_name(name).ok_or_else(|| {
        wrong(format!(
            "there is no key \"{name}\"; keys are called as the help shows them: p, *, Space, Ctrl-P, F8, PgUp"
        ))
    })?;
    if key.is_fixed() {
        return Err(wrong(format!(
            "{key} stays where it is, as do all digits and arrows, Enter and Esc; take another"
        )));
    }
    match key.comes_as() {
        Some(same) => Err(wrong(format!("a terminal sends {key} as {same}; take another"))),
        None => Ok(key),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::app::action::Action;
    use crate::tui::app::keymap::Gesture;

    fn wrong(text: &str) -> String {
        read(Path::new(NAME), text.as_bytes()).unwrap_err()
    }

    #[test]
    fn what_is_said_is_taken_and_the_rest_is_left_open() {
        let text = "signs = \"ascii\"\nmouse = false\n[keys]\nput-one = \"A\"\nundo = [\"u\", \"F8\"]\nredraw = []\n";
        let settings = settings(text).unwrap();
        assert_eq!((settings.ground, settings.ascii, settings.mouse), (None, Some(true), Some(false)));
        let first = |action| settings.keys.first(action, Gesture::Looking);
        assert_eq!(first(Action::PutOne), Some(Key::Char('A')));
        assert_eq!(settings.keys.press(Key::F(8), Gesture::Looking).map(|press| press.action), Some(Action::Undo));
        assert_eq!(first(Action::Redraw), None);
    }

    #[test]
    fn the_settings_that_the_page_shows_are_right() {
        let page = include_str!("../../README.md");
        let shown = page.split("```toml\ntheme").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
        let settings = settings(&format!("theme{shown}")).unwrap();
        assert_eq!((settings.ascii, settings.mouse), (Some(true), Some(false)));
        assert_eq!(settings.keys.first(Action::PutOne, Gesture::Looking), Some(Key::Char('A')));
        assert_eq!(settings.keys.first(Action::Suspend, Gesture::Looking), None);
    }

    #[test]
    fn two_actions_may_change_keys() {
        let keys = settings("[keys]\nreview = \"u\"\nundo = \"r\"\n").unwrap().keys;
        assert_eq!(keys.first(Action::Review, Gesture::Looking), Some(Key::Char('u')));
        assert_eq!(keys.first(Action::Undo, Gesture::Looking), Some(Key::Char('r')));
    }

    #[test]
    fn every_name_that_is_offered_can_be_given_a_key() {
        for name in names() {
            let keys = settings(&format!("[keys]\n{name} = \"ö\"\n"));
            assert!(keys.is_ok(), "{name}: {keys:?}");
        }
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line_and_what_to_do() {
        for (text, line, why) in [
            ("\ntheme = \"blue\"", 2, "theme is one of \"dark\", \"light\", \"none\""),
            ("signs = 3", 1, "signs is one of \"ascii\", \"unicode\""),
            ("mouse = \"no\"", 1, "mouse is true or false"),
            ("mouse = true\ncolour = 1", 2, "there is no setting \"colour\"; the settings are theme"),
            ("keys = 1", 1, "[keys]"),
            ("[keys]\nundoo = \"A\"", 2, "there is no action \"undoo\"; there are open, back"),
            ("[keys]\nundo-back = \"A\"", 2, "there is no action \"undo-back\""),
            ("[keys]\n\nundo = \"Hyper\"", 3, "there is no key \"Hyper\""),
            ("[keys]\nundo = [\n\"A\",\n7]", 4, "in quotes"),
            ("[keys]\nundo = \"7\"", 2, "7 stays where it is"),
            ("[keys]\nundo = \"Enter\"", 2, "Enter stays where it is"),
            ("[keys]\nundo = \"↑\"", 2, "↑ stays where it is"),
            ("[keys]\nundo = \"Ctrl-I\"", 2, "a terminal sends Ctrl-I as Tab"),
            ("[keys]\nundo = \"A\"\nredo = \"A\"", 2, "A means \"redo\" already"),
            (
                "[keys]\nundo = \"r\"",
                2,
                "r means \"lacks what\" already; take another key here, or give review another",
            ),
            ("[keys]\nactions = []", 2, "needs a key"),
            ("[keys]\nline-take = \"F8\"", 2, "line-take can't be moved: it works on the open line"),
            ("[keys]\nchoose = \"A\"", 2, "choose can't be moved: digits"),
            ("mouse = true\nmouse = ", 2, ""),
        ] {
            let told = wrong(text);
            assert!(told.starts_with(&format!("settings.toml, line {line}: ")) && told.contains(why), "{text}: {told}");
        }
        assert_eq!(read(Path::new(NAME), b"\xff").unwrap_err(), "settings.toml: this is no text file");
    }
}
