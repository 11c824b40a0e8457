//! Roof bows: where they are, how far rack feet stand off them, and what the feet do to them.
//!
//! A bow is a beam on its two wall posts, free to turn there, under the feet of the rows that are nearest to it. What welds and skin
//! add is not counted, nor what the roof itself weighs; nor are feet that pull up.

use pintle_quantity::{Dimension, Quantity, System};
use pintle_spec::schema::assume::roof as assumed;
use pintle_spec::schema::kinds::rack as rack_fields;
use pintle_spec::schema::trailer::{self, bows as fields, section as section_fields};
use pintle_spec::{Build, Coordinate, Known, Missing, Record, Zone};

use super::beam::OnTwoPosts;
use super::feet::{on_feet, rows};
use super::section::{Section, angle, channel, hat, rectangular_tube, round_tube};
use super::slopes::by;
use crate::figure::Figure;
use crate::space::{between, given};

/// More bows than any box has: a spacing that gives more is a slip of the pen.
const MANY: u32 = 1_000;

/// `bows` of the trailer.
///
/// # Errors
/// The table, where it is not given.
pub(super) fn table(build: &Build) -> Known<&Record> {
    build.trailer.need_table(&trailer::BOWS)
}

/// How far behind the ball the middle of each bow is, from the front: `first` behind where the side walls begin, then `spacing`
/// by `spacing`, `count` of them, or as many as there is room for ahead of the rear door.
///
/// # Errors
/// `bows`, their `first` or `spacing`, or a measure of the trailer, that is not given.
pub fn places(build: &Build) -> Known<Vec<Coordinate>> {
    let record = table(build)?;
    let first = build.surfaces.square_inside.clone()?.plus(1.0, &Coordinate::of(record, &fields::FIRST)?);
    let count = record.count(&fields::COUNT).map(|count| count.value);
    if count == Some(1) {
        return Ok(vec![first]);
    }
    let spacing = Coordinate::of(record, &fields::SPACING)?;
    let rear = build.surfaces.rear_inside.clone()?;
    let mut all = Vec::new();
    for bow in 0..count.unwrap_or(MANY + 1) {
        let place = first.plus(f64::from(bow), &spacing);
        if count.is_none() && place.metres > rear.metres + 1e-9 {
            break;
        }
        all.push(place);
    }
    if all.is_empty() || all.len() > MANY as usize {
        let span = record.value(fields::SPACING.key).map(|value| value.span);
        return Err(Missing::new("roof bows within the box", span, "correct `first`, `spacing` or `count`"));
    }
    Ok(all)
}

/// The bow nearest to a place, by its number from the front (0 is the first), and how far off it the place is, in m.
///
/// # Errors
/// What [`places`] needs.
pub fn nearest(build: &Build, x: &Coordinate) -> Known<(usize, Figure)> {
    let bows = places(build)?;
    let off = |bow: &Coordinate| (bow.metres - x.metres).abs();
    let found = bows.iter().enumerate().min_by(|(_, one), (_, other)| off(one).total_cmp(&off(other)));
    let (number, bow) =
        found.ok_or_else(|| Missing::new("a roof bow", Some(build.trailer.span), "correct `bows`"))?;
    let off = between(bow, x).abs();
    // What is left of reckoning two equal places by two ways is no distance.
    let near = off.quantity.si() < 1e-9;
    let quantity = if near { off.quantity.scaled(0.0) } else { off.quantity };
    Ok((number, Figure { quantity, trace: off.trace }))
}

/// A bow under the feet of racks.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// Its number from the front; 0 is the first.
    pub bow: usize,
    /// What its feet carry, in kg.
    pub load: Figure,
    /// The greatest bending moment, as a weight times its arm, in kg·m.
    pub moment: Figure,
    /// The greatest deflection times E I / g, in kg·m³.
    pub bend: Figure,
}

/// Between the posts of a bow: `span`, or the outside width of the box where that is not given.
///
/// # Errors
/// The measure of the trailer that is not given.
pub fn span(build: &Build) -> Known<Figure> {
    let record = table(build)?;
    if record.quantity(&fields::SPAN).is_some() {
        return given(record, &fields::SPAN);
    }
    let wall = build.surfaces.wall_outside.clone()?;
    Ok(Figure::coordinate(&wall.plus(1.0, &wall)))
}

/// The bows that carry feet of racks that stand on bows, from the front, each under its feet as they are on the road or parked.
///
/// # Errors
/// What [`places`], [`span`] and [`on_feet`] need; or feet that do not stand between the posts.
pub fn loaded(build: &Build, parked: bool) -> Known<Vec<Loaded>> {
    let length = span(build)?;
    let mut feet: Vec<(usize, Coordinate, Figure)> = Vec::new();
    for (rack, body) in build.of_kind("rack").filter(|(_, body)| body.zone == Zone::Roof) {
        if body.record.need_word(&rack_fields::FEET_ON)?.value != "bows" {
            continue;
        }
        for (row, carried) in rows(build, rack)?.into_iter().zip(on_feet(build, rack, parked)?) {
            let (bow, _) = nearest(build, &row.x)?;
            feet.push((bow, row.left, carried.left));
            feet.push((bow, row.right, carried.right));
        }
    }
    let mut numbers: Vec<usize> = feet.iter().map(|(bow, ..)| *bow).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let on = |bow: usize| feet.iter().filter(move |(at, ..)| *at == bow);
    numbers.into_iter().map(|bow| one_bow(build, bow, &length, on(bow))).collect()
}

