//! The sorts of figures of the spec itself.

use super::Gives::{Flag, Number, Share, Texts};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("spec/road_states", Texts, "states on the road"),
    sort("spec/guessed_share", Share, "share of the gross weight that was guessed"),
    sort("spec/guessed_parts", Texts, "what was guessed, the heaviest first"),
    sort("spec/used", Flag, "whether any state has it aboard, filled or slept in"),
    sort(
        "spec/off_range",
        Number,
        "how many times beyond what stock has of its kind, the farthest of its sizes",
    ),
    sort("spec/off_range_of", Texts, "which of its sizes are beyond what stock has of its kind"),
    sort("spec/unit_slips", Texts, "values that are off the stock part's by a slip of units"),
];
