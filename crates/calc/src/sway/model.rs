//! Tow vehicle and trailer in the yaw plane, linear, steering fixed: two rigid bodies on a hitch, tires whose side force
//! is in proportion to their slip.
//!
//! With the side way Y of the vehicle's centre of gravity, its heading ψ and the trailer's heading θ, the equations of
//! motion are M·q″ + C·q′ + K·q = 0. The trailer's centre of gravity moves by J = [1, −d, −e]·q, an axle k by its own J;
//! M = m·J₁J₁ᵀ + mₜ·J₂J₂ᵀ + diag(0, I, Iₜ), and each axle adds cₖ/u·JₖJₖᵀ to C and −cₖ·Jₖ·(its heading)ᵀ to K. Six
//! roots come of it, two of which are zero: nothing changes when the road is shifted or turned under the wheels. What is
//! solved here has these two taken out beforehand, by the side speed w = Y′ − u·ψ and the angle φ = θ − ψ.

use nalgebra::{Matrix3, Matrix4, Schur, Vector3};

/// Speeds above this are not looked at, in m/s: 324 km/h, 201 mph.
pub const TOP_SPEED: f64 = 90.0;
/// Nor are speeds below this, in m/s.
const LEAST_SPEED: f64 = 1.0;
/// Steps between, in m/s.
const STEP: f64 = 0.5;

/// An axle of the trailer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrailerAxle {
    /// Its distance behind the ball, in m.
    pub l: f64,
    /// Side force of its tires per slip angle, in N/rad.
    pub c: f64,
}

/// A tow vehicle with its trailer, in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Train {
    /// Mass of the tow vehicle, in kg.
    pub m: f64,
    /// Its yaw inertia about its centre of gravity, in kg·m².
    pub i: f64,
    /// From its centre of gravity forward to the front axle, in m.
    pub a: f64,
    /// And back to the rear axle, in m.
    pub b: f64,
    /// And back to the ball, in m.
    pub d: f64,
    /// Side force of the front tires per slip angle, in N/rad.
    pub cf: f64,
    /// The same of the rear tires.
    pub cr: f64,
    /// Mass of the trailer, in kg.
    pub mt: f64,
    /// Its yaw inertia about its centre of gravity, in kg·m².
    pub it: f64,
    /// From the ball back to the trailer's centre of gravity, in m.
    pub e: f64,
    /// The trailer's axles.
    pub axles: Vec<TrailerAxle>,
}

/// A root of the motion: it dies away, or grows, as exp(`re`·t), and swings at `im` rad/s where that is not zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Real part, in 1/s; positive for what grows.
    pub re: f64,
    /// Imaginary part, in rad/s; zero for what does not swing.
    pub im: f64,
}

impl Root {
    /// Damping ratio, −re / |root|; negative for what grows.
    pub fn damping(self) -> f64 {
        -self.re / self.size()
    }

    /// Undamped frequency, |root| / 2π, in Hz.
    pub fn frequency(self) -> f64 {
        self.size() / std::f64::consts::TAU
    }

    fn size(self) -> f64 {
        self.re.hypot(self.im)
    }

    fn swings(self) -> bool {
        self.im != 0.0
    }
}

/// The four roots at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Roots(pub [Root; 4]);

/// How a train becomes unstable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// It swings from side to side, each time further: a pair of complex roots.
    Snaking,
    /// The tow vehicle turns in more and more and does not come back, without swinging: a real root. Damping says
    /// nothing of it.
    Divergence,
}

impl Kind {
    /// As a reader is shown it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Snaking => "snaking",
            Self::Divergence => "divergence",
        }
    }
}

/// Where a root turns unstable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// The speed, in m/s.
    pub speed: f64,
    /// The root that grows from there on.
    pub root: Root,
    /// Of which kind it is.
    pub kind: Kind,
}

impl Roots {
    /// The pair that swings with the least damping: the yaw mode. None where nothing swings.
    pub fn yaw_mode(&self) -> Option<Root> {
        let swinging = self.0.into_iter().filter(|root| root.im > 0.0);
        swinging.min_by(|one, other| one.damping().total_cmp(&other.damping()))
    }

    /// Whether every motion dies away, be it swinging or not.
    pub fn settles(&self) -> bool {
        self.0.iter().all(|root| root.re < 0.0)
    }

    /// The fastest growing of the roots that swing, or of those that do not.
    fn fastest(&self, swinging: bool) -> Option<Root> {
        let roots = self.0.into_iter().filter(|root| root.swings() == swinging);
        roots.max_by(|one, other| one.re.total_cmp(&other.re))
    }

