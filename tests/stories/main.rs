//! Stories from the shell: words in, words and exit codes out, over one season's file or several.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a story that takes a wrong turn stops")]

mod answers;
mod careful;
mod fit;
mod fitting;
mod hauls;
mod joining;
mod manual;
mod night;
mod packing;
mod planning;
mod rules;
mod sample;
mod settings;
mod shell;
mod stock;
