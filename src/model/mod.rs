//! The nouns of the trade, their laws, and the plain values that two floors share.
//!
//! Pure: no clock, no file, no terminal, and no other floor of the house.
//!
//! Start at [`fact`] for what can happen, at [`fold`] for what it costs, at [`project`] for how
//! rows follow from facts, and at [`commit`] for what must hold before a fact is kept.

pub mod age;
pub mod category;
pub mod checklist;
pub mod commit;
pub mod currency;
pub mod event;
pub mod fact;
pub mod fold;
pub mod giftbox;
pub mod habit;
pub mod haul;
pub mod id;
pub mod kept;
pub mod kind;
pub mod lot;
pub mod measure;
pub mod money;
pub mod profile;
pub mod project;
pub mod rows;
pub mod share;
pub mod stop;
pub mod text;
pub mod whom;