    fn growth(&self, swinging: bool) -> f64 {
        self.fastest(swinging).map_or(f64::NEG_INFINITY, |root| root.re)
    }
}

impl Train {
    /// What the ball carries of the trailer's weight, where it has one axle: h / (e + h).
    pub fn tongue_share(&self) -> Option<f64> {
        match self.axles.as_slice() {
            [axle] => Some((axle.l - self.e) / axle.l),
            _ => None,
        }
    }

    /// The roots at a speed, in m/s. None where the matrices cannot be solved, as with a mass of zero.
    ///
    /// ```
    /// use pintle_calc::sway::{Train, TrailerAxle};
    ///
    /// let train = Train {
    ///     m: 16975.0 / 9.81, i: 3508.0, a: 1.289, b: 1.596, d: 2.7, cf: 80_000.0, cr: 80_000.0,
    ///     mt: 2000.0, it: 3000.0, e: 2.7, axles: vec![TrailerAxle { l: 3.0, c: 80_000.0 }],
    /// };
    /// let yaw = train.roots(20.0).unwrap().yaw_mode().unwrap();
    /// assert!((yaw.damping() - 0.1456).abs() < 5e-5);
    /// assert!((yaw.frequency() - 0.4954).abs() < 5e-5);
    /// ```
    pub fn roots(&self, u: f64) -> Option<Roots> {
        let Self { m, i, a, b, d, cf, cr, mt, it, e, axles } = self;
        let centre = Vector3::new(1.0, -d, -e);
        let mut mass = centre * centre.transpose() * *mt;
        mass += Matrix3::from_diagonal(&Vector3::new(*m, *i, *it));
        let mut damping = Matrix3::zeros();
        // The third column of K: the forces for a trailer turned by one against a vehicle that heads straight on.
        let mut turned = Vector3::zeros();
        for (j, c, of_trailer) in
            [(Vector3::new(1.0, *a, 0.0), *cf, 0.0), (Vector3::new(1.0, -b, 0.0), *cr, 0.0)]
                .into_iter()
                .chain(axles.iter().map(|axle| (Vector3::new(1.0, -d, -axle.l), axle.c, 1.0)))
        {
            damping += j * j.transpose() * (c / u);
            turned -= j * (c * of_trailer);
        }
        let inverse = mass.try_inverse()?;
        // M·(w′, ψ″, θ″) = −C·(w, ψ′, θ′) − M·(u·ψ′, 0, 0) − K₃·φ, and φ′ = θ′ − ψ′.
        let rates = inverse * -damping;
        let mut state = Matrix4::zeros();
        state.fixed_view_mut::<3, 3>(0, 0).copy_from(&rates);
        if let Some(cell) = state.get_mut((0, 1)) {
            *cell -= u;
        }
        state.fixed_view_mut::<3, 1>(0, 3).copy_from(&(inverse * -turned));
        state.fixed_view_mut::<1, 4>(3, 0).copy_from_slice(&[0.0, -1.0, 1.0, 0.0]);
        let solved = Schur::try_new(state, f64::EPSILON, MOST_ROUNDS)?.complex_eigenvalues();
        let root = |at: usize| solved.get(at).map(|root| Root { re: root.re, im: root.im });
        let roots = [root(0)?, root(1)?, root(2)?, root(3)?];
        roots.iter().all(|root| root.re.is_finite() && root.im.is_finite()).then_some(Roots(roots))
    }

    /// The lowest speed from 1 m/s to [`TOP_SPEED`] at which any motion grows, and how. A root that already grows at
    /// 1 m/s is given with that speed.
    pub fn critical(&self) -> Option<Crossing> {
        let found = [Kind::Snaking, Kind::Divergence].into_iter().filter_map(|kind| self.crossing(kind));
        found.min_by(|one, other| one.speed.total_cmp(&other.speed))
    }

    /// The lowest speed at which a motion of one kind grows.
    pub fn crossing(&self, kind: Kind) -> Option<Crossing> {
        let speed = self.lowest(&[Sign::Grows(kind)]).into_iter().next()??;
        // A trifle faster, so that the root that grows is told from one that only just does not.
        let root = self.roots(speed * (1.0 + 1e-9))?.fastest(kind == Kind::Snaking)?;
        Some(Crossing { speed, root, kind })
    }

    /// The lowest speed at which the yaw mode is damped less than a ratio.
    pub fn damped_less(&self, ratio: f64) -> Option<f64> {
        self.lowest(&[Sign::DampedLess(ratio)]).into_iter().next()?
    }

