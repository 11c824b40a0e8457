//! The trailer as it came, before anything is fitted.

use pintle_quantity::Dimension;

use crate::field::Kind::{Flag, Quantity, Raw, Table, Tables, Text, Word, Words};
use crate::field::Range::{NotNegative, Positive};

/// The lamps and reflectors of 49 CFR 571.108 Table I-b, by the names that table gives them.
pub const LAMP_NAMES: &[&str] = &[
    "tail",
    "stop",
    "turn",
    "plate",
    "rear reflex",
    "front side marker",
    "front side reflex",
    "rear side marker",
    "rear side reflex",
    "middle side marker",
    "middle side reflex",
    "front clearance",
    "rear clearance",
    "rear identification",
];

crate::schema! {
    /// `[trailer]`.
    "the trailer";
    MASS = "mass": Quantity(Dimension::MASS, Positive); "weight of the empty trailer as it came"
    MASS_BASIS = "mass_basis": Word(super::item::MASS_BASES); "how its mass, and the weight on its ball, are known"
    TONGUE = "tongue": Quantity(Dimension::MASS, NotNegative); "weight on the ball of the empty trailer as it came"
    CG = "cg": Table(&cg::SCHEMA); "centre of gravity of the empty trailer"
    GVWR = "gvwr": Quantity(Dimension::MASS, Positive); "gross vehicle weight rating, from the maker's label"
    LABEL_GVWR = "label_gvwr": Quantity(Dimension::MASS, Positive); "the GVWR on the label it came with, where another is reckoned with"
    RATED_CARGO = "rated_cargo": Quantity(Dimension::MASS, NotNegative); "cargo that its maker rates it for"
    TONGUE_LEAST = "tongue_least": Quantity(Dimension::MASS, Positive); "least tongue weight that its maker recommends; that of any road arrangement when not given"
    BALL_TO_BOX = "ball_to_box": Quantity(Dimension::LENGTH, Positive); "from the ball to the outside of the nose on the centreline"
    LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "inside length between where the side walls begin and the rear door"
    WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "inside width"
    HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "inside height, floor to ceiling"
    WALL = "wall": Quantity(Dimension::LENGTH, NotNegative); "thickness of walls and rear door"
    ROOF = "roof": Quantity(Dimension::LENGTH, NotNegative); "thickness of the roof, ceiling to skin"
    FLOOR_HEIGHT = "floor_height": Quantity(Dimension::LENGTH, Positive); "from the ground to the top of the floor"
    FRAME_HEIGHT = "frame_height": Quantity(Dimension::LENGTH, Positive); "from the ground to the top of the tongue's frame"
    OVERALL_WIDTH = "overall_width": Quantity(Dimension::LENGTH, Positive); "outside width with rigid fenders"
    OVERALL_LENGTH = "overall_length": Quantity(Dimension::LENGTH, Positive); "outside length with tongue and coupler"
    GROUND_CLEARANCE = "ground_clearance": Quantity(Dimension::LENGTH, Positive); "from the ground to the lowest of the trailer as it came, wheels left out"
    REAR_CLEARANCE = "rear_clearance": Quantity(Dimension::LENGTH, Positive); "from the ground to the lowest of its rear end as it came"
    NOSE = "nose": Table(&nose::SCHEMA); "shape of the front"
    AXLE = "axle": Table(&axle::SCHEMA); "the axle or axle group"
    TIRE = "tire": Table(&tire::SCHEMA); "the tires"
    LUGS = "lugs": Table(&lugs::SCHEMA); "the wheel nuts"
    COUPLER = "coupler": Table(&coupler::SCHEMA); "the coupler"
    JACK = "jack": Table(&jack::SCHEMA); "the tongue jack"
    CHAINS = "chains": Table(&chains::SCHEMA); "the safety chains"
    BRAKES = "brakes": Table(&brakes::SCHEMA); "the brakes"
    LAMPS = "lamps": Words(LAMP_NAMES); "lamps and reflectors fitted"
    LAMP = "lamp": Tables(&lamp::SCHEMA); "how many of each sort of lamp there are, and where; without `lamps` also which are fitted"
    TAPE = "tape": Flag; "whether conspicuity tape is on its sides and rear"
    ADDED_LABEL = "added_label": Quantity(Dimension::MASS, NotNegative); "added weight that a label on this trailer already states"
    YAW_INERTIA = "yaw_inertia": Quantity(Dimension::MOMENT.times(Dimension::LENGTH), Positive); "moment of inertia of the empty trailer about the upright axis through its centre of gravity"
    ROOF_RATING = "roof_rating": Table(&roof_rating::SCHEMA); "what the maker states the roof may carry"
    WHEEL_BOX = "wheel_box": Table(&wheel_box::SCHEMA); "the boxes inside, left and right, that the wheels stand in; none when not given"
    PRICE = "price": Quantity(Dimension::MONEY, NotNegative); "what the shop asks for it"
    WITHDRAWN = "withdrawn": Text; "that it is sold no longer: since when, and what to use in its place"
    LEAD_TIME = "lead_time": Quantity(Dimension::TIME, NotNegative); "from ordering it to having it"
    BOWS = "bows": Table(&bows::SCHEMA); "the bows that carry the roof from wall to wall"
    SHOP = "shop": Raw; "fields of the shop's own, as its packs of rules declare them"
}

