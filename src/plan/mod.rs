//! Which boxes can be finished, what holds the others back, and what to buy.
//!
//! Pure, over plain values ([`problem`]). From the question to the answer:
//!
//! 1. [`compile`] and [`lines`] put together what is alike: boxes to bundles, lines of checklists to spots, things to
//!    supplies ([`net`]). What is left of fifty thousand boxes is a few hundred unknown counts.
//! 2. For given counts everything is a flow ([`flow`], [`filler`]): whether they can be filled, what is missing, what the
//!    missing costs at least, which things go where. What holds a flow back is a sentence ([`explain`], [`say`]).
//! 3. The counts themselves are looked for in [`search`]: a small linear program ([`master`], [`lp`]) over rows that flows
//!    find, rounded and filled up ([`packer`]); [`gomory`] makes rows that only whole counts keep; what then still gapes is
//!    divided. [`bound`] adds up in whole numbers what no plan can exceed, so that no rounding can make it wrong, and
//!    every plan told has been filled by a flow in whole units.
//! 4. [`most`], [`shopping`], [`worth`], [`next`], [`assign`], [`spread`] and [`room`] ask the questions.
//!
//! The most boxes are hard to find in general (three categories contain three-dimensional matching: R. M. Karp, Reducibility
//! among combinatorial problems, 1972), so an answer is always what was found and what nothing exceeds.

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
pub use say::{Amount, headline, many, reasons, step as step_in_words};
pub use shopping::{Cheapest, Lack, Purchase, Shopping, Wish, Within, cheapest, lacks, with_budget};
pub use spread::{Extra, Has, Spread, even_out};
pub use worth::{Worth, value_of};