fn one_bow<'f>(
    build: &Build,
    bow: usize,
    span: &Figure,
    feet: impl Iterator<Item = &'f (usize, Coordinate, Figure)>,
) -> Known<Loaded> {
    let mut inputs = vec![span.clone()];
    for (_, place, carried) in feet {
        inputs.push(Figure::coordinate(place));
        inputs.push(carried.clone());
    }
    let figure = |dimension, take: fn(&OnTwoPosts) -> f64| -> Known<Figure> {
        let found = by(dimension, &inputs, |values| Some(vec![take(&beam(values)?)]));
        found.and_then(|found| found.into_iter().next()).ok_or_else(|| {
            Missing::new(
                "rack feet that stand between the posts of the bows",
                build.trailer.value(trailer::BOWS.key).map(|bows| bows.span),
                "correct `span` of the bows, or the rack's `foot_gauge`",
            )
        })
    };
    Ok(Loaded {
        bow,
        load: figure(Dimension::MASS, OnTwoPosts::load)?,
        moment: figure(Dimension::MOMENT, OnTwoPosts::most_moment)?,
        bend: figure(Dimension::MOMENT.times(Dimension::AREA), |beam| beam.most_deflection(1.0))?,
    })
}

/// A bow under its feet. The values are its span, then of each foot where it stands right of the centreline, and what it
/// carries; one that pulls up counts for nothing.
fn beam(values: &[f64]) -> Option<OnTwoPosts> {
    let (&span, feet) = values.split_first()?;
    let mut loads = Vec::new();
    for foot in feet.chunks_exact(2) {
        let &[place, load] = foot else { return None };
        loads.push((span / 2.0 + place, load.max(0.0)));
    }
    OnTwoPosts::new(span, loads)
}

/// Units in which a reader of a build wants what bends its bows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shown {
    pub(super) moment: &'static str,
    pub(super) stress: &'static str,
    pub(super) modulus: &'static str,
    pub(super) sag: &'static str,
}

/// US units, unless the bows' section is written in metric ones.
pub(super) fn shown(build: &Build) -> Shown {
    let height =
        || table(build).ok()?.table(&fields::SECTION)?.quantity(&section_fields::HEIGHT)?.value.unit();
    if height().is_some_and(|unit| unit.system() == System::Metric) {
        Shown { moment: "N·m", stress: "MPa", modulus: "cm³", sag: "mm" }
    } else {
        Shown { moment: "lbf·in", stress: "psi", modulus: "in³", sag: "in" }
    }
}

/// Second moment of area, in m⁴, and section modulus, in m³, of the bows.
///
/// # Errors
/// The measure of the section that is not given, or a section whose walls meet.
pub fn section(build: &Build) -> Known<(Figure, Figure)> {
    let record = table(build)?.need_table(&fields::SECTION)?;
    let shape = record.need_word(&section_fields::SHAPE)?;
    let none = Figure::constant(Quantity::from_si(0.0, Dimension::LENGTH));
    let (h, t) = (given(record, &section_fields::HEIGHT)?, given(record, &section_fields::WALL)?);
    let b = if shape.value == "round tube" { none.clone() } else { given(record, &section_fields::WIDTH)? };
    let brim = if shape.value == "hat" { given(record, &section_fields::BRIM)? } else { none };
    let of = |[b, h, t, brim]: [f64; 4]| -> Option<Section> {
        match shape.value {
            "rectangular tube" => rectangular_tube(b, h, t),
            "round tube" => round_tube(h, t),
            "angle" => angle(b, h, t),
            "channel" => channel(b, h, t),
            _ => hat(b, h, t, brim),
        }
    };
    let inputs = [&b, &h, &t, &brim];
    if of(inputs.map(|input| input.quantity.si())).is_none() {
        return Err(Missing::new(
            format!("a {} with room within its walls", shape.value),
            Some(shape.span),
            "correct its `width`, `height`, `wall` or `brim`",
        ));
    }
    let figure = |dimension, take: fn(Section) -> f64| {
        Figure::by(dimension, inputs, |given| of(given).map_or(f64::NAN, take))
    };
    let fourth = Dimension::AREA.times(Dimension::AREA);
    let modulus = figure(Dimension::VOLUME, Section::modulus).shown_in(shown(build).modulus);
    Ok((figure(fourth, |section| section.inertia), modulus))
}

/// The assumptions about what the bows are made of: the modulus of elasticity and the allowable stress.
///
/// # Errors
/// What they are made of, where that is not given.
pub(super) fn material(build: &Build) -> Known<[&'static pintle_spec::field::Field; 2]> {
    Ok(match table(build)?.need_word(&fields::MATERIAL)?.value {
        "steel" => [&assumed::STEEL_STIFFNESS, &assumed::STEEL_ALLOWABLE],
        _ => [&assumed::ALUMINIUM_STIFFNESS, &assumed::ALUMINIUM_ALLOWABLE],
    })
}
