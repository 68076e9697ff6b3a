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
    let by_tier = |wide, full, narrow| match tier {
        Tier::Row => 1,
        Tier::Small => 4,
        Tier::Narrow => narrow,
        Tier::Full => full,
        Tier::Wide => wide,
    };
    match &line.purpose {
        Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_) => by_tier(14, 11, 9),
        Purpose::PutIn { .. } => by_tier(16, 11, 9),
        Purpose::Find | Purpose::Actions | Purpose::ToBox(_) => by_tier(10, 10, 10),
        Purpose::Tote(_) => by_tier(6, 6, 6),
        Purpose::Plan | Purpose::MendBox(_) => by_tier(4, 4, 4),
        _ => by_tier(3, 3, 3),
    }
}
