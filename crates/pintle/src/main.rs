//! The command line: the only room that reads files, the environment and the clock, opens a socket, and prints.

mod backlog;
mod call;
mod clock;
mod compare;
mod crew;
mod exit;
mod explain;
mod figures;
mod files;
mod in_force;
mod inspect;
mod layers;
mod mend;
mod new;
mod print;
mod product;
mod revision;
mod round;
mod rules;
mod sheet;
mod shop;
mod trial;
mod walk;
mod weigh;

use std::process::ExitCode;

use clap::Parser;

use crate::call::{Call, Command};

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let call = Call::parse();
    let exit = match &call.command {
        Command::Inspect(inspect) => inspect::run(&call, inspect),
        Command::Compare(compare) => compare::run(&call, compare),
        Command::Mend(mend) => mend::run(&call, mend),
        Command::Weigh(weigh) => weigh::run(&call, weigh),
        Command::Sheet(wanted) => sheet::run(&call, wanted),
        Command::Walk(walk) => walk::run(&call, walk),
        Command::Figures(figures) => figures::run(&call, figures),
        Command::Explain(explain) => explain::run(&call, explain),
        Command::Trial(trial) => trial::run(&call, trial),
        Command::Rules(rules) => rules::run(&call, rules),
        Command::New(new) => new::run(&call, new),
        Command::Backlog(backlog) => backlog::run(&call, backlog),
    };
    exit.into()
}
