//! The tow vehicle.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Raw, Table};
use crate::field::Range::{Any, Positive};

crate::schema! {
    /// `[tow]`.
    "the tow vehicle";
    RATING = "rating": Quantity(Dimension::MASS, Positive); "greatest trailer weight it may tow"
    TONGUE_RATING = "tongue_rating": Quantity(Dimension::MASS, Positive); "greatest weight on its hitch ball"
    BALL = "ball": Quantity(Dimension::LENGTH, Positive); "diameter of its hitch ball"
    BALL_HEIGHT = "ball_height": Quantity(Dimension::LENGTH, Positive); "height of the ball above the ground, vehicle loaded"
    MASS = "mass": Quantity(Dimension::MASS, Positive); "actual weight with people and cargo, without the trailer"
    GCWR = "gcwr": Quantity(Dimension::MASS, Positive); "gross combination weight rating"
    WHEELBASE = "wheelbase": Quantity(Dimension::LENGTH, Positive); "between its front and rear axle"
    OVERHANG = "overhang": Quantity(Dimension::LENGTH, Positive); "from its rear axle back to the ball"
    FRONT_AXLE = "front_axle": Quantity(Dimension::MASS, Positive); "weight on its front axle with people and cargo, without the trailer"
    REAR_AXLE = "rear_axle": Quantity(Dimension::MASS, Positive); "weight on its rear axle with people and cargo, without the trailer"
    YAW_INERTIA = "yaw_inertia": Quantity(Dimension::MOMENT.times(Dimension::LENGTH), Positive); "moment of inertia about the upright axis through its centre of gravity, with people and cargo"
    FRONT_STIFFNESS = "front_stiffness": Quantity(Dimension::FORCE.over(Dimension::ANGLE), Positive); "side force of the front tires together per angle of slip"
    REAR_STIFFNESS = "rear_stiffness": Quantity(Dimension::FORCE.over(Dimension::ANGLE), Positive); "side force of the rear tires together per angle of slip"
    PAYLOAD = "payload": Quantity(Dimension::MASS, Positive); "what its people, cargo and tongue weight may come to"
    TAILGATE = "tailgate": Quantity(Dimension::LENGTH, Any); "how far its opened tailgate reaches behind the ball; negative where it ends ahead of it"
    TAILGATE_HEIGHT = "tailgate_height": Quantity(Dimension::LENGTH, Positive); "from the ground to the underside of the opened tailgate"
    ABOARD = "aboard": Quantity(Dimension::MASS, Positive); "weight of the people and cargo in it, on the road"
    GVWR = "gvwr": Quantity(Dimension::MASS, Positive); "gross vehicle weight rating, from the maker's label"
    FRONT_GAWR = "front_gawr": Quantity(Dimension::MASS, Positive); "gross axle weight rating of its front axle"
    REAR_GAWR = "rear_gawr": Quantity(Dimension::MASS, Positive); "gross axle weight rating of its rear axle"
    SHOP = "shop": Raw; "fields of the shop's own, as its packs of rules declare them"
    HITCH = "hitch": Table(&hitch::SCHEMA); "the hitch, part by part"
}

/// `hitch`.
pub mod hitch {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Table, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `hitch`.
        "the hitch";
        FITTED = "fitted": Word(&["weight-carrying", "distributing"]); "whether it carries the tongue weight on the ball alone, or spreads it with spring bars"
        WEIGHT_CARRYING = "weight_carrying": Table(&pair::SCHEMA); "what the receiver may carry without spring bars"
        DISTRIBUTING = "distributing": Table(&pair::SCHEMA); "what the receiver may carry with spring bars"
        BALL_MOUNT = "ball_mount": Table(&pair::SCHEMA); "what the ball mount may carry"
        BALL_RATING = "ball_rating": Quantity(Dimension::MASS, Positive); "greatest trailer weight stamped on the ball"
        BARS = "bars": Table(&bars::SCHEMA); "how hard the spring bars are drawn; as assumed when not given"
        D_VALUE = "d_value": Quantity(Dimension::FORCE, Positive); "D-value on the plate of a European coupling"
    }

    /// A rating for the trailer's weight and one for the weight on the ball.
    pub mod pair {
        use pintle_quantity::Dimension;

        use crate::field::Kind::Quantity;
        use crate::field::Range::Positive;

        crate::schema! {
            /// A rating for the trailer's weight and one for the weight on the ball.
            "the ratings";
            GROSS = "gross": Quantity(Dimension::MASS, Positive); "greatest gross trailer weight"
            TONGUE = "tongue": Quantity(Dimension::MASS, Positive); "greatest weight on the ball"
        }
    }

    /// `bars`.
    pub mod bars {
        use pintle_quantity::Dimension;

        use crate::field::Kind::{Count, Quantity};
        use crate::field::Range::Positive;

        crate::schema! {
            /// `bars`.
            "the spring bars";
            COUNT = "count": Count(1), required; "how many"
            LIFT = "lift": Quantity(Dimension::MASS, Positive), required; "pull in the chain at the end of each bar"
            LEVER = "lever": Quantity(Dimension::LENGTH, Positive), required; "from the ball to that chain, along the trailer"
        }
    }
}
