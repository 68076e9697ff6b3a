//! A line cut into words, numbers and signs that remember where they stood.

use std::ops::Range;

use rust_decimal::Decimal;

use super::taken::What;

/// What a token is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    Word,
    Number,
    Sign,
}

/// The least that a rule can take: a word, a number, or one sign.
#[derive(Debug, Clone)]
pub(super) struct Token {
    pub shape: Shape,
    /// Lower case, with the many dashes and quotes made one.
    pub text: String,
    /// Bytes in the cleaned line.
    pub span: Range<usize>,
    /// No white space before it.
    pub glued: bool,
    /// What a rule took it for.
    pub took: Option<What>,
}

impl Token {
    /// A number that can be read as an exact decimal.
    pub fn decimal(&self) -> Option<Decimal> {
        if self.shape != Shape::Number {
            return None;
        }
        let digits = self.text.replace(',', "");
        let whole = if digits.starts_with('.') { format!("0{digits}") } else { digits };
        Decimal::from_str_exact(&whole).ok()
    }

    /// How many digits stand after the point; 0 without one.
    pub fn decimals(&self) -> usize {
        self.text.split_once('.').map_or(0, |(_, after)| after.len())
    }

    /// A number without a point, if it is not absurdly long.
    pub fn whole(&self) -> Option<u32> {
        if self.shape != Shape::Number || self.text.contains('.') {
            return None;
        }
        self.text.replace(',', "").parse().ok()
    }
}

/// Cuts a cleaned line up. What stands in parentheses becomes one token, taken as a note.
pub(super) fn cut(line: &str) -> (Vec<Token>, Vec<String>) {
    let mut cutter = Cutter { line, chars: line.char_indices().filter(|&(_, c)| !is_invisible(c)).collect(), at: 0 };
    let (mut tokens, mut notes) = (Vec::new(), Vec::new());
    let mut glued = false;
    while let Some(c) = cutter.peek(0) {
        if c.is_whitespace() {
            cutter.at += 1;
            glued = false;
            continue;
        }
        let start = cutter.at;
        let shape = cutter.step(c);
        let span = cutter.byte(start)..cutter.byte(cutter.at);
        let typed = line.get(span.clone()).unwrap_or_default();
        let took = (c == '(').then_some(What::Note);
        if took.is_some() {
            notes.push(typed.trim_start_matches('(').trim_end_matches(')').trim().to_owned());
        }
        let text: String =
            cutter.chars.get(start..cutter.at).unwrap_or_default().iter().map(|&(_, c)| plain(c)).collect();
        let (shape, text) = reshape(shape, &text);
        tokens.push(Token { shape, text, span, glued, took });
        glued = true;
    }
    notes.retain(|note| !note.is_empty());
    (tokens, notes)
}

struct Cutter<'a> {
    line: &'a str,
    chars: Vec<(usize, char)>,
    at: usize,
}

impl Cutter<'_> {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).map(|&(_, c)| c)
    }

    fn byte(&self, at: usize) -> usize {
        self.chars.get(at).map_or(self.line.len(), |&(byte, _)| byte)
    }

    fn digit(&self, ahead: usize) -> bool {
        self.peek(ahead).is_some_and(|c| c.is_ascii_digit())
    }

    /// Moves past one token that begins with `c`.
    fn step(&mut self, c: char) -> Shape {
        if c == '(' {
            self.skip_note();
            return Shape::Sign;
        }
        if c.is_ascii_digit() || (c == '.' && self.digit(1) && !self.follows_letter_or_point()) {
            self.skip_number();
            return Shape::Number;
        }
        self.at += 1;
        if c.is_numeric() && c != '½' {
            return Shape::Number;
        }
        if !is_letter(c) {
            return Shape::Sign;
        }
        while let Some(next) = self.peek(0) {
            let inner_quote = plain(next) == '\'' && self.peek(1).is_some_and(is_letter);
            if !(inner_quote || is_letter(next)) || next == '×' {
                break;
            }
            self.at += 1;
        }
        Shape::Word
    }

    fn follows_letter_or_point(&self) -> bool {
        let before = self.at.checked_sub(1).and_then(|at| self.chars.get(at));
        before.is_some_and(|&(_, c)| c == '.' || is_letter(c) || c.is_numeric())
    }

    /// Digits, thousands in threes, and a fraction.
    fn skip_number(&mut self) {
        let skip_digits = |cutter: &mut Self| {
            while cutter.digit(0) {
                cutter.at += 1;
            }
        };
        skip_digits(self);
        while self.peek(0) == Some(',') && (1..=3).all(|ahead| self.digit(ahead)) && !self.digit(4) {
            self.at += 4;
        }
        if self.peek(0) == Some('.') && self.digit(1) {
            self.at += 1;
            skip_digits(self);
        }
    }

    /// Up to the parenthesis that closes this one, or the end of the line.
    fn skip_note(&mut self) {
        let mut depth = 0_usize;
        while let Some(c) = self.peek(0) {
            self.at += 1;
            match c {
                '(' => depth += 1,
                ')' => depth -= 1,
                _ => {}
            }
            if depth == 0 {
                return;
            }
        }
    }
}

