//! Which day it is.

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::call::Call;

/// The day that the call states, or today where this machine stands.
pub(crate) fn day(call: &Call) -> Date {
    call.date.unwrap_or_else(|| ZonedDateTime::now().date())
}
