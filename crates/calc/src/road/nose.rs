//! The tongue: how near what stands on it comes to the tow vehicle's opened tailgate in a turn.

use pintle_quantity::Dimension;
use pintle_spec::schema::{tow, trailer};
use pintle_spec::{Build, Coordinate, Known, Missing, Named, Table, Zone};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::Working;

/// Distance between a corner on the tongue and the opened tailgate with the trailer turned by φ about the ball:
/// x·cos φ − y·sin φ − g, for a corner x behind the ball and y off the centreline, and a tailgate that reaches g behind
/// the ball (a rotation about the ball; the tailgate's edge taken as straight across). Negative where they meet. It
/// falls as φ grows, so it is least at full lock.
///
/// ```
/// use pintle_calc::{Figure, road::nose::swing_clearance};
/// use pintle_quantity::Quantity;
///
/// let of = |inches| Figure::constant(Quantity::inches(inches));
/// let angle = |text| Figure::constant(Quantity::parse(text).unwrap());
/// let straight = swing_clearance(&of(30.0), &of(8.0), &angle("0°"), &of(10.0));
/// assert!((straight.quantity.si() - 20.0 * 0.0254).abs() < 1e-12);
/// let across = swing_clearance(&of(30.0), &of(8.0), &angle("90°"), &of(10.0));
/// assert!((across.quantity.si() + 18.0 * 0.0254).abs() < 1e-12);
/// ```
#[must_use]
pub fn swing_clearance(x: &Figure, y: &Figure, phi: &Figure, g: &Figure) -> Figure {
    Figure::by(Dimension::LENGTH, [x, y, phi, g], |[x, y, phi, g]| x * phi.cos() - y * phi.sin() - g)
        .shown_in("in")
}

/// A thing on the tongue: where its foremost is, how far it is off the centreline, and its top.
struct Thing {
    called: String,
    near: Known<Figure>,
    off: Known<Figure>,
    top: Known<Figure>,
}

fn off_centre(left: &Coordinate, right: &Coordinate) -> Known<Figure> {
    alike(Figure::coordinate(left).abs().greater(&Figure::coordinate(right).abs()))
}

fn things(build: &Build) -> Vec<Thing> {
    let parts = build.items.iter().filter(|body| {
        body.zone == Zone::Tongue && !matches!(body.table, Table::Vent | Table::Opening | Table::Load)
    });
    let mut things: Vec<Thing> = parts
        .map(|body| {
            let of = &body.extent;
            let off = of.y.near.clone().and_then(|left| off_centre(&left, &of.y.far.clone()?));
            let place = |end: &Known<Coordinate>| end.clone().map(|place| Figure::coordinate(&place));
            Thing { called: body.called(), near: place(&of.x.near), off, top: place(&of.z.far) }
        })
        .collect();
    if let Some(jack) = build.trailer.table(&trailer::JACK)
        && (jack.quantity(&trailer::jack::BALL).is_some() || jack.quantity(&trailer::jack::TOP).is_some())
    {
        let off = match jack.quantity(&trailer::jack::CENTRE) {
            Some(_) => Named::of(jack, &trailer::jack::CENTRE).map(|named| Figure::given(named).abs()),
            None => Ok(Figure::coordinate(&Coordinate::ORIGIN)),
        };
        let near = given(jack, &trailer::jack::BALL);
        let top = given(jack, &trailer::jack::TOP);
        things.push(Thing { called: "the jack".to_owned(), near, off, top });
    }
    things
}

/// The clearance of everything on the tongue that stands higher than the underside of the opened tailgate.
pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let Some(vehicle) = &case.build.tow else { return Vec::new() };
    if vehicle.quantity(&tow::TAILGATE).is_none() && vehicle.quantity(&tow::TAILGATE_HEIGHT).is_none() {
        return Vec::new();
    }
    let one = |thing: Thing| {
        Working::of(
            "road",
            "tongue_clearance",
            thing.called,
            "distance to the opened tailgate at full lock",
            |work| {
                use pintle_spec::schema::assume;
                let h = work.take(
                    "h",
                    "underside of the tailgate above the ground",
                    given(vehicle, &tow::TAILGATE_HEIGHT),
                )?;
                let top = work.take("z", "its top above the ground", thing.top)?;
                if alike(top.quantity.at_most(h.quantity))? {
                    return Ok(crate::Outcome::None("the opened tailgate passes above it".to_owned()));
                }
                let x = work.take("x", "its foremost behind the ball", thing.near)?;
                let y = work.take("y", "how far it reaches off the centreline", thing.off)?;
                let g = work.take(
                    "g",
                    "how far the tailgate reaches behind the ball",
                    given(vehicle, &tow::TAILGATE),
                )?;
                let phi = work.assume("φ", case, &assume::ROAD, &assume::road::LOCK)?;
                let found = Ok(swing_clearance(&x, &y, &phi, &g));
                let origin = Origin::derived("a rotation about the ball");
                work.step("s", "distance to the tailgate", "x · cos φ − y · sin φ − g", found, origin)
                    .map(Into::into)
            },
        )
    };
    things(case.build).into_iter().map(one).collect()
}

/// Tags of what is for use when parked only, and is aboard in some road arrangement all the same: what cannot be taken
/// out, and what a road state does not leave at home.
///
/// # Errors
/// The part, where a tag names none.
pub fn camp_only_aboard(build: &Build) -> Known<Vec<String>> {
    use pintle_spec::schema::build::head;
    let mut aboard = Vec::new();
    for tag in build.head.texts(&head::CAMP_ONLY) {
        let at = build.items.iter().position(|body| body.tag.value == tag.value).ok_or_else(|| {
            Missing::new(
                format!("the part `{}` that is named in `camp_only`", tag.value),
                Some(tag.span),
                "name a part or load by its tag",
            )
        })?;
        for state in build.states.iter().filter(|state| state.used == pintle_spec::Use::Road) {
            let load = build.items.get(at).is_some_and(|body| body.table == Table::Load);
            let rides = if load {
                state.carry.iter().any(|(carried, mass)| *carried == at && mass.value.si() > 0.0)
            } else {
                !state.out.contains(&at)
            };
            if rides {
                aboard.push(format!("`{}` in state `{}`", tag.value, state.name.value));
            }
        }
    }
    Ok(aboard)
}
