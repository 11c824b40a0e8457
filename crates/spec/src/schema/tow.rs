//! The tow vehicle.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
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
}
