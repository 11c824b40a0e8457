//! What is left of the work that a search may do for one build, so that no spec can keep it busy for ever.

use std::cell::Cell;

use pintle_spec::{Known, Missing};

/// What is left of the work that may be done for one build.
#[derive(Debug)]
pub(crate) struct Budget {
    left: Cell<usize>,
    /// What the spec would have to be for the work to be done.
    wanted: &'static str,
    /// What its author can do.
    help: &'static str,
}

impl Budget {
    /// A whole one, and what is said when it is spent.
    pub(super) const fn of(work: usize, wanted: &'static str, help: &'static str) -> Self {
        Self { left: Cell::new(work), wanted, help }
    }

    /// Takes so much of it away.
    ///
    /// # Errors
    /// That so much is not left.
    pub(super) fn spend(&self, work: usize) -> Known<()> {
        let left = self.left.get().checked_sub(work);
        let left = left.ok_or_else(|| Missing::new(self.wanted, None, self.help))?;
        self.left.set(left);
        Ok(())
    }
}