/// Half signs and the sign for "times" are words.
fn reshape(shape: Shape, text: &str) -> (Shape, String) {
    match text {
        "½" => (Shape::Word, "half".to_owned()),
        "×" => (Shape::Word, "x".to_owned()),
        _ => (shape, text.to_lowercase()),
    }
}

fn is_invisible(c: char) -> bool {
    matches!(c, '\u{200b}' | '\u{2060}' | '\u{feff}' | '\u{ad}')
}

/// Dashes and quotes of all kinds as the plain ones.
fn plain(c: char) -> char {
    match c {
        '‐' | '‑' | '‒' | '–' | '—' | '−' => '-',
        '’' | '‘' | '`' | '´' => '\'',
        '“' | '”' | '″' | '„' => '"',
        '．' => '.',
        other => other,
    }
}

/// Letters of any script and whatever belongs to them; signs of money and punctuation do not.
fn is_letter(c: char) -> bool {
    if c.is_ascii() {
        return c.is_ascii_alphabetic();
    }
    let sign = "¢€£¥₩₹₴₺₪₫₱฿₲…•·«»½".contains(c) || plain(c).is_ascii();
    !(sign || c.is_whitespace() || c.is_numeric())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(line: &str) -> Vec<String> {
        cut(line).0.into_iter().map(|token| token.text).collect()
    }

    #[test]
    fn words_numbers_and_signs_part() {
        assert_eq!(texts("2 12-Packs $1.25"), ["2", "12", "-", "packs", "$", "1.25"]);
        assert_eq!(texts("5x3x2 in .50"), ["5", "x", "3", "x", "2", "in", ".50"]);
        assert_eq!(texts("girl’s 4/$1, 1,250.00."), ["girl's", "4", "/", "$", "1", ",", "1,250.00", "."]);
        assert_eq!(texts("6–8 2×4 ½"), ["6", "-", "8", "2", "x", "4", "half"]);
        assert_eq!(texts("2027-03-15 2,50"), ["2027", "-", "03", "-", "15", "2", ",", "50"]);
        assert_eq!(texts("co\u{200b}mb"), ["comb"]);
        assert_eq!(texts("50¢"), ["50", "¢"]);
    }

    #[test]
    fn notes_stay_whole() {
        let (tokens, notes) = cut("comb (a (very; blue) one) 2 (open");
        assert_eq!(notes, ["a (very; blue) one", "open"]);
        assert_eq!(tokens.len(), 4);
        assert_eq!(tokens[1].took, Some(What::Note));
    }

    #[test]
    fn numbers_know_their_value() {
        let number = |text: &str| cut(text).0.remove(0);
        assert_eq!(number(".29").decimal().unwrap().to_string(), "0.29");
        assert_eq!(number(".29").decimals(), 2);
        assert_eq!(number("1,000").whole(), Some(1000));
        assert_eq!(number("99999999999").whole(), None);
        assert_eq!(number("٣").shape, Shape::Number);
        assert_eq!(number("٣").decimal(), None);
    }
}
