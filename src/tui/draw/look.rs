//! How meaning looks: colours by role on a dark or a light ground, or none at all; signs in ASCII
//! where the terminal has no others.
//!
//! Colour only helps: every role also differs by sign or word. Without colour (`NO_COLOR`, or while
//! the ground is unknown) this sets none at all, for a colour that the terminal layer then replaces
//! by a reset would take the reversed row with it.

use ratatui::style::{Color, Modifier, Style};

/// What a stretch of text means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A fact.
    Text,
    /// A heading.
    Heading,
    /// What is met, and wants no look.
    Quiet,
    /// Where one is; a key.
    Here,
    /// What still needs something.
    Care,
    /// Forbidden, or broken.
    Stop,
    /// It was done.
    Good,
}

/// What the terminal's ground is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Ground {
    /// Not known, or no colour is wanted.
    #[default]
    Plain,
    /// Dark.
    Dark,
    /// Light.
    Light,
}

/// How things look.
#[derive(Debug, Clone, Copy, Default)]
pub struct Look {
    /// The ground.
    pub ground: Ground,
    /// Only ASCII.
    pub ascii: bool,
}

impl Look {
    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let plain = Style::new();
        let (color, modifier) = match (role, self.ground) {
            (Role::Text, _) | (Role::Quiet, Ground::Plain) => return plain,
            (Role::Quiet, _) => (None, Modifier::DIM),
            (Role::Here, Ground::Dark) => (Some(Color::Cyan), Modifier::empty()),
            (Role::Here, Ground::Light) => (Some(Color::Blue), Modifier::empty()),
            (Role::Care, Ground::Dark) => (Some(Color::LightYellow), Modifier::empty()),
            (Role::Care, Ground::Light) => (Some(Color::Magenta), Modifier::empty()),
            (Role::Stop, Ground::Dark) => (Some(Color::LightRed), Modifier::BOLD),
            (Role::Stop, Ground::Light) => (Some(Color::Red), Modifier::BOLD),
            (Role::Stop, Ground::Plain) => (None, Modifier::BOLD.union(Modifier::UNDERLINED)),
            (Role::Good, Ground::Dark) => (Some(Color::Green), Modifier::empty()),
            (Role::Heading | Role::Good | Role::Here | Role::Care, _) => (None, Modifier::BOLD),
        };
        let style = plain.add_modifier(modifier);
        color.map_or(style, |color| style.fg(color))
    }

    /// A text as this terminal can show it.
    pub fn text(self, text: &str) -> String {
        if !self.ascii {
            return text.to_owned();
        }
        text.chars().map(ascii).collect()
    }

    /// What ends a text that was cut.
    pub fn cut_mark(self) -> &'static str {
        if self.ascii { ".." } else { "…" }
    }
}

fn ascii(c: char) -> String {
    let sign = match c {
        '✓' => "*",
        '◒' => "~",
        '◇' => "%",
        '✗' => "X",
        '▸' => ">",
        '▹' | '─' | '–' | '−' | '—' => "-",
        '›' | '░' => ":",
        '□' => ".",
        '○' | '■' => "o",
        '▣' | '█' | '▇' | '▆' | '▅' | '▄' | '▃' | '▂' | '▁' => "#",
        '━' => "=",
        '═' => "^",
        '│' => "|",
        '┌' | '┐' | '└' | '┘' => "+",
        '·' => ",",
        '×' => "x",
        '½' => ".5",
        '…' => "..",
        '“' | '”' => "\"",
        '’' => "'",
        '↑' => "Up",
        '↓' => "Down",
        '←' => "Left",
        '→' => "Right",
        c if c.is_ascii() => return c.to_string(),
        // A letter that can't be shown keeps its place.
        _ => "?",
    };
    sign.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROLES: [Role; 7] = [Role::Text, Role::Heading, Role::Quiet, Role::Here, Role::Care, Role::Stop, Role::Good];

    #[test]
    fn without_colour_none_is_set() {
        for role in ROLES {
            let style = Look::default().style(role);
            assert_eq!((style.fg, style.bg), (None, None), "{role:?}");
        }
    }

    #[test]
    fn only_the_terminals_own_sixteen_colours_and_never_a_ground() {
        for ground in [Ground::Dark, Ground::Light] {
            for role in ROLES {
                let style = Look { ground, ascii: false }.style(role);
                assert!(!matches!(style.fg, Some(Color::Rgb(..) | Color::Indexed(_) | Color::DarkGray)), "{role:?}");
                assert_eq!(style.bg, None, "{role:?}");
            }
        }
    }

    #[test]
    fn every_sign_has_one_in_ascii() {
        let look = Look { ascii: true, ..Look::default() };
        assert_eq!(look.text("▸ ✓◒◇○ › ─━═ 6–8 · 3½ × …"), "> *~%o : -=^ 6-8 , 3.5 x ..");
        assert_eq!(look.text("café 日"), "caf? ?");
    }
}
