//! What the shell is told.

use std::process::ExitCode;

use pintle_report::Outcome;
use pintle_report::compare::Turn;

/// What the shell is told. The numbers are part of the interface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Exit {
    /// Nothing at or above the hold grade.
    Released = 0,
    /// A fault at or above the hold grade.
    Held = 1,
    /// The input or the call is wrong.
    Wrong = 2,
    /// Something could not be judged at or above the hold grade, and nothing else holds.
    CannotJudge = 3,
}

impl From<Outcome> for Exit {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Released => Self::Released,
            Outcome::Held => Self::Held,
            Outcome::InputWrong => Self::Wrong,
            Outcome::CannotJudge => Self::CannotJudge,
        }
    }
}

impl From<Turn> for Exit {
    fn from(turn: Turn) -> Self {
        match turn {
            Turn::NoNewFault => Self::Released,
            Turn::NewFault => Self::Held,
            Turn::InputWrong => Self::Wrong,
            Turn::CannotJudge => Self::CannotJudge,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit as u8)
    }
}
