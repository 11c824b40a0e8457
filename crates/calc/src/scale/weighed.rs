//! Weights as the scale has them: read, or worked out from two other readings.

use pintle_spec::Known;

use super::reading::{Of, Ticket};
use crate::figure::Figure;
use crate::space::alike;

/// A weight as the scale has it.
#[derive(Debug, Clone)]
pub(super) struct Weighed {
    pub(super) figure: Figure,
    /// How far off it can be at most, in kg.
    pub(super) most: f64,
    /// How it came about; empty for what was read as it is.
    pub(super) formula: &'static str,
}

impl Weighed {
    fn read(ticket: &Ticket<'_>, of: Of) -> Known<Option<Self>> {
        let read = ticket.read(of)?;
        Ok(read.map(|read| Self { figure: read.figure.clone(), most: read.most, formula: "" }))
    }

    fn sum(one: &Self, other: &Self, formula: &'static str) -> Known<Self> {
        let figure = alike(one.figure.plus(&other.figure))?;
        Ok(Self { figure, most: one.most + other.most, formula })
    }

    fn difference(one: &Self, other: &Self, formula: &'static str) -> Known<Self> {
        let figure = alike(one.figure.minus(&other.figure))?;
        Ok(Self { figure, most: one.most + other.most, formula })
    }
}

/// The load of the axles where it was read, or left and right were.
fn axles_read(ticket: &Ticket<'_>) -> Known<Option<Weighed>> {
    if let Some(read) = Weighed::read(ticket, Of::Axles)? {
        return Ok(Some(read));
    }
    let sides = (Weighed::read(ticket, Of::Left)?, Weighed::read(ticket, Of::Right)?);
    match sides {
        (Some(left), Some(right)) => Weighed::sum(&left, &right, "left + right").map(Some),
        _ => Ok(None),
    }
}

/// The weight of the whole trailer.
pub(super) fn gross(ticket: &Ticket<'_>) -> Known<Weighed> {
    if let Some(read) = Weighed::read(ticket, Of::Gross)? {
        return Ok(read);
    }
    match (Weighed::read(ticket, Of::Tongue)?, axles_read(ticket)?) {
        (Some(tongue), Some(axles)) => Weighed::sum(&tongue, &axles, "tongue + axles"),
        _ => Err(ticket.lacks("the weight", "give `gross`, or `tongue` and `axles`")),
    }
}

/// The weight on the ball.
pub(super) fn tongue(ticket: &Ticket<'_>) -> Known<Weighed> {
    if let Some(read) = Weighed::read(ticket, Of::Tongue)? {
        return Ok(read);
    }
    match (Weighed::read(ticket, Of::Gross)?, axles_read(ticket)?) {
        (Some(gross), Some(axles)) => Weighed::difference(&gross, &axles, "gross − axles"),
        _ => Err(ticket.lacks("the tongue weight", "give `tongue`, or `gross` and `axles`")),
    }
}

/// The load of the axles.
pub(super) fn axles(ticket: &Ticket<'_>) -> Known<Weighed> {
    if let Some(read) = axles_read(ticket)? {
        return Ok(read);
    }
    match (Weighed::read(ticket, Of::Gross)?, Weighed::read(ticket, Of::Tongue)?) {
        (Some(gross), Some(tongue)) => Weighed::difference(&gross, &tongue, "gross − tongue"),
        _ => Err(ticket.lacks("the axle load", "give `axles`, or `gross` and `tongue`")),
    }
}

/// The load of one side's wheels, where it was read, or the other side's and that of the axles were.
pub(super) fn side(ticket: &Ticket<'_>, of: Of) -> Known<Option<Weighed>> {
    if let Some(read) = Weighed::read(ticket, of)? {
        return Ok(Some(read));
    }
    let (other, formula) =
        if of == Of::Left { (Of::Right, "axles − right") } else { (Of::Left, "axles − left") };
    match (Weighed::read(ticket, Of::Axles)?, Weighed::read(ticket, other)?) {
        (Some(axles), Some(other)) => Weighed::difference(&axles, &other, formula).map(Some),
        _ => Ok(None),
    }
}
