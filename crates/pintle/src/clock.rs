//! The clock, by which scripts that take too long are stopped.

use std::sync::LazyLock;
use std::time::{Duration, Instant};

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the clock")]
static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);

/// The time since it was first asked for.
pub(crate) fn since_first_asked() -> Duration {
    BEGAN.elapsed()
}
