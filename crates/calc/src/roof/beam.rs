//! Beams: one that lies on two posts, and one that runs over several supports.
//!
//! Any consistent units. Loads press down, moments that sag are positive, reactions press up.

/// A load on a beam: so much spread evenly from one place to another, or all at one place where the two are the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Where it begins.
    pub from: f64,
    /// Where it ends, at or beyond `from`.
    pub to: f64,
    /// How much it is in all.
    pub load: f64,
}

impl Patch {
    /// All of a load at one place.
    pub const fn point(at: f64, load: f64) -> Self {
        Self { from: at, to: at, load }
    }

    fn middle(self) -> f64 {
        f64::midpoint(self.from, self.to)
    }

    /// What of it lies between two places. A point on a border counts to the piece that begins there.
    fn between(self, from: f64, to: f64) -> Option<Self> {
        if self.to <= self.from {
            return (self.from >= from && self.from < to).then_some(self);
        }
        let (start, end) = (self.from.max(from), self.to.min(to));
        let share = (end - start) / (self.to - self.from);
        (end > start).then_some(Self { from: start, to: end, load: self.load * share })
    }
}

/// Deflection under a load P in the middle of a span L: P L³ / (48 E I).
///
/// ```
/// use pintle_calc::roof::beam::centre_deflection;
/// // 10,000 N on 4 m, 200 GPa, 5e-5 m⁴: 1.333 mm (calculatorlib.com).
/// assert!((centre_deflection(10_000.0, 4.0, 200e9 * 5e-5) - 1.333e-3).abs() < 5e-7);
/// ```
pub fn centre_deflection(load: f64, span: f64, stiffness: f64) -> f64 {
    load * span.powi(3) / (48.0 * stiffness)
}

/// Deflection in the middle of a span L under a load W spread evenly over it: 5 W L³ / (384 E I).
pub fn spread_deflection(load: f64, span: f64, stiffness: f64) -> f64 {
    5.0 * load * span.powi(3) / (384.0 * stiffness)
}

/// Loads at points of a beam on two posts, each with its distance from the left post.
#[derive(Debug, Clone, PartialEq)]
pub struct OnTwoPosts {
    span: f64,
    loads: Vec<(f64, f64)>,
}

impl OnTwoPosts {
    /// A beam of a span with loads at places between its posts. None where a load lies beyond a post.
    pub fn new(span: f64, loads: Vec<(f64, f64)>) -> Option<Self> {
        let between = loads.iter().all(|(at, _)| (0.0..=span).contains(at));
        (span > 0.0 && between).then_some(Self { span, loads })
    }

    /// All that lies on it.
    pub fn load(&self) -> f64 {
        self.loads.iter().map(|(_, load)| load).sum()
    }

    /// What the left and the right post carry.
    pub fn reactions(&self) -> (f64, f64) {
        let right = self.loads.iter().map(|(at, load)| load * at / self.span).sum::<f64>();
        (self.load() - right, right)
    }

    /// The moment at a place: what the left post presses up, less what lies left of the place, each with its arm.
    pub fn moment_at(&self, x: f64) -> f64 {
        let left_of = self.loads.iter().filter(|(at, _)| *at < x);
        self.reactions().0 * x - left_of.map(|(at, load)| load * (x - at)).sum::<f64>()
    }

    /// The greatest moment: it is under one of the loads.
    pub fn most_moment(&self) -> f64 {
        self.loads.iter().map(|(at, _)| self.moment_at(*at)).fold(0.0, f64::max)
    }

    /// How far it bends down at a place, with stiffness E I: for each load, P b x (L² − b² − x²) / (6 L E I) on the side of
    /// the load that x is on, b being the load's distance from the post beyond it.
    pub fn deflection_at(&self, x: f64, stiffness: f64) -> f64 {
        let l = self.span;
        let of = |(at, load): &(f64, f64)| {
            let (x, b) = if x <= *at { (x, l - at) } else { (l - x, *at) };
            load * b * x * (l * l - b * b - x * x) / (6.0 * l * stiffness)
        };
        self.loads.iter().map(of).sum()
    }

    /// The greatest deflection, with stiffness E I. A beam on two posts under loads that all press down has one
    /// lowest place: it is found by halving the span that holds it.
    pub fn most_deflection(&self, stiffness: f64) -> f64 {
        let (mut left, mut right) = (0.0, self.span);
        for _ in 0..200 {
            let (one, two) = (left + (right - left) / 3.0, right - (right - left) / 3.0);
            if self.deflection_at(one, stiffness) < self.deflection_at(two, stiffness) {
                left = one;
            } else {
                right = two;
            }
        }
        self.deflection_at(f64::midpoint(left, right), stiffness)
    }
}

