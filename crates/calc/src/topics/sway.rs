//! The sorts of figures of sway.

use super::Gives::{Figure, Flag, Number, Text, Texts};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("sway/vehicle_front", Figure("in"), "centre of gravity behind the front axle"),
    sort("sway/vehicle_rear", Figure("in"), "centre of gravity ahead of the rear axle"),
    sort("sway/vehicle_ball", Figure("in"), "centre of gravity ahead of the ball"),
    sort("sway/vehicle_inertia", Figure("kg·m²"), "yaw inertia"),
    sort("sway/vehicle_front_stiffness", Figure("N/rad"), "side force of the front tires per angle of slip"),
    sort("sway/vehicle_rear_stiffness", Figure("N/rad"), "side force of the rear tires per angle of slip"),
    sort("sway/yaw_inertia", Figure("kg·m²"), "yaw inertia about its centre of gravity"),
    sort("sway/yaw_inertia_at_ball", Figure("kg·m²"), "yaw inertia about the ball"),
    sort("sway/yaw_radius", Figure("in"), "radius of gyration in yaw"),
    sort("sway/heavy_ends", Number, "yaw inertia, over that with all aboard at the axle"),
    sort("sway/stability_factor", Number, "half the track over the height of the centre of gravity"),
    sort("sway/stiffness", Figure("N/rad"), "side force of the trailer's tires per angle of slip"),
    sort(
        "sway/damping_heavy_vehicle",
        Number,
        "damping ratio at 100 km/h behind a vehicle that nothing moves, in closed form",
    ),
    sort("sway/damping_at_80_km_h", Number, "damping ratio of the yaw mode at 80 km/h (50 mph)"),
    sort("sway/frequency_at_80_km_h", Figure("/h"), "frequency of the yaw mode at 80 km/h (50 mph)"),
    sort("sway/settles_at_80_km_h", Flag, "every motion dies away at 80 km/h (50 mph)"),
    sort("sway/damping_at_100_km_h", Number, "damping ratio of the yaw mode at 100 km/h (62 mph)"),
    sort("sway/frequency_at_100_km_h", Figure("/h"), "frequency of the yaw mode at 100 km/h (62 mph)"),
    sort("sway/settles_at_100_km_h", Flag, "every motion dies away at 100 km/h (62 mph)"),
    sort("sway/damping_at_towing_speed", Number, "damping ratio of the yaw mode at towing speed"),
    sort("sway/frequency_at_towing_speed", Figure("/h"), "frequency of the yaw mode at towing speed"),
    sort("sway/settles_at_towing_speed", Flag, "every motion dies away at towing speed"),
    sort("sway/critical_speed", Figure("mph"), "lowest speed at which a motion grows"),
    sort("sway/zero_damping_speed", Figure("mph"), "lowest speed at which it swings without damping"),
    sort("sway/divergence_speed", Figure("mph"), "lowest speed at which the tow vehicle turns in and stays"),
    sort("sway/slow_damping_speed", Figure("mph"), "lowest speed at which the damping ratio is 5 %"),
    sort("sway/critical_kind", Text, "how it becomes unstable"),
    sort(
        "sway/worst_arrangements",
        Texts,
        "the arrangements with the least and most on the ball, and the greatest yaw inertia",
    ),
];
