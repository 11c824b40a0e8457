//! The sorts of figures of the quote.

use super::Gives::{Figure, Texts};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("quote/lines_sum", Figure("$"), "sum of the lines"),
    sort("quote/clashes", Texts, "parts that it does not go with"),
];
