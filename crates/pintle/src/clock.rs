//! Which day it is, and the clock by which scripts that take too long are stopped.

use std::sync::LazyLock;
use std::time::{Duration, Instant};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::call::Call;

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the clock")]
static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);

/// The time since it was first asked for.
pub(crate) fn since_first_asked() -> Duration {
    BEGAN.elapsed()
}

/// The day that the call states, or today where this machine stands.
pub(crate) fn day(call: &Call) -> Date {
    call.date.unwrap_or_else(|| ZonedDateTime::now().date())
}
