//! What the weight on the ball does to the tow vehicle's axles, with and without spring bars. Statics of beams on two supports;
//! weights in one unit, lengths in another, moments in their product.

/// Loads that the trailer adds, negative where it takes away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Added {
    /// To the tow vehicle's front axle.
    pub front: f64,
    /// To its rear axle.
    pub rear: f64,
    /// To the trailer's axles, beyond what they carry without spring bars.
    pub trailer: f64,
    /// What is left on the ball.
    pub ball: f64,
}

/// What a weight `t` on a ball `o` behind the rear axle adds to the axles of a vehicle with wheelbase `wb`, when spring bars turn the
/// two halves of the rig against each other with a moment `m` and the trailer's axle stands `l` behind the ball.
///
/// About the ball the trailer's axles gain m/l, and the ball is left with t − m/l. About the rear axle the front one gains
/// (m − (t − m/l)·o)/wb; the rear one has the rest.
///
/// ```
/// use pintle_calc::tow::axles::added;
/// // Bars of 1,000 lb each at 30 in, axles 200 in behind the ball: 300 lb go to them.
/// let found = added(800.0, 65.0, 130.0, 200.0, 2.0 * 1000.0 * 30.0);
/// assert!((found.trailer - 300.0).abs() < 1e-9);
/// assert!((found.front + found.rear + found.trailer - 800.0).abs() < 1e-9);
/// ```
pub fn added(t: f64, o: f64, wb: f64, l: f64, m: f64) -> Added {
    let trailer = m / l;
    let ball = t - trailer;
    let front = (m - ball * o) / wb;
    Added { front, rear: ball - front, trailer, ball }
}

/// Moment of spring bars that gives the front axle back a share `s` of what the weight `t` on the ball takes from it:
/// s·t·o/(1 + o/l).
///
/// ```
/// use pintle_calc::tow::axles::{added, restoring};
/// let m = restoring(1.0, 600.0, 50.0, 150.0);
/// assert!(added(600.0, 50.0, 120.0, 150.0, m).front.abs() < 1e-9);
/// ```
pub fn restoring(s: f64, t: f64, o: f64, l: f64) -> f64 {
    s * t * o / (1.0 + o / l)
}

/// How far a trailer stands nose up, in rad: the ball is higher than the coupler is on the level trailer, over the length from
/// ball to axle. Negative for nose down.
///
/// ```
/// use pintle_calc::tow::axles::pitch;
/// assert!((pitch(0.50, 0.45, 3.0).to_degrees() - 0.9548).abs() < 1e-4);
/// ```
pub fn pitch(ball: f64, coupler: f64, l: f64) -> f64 {
    ((ball - coupler) / l).atan()
}
