//! Whether a part shares the air of those who sleep inside: by geometry, not by the name of its zone.

use pintle_quantity::{Dimension, Quantity, Units};
use pintle_spec::schema::{item, kinds};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Reach, Spanned, Table, Zone};

use super::bodies::{
    all, any, begins_after, encloses, ends_before, not, overlap, reaches_inside, side_of_inside,
};
use super::given::part;
use super::outline::{Outline, TOUCH};

/// How much a bulkhead may leave open, in metres, and still count as a wall across the whole box. One inch: common
/// practice, no source; more than that was not drawn as a whole wall.
const BULKHEAD_GAP: f64 = 0.0254;

/// Where a part is, as far as the air in the sleeping space is concerned. Indices count [`Build::items`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Where {
    /// No part of it reaches into the box, and nothing that opens into the box holds it.
    Outside,
    /// Wholly in a locker that opens to the outside only and is vapour-tight to the inside.
    SealedLocker(usize),
    /// Wholly in a locker that is open to the inside.
    OpenLocker(usize),
    /// A sealed bulkhead stands between it and every berth inside.
    BehindBulkhead(usize),
    /// In the room that people sleep in.
    SleepingSpace,
}

impl Where {
    /// Whether it shares the air of those who sleep inside.
    pub const fn in_sleeping_space(self) -> bool {
        matches!(self, Self::SleepingSpace | Self::OpenLocker(_))
    }
}

/// Where a part is, and what decided it.
#[derive(Debug, Clone, PartialEq)]
pub struct Whereabouts {
    /// Where it is.
    pub place: Where,
    /// Why, in words that follow "item `gas`": "stands in locker `box`, which is not sealed to the inside".
    pub reason: String,
    /// The places in the files that decided it, each with words to set there.
    pub decided_by: Vec<Spanned<String>>,
}

/// Where a part of [`Build::items`] is, as far as the air in the sleeping space is concerned.
///
/// A part that no measure brings into the box is outside, whatever its zone is called; one placed inside by its
/// measures within a locker's box is in that locker. A locker counts as sealed only where `opens` is "outside" and
/// `sealed` is true. A locker outside the box is outside too, unless it lies against the wall and opens to the inside.
/// A sealed bulkhead that is not removable divides the box where it leaves no more than an inch open. A part in a
/// tent is where people sleep.
///
/// The distinction follows 675 IAC 15-2-74(c): containers stand on the hitch or in a compartment that is vapour-tight
/// to the inside and opened only from outside, never inside.
///
/// # Errors
/// The place or the field that would decide it, where that is not given.
pub fn whereabouts(build: &Build, index: usize) -> Known<Whereabouts> {
    let body = part(build, index)?;
    if let Some(tent) = tent_over(build, body) {
        let words = format!("is kept in {}, where people sleep", tent.called());
        return Ok(found(Where::SleepingSpace, words, zone_marks(body)));
    }
    let mut open = None;
    let mut unsure = None;
    for (at, locker) in build.of_table(Table::Locker).filter(|(at, _)| *at != index) {
        match in_locker(build, body, locker) {
            Ok(None) => {}
            Ok(Some(Closed::Sealed(marks))) => {
                let words = format!(
                    "stands in {}, which opens to the outside and is sealed to the inside",
                    locker.called()
                );
                return Ok(found(Where::SealedLocker(at), words, marks));
            }
            Ok(Some(Closed::Open(why, marks))) => {
                open = open.or(Some((at, locker, why, marks)));
            }
            Err(missing) => unsure = unsure.or(Some(missing)),
        }
    }
    if let Some(missing) = unsure {
        return Err(missing);
    }
    if let Some((at, locker, why, marks)) = open {
        if let Some(behind) = behind_bulkhead(build, &[&body.extent, &locker.extent])? {
            return Ok(behind);
        }
        return Ok(found(Where::OpenLocker(at), format!("stands in {}: {why}", locker.called()), marks));
    }
    if let Some(side) = side_of_inside(build, &body.extent, 0.0)? {
        return Ok(found(Where::Outside, format!("is {}", side.words()), zone_marks(body)));
    }
    if let Some(behind) = behind_bulkhead(build, &[&body.extent])? {
        return Ok(behind);
    }
    let mut words = "reaches into the sleeping space".to_owned();
    let mut marks = zone_marks(body);
    for (at, locker) in build.of_table(Table::Locker).filter(|(at, _)| *at != index) {
        if matches!(body.zone, Zone::Locker(host) if host == at)
            || overlap(&body.extent, &locker.extent) == Ok(true)
        {
            words = format!("{words}: it is not wholly in {}{}", locker.called(), protruding(body, locker));
            marks.push(Spanned::new("does not hold all of it".to_owned(), locker.tag.span));
            break;
        }
    }
    Ok(found(Where::SleepingSpace, words, marks))
}

