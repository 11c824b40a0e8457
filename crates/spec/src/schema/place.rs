//! Places, as a tape measure gives them: the gap to the nearest surface.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::Any;

crate::schema! {
    /// An `at` table. Which of its fields a zone takes stands in the spec format's page.
    "the place";
    FRONT = "front": Quantity(Dimension::LENGTH, Any); "gap to the front: inside, to where the side walls begin (the front wall of a flat nose); on a rack or in a locker, to its front edge"
    NOSE = "nose": Quantity(Dimension::LENGTH, Any); "gap to the inside of the nose on the centreline"
    REAR = "rear": Quantity(Dimension::LENGTH, Any); "gap to the rear door; on a rack or in a locker, to its rear edge"
    BALL = "ball": Quantity(Dimension::LENGTH, Any); "distance of the near face behind the ball"
    BOX = "box": Quantity(Dimension::LENGTH, Any); "gap to the outside of the nose, for things on the tongue"
    AXLE = "axle": Quantity(Dimension::LENGTH, Any); "distance of the middle behind the axle's centre; negative ahead of it"
    LEFT = "left": Quantity(Dimension::LENGTH, Any); "gap to the left wall or edge"
    RIGHT = "right": Quantity(Dimension::LENGTH, Any); "gap to the right wall or edge"
    CENTRE = "centre": Quantity(Dimension::LENGTH, Any); "distance of the middle to the right of the centreline; negative to the left"
    FLOOR = "floor": Quantity(Dimension::LENGTH, Any); "gap to the floor below"
    CEILING = "ceiling": Quantity(Dimension::LENGTH, Any); "gap to the ceiling above"
    GROUND = "ground": Quantity(Dimension::LENGTH, Any); "height of the underside above the ground"
    FRAME = "frame": Quantity(Dimension::LENGTH, Any); "gap to the top of the tongue's frame below"
    GAP = "gap": Quantity(Dimension::LENGTH, Any); "gap to the surface it is mounted on; zero when not given"
}

/// The centre of gravity within a part.
pub mod cg {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Any;

    crate::schema! {
        /// A part's `cg` table. A direction that is not given is the middle of the part.
        "the centre of gravity";
        FRONT = "front": Quantity(Dimension::LENGTH, Any); "from the part's front face; its middle when not given"
        LEFT = "left": Quantity(Dimension::LENGTH, Any); "from the part's left face; its middle when not given"
        FLOOR = "floor": Quantity(Dimension::LENGTH, Any); "from the part's underside; its middle when not given"
    }
}