/// `cg` of the empty trailer.
pub mod cg {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::{Any, Positive};

    crate::schema! {
        /// `cg` of the empty trailer.
        "the trailer's centre of gravity";
        BALL = "ball": Quantity(Dimension::LENGTH, Positive); "distance behind the ball; worked out from `tongue` when not given"
        CENTRE = "centre": Quantity(Dimension::LENGTH, Any); "distance to the right of the centreline; negative to the left"
        GROUND = "ground": Quantity(Dimension::LENGTH, Positive); "height above the ground"
    }
}

/// `nose`.
pub mod nose {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `nose`.
        "the nose";
        SHAPE = "shape": Word(&["flat", "round", "wedge"]), required; "its shape seen from above: flat, a half ellipse, or a wedge"
        DEPTH = "depth": Quantity(Dimension::LENGTH, Positive); "inside depth on the centreline, ahead of where the side walls begin"
        FRONT_WIDTH = "front_width": Quantity(Dimension::LENGTH, NotNegative); "inside width of a wedge's blunt front; zero when it comes to an edge"
    }
}

/// `axle`.
pub mod axle {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `axle`.
        "the axle";
        BALL = "ball": Quantity(Dimension::LENGTH, Positive); "from the ball to the axle, or to the middle of an axle group"
        COUNT = "count": Count(1); "how many axles"
        SPREAD = "spread": Quantity(Dimension::LENGTH, Positive); "between the axles of a group"
        GAWR = "gawr": Quantity(Dimension::MASS, Positive); "gross axle weight rating of each axle"
        TRACK = "track": Quantity(Dimension::LENGTH, Positive); "between the middles of left and right tires"
        STIFFNESS = "stiffness": Quantity(Dimension::FORCE.over(Dimension::ANGLE), Positive); "side force of the tires of one axle per angle of slip"
        SUSPENSION = "suspension": Word(&["equalised", "independent"]); "whether the axles of a group share the load through an equaliser"
        ALTERED = "altered": Word(&["moved", "flipped", "lifted", "exchanged"]); "what was done to it since the trailer was made; nothing when not given"
        WEIGHED_SINCE = "weighed_since": Flag; "whether the empty trailer was weighed and measured again after that"
    }
}

/// `tire`.
pub mod tire {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `tire`.
        "the tires";
        RATING = "rating": Quantity(Dimension::MASS, Positive); "maximum load of each tire, from its sidewall"
        MADE_FOR = "made_for": Word(&["trailers", "passenger cars"]); "what the tire is made for"
        COUNT = "count": Count(1); "how many tires carry the trailer"
        RADIUS = "radius": Quantity(Dimension::LENGTH, Positive); "from the ground to the middle of the wheel, loaded"
        SPEED = "speed": Quantity(Dimension::SPEED, Positive); "greatest speed, from its marking"
        AGE = "age": Quantity(Dimension::TIME, NotNegative); "age of the oldest by its date code, when the spec was last looked over"
        ALIKE = "alike": Flag; "whether all are of one size, construction and make, the spare too"
    }
}

/// `lugs`.
pub mod lugs {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Positive;

    crate::schema! {
        /// `lugs`.
        "the wheel nuts";
        LEAST = "least": Quantity(Dimension::ENERGY, Positive); "least torque that the maker of wheel or axle asks for"
        MOST = "most": Quantity(Dimension::ENERGY, Positive); "greatest torque that the maker of wheel or axle allows"
    }
}

/// `coupler`.
pub mod coupler {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Positive;

    crate::schema! {
        /// `coupler`.
        "the coupler";
        RATING = "rating": Quantity(Dimension::MASS, Positive); "greatest gross trailer weight, stamped on the coupler"
        TONGUE_RATING = "tongue_rating": Quantity(Dimension::MASS, Positive); "greatest weight on the ball"
        BALL = "ball": Quantity(Dimension::LENGTH, Positive); "diameter of the ball it takes"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "height of the ball socket above the ground, trailer level"
        D_VALUE = "d_value": Quantity(Dimension::FORCE, Positive); "D-value on the plate of a European coupling head"
    }
}

