//! The shell's face of a season: one file for each command, or for a few that are alike.
//!
//! A command reads its words, calls one act or asks one question, and prints what came of it.
//! Exit codes: 0 done, 1 the answer is no, 2 a bad call or bad data.

mod box_;
mod cautions;
mod check;
mod completions;
mod cost;
mod count;
mod cpu;
mod each;
mod fit;
mod fit_box;
mod haul;
mod history;
mod join;
mod kind;
mod kit;
mod log;
mod loose;
mod man;
mod mend;
mod night;
mod out;
mod parting;
mod paths;
mod plan;
mod profile;
mod pull;
mod put;
mod read;
mod review;
mod sample;
mod settings;
mod shell;
mod size;
mod split;
mod stock;
mod table;
mod take;
mod undo;
mod where_is;
mod words;

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Parser, Subcommand};

use shell::{Failure, Shell};

/// What an outcome comes to: 0 done, 1 the answer is no.
type Answer = Result<u8, Failure>;

/// Gift boxes for a donation drive: log hauls in plain words, keep stock, plan and pack boxes.
#[derive(Debug, Parser)]
#[command(name = "brimful", version, after_help = EXAMPLES, max_term_width = 100)]
struct Brimful {
    /// The season's file [default: `BRIMFUL_FILE`, else season.brimful in the data folder]
    #[arg(long, global = true, value_name = "FILE")]
    file: Option<PathBuf>,
    /// A short name for who writes; remembered on this computer
    #[arg(long, global = true, value_name = "NAME")]
    by: Option<String>,
    #[command(flatten)]
    look: table::LookArgs,
    #[command(subcommand)]
    command: Option<Command>,
}

const EXAMPLES: &str = "Examples:
  brimful log --at \"Mill Lane Market\" \"12 toothbrushes 1.50\" \"5 soaps .40 each\"
  brimful box plan 3 girl 6-8 ocean, teal and coral
  brimful put 1 2 soaps
  brimful review --lacks hygiene
  brimful sample";

#[derive(Debug, Subcommand)]
enum Command {
    /// Say what was understood of some lines; keep nothing
    Read(read::Args),
    /// Log a haul, line by line in plain words
    Log(log::Args),
    /// What is on hand
    Stock(stock::Args),
    /// Where a thing is: its tote, and the boxes that have it
    WhereIs(where_is::Args),
    /// Boxes: plan, list, show, copy, edit, close, reopen and more
    #[command(subcommand)]
    Box(box_::Command),
    /// Set things aside for a box, still in their tote
    #[command(visible_alias = "set-aside")]
    Aside(put::AsideArgs),
    /// Put things into a box
    Put(put::PutArgs),
    /// Take things out of a box, back to their tote
    Take(take::TakeArgs),
    /// Move things from box to box
    Move(take::MoveArgs),
    /// One of a thing into each of these boxes
    Each(each::Args),
    /// Note why a thing in a box was chosen
    Note(take::NoteArgs),
    /// Give things loose, outside any box
    Loose(loose::LooseArgs),
    /// Take off what was lost or broke
    Lose(loose::LoseArgs),
    /// Add what turned up
    Found(loose::FoundArgs),
    /// Correct a batch as it was logged
    Mend(mend::Args),
    /// Count what is really there
    Count(count::Args),
    /// How much there is of a thing that nobody counts: plenty, low, gone
    Level(count::LevelArgs),
    /// Put several things together as a kit
    Kit(kit::Args),
    /// Break a pack up into bundles
    Split(split::Args),
    /// Take a part out of sets, as a thing of its own
    Part(parting::PartArgs),
    /// Take kits apart again
    Apart(parting::ApartArgs),
    /// Make the batches of one thing one batch
    Combine(parting::CombineArgs),
    /// The hauls as they were logged
    Hauls(haul::ListArgs),
    /// Hauls that don't add up to their receipt, and what explains it
    Settle(haul::SettleArgs),
    /// What an unknown thing counts for, said once
    Kind(kind::Args),
    /// How large things of a kind are, said once
    Size(size::Args),
    /// Correct what is about a whole haul: its day, shop, tax, receipt
    MendHaul(haul::MendArgs),
    /// Which boxes lack what, and what wants a look
    Review(review::Args),
    /// What can hurt, or what the drive forbids
    Cautions(cautions::Args),
    /// Allow a thing in one box though a caution speaks against it
    Allow(cautions::AllowArgs),
    /// Which boxes can be finished, and what to buy for the others
    Plan(plan::Args),
    /// What to buy for the open boxes, and at which price to stay under
    Buy(plan::BuyArgs),
    /// What to fetch from which tote, for which box
    Pull(pull::Args),
    /// What stops each box before the drop-off, and its fix
    LastNight(night::Args),
    /// Whether the lid closes over a box, and where each thing goes
    Fit(fit::Args),
    /// What it cost: all, a box, or a thing each time it was bought
    Cost(cost::Args),
    /// What was done, newest first
    History(history::Args),
    /// Take back this computer's latest act
    Undo,
    /// Bring back what was undone last
    Redo,
    /// Show the drive's rules, or set them from a file
    Profile(profile::Args),
    /// Join another computer's file into this one
    Join(join::Args),
    /// Look the file over
    Check(check::CheckArgs),
    /// Make all that is shown anew from what was done
    Rebuild,
    /// Where the file and the settings are
    Paths(paths::Args),
    /// Look around in an invented drive; yours is not touched
    Sample(sample::Args),
    /// Words for your shell, so that Tab completes commands
    Completions(completions::Args),
    /// This program's page for man, or the page of one command
    Man(man::Args),
}

