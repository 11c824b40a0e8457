//! Days as people write them in a record.

use jiff::civil::Date;

/// The days from one date to another, both as in 2026-05-04; negative where the second comes first. None where either is
/// no day of the calendar.
///
/// ```
/// assert_eq!(pintle_spec::days_between("2026-02-27", "2026-03-01"), Some(2));
/// assert_eq!(pintle_spec::days_between("2026-02-30", "2026-03-01"), None);
/// ```
pub fn days_between(from: &str, to: &str) -> Option<i32> {
    day(to)?.since(day(from)?).ok().map(|span| span.get_days())
}

/// A day, written with year, month and day and nothing else.
pub(crate) fn day(text: &str) -> Option<Date> {
    let plain = text.len() == "2026-05-04".len();
    text.parse().ok().filter(|_| plain)
}