/// `jack`.
pub mod jack {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::{Any, Positive};

    crate::schema! {
        /// `jack`.
        "the tongue jack";
        RATING = "rating": Quantity(Dimension::MASS, Positive); "weight it may carry"
        BALL = "ball": Quantity(Dimension::LENGTH, Any); "from the ball to its foremost point; negative ahead of the ball"
        CENTRE = "centre": Quantity(Dimension::LENGTH, Any); "from the centreline to its middle, to the right; on the centreline when not given"
        TOP = "top": Quantity(Dimension::LENGTH, Positive); "from the ground to its top, run down for the road"
    }
}

/// `chains`.
pub mod chains {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `chains`.
        "the safety chains";
        STRENGTH = "strength": Quantity(Dimension::MASS, Positive); "minimum breaking load of each chain"
        COUNT = "count": Count(1); "how many chains"
    }
}

/// `brakes`.
pub mod brakes {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `brakes`.
        "the brakes";
        KIND = "kind": Word(&["none", "electric", "surge"]), required; "how they are worked"
        AXLES = "axles": Count(0); "how many axles are braked"
        BREAKAWAY = "breakaway": Flag; "whether a breakaway switch sets them by itself"
        MAGNETS = "magnets": Count(1); "how many electromagnets they have; two for each braked axle when not given"
        BATTERY = "battery": Quantity(Dimension::CHARGE, Positive); "charge of the breakaway's own battery"
    }
}

/// `lamp`.
pub mod lamp {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `lamp`.
        "a sort of lamp";
        NAME = "name": Word(super::LAMP_NAMES), required; "which"
        COUNT = "count": Count(1); "how many"
        COLOUR = "colour": Word(&["red", "amber", "white"]); "their colour"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "from the ground to their middle, trailer empty"
        CENTRE = "centre": Quantity(Dimension::LENGTH, NotNegative); "from the centreline to the middle of each of a pair, the same left and right; to the outermost of three"
        BALL = "ball": Quantity(Dimension::LENGTH, Positive); "from the ball to their middle, of lamps at the sides"
        APART = "apart": Quantity(Dimension::LENGTH, Positive); "between the middles of neighbouring ones, of three in a row"
    }
}

/// `roof_rating`.
pub mod roof_rating {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Positive;

    crate::schema! {
        /// `roof_rating`.
        "the roof's rating";
        MOVING = "moving": Quantity(Dimension::MASS, Positive); "what the roof may carry on the road"
        PARKED = "parked": Quantity(Dimension::MASS, Positive); "what the roof may carry when parked"
    }
}

/// `wheel_box`.
pub mod wheel_box {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::{Any, Positive};

    crate::schema! {
        /// `wheel_box`: one on the left and one on the right, alike.
        "the wheel boxes";
        LENGTH = "length": Quantity(Dimension::LENGTH, Positive), required; "size fore and aft"
        WIDTH = "width": Quantity(Dimension::LENGTH, Positive), required; "how far each stands in from the side wall"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive), required; "height above the floor"
        AXLE = "axle": Quantity(Dimension::LENGTH, Any); "distance of their middle behind the axle's centre; zero when not given"
    }
}

/// `bows`.
pub mod bows {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Table, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `bows`.
        "the roof bows";
        FIRST = "first": Quantity(Dimension::LENGTH, NotNegative); "from where the side walls begin, inside, to the middle of the first bow"
        SPACING = "spacing": Quantity(Dimension::LENGTH, Positive); "from the middle of one bow to the middle of the next"
        COUNT = "count": Count(1); "how many bows; as many as the length has room for when not given"
        SPAN = "span": Quantity(Dimension::LENGTH, Positive); "between the wall posts that carry a bow; the outside width of the box when not given"
        SECTION = "section": Table(&super::section::SCHEMA); "what a bow looks like, cut across"
        MATERIAL = "material": Word(&["steel", "aluminium"]); "what the bows are made of"
    }
}

/// `section`: what a bar looks like, cut across.
pub mod section {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `section`. A channel stands with its web upright, a hat with its crown on top.
        "the section";
        SHAPE = "shape": Word(&["rectangular tube", "round tube", "angle", "channel", "hat"]); "its shape"
        WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "its width as it lies: of a hat, that of its crown; a round tube has none"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "its height as it lies: of a round tube, its outside diameter"
        WALL = "wall": Quantity(Dimension::LENGTH, Positive); "thickness of its wall"
        BRIM = "brim": Quantity(Dimension::LENGTH, Positive); "of a hat: how far each brim stands out from the web"
    }
}
