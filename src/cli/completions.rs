//! `completions`: what a shell needs to complete commands and options.

use clap::CommandFactory;
use clap_complete::Shell;

use super::{Answer, Brimful, out};

/// Words for your shell, so that Tab completes commands and options.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful completions bash > ~/.local/share/bash-completion/completions/brimful
  brimful completions fish > ~/.config/fish/completions/brimful.fish")]
pub struct Args {
    /// Which shell
    shell: Shell,
}

pub fn run(args: &Args) -> Answer {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Brimful::command(), "brimful", &mut script);
    out::print(&String::from_utf8_lossy(&script))?;
    Ok(0)
}
