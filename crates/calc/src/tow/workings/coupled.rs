//! Class of coupler, ball and chains by gross weight, the forces that coupler and hitch are tested with, and how level it stands.

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_spec::schema::tow;
use pintle_spec::schema::trailer::{self, axle, coupler};
use pintle_spec::{Build, Coordinate, Known, Missing};

use super::{BUILD, figure, vehicle_of};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::given;
use crate::tow::axles::pitch;
use crate::tow::cases::Loaded;
use crate::tow::couplers::{Class, class_for, hitch_test, in_pounds};
use crate::working::{Outcome, Work, Working};

const TABLE: Origin = Origin::published("COMAR 11.13.08.10, Maryland, values of SAE J684 (seen)");
const CHAINS: Origin = Origin::published("a glossary page on safety chains, values of SAE J684 (seen)");

/// Notes the gross weight and finds the class for it.
fn class(work: &mut Work, gross: Known<Figure>) -> Known<(Class, Figure)> {
    let gross = work.take("W", "gross weight", gross)?;
    let class = class_for(in_pounds(gross.quantity.si())).ok_or_else(|| {
        Missing::new(
            "a class of coupler for more than 10,000 lb",
            None,
            "the table ends there: ask the maker of the coupler",
        )
    })?;
    Ok((class, gross))
}

/// A number from a table, traced to the weight that it was looked up by.
fn looked_up(quantity: Quantity, by: &Figure) -> Figure {
    Figure::new(quantity, by.trace.clone())
}

/// So many pounds of force, traced to a weight, with how it depends on it.
fn pounds_force(by: &Figure, formula: impl Fn(f64) -> f64) -> Figure {
    let factor = Unit::find("lbf").map_or(0.0, |unit| unit.to_si(1.0));
    Figure::by(Dimension::FORCE, [by], |[kilograms]| factor * formula(in_pounds(kilograms))).shown_in("lbf")
}

fn of_state(build: &Build, loaded: &Loaded) -> Vec<Working> {
    let of = loaded.of.as_str();
    let gross = || loaded.gross.clone();
    vec![
        figure(of, "coupler_class", "class of coupler that its gross weight needs", |work| {
            let (class, gross) = class(work, gross())?;
            let number = looked_up(Quantity::from_si(f64::from(class.number), Dimension::NONE), &gross);
            work.step("n", "class", "by W: 2,000, 3,500, 5,000, 10,000 lb", Ok(number), TABLE)
        }),
        figure(of, "ball_needed", "least diameter of ball for that class", |work| {
            let (class, gross) = class(work, gross())?;
            let Some(ball) = class.ball else {
                return Ok(Outcome::None("class 4 takes the ball that its coupler is made for".to_owned()));
            };
            let ball = looked_up(Quantity::from_si(ball, Dimension::LENGTH), &gross).shown_in("in");
            Ok(Outcome::Figure(work.step("d", "ball", "by class", Ok(ball), TABLE)?))
        }),
        figure(of, "chain_needed", "breaking load that each safety chain needs", |work| {
            let (class, gross) = class(work, gross())?;
            if class.number == 4 {
                let gvwr =
                    work.take("G", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
                let more = crate::space::alike(gvwr.greater(&gross))?;
                return work.step("B", "each chain", "greater of G and W", Ok(more), CHAINS);
            }
            let chain = looked_up(Quantity::pounds(class.chain), &gross);
            work.step("B", "each chain", "by class", Ok(chain), CHAINS)
        }),
    ]
}

type Test = (&'static str, &'static str, &'static str, fn(f64) -> Option<f64>);

/// What couplers and hitches are tested with, for a weight in pounds.
const TESTS: [Test; 8] = [
    (
        "coupler_pull_test",
        "pull and push along the trailer that the coupler is tested with",
        "by class",
        |w| Some(class_for(w)?.long),
    ),
    ("coupler_side_test", "force across that the coupler is tested with", "by class", |w| {
        Some(class_for(w)?.across)
    }),
    ("coupler_lift_test", "upward pull that the coupler is tested with", "by class", |w| {
        Some(class_for(w)?.lift)
    }),
    ("coupler_press_test", "downward push that the coupler is tested with", "by class", |w| {
        Some(class_for(w)?.press)
    }),
    (
        "hitch_first_test",
        "pull along, and press down at once, that the hitch is tested with first",
        "0.47 W + 480 lb",
        |w| Some(hitch_test(w).first),
    ),
    ("hitch_pull_test", "pull and push along that the hitch is tested with next", "0.23 W + 1,530 lb", |w| {
        Some(hitch_test(w).long)
    }),
    ("hitch_press_test", "press down at the same time", "0.15 W", |w| Some(hitch_test(w).press)),
    ("hitch_side_test", "force across that the hitch is tested with last", "0.20 W + 500 lb", |w| {
        Some(hitch_test(w).across)
    }),
];

fn tested(build: &Build, (key, says, formula, force): Test) -> Working {
    figure(BUILD, key, says, |work| {
        let gvwr = work.take("W", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
        if force(in_pounds(gvwr.quantity.si())).is_none() {
            class(work, Ok(gvwr.clone()))?;
        }
        let found = pounds_force(&gvwr, |pounds| force(pounds).unwrap_or(f64::NAN));
        work.step("F", "test force", formula, Ok(found), TABLE)
    })
}

fn nose_up(build: &Build, work: &mut Work) -> Known<Figure> {
    let ball =
        work.take("hb", "height of the ball, vehicle loaded", given(vehicle_of(build)?, &tow::BALL_HEIGHT))?;
    let socket = given(build.trailer.need_table(&trailer::COUPLER)?, &coupler::HEIGHT);
    let socket = work.take("hc", "height of the coupler, trailer level", socket)?;
    let length = Coordinate::of(build.trailer.need_table(&trailer::AXLE)?, &axle::BALL);
    let length =
        work.take("L", "from the ball to the axle", length.map(|length| Figure::coordinate(&length)))?;
    let angle =
        Figure::by(Dimension::ANGLE, [&ball, &socket, &length], |[ball, socket, l]| pitch(ball, socket, l));
    let origin = Origin::derived("geometry; springs of the trailer take no part");
    work.step("θ", "nose up, negative for nose down", "atan((hb − hc) / L)", Ok(angle.shown_in("°")), origin)
}

pub(super) fn workings(build: &Build, cases: &[Loaded]) -> Vec<Working> {
    let mut all: Vec<Working> = cases.iter().flat_map(|loaded| of_state(build, loaded)).collect();
    all.extend(TESTS.into_iter().map(|test| tested(build, test)));
    all.push(figure(BUILD, "pitch", "how far the trailer stands nose up behind this vehicle", |work| {
        nose_up(build, work)
    }));
    all
}
