//! The sorts of figures of towing.

use super::Gives::{Figure, Flag, Number, Share, Text};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort(
        "tow/tongue_limit",
        Figure("lb"),
        "most weight on the ball that coupler, jack, hitch and vehicle allow",
    ),
    sort("tow/tongue_limit_by", Text, "whose rating limits the weight on the ball"),
    sort(
        "tow/gross_limit",
        Figure("lb"),
        "most gross weight that trailer, coupler, ball, hitch and vehicle allow",
    ),
    sort("tow/gross_limit_by", Text, "whose rating limits the gross weight"),
    sort("tow/coupler_class", Number, "class of coupler that its gross weight needs"),
    sort("tow/ball_needed", Figure("in"), "least diameter of ball for that class"),
    sort("tow/chain_needed", Figure("lb"), "breaking load that each safety chain needs"),
    sort(
        "tow/coupler_pull_test",
        Figure("lbf"),
        "pull and push along the trailer that the coupler is tested with",
    ),
    sort("tow/coupler_side_test", Figure("lbf"), "force across that the coupler is tested with"),
    sort("tow/coupler_lift_test", Figure("lbf"), "upward pull that the coupler is tested with"),
    sort("tow/coupler_press_test", Figure("lbf"), "downward push that the coupler is tested with"),
    sort(
        "tow/hitch_first_test",
        Figure("lbf"),
        "pull along, and press down at once, that the hitch is tested with first",
    ),
    sort("tow/hitch_pull_test", Figure("lbf"), "pull and push along that the hitch is tested with next"),
    sort("tow/hitch_press_test", Figure("lbf"), "press down at the same time"),
    sort("tow/hitch_side_test", Figure("lbf"), "force across that the hitch is tested with last"),
    sort("tow/pitch", Figure("°"), "how far the trailer stands nose up behind this vehicle"),
    sort("tow/combination", Figure("lb"), "weight of vehicle and trailer together"),
    sort("tow/payload_used", Figure("lb"), "what people, cargo and the ball put on the vehicle"),
    sort("tow/vehicle_gross", Figure("lb"), "weight on the vehicle's own wheels"),
    sort("tow/rear_axle_gain", Figure("lb"), "what the ball's load adds to the rear axle"),
    sort("tow/front_axle_relief", Figure("lb"), "what the ball's load takes from the front axle"),
    sort("tow/rear_axle_load", Figure("lb"), "load of the rear axle with the trailer, without spring bars"),
    sort("tow/front_axle_load", Figure("lb"), "load of the front axle with the trailer, without spring bars"),
    sort("tow/front_axle_share", Share, "what is left on the front axle, as a share of what was"),
    sort("tow/needs_distribution", Flag, "whether it is beyond what the hitch carries without spring bars"),
    sort("tow/bar_moment", Figure("lb·in"), "moment of the spring bars"),
    sort("tow/front_axle_change", Figure("lb"), "what the front axle gains or loses with spring bars"),
    sort("tow/rear_axle_change", Figure("lb"), "what the rear axle gains or loses with spring bars"),
    sort("tow/trailer_axle_gain", Figure("lb"), "what spring bars add to the trailer's axles"),
    sort("tow/ball_load_distributed", Figure("lb"), "what is left on the ball with spring bars"),
    sort("tow/front_axle_distributed", Figure("lb"), "load of the front axle with spring bars"),
    sort("tow/rear_axle_distributed", Figure("lb"), "load of the rear axle with spring bars"),
    sort("tow/d_value", Figure("lbf"), "D-value of coupler and hitch, the lesser"),
    sort("tow/d_needed", Figure("lbf"), "D-value that vehicle and trailer need"),
    sort("tow/dc_needed", Figure("lbf"), "Dc-value that vehicle and trailer need"),
    sort("tow/v_needed", Figure("lbf"), "V-value that the trailer needs"),
    sort("tow/s_least", Figure("lb"), "least weight on the ball that vehicle and coupling must be made for"),
    sort("tow/s_most", Figure("lb"), "most weight on the ball of a central-axle trailer"),
];
