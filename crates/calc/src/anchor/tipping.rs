//! Tipping about the edge of a part's foot, and what that pulls on its anchors.

/// How steady a part stands towards an edge: b/h, with b from the centre of gravity to the edge and h its height over the
/// foot. It stands while this is at least c/cz, the sideways pull over the weight (EN 12195-1; cz is 1).
///
/// ```
/// use pintle_calc::anchor::tipping::steadiness;
/// assert!((steadiness(0.3, 0.7) - 0.428_571).abs() < 1e-6); // less than 0.5: it tips aside
/// ```
pub fn steadiness(b: f64, h: f64) -> f64 {
    b / h
}

/// Moment that the anchors have to hold against tipping, in N·m: W·(c·h − b), never below zero. Weight in N, lengths in m.
///
/// ```
/// use pintle_calc::anchor::tipping::overturning;
/// assert!((overturning(1000.0, 0.5, 0.7, 0.3) - 50.0).abs() < 1e-12);
/// assert_eq!(overturning(1000.0, 0.5, 0.6, 0.3), 0.0);
/// ```
pub fn overturning(w: f64, c: f64, h: f64, b: f64) -> f64 {
    (w * (c * h - b)).max(0.0)
}

/// Pull on each anchor of the row farthest from the edge, in N: M · s₁ / Σ nᵢ·sᵢ². The foot turns as a whole about its edge, so
/// each anchor pulls in proportion to its distance s from it (elastic share of a bolt group; statics).
///
/// `size` of the foot and `spread` from the first row to the last are in m, the rows stand in its middle and are evenly spaced,
/// `each` anchors to a row.
///
/// ```
/// use pintle_calc::anchor::tipping::far_pull;
/// // Two rows of two, 0.1 and 0.9 m from the edge: 82 = 2 · (90·0.9 + 10·0.1).
/// let t = far_pull(164.0, 1.0, 0.8, 2, 2.0);
/// assert!((t - 90.0).abs() < 1e-9);
/// ```
pub fn far_pull(m: f64, size: f64, spread: f64, rows: u32, each: f64) -> f64 {
    let gap = spread / f64::from(rows.max(2) - 1);
    let first = (size - spread) / 2.0;
    let squares: f64 = (0..rows.max(2)).map(|row| (first + gap * f64::from(row)).powi(2)).sum();
    m * (first + spread) / (each * squares)
}

/// Force on the latches of a folded part, in N: it would turn about its hinge by c·W at its centre of gravity, `cg` from the
/// hinge line, and the latches hold it at `arm` (moments about the hinge).
///
/// ```
/// use pintle_calc::anchor::tipping::latch_pull;
/// assert!((latch_pull(0.5, 400.0, 0.6, 1.2) - 100.0).abs() < 1e-12);
/// ```
pub fn latch_pull(c: f64, w: f64, cg: f64, arm: f64) -> f64 {
    c * w * cg / arm
}
