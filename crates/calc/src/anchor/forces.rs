//! What a part pulls with in a stop, and how many tie-downs hold it, by 49 CFR 393.102 to 393.114.

/// The way a part is thrown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Ahead, when the brakes are on.
    Ahead,
    /// Aft, when the trailer is pulled off or hit from behind.
    Aft,
    /// To either side, in a bend.
    Aside,
}

impl Way {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Ahead, Self::Aft, Self::Aside];

    /// In a word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ahead => "ahead",
            Self::Aft => "aft",
            Self::Aside => "aside",
        }
    }
}

/// What a pull is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Against {
    /// The load that the weakest link breaks at.
    Breaking,
    /// The working load limit of the weakest link.
    Working,
}

impl Against {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Breaking, Self::Working];

    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Breaking => "breaking load",
            Self::Working => "working load limit",
        }
    }
}

/// The pull in one direction, as a share of the part's weight; the directions apply one at a time (49 CFR 393.102(a)).
///
/// ```
/// use pintle_calc::anchor::forces::{Against, Way, pull};
/// assert_eq!(pull(Way::Ahead, Against::Breaking), 0.8);
/// assert_eq!(pull(Way::Ahead, Against::Working), 0.435);
/// ```
pub const fn pull(way: Way, against: Against) -> f64 {
    match (way, against) {
        (Way::Ahead, Against::Breaking) => 0.8,
        (Way::Ahead, Against::Working) => 0.435,
        (Way::Aft, _) | (Way::Aside, Against::Breaking) => 0.5,
        (Way::Aside, Against::Working) => 0.25,
    }
}

/// Downward hold that a part which is not fully contained in the vehicle's structure must have, as a share of its weight.
/// It is a force that presses the part down, not a pull upward (49 CFR 393.102(b)).
pub const HELD_DOWN: f64 = 0.2;

/// Working load limit that the tie-downs of a part must have together, as a share of its weight (49 CFR 393.106(d)).
pub const AGGREGATE: f64 = 0.5;

/// How much of the working load limit of a tie-down counts that goes from the vehicle to the part, or back to the same
/// side of the vehicle (49 CFR 393.106(d)(1) and (2)). One that goes over the part to the other side counts whole.
pub const HALF_COUNTED: f64 = 0.5;

/// What the mounting of a gas cylinder must hold in every direction, in full cylinder weights (AS/NZS 5601.2 section 3, as trade
/// pages put it: a guideline elsewhere).
pub const CYLINDER: f64 = 4.0;

/// Friction of a mat that is not marked, as a share of the weight on it (49 CFR 393.108(g)).
pub const UNMARKED_MAT: f64 = 0.5;

const FOOT: f64 = 0.3048;
const POUND: f64 = 0.453_592_37;
/// What two measures may differ by and still be the same, in m and in kg.
const ROUNDING: f64 = 1e-9;

/// How many tie-downs a part needs by its length along the vehicle, in m, and its mass, in kg (49 CFR 393.110).
///
/// Kept from moving ahead by a wall, a blocked part needs one for each 10 ft or part of it. One that is not needs one up to 5 ft
/// and 1,100 lb, two up to 10 ft, and one more for each further 10 ft or part of it.
///
/// ```
/// use pintle_calc::anchor::forces::tiedowns;
/// let (foot, pound) = (0.3048, 0.45359237);
/// assert_eq!(tiedowns(4.0 * foot, 1500.0 * pound, false), 2.0);
/// assert_eq!(tiedowns(25.0 * foot, 1500.0 * pound, false), 4.0);
/// ```
pub fn tiedowns(length: f64, mass: f64, blocked: bool) -> f64 {
    let tens = |length: f64| ((length - ROUNDING) / (10.0 * FOOT)).ceil().max(0.0);
    if blocked {
        return tens(length).max(1.0);
    }
    if length > 10.0 * FOOT + ROUNDING {
        return 2.0 + tens(length - 10.0 * FOOT);
    }
    let short = length <= 5.0 * FOOT + ROUNDING;
    if short && mass <= 1100.0 * POUND + ROUNDING { 1.0 } else { 2.0 }
}

/// Pull that is left for the anchors, in the unit of `weight`, when friction `mu` takes its part: (c − μ)·W, never below zero.
/// The part stands on its own weight: nothing presses it down but that.
///
/// ```
/// use pintle_calc::anchor::forces::beyond_friction;
/// assert!((beyond_friction(0.8, 0.3, 100.0) - 50.0).abs() < 1e-12);
/// assert_eq!(beyond_friction(0.25, 0.3, 100.0), 0.0);
/// ```
pub fn beyond_friction(c: f64, mu: f64, weight: f64) -> f64 {
    ((c - mu) * weight).max(0.0)
}

/// What a wall across the front must hold of the weight that leans on it, by its height in m: half of it below 6 ft, four
/// tenths of it from 6 ft up (49 CFR 393.114).
pub fn front_wall(height: f64) -> f64 {
    if height < 6.0 * FOOT - ROUNDING { 0.5 } else { 0.4 }
}
