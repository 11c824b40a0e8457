//! The ways a script ends before its last line, carried through the script language's own errors.

use pintle_spec::Missing;
use rhai::{Dynamic, EvalAltResult, Position};

/// Why a script stopped early.
#[derive(Debug, Clone)]
pub(crate) enum Stop {
    /// A value that it asked for is not given.
    Missing(Missing),
    /// The rule does not bear on this subject.
    NotApplicable(String),
    /// It did something that cannot be done.
    Failed(String),
}

impl Stop {
    /// As an error of the script language.
    #[expect(clippy::unnecessary_box_returns, reason = "functions of the script language give boxed errors")]
    pub(crate) fn raise(self) -> Box<EvalAltResult> {
        Box::new(EvalAltResult::ErrorRuntime(Dynamic::from(self), Position::NONE))
    }
}

/// A failure with a message, raised.
#[expect(clippy::unnecessary_box_returns, reason = "functions of the script language give boxed errors")]
pub(crate) fn failed(message: impl Into<String>) -> Box<EvalAltResult> {
    Stop::Failed(message.into()).raise()
}
