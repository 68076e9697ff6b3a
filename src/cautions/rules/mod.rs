//! The built-in rules: one rule, one file, with its words, its source and its tests.

mod balloon;
mod button_cell;
mod cord;
mod drawstring;
mod expiry;
mod flame;
mod food;
mod glass;
mod latex;
mod launched;
mod liquid;
mod magnet;
mod marble;
mod medicine;
mod melts;
mod neck_loop;
mod plastic_bag;
mod sharp;
mod small_ball;
mod small_ball_toy;
mod small_part;
mod small_part_toy;
mod swells;
mod used;
mod weapon;

use super::Rule;

/// Every built-in rule, what can choke first.
pub const RULES: &[Rule] = &[
    small_part::RULE,
    small_part_toy::RULE,
    small_ball::RULE,
    small_ball_toy::RULE,
    marble::RULE,
    balloon::RULE,
    swells::RULE,
    magnet::RULE,
    button_cell::RULE,
    cord::RULE,
    neck_loop::RULE,
    drawstring::RULE,
    plastic_bag::RULE,
    sharp::RULE,
    launched::RULE,
    weapon::RULE,
    flame::RULE,
    glass::RULE,
    medicine::RULE,
    food::RULE,
    liquid::RULE,
    melts::RULE,
    latex::RULE,
    expiry::RULE,
    used::RULE,
];

/// The built-in rule of this id.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn each_rule_has_an_id_of_its_own_and_a_source() {
        let ids: BTreeSet<&str> = RULES.iter().map(|rule| rule.id).collect();
        assert_eq!(ids.len(), RULES.len());
        for rule in RULES {
            assert!(rule.id.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", rule.id);
            assert!(rule.source.len() > 10 && !rule.about.is_empty(), "{}", rule.id);
        }
        assert!(rule("balloon").is_some() && rule("drive").is_none());
    }
}
