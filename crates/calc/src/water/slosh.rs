//! Where water runs in a tank that is slowed down or speeded up: its surface tilts by a / g.
//!
//! A level box, length L along the way and height H, filled to the height h: the water's centre moves towards the deep end and up.
//! Nothing is said of waves, which go farther for moments, nor of baffles: a tank with some is several shorter ones.

/// How far the centre of the water moves, in the unit of the lengths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// Towards the deep end.
    pub along: f64,
    /// Up.
    pub up: f64,
}

impl Shift {
    const NONE: Self = Self { along: 0.0, up: 0.0 };

    /// From the centre of the tilted water, measured from the deep end and from the floor.
    fn from_centre(from_deep_end: f64, above_floor: f64, length: f64, height: f64) -> Self {
        Self { along: length / 2.0 - from_deep_end, up: above_floor - height / 2.0 }
    }
}

/// The shift of the water's centre in a box of length L and height H that is filled to h, with its surface at a slope s,
/// zero or more. While the floor is covered and the roof not reached, s ≤ 2h/L and s ≤ 2(H − h)/L, it is Δx = s L² / (12 h) and
/// Δz = s² L² / (24 h); beyond that, the centroid of the triangle or trapezoid of water that is left, or of the air.
///
/// ```
/// use pintle_calc::water::slosh::shift;
/// // 40 in long, 10 in high, half full, 0.2 g (as a polygon by `shapely`: 25.3333, 3.0333).
/// let moved = shift(40.0, 10.0, 5.0, 0.2);
/// assert!((20.0 + moved.along - 25.3333).abs() < 5e-5);
/// assert!((2.5 + moved.up - 3.0333).abs() < 5e-5);
/// assert_eq!(shift(40.0, 10.0, 10.0, 0.5).along, 0.0); // a full tank does not slosh
/// ```
pub fn shift(length: f64, height: f64, filled: f64, slope: f64) -> Shift {
    let (l, h, s) = (length, filled.clamp(0.0, height), slope);
    let air = height - h;
    if h <= 0.0 || air <= 0.0 || s <= 0.0 {
        return Shift::NONE;
    }
    if s <= 2.0 * h / l && s <= 2.0 * air / l {
        return Shift { along: s * l * l / (12.0 * h), up: s * s * l * l / (24.0 * h) };
    }
    // A triangle in one corner, of the same area as the level water or air: its leg along the floor or the roof.
    let leg = |level: f64| (2.0 * level * l / s).sqrt();
    let fits = |leg: f64| leg <= l && s * leg <= height;
    let wet = leg(h);
    if fits(wet) {
        return Shift::from_centre(wet / 3.0, s * wet / 3.0, l, h);
    }
    let dry = leg(air);
    if fits(dry) {
        // The air's centre moves the other way, and what all of the box has in the middle stays there.
        let of_air = Shift::from_centre(dry / 3.0, s * dry / 3.0, l, air);
        return Shift { along: of_air.along * air / h, up: of_air.up * air / h };
    }
    // Floor dry at one end, roof reached at the other: a trapezoid, along the roof t, along the floor t + H/s.
    let run = height / s;
    let t = h * l / height - run / 2.0;
    let (block, wedge) = (t * height, run * height / 2.0);
    let whole = block + wedge;
    let from_deep_end = (block * t / 2.0 + wedge * (t + run / 3.0)) / whole;
    let above_floor = (block * height / 2.0 + wedge * height / 3.0) / whole;
    Shift::from_centre(from_deep_end, above_floor, l, h)
}

/// Whether the closed form Δx = s L² / (12 h) holds: neither is the floor dry anywhere, nor the roof reached.
pub fn surface_is_free(length: f64, height: f64, filled: f64, slope: f64) -> bool {
    slope <= 2.0 * filled / length && slope <= 2.0 * (height - filled) / length
}

#[cfg(test)]
mod tests;
