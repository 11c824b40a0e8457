//! Scale tickets of a build: each reading with how sure it is.

use pintle_quantity::Quantity;
use pintle_spec::field::Field;
use pintle_spec::schema::record::{self, ticket};
use pintle_spec::{Build, Known, Missing, Named, Record, Spanned};

use crate::figure::Figure;
use crate::weights::Measure;

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// The whole trailer.
    Gross,
    /// Weight on the ball.
    Tongue,
    /// Weight on all wheels.
    Axles,
    /// Weight on the left wheels.
    Left,
    /// Weight on the right wheels.
    Right,
}

impl Of {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Gross, Self::Tongue, Self::Axles, Self::Left, Self::Right];

    /// The measure of a state that it reads.
    pub const fn measure(self) -> Measure {
        match self {
            Self::Gross => Measure::Gross,
            Self::Tongue => Measure::Tongue,
            Self::Axles => Measure::Axles,
            Self::Left => Measure::Left,
            Self::Right => Measure::Right,
        }
    }

    /// The field of a ticket that it stands in.
    pub const fn field(self) -> &'static Field {
        match self {
            Self::Gross => &ticket::GROSS,
            Self::Tongue => &ticket::TONGUE,
            Self::Axles => &ticket::AXLES,
            Self::Left => &ticket::LEFT,
            Self::Right => &ticket::RIGHT,
        }
    }

    /// How often an unaccounted weight counts in it, what of it rests on the axles, and its right less its left.
    pub(super) const fn row(self) -> [f64; 3] {
        match self {
            Self::Gross => [1.0, 0.0, 0.0],
            Self::Tongue => [1.0, -1.0, 0.0],
            Self::Axles => [0.0, 1.0, 0.0],
            Self::Left => [0.0, 0.5, -0.5],
            Self::Right => [0.0, 0.5, 0.5],
        }
    }
}

/// One reading of a ticket.
#[derive(Debug, Clone)]
pub struct Reading {
    /// What was read.
    pub of: Of,
    /// What it says, with twice its standard uncertainty as its ±.
    pub figure: Figure,
    /// Its standard uncertainty, in kg.
    pub u: f64,
    /// How far off it can be at most, in kg: half a step, or its own ±.
    pub most: f64,
}

/// A scale ticket.
#[derive(Debug, Clone)]
pub struct Ticket<'b> {
    /// What it is called.
    pub name: String,
    /// Its fields.
    pub record: &'b Record,
    /// The state it was weighed in; counts [`Build::states`].
    pub state: usize,
    /// Its readings, or what is missing to know how sure they are.
    pub readings: Known<Vec<Reading>>,
}

/// Standard uncertainty of a reading off a display of steps: step / √12, since it can be anything within half a step to
/// either side, all alike likely (JCGM 100:2008, GUM, F.2.2.1, from memory).
///
/// ```
/// assert!((pintle_calc::scale::rounding(20.0) - 5.773_502_691_896_258).abs() < 1e-12);
/// ```
pub fn rounding(step: f64) -> f64 {
    step / 12.0_f64.sqrt()
}

/// The scale tickets of a build, in the order of the spec. One without any reading has an empty list.
pub fn tickets(build: &Build) -> Vec<Ticket<'_>> {
    let Some(record) = &build.record else { return Vec::new() };
    let ticket = |(at, record): (usize, &'_ Record)| -> Option<(usize, String, usize)> {
        // Loading has made sure that there is such a state.
        let named = record.text(&ticket::STATE)?;
        let state = build.states.iter().position(|state| state.name.value == named.value)?;
        Some((at, format!("ticket {}, state `{}`", at + 1, named.value), state))
    };
    let entries = record.tables(&record::TICKETS).iter().enumerate();
    let found = entries.filter_map(|(at, record)| Some((ticket((at, record))?, record)));
    found
        .map(|((_, name, state), record)| Ticket { name, record, state, readings: readings(record) })
        .collect()
}

fn readings(record: &Record) -> Known<Vec<Reading>> {
    let written = Of::ALL.into_iter().filter(|of| record.quantity(of.field()).is_some());
    written.map(|of| reading(record, of)).collect()
}

fn reading(record: &Record, of: Of) -> Known<Reading> {
    let named = Named::of(record, of.field())?;
    let stated = named.value.value.tolerance().map(Quantity::si);
    let (u, most) = if let Some(half) = stated {
        // A ± is twice a standard uncertainty.
        (half / 2.0, half)
    } else {
        let step = step(record, of)?;
        if of == Of::Tongue && by_difference(record) {
            // Two readings, each rounded by itself.
            (2.0_f64.sqrt() * rounding(step), step)
        } else {
            (rounding(step), step / 2.0)
        }
    };
    if u <= 0.0 {
        return Err(Missing::new(
            format!("how sure {} is: ± 0 is no scale's", named.name()),
            Some(named.value.span),
            "leave the ± out and give `resolution`, the step of the display",
        ));
    }
    let value = Spanned::new(named.value.value.with_tolerance(2.0 * u), named.value.span);
    Ok(Reading { of, figure: Figure::given(Named { value, ..named }), u, most })
}

/// Whether the tongue weight is the difference of two other readings.
fn by_difference(record: &Record) -> bool {
    record.word(&ticket::TONGUE_BY).is_some_and(|by| by.value == "difference")
}

fn step(record: &Record, of: Of) -> Known<f64> {
    let own = if of == Of::Tongue { record.quantity(&ticket::TONGUE_RESOLUTION) } else { None };
    match own {
        Some(own) => Ok(own.value.si()),
        None => Ok(record.need(&ticket::RESOLUTION)?.value.si()),
    }
}

impl Ticket<'_> {
    /// Its readings.
    ///
    /// # Errors
    /// How sure they are, where the ticket does not say.
    pub fn readings(&self) -> Known<&[Reading]> {
        self.readings.as_deref().map_err(Clone::clone)
    }

    /// A reading.
    ///
    /// # Errors
    /// How sure the readings are, where the ticket does not say.
    pub fn read(&self, of: Of) -> Known<Option<&Reading>> {
        Ok(self.readings()?.iter().find(|reading| reading.of == of))
    }

    /// Whether its tongue weight is the difference of two other readings.
    pub(super) fn tongue_by_difference(&self) -> bool {
        by_difference(self.record)
    }

    /// Whether a reading says something that the others of the ticket do not: a tongue weight that is the difference of
    /// gross weight and axle load says nothing beside the two.
    pub(super) fn says_more(&self, reading: &Reading) -> bool {
        let read = |of: Of| self.record.quantity(of.field()).is_some();
        let said = reading.of == Of::Tongue && self.tongue_by_difference();
        !(said && read(Of::Gross) && read(Of::Axles))
    }

    /// What the ticket lacks to say something.
    pub(super) fn lacks(&self, what: &str, help: &str) -> Missing {
        Missing::new(format!("{what} of {}", self.name), Some(self.record.span), help.to_owned())
    }
}
