//! Words that go out to an editor, and what comes back.

use super::App;
use super::desk::Effect;
use super::line::Purpose;
use super::screen::Screen;

impl App {
    /// Sends the words of the open line out; without one, lines that wait to be looked through.
    pub(super) fn edit(&mut self) {
        self.desk.asked = None;
        let words = match &self.desk.line {
            Some(line) => line.words().to_owned(),
            None => WAITING.iter().find_map(|name| self.desk.kept.get(name).cloned()).unwrap_or_default(),
        };
        self.desk.out.push(Effect::Edit(words));
    }

    /// Takes what came back like a paste, in place of what went out.
    pub(super) fn edited(&mut self, text: Result<String, String>) {
        let text = match text {
            Ok(text) => text.replace("\r\n", "\n").trim_end().to_owned(),
            Err(why) => return self.desk.refuse(why),
        };
        let Some(line) = &mut self.desk.line else { return self.edited_lines(&text) };
        if line.purpose == Purpose::Bought && text.lines().count() > 1 {
            line.set("");
            return self.paste(&text);
        }
        // A note or a box is one line, however it was broken for reading.
        let words: Vec<&str> = text.split_whitespace().collect();
        line.set("");
        line.write(&words.join(" "));
    }

    fn edited_lines(&mut self, text: &str) {
        if text.trim().is_empty() {
            return self.desk.say("Nothing was written; all is as it was.");
        }
        // What went out is taken first, so that it doesn't come twice.
        if let Some(name) = WAITING.iter().find(|name| self.desk.kept.contains_key(*name)) {
            self.desk.kept.remove(name);
        }
        if let Some(Screen::Pasted(_)) = self.screens.last() {
            self.desk.go_back();
            self.settle();
        }
        self.paste(text);
    }
}

/// Half-written words that can be gone on with from anywhere, the first that are there.
const WAITING: [&str; 2] = ["pasted", "bought"];
