//! The plan outline of the box, inside and outside: a rectangle with a flat, wedge or half-elliptic nose.

use pintle_spec::schema::trailer::{self, nose};
use pintle_spec::{Build, Coordinate, Known, Missing, Named};

/// How far parts may lie apart or into each other and still be said to touch, in metres. One millimetre: finer than a
/// tape measure reads, coarser than what is lost in reckoning.
pub(crate) const TOUCH: f64 = 0.001;

/// A plan outline, symmetric about the centreline. Metres: x aft from the ball, y from the centreline.
#[derive(Debug, Clone)]
pub struct Outline {
    /// x of the nose on the centreline.
    pub nose: f64,
    /// x where the sides begin.
    pub square: f64,
    /// x of the rear.
    pub rear: f64,
    /// Half the width between the sides.
    pub half: f64,
    /// Half the width of the nose's blunt front; the whole half width for a flat nose.
    pub front: f64,
    /// Whether the nose is half an ellipse.
    pub round: bool,
    /// What the front of it was worked out from.
    pub(crate) inputs: Vec<Named>,
}

impl Outline {
    /// The inside of the walls.
    ///
    /// # Errors
    /// The measure of the trailer that is not given.
    pub fn inside(build: &Build) -> Known<Self> {
        let s = &build.surfaces;
        Self::of(build, &s.nose_inside, &s.square_inside, &s.rear_inside, &s.wall_inside)
    }

    /// The outside of the walls. A wedge's blunt front is taken to be as much wider outside as the box is.
    ///
    /// # Errors
    /// The measure of the trailer that is not given.
    pub fn outside(build: &Build) -> Known<Self> {
        let s = &build.surfaces;
        Self::of(build, &s.nose_outside, &s.square_outside, &s.rear_outside, &s.wall_outside)
    }

    fn of(
        build: &Build,
        nose: &Known<Coordinate>,
        square: &Known<Coordinate>,
        rear: &Known<Coordinate>,
        half: &Known<Coordinate>,
    ) -> Known<Self> {
        let (nose, square, rear, half) = (nose.clone()?, square.clone()?, rear.clone()?, half.clone()?);
        let (share, blunt) = blunt_share(build)?;
        let mut inputs: Vec<Named> = nose.inputs().cloned().collect();
        if square.metres > nose.metres {
            for input in square.inputs().chain(half.inputs()) {
                if !inputs.contains(input) {
                    inputs.push(input.clone());
                }
            }
            inputs.extend(blunt);
        }
        Ok(Self {
            nose: nose.metres,
            square: square.metres,
            rear: rear.metres,
            half: half.metres,
            front: half.metres * share,
            round: shape_of(build)? == "round",
            inputs,
        })
    }

    /// The corners of the outline, in order, from the front of the left side round by the nose to the rear left. A round nose
    /// is cut into so many chords.
    pub(crate) fn corners(&self, chords: u32) -> Vec<(f64, f64)> {
        let mut corners = vec![(self.square, -self.half)];
        if self.round {
            corners.extend((1..chords).map(|step| {
                let turn = std::f64::consts::PI * (f64::from(step) / f64::from(chords) - 0.5);
                (self.square - self.depth() * turn.cos(), self.half * turn.sin())
            }));
        } else if self.depth() > 0.0 {
            corners.push((self.nose, -self.front));
            if self.front > 0.0 {
                corners.push((self.nose, self.front));
            }
        }
        corners.extend([(self.square, self.half), (self.rear, self.half), (self.rear, -self.half)]);
        corners
    }

    fn depth(&self) -> f64 {
        self.square - self.nose
    }

    /// Half the width at x; nothing ahead of the nose and behind the rear.
    pub(crate) fn half_width(&self, x: f64) -> f64 {
        if x < self.nose || x > self.rear {
            return 0.0;
        }
        if x >= self.square {
            return self.half;
        }
        let ahead = (self.square - x) / self.depth();
        if self.round {
            self.half * (1.0 - ahead * ahead).max(0.0).sqrt()
        } else {
            self.half - (self.half - self.front) * ahead
        }
    }

    /// x of the front at a distance from the centreline; where the sides begin for one beyond the sides.
    pub(crate) fn front_at(&self, y: f64) -> f64 {
        let y = y.abs();
        if y >= self.half {
            return if self.front < self.half { self.square } else { self.nose };
        }
        if self.round {
            let off = y / self.half;
            return self.square - self.depth() * (1.0 - off * off).sqrt();
        }
        if y <= self.front {
            return self.nose;
        }
        self.nose + self.depth() * (y - self.front) / (self.half - self.front)
    }

    /// The area of the part of a rectangle that lies in the outline: the integral over x of the width between
    /// `left` and `right` that is no farther from the centreline than the outline is.
    pub(crate) fn area_of(&self, front: f64, rear: f64, left: f64, right: f64) -> f64 {
        let (front, rear) = (front.max(self.nose), rear.min(self.rear));
        if front >= rear || left >= right {
            return 0.0;
        }
        let from_centre = |y: f64| y.signum() * self.area_within(front, rear, y.abs().min(self.half));
        from_centre(right) - from_centre(left)
    }

    /// Area between the centreline and a line at `y`, from `front` to `rear`, both within the outline.
    fn area_within(&self, front: f64, rear: f64, y: f64) -> f64 {
        let full_from = self.front_at(y).clamp(front, rear);
        (self.nose_area(full_from) - self.nose_area(front)) + y * (rear - full_from)
    }

    /// Area of one half of the nose from its front to x.
    fn nose_area(&self, x: f64) -> f64 {
        let x = x.min(self.square);
        let depth = self.depth();
        if depth <= 0.0 || x <= self.nose {
            return 0.0;
        }
        if self.round {
            // ∫ H √(1 − u²) D du over u from (square − x)/D to 1.
            let u = (self.square - x) / depth;
            let upto = |u: f64| f64::midpoint(u * (1.0 - u * u).max(0.0).sqrt(), u.clamp(-1.0, 1.0).asin());
            return self.half * depth * (upto(1.0) - upto(u));
        }
        (x - self.nose) * f64::midpoint(self.front, self.half_width(x))
    }
}

/// The width of the nose's blunt front as a share of the box's width, and what it was worked out from. None of it for
/// a round nose; all of it for a flat one; for a wedge, zero when its front width is not given, as the schema says.
fn blunt_share(build: &Build) -> Known<(f64, Option<Named>)> {
    let front = build.trailer.need_table(&trailer::NOSE)?;
    match shape_of(build)? {
        "flat" => return Ok((1.0, None)),
        "round" => return Ok((0.0, None)),
        _ => {}
    }
    let Ok(blunt) = Named::of(front, &nose::FRONT_WIDTH) else { return Ok((0.0, None)) };
    let width = build.trailer.need(&trailer::WIDTH)?;
    let share = blunt.value.value.si() / width.value.si();
    if share > 1.0 + 1e-9 {
        return Err(Missing::new(
            format!("a `{}` of {} no wider than the trailer", nose::FRONT_WIDTH.key, front.what),
            Some(blunt.value.span),
            "the blunt front of a wedge is at most as wide as the box",
        ));
    }
    Ok((share.min(1.0), Some(blunt)))
}

fn shape_of(build: &Build) -> Known<&'static str> {
    Ok(build.trailer.need_table(&trailer::NOSE)?.need_word(&nose::SHAPE)?.value)
}
