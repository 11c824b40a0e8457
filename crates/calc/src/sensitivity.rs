//! What a small change does to the weight on the tongue: an inch at the axle, ten pounds in each thing aboard, an inch of
//! each thing's place.
//!
//! With total weight W, its centre of gravity X behind the ball, the axle line L behind the ball, tongue weight
//! T = W·(1 − X/L) and its share s = T/W = 1 − X/L, and a body of mass m at x:
//!
//! | change | of the tongue weight | of its share |
//! |---|---|---|
//! | the axle, aft | ∂T/∂L = W·X/L² | ∂s/∂L = X/L² |
//! | mass added to the body | ∂T/∂m = 1 − x/L | ∂s/∂m = (X − x)/(L·W) |
//! | the body, aft | ∂T/∂x = −m/L | ∂s/∂x = −m/(L·W) |
//!
//! by differentiation. Rows hold these times the step; for a mass the tongue weight's is exact, its share's is that of
//! the first order.

use pintle_quantity::Quantity;
use pintle_spec::{Known, Span};

use crate::weights::{Body, OnOneLine, Weights};

/// What a step of one thing does.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What is changed, such as "item `galley`", or "the axle".
    pub name: String,
    /// Where it stands in the files.
    pub span: Option<Span>,
    /// What the step adds to the tongue weight.
    pub tongue: Quantity,
    /// What the step adds to the tongue weight's share of the gross weight.
    pub share: Quantity,
}

fn row(weights: &Weights, name: &str, span: Option<Span>, tongue: f64, share: f64) -> Row {
    let tongue = weights.in_author_unit(tongue);
    Row { name: name.to_owned(), span, tongue, share: Quantity::share(share) }
}

/// The axle moved aft by a step, such as an inch, with nothing else moved.
///
/// # Errors
/// What the tongue weight needs and is not given.
pub fn of_axle(weights: &Weights, step: Quantity) -> Known<Row> {
    let OnOneLine { weight, centre, length } = weights.on_one_line()?;
    let share = centre / (length * length) * step.si();
    Ok(row(weights, "the axle", weights.axle_span(), weight * share, share))
}

/// A step of mass, such as ten pounds, added to each thing aboard, where it is.
///
/// # Errors
/// What the tongue weight needs and is not given.
pub fn of_masses(weights: &Weights, step: Quantity) -> Known<Vec<Row>> {
    let OnOneLine { weight, centre, length } = weights.on_one_line()?;
    let of = |body: &Body| -> Known<Row> {
        let x = body.x.as_ref().map_err(Clone::clone)?.metres;
        let tongue = (1.0 - x / length) * step.si();
        let share = (centre - x) / (length * weight) * step.si();
        Ok(row(weights, &body.name, body.span, tongue, share))
    };
    weights.bodies.iter().map(of).collect()
}

/// Each thing aboard moved aft by a step, such as an inch.
///
/// # Errors
/// What the tongue weight needs and is not given.
pub fn of_places(weights: &Weights, step: Quantity) -> Known<Vec<Row>> {
    let OnOneLine { weight, length, .. } = weights.on_one_line()?;
    let of = |body: &Body| {
        let tongue = -body.kilograms / length * step.si();
        row(weights, &body.name, body.span, tongue, tongue / weight)
    };
    Ok(weights.bodies.iter().map(of).collect())
}

/// Each thing aboard with all of its weight: what it puts on the ball, and what it does to the tongue's share, against the same
/// without it. Of a mass m at x these are m·(1 − x/L), and T/W − (T − m·(1 − x/L))/(W − m): exact, not of the first order.
///
/// # Errors
/// What the tongue weight needs and is not given.
pub fn of_wholes(weights: &Weights) -> Known<Vec<Whole>> {
    let OnOneLine { weight, centre, length } = weights.on_one_line()?;
    let share = 1.0 - centre / length;
    let of = |body: &Body| -> Known<Whole> {
        let x = body.x.as_ref().map_err(Clone::clone)?.metres;
        let tongue = body.kilograms * (1.0 - x / length);
        let rest = weight - body.kilograms;
        let without = if rest > 0.0 { (weight * share - tongue) / rest } else { share };
        let mass = weights.in_author_unit(body.kilograms);
        Ok(Whole { mass, row: row(weights, &body.name, body.span, tongue, share - without) })
    };
    weights.bodies.iter().filter(|body| body.kilograms > 0.0).map(of).collect()
}

/// A thing aboard, and what all of its weight does.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Its weight.
    pub mass: Quantity,
    /// What that does.
    pub row: Row,
}

#[cfg(test)]
mod tests;
