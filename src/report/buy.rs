//! The shopping page: what to buy, for whom and at which price to stay under; narrow enough for a pocket.

use serde::Serialize;

use super::{Report, Sum};
use crate::model::text::counted;

/// As wide as a phone shows in one line, or a narrow slip of paper.
const WIDTH: usize = 40;

/// What to buy, beside what there is enough of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ShoppingPage {
    /// What it is for: `To finish all 24 open boxes`.
    pub aim: String,
    /// Open boxes.
    pub open: u32,
    /// Boxes that are finished then.
    pub finishes: u32,
    /// Units to buy.
    pub units: u32,
    /// What all of it costs at the prices to stay under.
    pub total: Sum,
    /// One by one: what is to be bought first.
    pub rows: Vec<BuyRow>,
}

/// A kind, or anything of a category.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BuyRow {
    /// `toothbrush`, `hygiene`.
    pub what: String,
    /// The category's word.
    pub category: String,
    /// Units that the boxes need.
    pub needed: u32,
    /// Free units that suit any of them.
    pub on_hand: u32,
    /// Units to buy.
    pub buy: u32,
    /// Units in a pack; 1 where it was bought one by one.
    pub pack: u32,
    /// Packs to buy.
    pub packs: u32,
    /// The price of a pack to stay under; empty: nobody knows one.
    pub at_most: String,
    /// What all of it costs then.
    pub cost: Sum,
    /// Whom they are for.
    pub parts: Vec<BuyPart>,
    /// Kinds of the category that were bought before, cheapest first.
    pub paid_before: Vec<Known>,
}

/// Units for some children.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BuyPart {
    /// `girls 6–8`; several where it doesn't matter which of them gets it.
    #[serde(rename = "for")]
    pub whom: Vec<String>,
    /// How many.
    pub units: u32,
    /// Sizes of clothes that were for these children before.
    pub sizes: Vec<String>,
}

/// A kind with what one of it cost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Known {
    /// The kind.
    pub kind: String,
    /// The middle price of one.
    pub each: String,
}

/// `, size 6, 6-7 or 8`; nothing where there are none.
pub fn in_sizes(sizes: &[String]) -> String {
    match sizes {
        [] => String::new(),
        [one] => format!(", size {one}"),
        [most @ .., last] => format!(", size {} or {last}", most.join(", ")),
    }
}

impl BuyRow {
    fn lines(&self) -> Vec<String> {
        if self.buy == 0 {
            return vec![format!("{}: need {}, have {}: leave it", self.what, self.needed, self.on_hand)];
        }
        let mut lines = vec![format!("{}: buy {}", self.what, self.buy)];
        lines.extend(self.parts.iter().map(|part| format!(" □ {}", part.words())));
        lines.push(format!("   {}", self.price()));
        let suit = if self.on_hand >= self.needed { ", not for all of them" } else { "" };
        lines.push(format!("   need {}, have {}{suit}", self.needed, self.on_hand));
        if !self.paid_before.is_empty() {
            let kinds: Vec<String> = self.paid_before.iter().map(|it| format!("{} {}", it.kind, it.each)).collect();
            lines.push(format!("   paid before: {}", kinds.join(", ")));
        }
        lines
    }

    /// `at most 0.45 each, 5.40 in all`, `2 packs of 8, at most 2.00 a pack, 4.00 in all`.
    fn price(&self) -> String {
        if self.at_most.is_empty() {
            return "no price known".to_owned();
        }
        let all = self.cost.words();
        if self.pack > 1 {
            let packs = counted(u64::from(self.packs), "pack", "packs");
            return format!("{packs} of {}, at most {} a pack, {all} in all", self.pack, self.at_most);
        }
        format!("at most {} each, {all} in all", self.at_most)
    }
}

impl BuyPart {
    fn words(&self) -> String {
        format!("{} for {}{}", self.units, self.whom.join(", "), in_sizes(&self.sizes))
    }
}

impl ShoppingPage {
    /// The page for a browser, by itself: no style sheet, picture or script from elsewhere.
    pub fn html(&self) -> String {
        let heading = escaped(&self.aim);
        let row = |row: &BuyRow| {
            let lines: Vec<String> = row.lines().iter().map(|line| escaped(line.trim())).collect();
            let (first, rest) =
                lines.split_first().map_or((String::new(), &[][..]), |(first, rest)| (first.clone(), rest));
            if rest.is_empty() {
                format!("<p>{first}</p>\n")
            } else {
                format!("<h2>{first}</h2>\n<p>{}</p>\n", rest.join("<br>\n"))
            }
        };
        let rows: String = self.rows.iter().map(row).collect();
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{heading}</title>\n\
             <style>body {{ font: 1rem/1.4 sans-serif; max-width: 30rem; margin: 1rem }} \
             h2 {{ font-size: 1.1rem; margin-bottom: 0 }} h2 + p {{ margin-top: 0 }}</style>\n\
             <h1>{heading}</h1>\n<p>{}</p>\n{rows}</html>\n",
            escaped(&self.total.of_things(self.units))
        )
    }
}

impl Report for ShoppingPage {
    fn text(&self) -> String {
        if self.open == 0 {
            return "No open boxes: nothing is needed.\n".to_owned();
        }
        let mut lines = vec![self.aim.clone()];
        let nothing = "Nothing needs to be bought.".to_owned();
        lines.push(if self.units == 0 { nothing } else { self.total.of_things(self.units) });
        for (at, row) in self.rows.iter().enumerate() {
            // What is left alone stands close together.
            if row.buy > 0 || at == 0 || self.rows[at - 1].buy > 0 {
                lines.push(String::new());
            }
            lines.extend(row.lines());
        }
        lines.iter().map(|line| format!("{}\n", wrapped(line))).collect()
    }
}

/// A line broken between words so that it stays within the width; what follows is set in a little further.
fn wrapped(line: &str) -> String {
    let set_in = line.chars().take_while(|letter| [' ', '□'].contains(letter)).count();
    let mut text: String = line.chars().take(set_in).collect();
    let mut width = set_in;
    for (at, word) in line.split_whitespace().filter(|word| *word != "□").enumerate() {
        let long = word.chars().count();
        if at > 0 && width + 1 + long > WIDTH {
            text.push('\n');
            text.push_str(&" ".repeat(set_in + 1));
            width = set_in + 1;
        } else if at > 0 {
            text.push(' ');
            width += 1;
        }
        text.push_str(word);
        width += long;
    }
    text
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_line_is_broken_between_words() {
        let line = " □ 12 for girls 6–8, boys 6–8, girls 9–12, boys 9–12";
        assert_eq!(wrapped(line), " □ 12 for girls 6–8, boys 6–8, girls\n    9–12, boys 9–12");
        assert_eq!(wrapped("toy: buy 2"), "toy: buy 2");
    }

    #[test]
    fn any_of_the_sizes_will_do() {
        let said = |sizes: &[&str]| in_sizes(&sizes.iter().map(|size| (*size).to_owned()).collect::<Vec<_>>());
        assert_eq!([said(&[]), said(&["4t"]), said(&["6", "6-7", "8"])], ["", ", size 4t", ", size 6, 6-7 or 8"]);
    }

    #[test]
    fn marks_of_html_are_written_out() {
        assert_eq!(escaped("a < b & \"c\""), "a &lt; b &amp; &quot;c&quot;");
    }
}
