//! Which boxes can be finished, what holds them back, and what to buy.

mod answers;
mod assign;
mod bound;
mod compile;
mod explain;
mod file;
mod filler;
mod flow;
mod gomory;
mod level;
mod lines;
mod lp;
mod master;
mod most;
mod net;
mod next;
mod packer;
mod price;
mod problem;
mod room;
mod say;
mod search;
mod shopping;
mod spread;
#[cfg(test)]
mod tests;
mod worth;

pub use answers::{Answers, answer};
pub use assign::{Assignment, Given, Line, assign};
pub use explain::{Explanation, Left, Short};
pub use file::{BadFile, Instance, read as read_instance};
pub use most::{Most, Unlimited, most, unlimited};
pub use next::{Buy, Step, next};
pub use problem::{AgeRule, Demand, Group, Need, Offer, Plan, Problem, Shop, Stock, Thing, Ware};
pub use room::{Roomy, with_room};
pub use say::{Amount, headline, reasons, step as step_in_words};
pub use shopping::{Cheapest, Lack, Purchase, Shopping, Wish, Within, cheapest, lacks, with_budget};
pub use spread::{Extra, Has, Spread, even_out};
pub use worth::{Worth, value_of};
