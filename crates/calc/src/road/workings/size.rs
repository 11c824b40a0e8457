//! Size, overhang, clearance, and their margins by place.

use pintle_spec::field::Field;
use pintle_spec::{Build, Extent, Known, Table, Use, Zone};

use super::{by_place, of_build, take_of};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::place::figures;
use crate::road::{self, ground, nose};
use crate::roof;
use crate::space::{alike, between, constant};
use crate::working::{Outcome, Working};

const NHTSA: Origin =
    Origin::published("NHTSA interpretation nht93-4.12: rigid fenders count, mirrors and lamps do not");

/// A size, its figure, its symbol, and the key, words and field of its margin.
struct Sized {
    key: &'static str,
    says: &'static str,
    symbol: &'static str,
    of: fn(&Build) -> Known<Figure>,
    origin: Origin,
    margin: &'static str,
    margin_says: &'static str,
    most: &'static Field,
    /// Whether every place has such a figure in its law, so that one that is not held is missing.
    everywhere: bool,
}

fn sizes() -> [Sized; 6] {
    [
        Sized {
            key: "overall_width",
            says: "outside width with rigid fenders",
            symbol: "b",
            of: road::overall_width,
            origin: NHTSA,
            margin: "width_margin",
            margin_says: "what is left of the greatest width",
            most: &figures::MOST_WIDTH,
            everywhere: true,
        },
        Sized {
            key: "overall_height",
            says: "height with what is on the roof, tents closed",
            symbol: "h",
            of: roof::overall_height,
            origin: Origin::derived("the highest of skin and all on it"),
            margin: "height_margin",
            margin_says: "what is left of the greatest height",
            most: &figures::MOST_HEIGHT,
            everywhere: true,
        },
        Sized {
            key: "overall_length",
            says: "outside length with the tongue",
            symbol: "l",
            of: road::overall_length,
            origin: Origin::derived("as stated, else from the ball to the rearmost"),
            margin: "length_margin",
            margin_says: "what is left of the greatest length",
            most: &figures::MOST_LENGTH,
            everywhere: true,
        },
        Sized {
            key: "rear_overhang",
            says: "how far it reaches behind its axle",
            symbol: "o",
            of: road::rear_overhang,
            origin: Origin::derived("from the middle of the axle group to the rearmost"),
            margin: "overhang_margin",
            margin_says: "what is left of the greatest rear overhang",
            most: &figures::MOST_OVERHANG,
            everywhere: false,
        },
        Sized {
            key: "load_behind",
            says: "how far anything reaches behind the body",
            symbol: "e",
            of: load_behind,
            origin: Origin::derived("the rearmost of loads, racks and what hangs on the rear door"),
            margin: "behind_margin",
            margin_says: "what is left until a load behind needs marks of its own",
            most: &figures::UNMARKED_BEHIND,
            everywhere: false,
        },
        Sized {
            key: "load_aside",
            says: "how far anything reaches beyond the sides",
            symbol: "a",
            of: load_aside,
            origin: Origin::derived("the farthest out of loads, racks and what hangs on the rear door"),
            margin: "aside_margin",
            margin_says: "what is left until a load aside needs marks of its own",
            most: &figures::UNMARKED_ASIDE,
            everywhere: false,
        },
    ]
}

/// What is outside and may reach beyond the body on the road: on the rear door, the roof or a rack, loads included.
fn overhanging(build: &Build) -> impl Iterator<Item = &Extent> {
    let outside = |zone| matches!(zone, Zone::RearDoor | Zone::Roof | Zone::Rack(_));
    let flush = |table| matches!(table, Table::Vent | Table::Opening | Table::Berth);
    let parts = build.items.iter().filter(move |body| outside(body.zone) && !flush(body.table));
    let states = build.states.iter().filter(|state| state.used == Use::Road);
    let loads = states.flat_map(|state| &state.loads).filter(move |load| outside(load.zone));
    parts.map(|body| &body.extent).chain(loads.map(|load| &load.extent))
}

/// How far any of it reaches behind the body; nothing where none does.
fn load_behind(build: &Build) -> Known<Figure> {
    let rear = build.surfaces.rear_outside.clone()?;
    let mut reach = constant(0.0, "in")?;
    for extent in overhanging(build) {
        reach = farther(reach, between(&rear, &extent.x.far.clone()?));
    }
    Ok(reach)
}

/// How far any of it reaches beyond a side, of which rigid fenders are a part; nothing where none does.
fn load_aside(build: &Build) -> Known<Figure> {
    let half = road::overall_width(build)?.scaled(0.5);
    let mut reach = constant(0.0, "in")?;
    for extent in overhanging(build) {
        for edge in [&extent.y.near, &extent.y.far] {
            reach = farther(reach, alike(Figure::coordinate(&edge.clone()?).abs().minus(&half))?);
        }
    }
    Ok(reach)
}

fn farther(one: Figure, other: Figure) -> Figure {
    if other.quantity.si() > one.quantity.si() { other } else { one }
}

/// What is left of a place's greatest size: limit − size.
fn margin(case: &Case<'_>, sized: &Sized) -> Vec<Working> {
    by_place(case, sized.margin, sized.margin_says, |work, place| {
        if !sized.everywhere && place.figure(sized.most).is_err() {
            return Ok(Outcome::None(format!("no figure for it is held for {}", place.called())));
        }
        let most = take_of(work, "L", place, sized.most)?;
        let size = work.step(sized.symbol, sized.says, "", (sized.of)(case.build), sized.origin.clone())?;
        let left = alike(most.minus(&size));
        work.step("m", sized.margin_says, "L − size", left, Origin::derived("difference")).map(Into::into)
    })
}

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for sized in sizes() {
        all.push(of_build(sized.key, sized.says, |work| {
            work.step(sized.symbol, sized.says, "", (sized.of)(build), sized.origin.clone())
        }));
        all.extend(margin(case, &sized));
    }
    all.push(of_build(
        "ground_clearance",
        "height of the lowest above the ground, wheels left out",
        |work| {
            let origin = Origin::derived("the lowest of the trailer as it came and of what hangs low");
            work.step("c", "lowest above the ground", "", ground::ground_clearance(build), origin)
        },
    ));
    all.push(of_build("departure_angle", "steepest ramp that it leaves without touching", |work| {
        let origin = Origin::memory("ISO 612, departure angle; the formula is geometry");
        work.step(
            "θ",
            "departure angle",
            "2 · atan(z / (d + √(d² + z·(z − 2r))))",
            ground::departure_angle(build),
            origin,
        )
    }));
    all.push(of_build("camp_only_aboard", "what is for use when parked only, and rides along", |_| {
        nose::camp_only_aboard(build)
    }));
    all
}