/// What each of several supports carries of a beam that runs over them, stiff alike throughout, the supports unyielding: by
/// the three-moment equation of Clapeyron. For neighbouring spans L₁ and L₂ and the moments at their three supports,
/// M₁ L₁ + 2 M₂ (L₁ + L₂) + M₃ L₂ = −6 A₁ a₁ / L₁ − 6 A₂ b₂ / L₂, with the moment areas of each span's loads; beyond the end supports
/// the beam is a bracket. A negative reaction pulls its support up. None unless there are two supports or more, one behind the other.
///
/// ```
/// use pintle_calc::roof::beam::{Patch, reactions};
/// // Two equal spans under an even load: 3/16, 10/16 and 3/16 of it (any handbook of statics).
/// let found = reactions(&[0.0, 1.0, 2.0], &[Patch { from: 0.0, to: 2.0, load: 16.0 }]).unwrap();
/// for (found, expected) in found.iter().zip([3.0, 10.0, 3.0]) {
///     assert!((found - expected).abs() < 1e-12);
/// }
/// ```
pub fn reactions(supports: &[f64], loads: &[Patch]) -> Option<Vec<f64>> {
    let (first, last) = (*supports.first()?, *supports.last()?);
    let spans: Vec<Span> =
        supports.windows(2).map(|ends| Span::of(ends, last, loads)).collect::<Option<_>>()?;
    if spans.is_empty() {
        return None;
    }
    let ahead = beyond(loads, f64::NEG_INFINITY, first);
    // A point load on the last support stands on it, not beyond it, and has no arm either way.
    let behind = beyond(loads, last.next_up(), f64::INFINITY);
    let bracket = |pieces: &[Patch], support: f64| -> f64 {
        -pieces.iter().map(|piece| piece.load * (piece.middle() - support).abs()).sum::<f64>()
    };
    let moments = support_moments(&spans, bracket(&ahead, first), bracket(&behind, last));
    let mut found = vec![0.0; supports.len()];
    let mut add = |at: usize, load: f64| {
        if let Some(held) = found.get_mut(at) {
            *held += load;
        }
    };
    add(0, ahead.iter().map(|piece| piece.load).sum());
    add(spans.len(), behind.iter().map(|piece| piece.load).sum());
    for ((at, span), ends) in spans.iter().enumerate().zip(moments.windows(2)) {
        let &[near, far] = ends else { continue };
        let tilt = (far - near) / span.length;
        add(at, span.on_near + tilt);
        add(at + 1, span.on_far - tilt);
    }
    Some(found)
}

fn beyond(loads: &[Patch], from: f64, to: f64) -> Vec<Patch> {
    loads.iter().filter_map(|load| load.between(from, to)).collect()
}

/// A span by itself, as if it lay on its two supports alone.
struct Span {
    length: f64,
    on_near: f64,
    on_far: f64,
    /// 6 A b / L: of the moment area about the far end.
    near_term: f64,
    /// 6 A a / L: of the moment area about the near end.
    far_term: f64,
}

impl Span {
    fn of(ends: &[f64], last: f64, loads: &[Patch]) -> Option<Self> {
        let &[near, far] = ends else { return None };
        let length = far - near;
        if length.is_nan() || length <= 0.0 {
            return None;
        }
        // The last span ends with its support, a point load on that included.
        let end = if far >= last { far.next_up() } else { far };
        let mut span = Self { length, on_near: 0.0, on_far: 0.0, near_term: 0.0, far_term: 0.0 };
        for piece in loads.iter().filter_map(|load| load.between(near, end)) {
            let (from, to) = (piece.from - near, piece.to - near);
            let far_share = (piece.middle() - near) / length;
            span.on_far += piece.load * far_share;
            span.on_near += piece.load * (1.0 - far_share);
            span.far_term += piece.load * term(length, from, to);
            span.near_term += piece.load * term(length, length - to, length - from);
        }
        Some(span)
    }
}

/// 6 A a / L of a unit load, spread evenly from c to d of a span L: the mean of x (L² − x²) / L.
fn term(length: f64, c: f64, d: f64) -> f64 {
    let square = length * length;
    // The integral of x (L² − x²) from c to d, over d − c, with d − c divided out.
    let mean = square * f64::midpoint(c, d) - (c + d) * (c * c + d * d) / 4.0;
    mean / length
}

/// The moments over the supports, by eliminating from the front (Thomas' algorithm).
fn support_moments(spans: &[Span], first: f64, last: f64) -> Vec<f64> {
    // Row by row: what the moment is less of for each of the next one, and what it is without the next.
    let mut rows: Vec<(f64, f64)> = Vec::new();
    for pair in spans.windows(2) {
        let [one, two] = pair else { continue };
        let (carried, known) = rows.last().copied().unwrap_or((0.0, first));
        let diagonal = 2.0 * (one.length + two.length) - one.length * carried;
        let right = -one.far_term - two.near_term - one.length * known;
        rows.push((two.length / diagonal, right / diagonal));
    }
    let mut moments = vec![last];
    for (carried, known) in rows.into_iter().rev() {
        let next = moments.last().copied().unwrap_or(last);
        moments.push(known - carried * next);
    }
    moments.push(first);
    moments.reverse();
    moments
}

#[cfg(test)]
mod tests;