fn found(place: Where, reason: String, decided_by: Vec<Spanned<String>>) -> Whereabouts {
    Whereabouts { place, reason, decided_by }
}

/// The tent that a part is in, itself or by what it stands in.
fn tent_over<'b>(build: &'b Build, body: &Item) -> Option<&'b Item> {
    let mut zone = body.zone;
    for _ in 0..=build.items.len() {
        match zone {
            Zone::Tent(host) => return build.items.get(host),
            Zone::Locker(host) | Zone::Rack(host) => zone = build.items.get(host)?.zone,
            _ => return None,
        }
    }
    None
}

/// The zone and the measures that put a part where it is.
fn zone_marks(body: &Item) -> Vec<Spanned<String>> {
    let zone = body.record.value(item::ZONE.key).map(|zone| Spanned::new("its zone".to_owned(), zone.span));
    let at = body.record.value(item::AT.key).map(|at| Spanned::new("its place".to_owned(), at.span));
    let marks: Vec<_> = zone.into_iter().chain(at).collect();
    if marks.is_empty() { vec![Spanned::new("this part".to_owned(), body.tag.span)] } else { marks }
}

/// How a locker is closed to the inside.
pub(crate) enum Closed {
    Sealed(Vec<Spanned<String>>),
    Open(&'static str, Vec<Spanned<String>>),
}

/// How a locker is closed to the inside, from its `opens` and `sealed`.
pub(crate) fn closed(locker: &Item) -> Known<Closed> {
    let opens = locker.record.word(&kinds::locker::OPENS);
    let sealed = locker.record.flag(&kinds::locker::SEALED);
    let mark = |words: &str, span| Spanned::new(words.to_owned(), span);
    match (opens, sealed) {
        (Some(opens), _) if opens.value != "outside" => {
            Ok(Closed::Open("its door opens to the inside", vec![mark("opens to the inside", opens.span)]))
        }
        (_, Some(sealed)) if !sealed.value => {
            Ok(Closed::Open("it is not sealed to the inside", vec![mark("not sealed", sealed.span)]))
        }
        (None, _) => Err(locker.record.missing(&kinds::locker::OPENS)),
        (_, None) => Err(locker.record.missing(&kinds::locker::SEALED)),
        (Some(opens), Some(sealed)) => Ok(Closed::Sealed(vec![
            mark("opens to the outside", opens.span),
            mark("sealed to the inside", sealed.span),
        ])),
    }
}

/// How the locker is closed that wholly holds a part; none if it does not hold it, or is no business of the inside.
fn in_locker(build: &Build, body: &Item, locker: &Item) -> Known<Option<Closed>> {
    let concerns_inside = any([reaches_inside(build, &locker.extent), opens_through_wall(build, locker)]);
    if all([encloses(&locker.extent, &body.extent), concerns_inside])? {
        closed(locker).map(Some)
    } else {
        Ok(None)
    }
}

/// Whether a locker lies against the outside of a wall and its door opens through it. One that stands clear of the box
/// cannot open into it.
fn opens_through_wall(build: &Build, locker: &Item) -> Known<bool> {
    if locker.record.word(&kinds::locker::OPENS).is_none_or(|opens| opens.value != "inside") {
        return Ok(false);
    }
    let skin = [
        (&build.surfaces.wall_inside, &build.surfaces.wall_outside),
        (&build.surfaces.ceiling, &build.surfaces.skin),
    ];
    let mut thickest = 0.0_f64;
    for (inside, outside) in skin {
        thickest = thickest.max(outside.clone()?.metres - inside.clone()?.metres);
    }
    Ok(side_of_inside(build, &locker.extent, thickest + 2.0 * TOUCH)?.is_none())
}

/// A bulkhead, or several, that divide bodies off from every berth inside. None where nobody sleeps inside: there is
/// then no side of it that people sleep on.
fn behind_bulkhead(build: &Build, bodies: &[&Extent]) -> Known<Option<Whereabouts>> {
    let bulkheads: Vec<(usize, &Item)> =
        build.of_table(Table::Bulkhead).filter(|(_, bulkhead)| !bulkhead.removable).collect();
    if bulkheads.is_empty() {
        return Ok(None);
    }
    let mut first = None;
    for (_, berth) in berths_inside(build)? {
        let mut unsure = None;
        let mut dividing = None;
        for (at, bulkhead) in &bulkheads {
            match divides(build, bulkhead, bodies, &berth.extent) {
                Ok(true) => dividing = dividing.or(Some((*at, *bulkhead))),
                Ok(false) => {}
                Err(missing) => unsure = unsure.or(Some(missing)),
            }
        }
        match (dividing, unsure) {
            (Some(dividing), _) => first = first.or(Some(dividing)),
            (None, Some(missing)) => return Err(missing),
            (None, None) => return Ok(None),
        }
    }
    Ok(first.map(|(at, bulkhead)| {
        let sealed =
            bulkhead.record.value(kinds::bulkhead::SEALED.key).map_or(bulkhead.tag.span, |flag| flag.span);
        let words =
            format!("is divided off from every berth inside by {}, which is sealed", bulkhead.called());
        found(Where::BehindBulkhead(at), words, vec![Spanned::new("sealed".to_owned(), sealed)])
    }))
}

/// Whether a sealed wall across the whole box stands between bodies and a berth.
fn divides(build: &Build, bulkhead: &Item, bodies: &[&Extent], berth: &Extent) -> Known<bool> {
    let wall = &bulkhead.extent.x;
    let near = wall.near.as_ref().map(|place| place.metres).map_err(Clone::clone);
    let far = wall.far.as_ref().map(|place| place.metres).map_err(Clone::clone);
    let all_ahead = |berth_ahead: bool| {
        let ahead = |body: &Extent| ends_before(&body.x, &near);
        let behind = |body: &Extent| begins_after(&body.x, &far);
        let berth = if berth_ahead { ahead(berth) } else { behind(berth) };
        let bodies = bodies.iter().map(|body| if berth_ahead { behind(body) } else { ahead(body) });
        all(bodies.chain([berth]))
    };
    let between = any([all_ahead(true), all_ahead(false)]);
    let sealed = bulkhead.record.need_flag(&kinds::bulkhead::SEALED).map(|sealed| sealed.value);
    all([between, sealed, whole(build, bulkhead)])
}

/// Whether a bulkhead, by what is known of its size, is a wall across the whole box. Its kind says that it is; a
/// stated size may say that it is not.
fn whole(build: &Build, bulkhead: &Item) -> Known<bool> {
    let falls_short = |reach: &Reach, low: f64, high: f64| {
        let short = |end: &Known<Coordinate>, of: f64, sign: f64| {
            end.as_ref().is_ok_and(|end| (end.metres - of) * sign > BULKHEAD_GAP + TOUCH)
        };
        short(&reach.near, low, 1.0) || short(&reach.far, high, -1.0)
    };
    let outline = Outline::inside(build)?;
    let (floor, ceiling) = (build.surfaces.floor.clone()?, build.surfaces.ceiling.clone()?);
    let wall = &bulkhead.extent;
    let half = wall.x.far.as_ref().map_or(outline.half, |far| outline.half_width(far.metres));
    let short = falls_short(&wall.y, -half, half) || falls_short(&wall.z, floor.metres, ceiling.metres);
    not(Ok(short))
}

/// Where and how far a part stands out of a locker.
fn protruding(body: &Item, locker: &Item) -> String {
    let by = |inner: &Known<Coordinate>, outer: &Known<Coordinate>, sign: f64, side: &str| {
        let (Ok(inner), Ok(outer)) = (inner, outer) else { return None };
        let out = sign * (inner.metres - outer.metres);
        let plain = Quantity::from_si(out, Dimension::LENGTH).with_unit_of(inner.quantity());
        (out > TOUCH).then(|| format!("{} at the {side}", plain.show(Units::AsWritten)))
    };
    let (inner, outer) = (&body.extent, &locker.extent);
    let sides: Vec<String> = [
        by(&inner.x.near, &outer.x.near, -1.0, "front"),
        by(&inner.x.far, &outer.x.far, 1.0, "rear"),
        by(&inner.y.near, &outer.y.near, -1.0, "left"),
        by(&inner.y.far, &outer.y.far, 1.0, "right"),
        by(&inner.z.near, &outer.z.near, -1.0, "bottom"),
        by(&inner.z.far, &outer.z.far, 1.0, "top"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if sides.is_empty() { String::new() } else { format!(" but stands out {}", sides.join(" and ")) }
}

/// Berths that reach into the inside of the trailer, with their indices.
pub(crate) fn berths_inside(build: &Build) -> Known<Vec<(usize, &Item)>> {
    let mut inside = Vec::new();
    for (at, berth) in build.of_table(Table::Berth) {
        if reaches_inside(build, &berth.extent)? {
            inside.push((at, berth));
        }
    }
    Ok(inside)
}

/// What is missing when a part is not where a question about it makes sense.
pub(crate) fn elsewhere(body: &Item, wanted: &str) -> Missing {
    let span = body.record.value(item::ZONE.key).map_or(body.tag.span, |zone| zone.span);
    Missing::new(format!("{wanted} {}", body.called()), Some(span), "correct its `zone`")
}
