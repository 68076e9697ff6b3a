//! `box`: planning, looking, and the steps of a box's life.

use jiff::civil::Date;

use super::Answer;
use super::shell::{Shell, day};
use crate::season::{BoxChange, Season};

/// What to do with boxes.
#[derive(Debug, clap::Subcommand)]
pub enum Command {
    /// Plan one box or several: who for, age group, theme, colours
    #[command(after_help = "Example:
  brimful box plan 3 girl 6-8 ocean, teal and coral")]
    Plan {
        /// The box in words
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// All boxes on the plan
    List {
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// One box with all that is in it
    Show {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
        /// As JSON
        #[arg(long)]
        json: bool,
    },
    /// Plan another box like this one, and set the same things aside as far as they are on hand
    Copy {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
    },
    /// Change who it is for, its age group, theme or colours; what isn't said stays
    #[command(after_help = "Example:
  brimful box edit 12 boy 9-12 space")]
    Edit {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
        /// What is new, in words
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// Close it
    Close {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
    },
    /// Open it again
    Reopen {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
    },
    /// Take it off the plan
    Drop {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
    },
    /// It was handed in to the drive
    HandIn {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
        /// The day [default: today]
        #[arg(long, value_parser = day)]
        on: Option<Date>,
    },
    /// It came back from the drive
    CameBack {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
        /// The day [default: today]
        #[arg(long, value_parser = day)]
        on: Option<Date>,
    },
    /// Take all that is in it back to the totes
    Unpack {
        /// Its number
        #[arg(value_name = "BOX")]
        giftbox: String,
    },
}

pub fn run(command: Command, shell: &Shell) -> Answer {
    let step = |giftbox: &str, change| shell.act(|season| season.step(giftbox, change));
    match command {
        Command::Plan { words } => shell.act(|season| season.plan(&words.join(" "))),
        Command::List { json } => shell.answer(json, Season::box_list).map(|_| 0),
        Command::Show { giftbox, json } => shell.answer(json, |season| season.box_card(&giftbox)).map(|_| 0),
        Command::Copy { giftbox } => shell.act(|season| season.copy(&giftbox)),
        Command::Edit { giftbox, words } => shell.act(|season| season.edit(&giftbox, &words.join(" "))),
        Command::Close { giftbox } => step(&giftbox, BoxChange::Close),
        Command::Reopen { giftbox } => step(&giftbox, BoxChange::Reopen),
        Command::Drop { giftbox } => step(&giftbox, BoxChange::Drop),
        Command::HandIn { giftbox, on } => step(&giftbox, BoxChange::HandIn(on.unwrap_or(shell.today()))),
        Command::CameBack { giftbox, on } => step(&giftbox, BoxChange::CameBack(on.unwrap_or(shell.today()))),
        Command::Unpack { giftbox } => shell.act(|season| season.unpack(&giftbox)),
    }
}
