//! The sorts of figures of the scale.

use super::Gives::{Figure, Flag, Number, Share, Texts};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("scale/has_ticket", Flag, "a scale ticket is recorded of it"),
    sort("scale/gross_residual", Figure("lb"), "gross weight on the scale less the sum of the parts"),
    sort("scale/gross_residual_over_spread", Number, "that difference over its ±"),
    sort("scale/tongue_residual", Figure("lb"), "tongue weight on the scale less what was worked out"),
    sort("scale/tongue_residual_over_spread", Number, "that difference over its ±"),
    sort("scale/axles_residual", Figure("lb"), "axle load on the scale less what was worked out"),
    sort("scale/axles_residual_over_spread", Number, "that difference over its ±"),
    sort(
        "scale/left_residual",
        Figure("lb"),
        "load of the left wheels on the scale less what was worked out",
    ),
    sort("scale/left_residual_over_spread", Number, "that difference over its ±"),
    sort(
        "scale/right_residual",
        Figure("lb"),
        "load of the right wheels on the scale less what was worked out",
    ),
    sort("scale/right_residual_over_spread", Number, "that difference over its ±"),
    sort("scale/out_of_balance", Figure("lb"), "tongue and axles on the scale less the gross weight"),
    sort(
        "scale/in_balance",
        Flag,
        "tongue and axles agree with the gross weight, to what the scale can tell",
    ),
    sort("scale/sides_out_of_balance", Figure("lb"), "left and right wheels on the scale less the axle load"),
    sort(
        "scale/sides_in_balance",
        Flag,
        "left and right agree with the axle load, to what the scale can tell",
    ),
    sort("scale/weighed_gross", Figure("lb"), "gross weight as weighed"),
    sort("scale/weighed_tongue", Figure("lb"), "tongue weight as weighed"),
    sort("scale/weighed_axles", Figure("lb"), "axle load as weighed"),
    sort("scale/weighed_left", Figure("lb"), "load of the left wheels as weighed"),
    sort("scale/weighed_right", Figure("lb"), "load of the right wheels as weighed"),
    sort("scale/weighed_tongue_share", Share, "tongue share as weighed"),
    sort("scale/weighed_side_share", Share, "side imbalance as weighed"),
    sort("scale/tongue_spread", Figure("lb"), "how far the tongue weight can be off at most"),
    sort("scale/tongue_share_spread", Share, "how far the tongue share can be off by that"),
    sort("scale/weight_drift", Figure("lb"), "gross weight as weighed less the sum of the parts"),
    sort("scale/tongue_share_drift", Share, "tongue share as weighed less what was worked out"),
    sort("scale/ticket_age", Figure("h"), "age of the ticket at delivery"),
    sort("scale/unaccounted_mass", Figure("lb"), "one weight that would explain the tickets"),
    sort("scale/unaccounted_behind_ball", Figure("in"), "how far behind the ball it would sit"),
    sort("scale/unaccounted_right_of_centre", Figure("in"), "how far right of the centreline it would sit"),
    sort(
        "scale/chi_square_before",
        Number,
        "what the tickets are off, in squares of their standard uncertainties",
    ),
    sort("scale/chi_square_after", Number, "what is left with that weight in its place"),
    sort("scale/suspects", Texts, "parts that would explain the tickets, likeliest first"),
    sort("scale/mass_change", Figure("lb"), "what it would have to weigh more"),
    sort("scale/mass_change_chi_square", Number, "what is left of the tickets' differences then"),
    sort("scale/mass_change_over_spread", Number, "that change over its own ±"),
    sort("scale/unweighed_mass", Figure("lb"), "weight of parts and loads that nobody weighed"),
    sort("scale/heaviest_unweighed", Texts, "the heaviest of them"),
];