/// Runs one call and gives its exit code.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> u8 {
    let call = match Brimful::try_parse_from(arguments) {
        Ok(call) => call,
        Err(told) => {
            // Help that was asked for is an answer; a closed pipe is nobody's fault.
            _ = told.print();
            return if told.use_stderr() { 2 } else { 0 };
        }
    };
    match Shell::new(call.file, call.by).and_then(|shell| answer(call.command, &shell, call.look)) {
        Ok(code) => code,
        Err(failure) => failure.tell(),
    }
}

fn answer(command: Option<Command>, shell: &Shell, look: table::LookArgs) -> Answer {
    let Some(command) = command else { return table::open_or_tell(shell, look) };
    match command {
        Command::Read(args) => read::run(&args, shell),
        Command::Log(args) => log::run(args, shell),
        Command::Stock(args) => stock::run(args, shell),
        Command::WhereIs(args) => where_is::run(&args, shell),
        Command::Box(command) => box_::run(command, shell),
        Command::Aside(args) => put::aside(args, shell),
        Command::Cautions(args) => cautions::run(&args, shell),
        Command::Allow(args) => cautions::allow(&args, shell),
        Command::Put(args) => put::put(args, shell),
        Command::Take(args) => take::take(&args, shell),
        Command::Move(args) => take::carry(&args, shell),
        Command::Each(args) => each::run(&args, shell),
        Command::Note(args) => take::note(&args, shell),
        Command::Loose(args) => loose::loose(&args, shell),
        Command::Lose(args) => loose::lose(&args, shell),
        Command::Found(args) => loose::found(&args, shell),
        Command::Mend(args) => mend::run(args, shell),
        Command::Count(args) => count::run(&args, shell),
        Command::Kit(args) => kit::run(args, shell),
        Command::Split(args) => split::run(args, shell),
        Command::Hauls(args) => haul::list(&args, shell),
        Command::Level(args) => count::level(&args, shell),
        Command::Part(args) => parting::part(&args, shell),
        Command::Apart(args) => parting::apart(&args, shell),
        Command::Combine(args) => parting::combine(&args, shell),
        Command::Settle(args) => haul::settle(args, shell),
        Command::Kind(args) => kind::run(args, shell),
        Command::Size(args) => size::run(&args, shell),
        Command::MendHaul(args) => haul::mend(args, shell),
        Command::Review(args) => review::run(args, shell),
        Command::Plan(args) => plan::run(&args, shell),
        Command::Buy(args) => plan::buy(&args, shell),
        Command::Pull(args) => pull::run(&args, shell),
        Command::LastNight(args) => night::run(&args, shell),
        Command::Fit(args) => fit::run(&args, shell),
        Command::Cost(args) => cost::run(&args, shell),
        Command::History(args) => history::run(&args, shell),
        Command::Undo => undo::undo(shell),
        Command::Redo => undo::redo(shell),
        Command::Profile(args) => profile::run(&args, shell),
        Command::Join(args) => join::run(&args, shell),
        Command::Check(args) => check::check(&args, shell),
        Command::Rebuild => check::rebuild(shell),
        Command::Paths(args) => paths::run(&args, shell),
        Command::Sample(args) => sample::run(args, shell, look),
        Command::Completions(args) => completions::run(&args),
        Command::Man(args) => man::run(&args),
    }
}
