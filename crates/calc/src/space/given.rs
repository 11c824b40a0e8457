//! Values of a build as figures, and differences of places without what cancels in them.

use pintle_quantity::{Dimension, DimensionMismatch, Quantity, Unit};
use pintle_spec::field::Field;
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Named, Record};

use crate::figure::{Figure, Trace};

/// A quantity of a record as a figure.
pub(crate) fn given(record: &Record, field: &'static Field) -> Known<Figure> {
    Ok(Figure::given(Named::of(record, field)?))
}

/// The part with an index of [`Build::items`].
pub(crate) fn part(build: &Build, index: usize) -> Known<&Item> {
    build.items.get(index).ok_or_else(|| {
        Missing::new(format!("a part with the number {index}"), None, "name a part of this build")
    })
}

/// A figure of plain SI, traced to the given inputs.
pub(crate) fn worked(si: f64, dimension: Dimension, inputs: Vec<Named>) -> Figure {
    let plain = Quantity::from_si(si, dimension);
    let shown = inputs.first().map_or(plain, |input| plain.with_unit_of(input.value.value));
    Figure::new(shown, Trace::given(inputs))
}

/// A figure of geometry, from the measures of the trailer and of parts: how it depends on each is not known, and so not how
/// sure it is.
pub(crate) fn of_places(si: f64, dimension: Dimension, unit: &str, build: &Build, parts: &[&Item]) -> Figure {
    let s = &build.surfaces;
    let ends = |extent: &Extent| {
        let reaches = [&extent.x, &extent.y, &extent.z];
        reaches.into_iter().flat_map(|reach| [reach.near.clone(), reach.far.clone()]).collect::<Vec<_>>()
    };
    let mut inputs: Vec<Named> = Vec::new();
    let places = [&s.rear_inside, &s.wall_inside].into_iter().cloned();
    let places = places.chain(parts.iter().flat_map(|part| ends(&part.extent)));
    for input in places.flatten().flat_map(|place| place.inputs().cloned().collect::<Vec<_>>()) {
        if !inputs.contains(&input) {
            inputs.push(input);
        }
    }
    Figure::new(Quantity::from_si(si, dimension), Trace::given(inputs)).shown_in(unit)
}

/// A constant of so many of a unit of [`Unit::find`].
pub(crate) fn constant(value: f64, unit: &str) -> Known<Figure> {
    let unit =
        Unit::find(unit).ok_or_else(|| Missing::new(format!("the unit {unit}"), None, "report this"))?;
    Ok(Figure::constant(Quantity::of(value, unit)))
}

/// A sum, difference or comparison of figures whose dimensions the schema has already made alike.
pub(crate) fn alike<T>(result: Result<T, DimensionMismatch>) -> Known<T> {
    result.map_err(|mismatch| {
        Missing::new(format!("a figure in one dimension ({mismatch})"), None, "report this")
    })
}

/// The sum of figures of one dimension; nothing for none.
pub(crate) fn sum(dimension: Dimension, figures: impl IntoIterator<Item = Figure>) -> Known<Figure> {
    let nothing = Figure::constant(Quantity::from_si(0.0, dimension));
    figures.into_iter().try_fold(nothing, |sum, figure| alike(sum.plus(&figure)))
}

/// The first of the greatest, with its own trace only.
pub(crate) fn greatest(figures: impl IntoIterator<Item = Figure>) -> Option<Figure> {
    figures.into_iter().reduce(|most, next| if next.quantity.si() > most.quantity.si() { next } else { most })
}

/// The first of the least, with its own trace only.
pub(crate) fn least(figures: impl IntoIterator<Item = Figure>) -> Option<Figure> {
    figures
        .into_iter()
        .reduce(|least, next| if next.quantity.si() < least.quantity.si() { next } else { least })
}

/// `to` less `from`, along one axis, from every input of both.
pub(crate) fn between(from: &Coordinate, to: &Coordinate) -> Figure {
    Figure::coordinate(&to.plus(-1.0, from))
}

/// `to` less `from` where one was measured from the other, or both from the same surface: inputs that stand in both
/// and cancel are left out. What belongs to `kept` itself, such as a rack whose edges and middle differ by its own
/// size, is left in.
pub(crate) fn between_kin(from: &Coordinate, to: &Coordinate, kept: &str) -> Figure {
    let in_both = |input: &Named| {
        let holds = |place: &Coordinate| place.inputs().any(|held| held == input);
        holds(to) && holds(from)
    };
    let mut apart = to.plus(-1.0, from);
    apart.terms.retain(|term| {
        let cancels = term.times == 0.0 && in_both(&term.input);
        !cancels || *term.input.owner == *kept
    });
    Figure::coordinate(&Coordinate { metres: to.metres - from.metres, ..apart })
}
