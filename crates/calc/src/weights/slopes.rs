//! How fast each measure of a state changes with each value that was written.
//!
//! With bodies of mass m at x, y, z, total weight W = Σm, moments Mx = Σm·x and My = Σm·y, the axle line L behind the
//! ball and the track b, the measures and their partial derivatives are
//!
//! | measure | ∂/∂m | ∂/∂place | ∂/∂L, ∂/∂b |
//! |---|---|---|---|
//! | gross W | 1 | | |
//! | tongue W − Mx/L | 1 − x/L | −m/L | Mx/L² |
//! | axles Mx/L | x/L | m/L | −Mx/L² |
//! | side 2·My/b | 2·y/b | 2·m/b | −2·My/b² |
//! | centre Mx/W | (x − Mx/W)/W | m/W | |
//!
//! by differentiation; left and right wheels are half of axles ∓ side. A body's mass is a product of values, a place a
//! sum of them, so the chain rule does the rest.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use pintle_spec::{Coordinate, Known, Named, Variable};

use super::{Body, Measure, Weights};

/// The values of a sum, by number, and how many times each counts.
type Sum = Vec<(usize, f64)>;

/// A body in terms of values as written.
#[derive(Debug)]
struct Dependence {
    mass: Sum,
    /// Along x, y and z; none where the place is not known.
    places: [Option<Sum>; 3],
}

/// Every value that a state's weights were worked out from, once, and what depends on it.
#[derive(Debug)]
pub(super) struct Dependences {
    variables: Vec<Named>,
    bodies: Vec<Dependence>,
    axle: Option<Sum>,
    track: Option<Sum>,
}

/// Worked out when first asked for.
pub(super) type Lazy = OnceCell<Dependences>;

#[derive(Default)]
struct Numbered {
    variables: Vec<Named>,
    numbers: BTreeMap<Variable, usize>,
}

impl Numbered {
    fn number(&mut self, input: &Named) -> usize {
        let next = self.variables.len();
        let number = *self.numbers.entry(input.variable()).or_insert(next);
        if number == next {
            self.variables.push(input.clone());
        }
        number
    }

    fn place(&mut self, place: &Known<Coordinate>) -> Option<Sum> {
        let terms = &place.as_ref().ok()?.terms;
        Some(terms.iter().map(|term| (self.number(&term.input), term.times)).collect())
    }

    fn mass(&mut self, body: &Body) -> Sum {
        let by_each = body.inputs.iter().zip(body.mass_slopes());
        by_each.map(|(input, slope)| (self.number(input), slope)).collect()
    }
}

impl Dependences {
    fn of(weights: &Weights) -> Self {
        let mut numbered = Numbered::default();
        let mut bodies = Vec::with_capacity(weights.bodies.len());
        for body in &weights.bodies {
            let mass = numbered.mass(body);
            bodies
                .push(Dependence { mass, places: [&body.x, &body.y, &body.z].map(|at| numbered.place(at)) });
        }
        let (axle, track) = (numbered.place(&weights.axle), numbered.place(&weights.track));
        Self { variables: numbered.variables, bodies, axle, track }
    }
}

/// Adds so many of a sum to the derivatives.
fn add(slopes: &mut [f64], sum: &Sum, times: f64) {
    for (number, by) in sum {
        if let Some(slope) = slopes.get_mut(*number) {
            *slope += times * by;
        }
    }
}

const X: usize = 0;
const Y: usize = 1;
const Z: usize = 2;

impl Weights {
    fn dependences(&self) -> &Dependences {
        self.dependences.get_or_init(|| Dependences::of(self))
    }

    /// Every value that the state's weights can depend on, once.
    pub(crate) fn variables(&self) -> &[Named] {
        &self.dependences().variables
    }

    /// The partial derivative of a measure with respect to each of the [`variables`](Self::variables), in SI. None
    /// where the place of a body without weight is not known: what it would do if it weighed something cannot be said.
    pub(crate) fn slopes(&self, measure: Measure) -> Option<Vec<f64>> {
        let mut slopes = vec![0.0; self.variables().len()];
        self.add_slopes(measure, 1.0, &mut slopes)?;
        Some(slopes)
    }

    fn add_slopes(&self, measure: Measure, times: f64, slopes: &mut [f64]) -> Option<()> {
        let pairs = || self.bodies.iter().zip(&self.dependences().bodies);
        match measure {
            Measure::Gross | Measure::Unloaded => {
                let counts = |body: &Body| measure == Measure::Gross || body.kind.is_fitted();
                for (_, on) in pairs().filter(|(body, _)| counts(body)) {
                    add(slopes, &on.mass, times);
                }
            }
            Measure::Tongue => {
                self.add_slopes(Measure::Gross, times, slopes)?;
                self.add_slopes(Measure::Axles, -times, slopes)?;
            }
            Measure::Axles => {
                let length = self.axle.as_ref().ok()?.metres;
                self.add_moment(X, times / length, slopes)?;
                let moment = self.sum(|body| &body.x).ok()?.moment;
                add(slopes, self.dependences().axle.as_ref()?, -times * moment / (length * length));
            }
            Measure::Side => {
                let track = self.track.as_ref().ok()?.metres;
                self.add_moment(Y, times * 2.0 / track, slopes)?;
                let moment = self.sum(|body| &body.y).ok()?.moment;
                add(slopes, self.dependences().track.as_ref()?, times * -2.0 * moment / (track * track));
            }
            Measure::LeftSide => self.add_slopes(Measure::Side, -times, slopes)?,
            Measure::Right | Measure::Left => {
                let side = if measure == Measure::Right { 0.5 } else { -0.5 };
                self.add_slopes(Measure::Axles, times * 0.5, slopes)?;
                self.add_slopes(Measure::Side, times * side, slopes)?;
            }
            Measure::CentreX => self.add_centre(X, times, slopes)?,
            Measure::CentreY => self.add_centre(Y, times, slopes)?,
            Measure::CentreZ => self.add_centre(Z, times, slopes)?,
        }
        Some(())
    }

    /// Σm·x along an axis: a body's mass counts with its place, its place with its mass.
    fn add_moment(&self, axis: usize, times: f64, slopes: &mut [f64]) -> Option<()> {
        for (body, on) in self.bodies.iter().zip(&self.dependences().bodies) {
            let place = [&body.x, &body.y, &body.z].get(axis)?.as_ref().ok()?;
            add(slopes, &on.mass, times * place.metres);
            add(slopes, on.places.get(axis)?.as_ref()?, times * body.kilograms);
        }
        Some(())
    }

    fn add_centre(&self, axis: usize, times: f64, slopes: &mut [f64]) -> Option<()> {
        let along = move |body: &Body| [&body.x, &body.y, &body.z].get(axis).map(|at| (*at).clone());
        let mut sum = crate::balance::Sum::default();
        for body in &self.bodies {
            sum = sum.with(body.kilograms, along(body)?.ok()?.metres);
        }
        let centre = sum.centre()?;
        self.add_moment(axis, times / sum.weight, slopes)?;
        for on in &self.dependences().bodies {
            add(slopes, &on.mass, -times * centre / sum.weight);
        }
        Some(())
    }
}

#[cfg(test)]
mod tests;
