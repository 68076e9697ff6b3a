//! How high the line stands: closed it is one row; open, with what it understood or offers beneath.

use super::desk::Desk;
use super::line::Purpose;
use super::room::Tier;

/// The rows that the line would like.
pub fn rows(desk: &Desk) -> u16 {
    let tier = desk.size.tier();
    let Some(line) = &desk.line else {
        return match &desk.asked {
            Some(_) if tier >= Tier::Narrow => 4,
            Some(_) => 3,
            None => 1,
        };
    };
    match (&line.purpose, tier) {
        (_, Tier::Row) => 1,
        (_, Tier::Small) => 4,
        (Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_), Tier::Wide) => 14,
        (Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_), Tier::Full) => 11,
        (Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_), Tier::Narrow) => 9,
        (Purpose::PutIn { .. }, Tier::Wide) => 16,
        (Purpose::PutIn { .. }, Tier::Full) => 11,
        (Purpose::PutIn { .. }, Tier::Narrow) => 9,
        (Purpose::Find | Purpose::Actions | Purpose::ToBox(_), _) => 10,
        (Purpose::Tote(_), _) => 6,
        (Purpose::Plan | Purpose::MendBox(_), _) => 4,
        _ => 3,
    }
}
