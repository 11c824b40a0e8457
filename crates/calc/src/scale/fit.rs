//! Least squares with weights, for a handful of readings.

use nalgebra::{DMatrix, DVector};

/// One reading, less what was worked out for it, as a sum of unknowns.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation<const N: usize> {
    /// How often each unknown is in it.
    pub row: [f64; N],
    /// What it came to.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}

/// What readings say of the unknowns.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit<const N: usize> {
    /// The unknowns.
    pub values: [f64; N],
    /// How each unknown follows from each observation: one list of factors an unknown.
    pub gains: [Vec<f64>; N],
    /// The sum of the squares of what is left over, each in its standard uncertainty.
    pub chi_square: f64,
    /// Observations less unknowns.
    pub freedom: usize,
}

/// Below this share of the largest a singular value counts as zero: the readings do not tell unknowns apart.
const FLAT: f64 = 1e-9;

/// The unknowns that leave the least Σ ((value − row·x) / u)²: weighted least squares, by the pseudo-inverse of the
/// matrix of rows over their u. None where the observations do not determine every unknown.
///
/// The unknowns are x = G·values with the gains G, so that the law of propagation (JCGM 100:2008, 5.1.2) gives their
/// uncertainties, and what they have in common.
///
/// ```
/// use pintle_calc::scale::{Observation, fit};
///
/// // One weight on two scales, of which the second is twice as coarse: the first counts four times.
/// let first = Observation { row: [1.0], value: 100.0, u: 1.0 };
/// let second = Observation { row: [1.0], value: 105.0, u: 2.0 };
/// let found = fit(&[first, second]).unwrap();
/// assert!((found.values[0] - 101.0).abs() < 1e-12);
/// assert!((found.chi_square - 5.0).abs() < 1e-12);
/// ```
pub fn fit<const N: usize>(observations: &[Observation<N>]) -> Option<Fit<N>> {
    let count = observations.len();
    let weighed = observations.iter().flat_map(|seen| seen.row.iter().map(|cell| cell / seen.u));
    let rows = DMatrix::from_row_iterator(count, N, weighed);
    if count < N || rows.iter().any(|cell| !cell.is_finite()) {
        return None;
    }
    let solved = rows.svd(true, true);
    let least = solved.singular_values.max() * FLAT;
    if solved.rank(least) < N {
        return None;
    }
    let inverse = solved.pseudo_inverse(least).ok()?;
    let by_u = DVector::from_iterator(count, observations.iter().map(|seen| 1.0 / seen.u));
    let gains =
        std::array::from_fn(|at| inverse.row(at).iter().zip(&by_u).map(|(gain, by)| gain * by).collect());
    let sum = |gains: &Vec<f64>| gains.iter().zip(observations).map(|(gain, seen)| gain * seen.value).sum();
    let values: [f64; N] = std::array::from_fn(|at| gains.get(at).map_or(f64::NAN, sum));
    let left = |seen: &Observation<N>| {
        let fitted: f64 = seen.row.iter().zip(values).map(|(cell, value)| cell * value).sum();
        ((seen.value - fitted) / seen.u).powi(2)
    };
    Some(Fit { values, gains, chi_square: observations.iter().map(left).sum(), freedom: count - N })
}