    /// The lowest speed at which each of several signs is seen, if it is. Every speed is solved once.
    pub(super) fn lowest(&self, signs: &[Sign]) -> Vec<Option<f64>> {
        let mut found = vec![None; signs.len()];
        let mut below = LEAST_SPEED;
        let mut above = LEAST_SPEED;
        loop {
            let Some(roots) = self.roots(above) else { return found };
            for (sign, found) in signs.iter().zip(&mut found) {
                if found.is_none() && sign.excess(&roots) >= 0.0 {
                    *found = Some(halved(below, above, |u| self.excess(*sign, u)));
                }
            }
            if above >= TOP_SPEED || found.iter().all(Option::is_some) {
                return found;
            }
            (below, above) = (above, (above + STEP).min(TOP_SPEED));
        }
    }

    /// The speed at which a sign is seen, looked for close to one at which a train that is almost the same shows it; no
    /// number where it is not there.
    pub(super) fn near(&self, sign: Sign, speed: f64) -> f64 {
        [1e-3, 1e-2]
            .into_iter()
            .find_map(|width| crossed(speed, width, |u| self.excess(sign, u)))
            .unwrap_or(f64::NAN)
    }

    fn excess(&self, sign: Sign, u: f64) -> f64 {
        self.roots(u).map_or(f64::NAN, |roots| sign.excess(&roots))
    }
}

/// What is looked for from one speed to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Sign {
    /// A motion of one kind grows.
    Grows(Kind),
    /// The yaw mode is damped less than this.
    DampedLess(f64),
}

impl Sign {
    /// Less than zero while it is not seen.
    fn excess(self, roots: &Roots) -> f64 {
        match self {
            Self::Grows(kind) => roots.growth(kind == Kind::Snaking),
            Self::DampedLess(ratio) => {
                roots.yaw_mode().map_or(f64::NEG_INFINITY, |root| ratio - root.damping())
            }
        }
    }
}

/// Rounds after which a matrix counts as one that cannot be solved; ten or so are needed.
const MOST_ROUNDS: usize = 1000;

/// Halves an interval, at whose lower end something is less than zero and at whose upper end it is not, until it is one
/// number.
fn halved(mut below: f64, mut above: f64, of: impl Fn(f64) -> f64) -> f64 {
    loop {
        let middle = f64::midpoint(below, above);
        if middle <= below || middle >= above {
            return above;
        }
        if of(middle) >= 0.0 { above = middle } else { below = middle }
    }
}

/// Where something turns from less than zero to more, within a share of a speed, by false position with the weight of the
/// end that stays halved (the Illinois rule).
fn crossed(speed: f64, width: f64, of: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut below, mut above) = (speed * (1.0 - width), speed * (1.0 + width));
    let (mut low, mut high) = (of(below), of(above));
    if !(low < 0.0 && high >= 0.0 && low.is_finite()) {
        return None;
    }
    let mut last = below;
    for _ in 0..MOST_ROUNDS {
        let next = below + (above - below) * (-low / (high - low));
        if (next - last).abs() <= 1e-15 * next {
            break;
        }
        last = next;
        let value = of(next);
        if value < 0.0 {
            (below, low, high) = (next, value, high / 2.0);
        } else {
            (above, high, low) = (next, value, low / 2.0);
        }
    }
    last.is_finite().then_some(last)
}

/// Damping ratio and undamped frequency in rad/s of a trailer behind a vehicle that nothing moves, at a speed `u` in m/s:
/// with the trailer's inertia `i_h` about the ball and axles l behind it, ωₙ = √(Σ c·l / Iₕ) and
/// ζ = Σ c·l² / (2·u·√(Σ c·l · Iₕ)). This is the closed form of the model above for m → ∞.
///
/// ```
/// use pintle_calc::sway::{TrailerAxle, heavy_vehicle};
///
/// let axle = TrailerAxle { l: 3.0, c: 80_000.0 };
/// let (damping, frequency) = heavy_vehicle(3000.0 + 2000.0 * 2.7 * 2.7, &[axle], 20.0);
/// assert!((damping - 0.277_113).abs() < 5e-7 && (frequency - 3.694_84).abs() < 5e-6);
/// ```
pub fn heavy_vehicle(i_h: f64, axles: &[TrailerAxle], u: f64) -> (f64, f64) {
    let spring: f64 = axles.iter().map(|axle| axle.c * axle.l).sum();
    let brake: f64 = axles.iter().map(|axle| axle.c * axle.l * axle.l).sum();
    (brake / (2.0 * u * (spring * i_h).sqrt()), (spring / i_h).sqrt())
}
