//! How long a script may take by the clock, besides how many operations: the last resort against what is slow for a
//! reason that nobody thought of.
//!
//! What the tool works out for a script is not the script's time. Weights and figures are worked out once a build, for
//! all rules: whichever rule happens to ask first must not be the one that is called slow.

use std::cell::Cell;
use std::time::Duration;

/// A clock that never goes back: the time since some moment. Who has none has no deadline.
pub type Clock = fn() -> Duration;

/// The time of its own that a script may take over one subject. A built-in rule takes some hundred microseconds.
pub(crate) const LONGEST: Duration = Duration::from_secs(5);

/// The time of one run.
#[derive(Debug, Default)]
pub(crate) struct Watch {
    clock: Option<Clock>,
    began: Cell<Duration>,
    /// Time that the tool took in that run.
    rested: Cell<Duration>,
}

impl Watch {
    pub(crate) fn new(clock: Option<Clock>) -> Self {
        Self { clock, ..Self::default() }
    }

    /// A run begins.
    pub(crate) fn begin(&self) {
        self.began.set(self.now());
        self.rested.set(Duration::ZERO);
    }

    /// Whether the run has taken longer than it may.
    pub(crate) fn is_late(&self) -> bool {
        let taken = self.now().saturating_sub(self.began.get());
        taken.saturating_sub(self.rested.get()) > LONGEST
    }

    /// Work of the tool's, which is not the script's time.
    pub(crate) fn rest<T>(&self, work: impl FnOnce() -> T) -> T {
        let before = self.now();
        let done = work();
        self.rested.set(self.rested.get().saturating_add(self.now().saturating_sub(before)));
        done
    }

    fn now(&self) -> Duration {
        self.clock.map_or(Duration::ZERO, |clock| clock())
    }

    #[cfg(test)]
    pub(crate) fn rested(&self) -> Duration {
        self.rested.get()
    }
}
