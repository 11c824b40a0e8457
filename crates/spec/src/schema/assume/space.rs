//! `[assume.space]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::Positive;

crate::schema! {
    /// `[assume.space]`.
    "the assumptions about space";
    BAND = "band": Quantity(Dimension::LENGTH, Positive); "height above the floor up to which a part stands in the way of people who pass"
    STEP_OVER = "step_over": Quantity(Dimension::LENGTH, Positive); "height above the floor below which people step over a part"
    PATH = "path": Quantity(Dimension::LENGTH, Positive); "least width of a path to a way out"
    DIRECT = "direct": Quantity(Dimension::LENGTH, Positive); "from a berth to a way out that is reached from the berth itself"
    PASSING = "passing": Quantity(Dimension::LENGTH, Positive); "a path that must come nearer to one way out than this, on its way to another, goes past it"
    STANDING = "standing": Quantity(Dimension::LENGTH, Positive); "height in which people stand upright"
    LIFT = "lift": Quantity(Dimension::MASS, Positive); "weight that one person lifts"
    ACCESS = "access": Quantity(Dimension::LENGTH, Positive); "room that stays free before what people must get at"
    STRIDE = "stride": Quantity(Dimension::LENGTH, Positive); "distance between the places at which a part that is carried out is tried"
    TURN = "turn": Quantity(Dimension::ANGLE, Positive); "angle between the positions in which a part that is carried out is tried"
}
