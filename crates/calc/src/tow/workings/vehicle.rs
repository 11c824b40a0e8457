//! The tow vehicle with the trailer behind it: combination, payload, axles, spring bars.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::tow::hitch::{bars, pair};
use pintle_spec::schema::tow::{self, hitch};
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Known};

use super::{distributes, figure, vehicle_of};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::tow::axles::{Added, added, restoring};
use crate::tow::cases::Loaded;
use crate::working::{Outcome, Work, Working};

const LEVERS: Origin = Origin::derived("moments about the rear axle");
const BOTH: Origin = Origin::derived("moments about the ball and about the rear axle");

fn tongue(work: &mut Work, loaded: &Loaded) -> Known<Figure> {
    work.take("T", "weight on the ball", loaded.tongue.clone())
}

/// Notes the vehicle's lever: from its rear axle to the ball, and its wheelbase.
fn lever(work: &mut Work, build: &Build) -> Known<(Figure, Figure)> {
    let vehicle = vehicle_of(build)?;
    let overhang = work.take("o", "from the rear axle to the ball", given(vehicle, &tow::OVERHANG))?;
    let wheelbase = work.take("b", "wheelbase", given(vehicle, &tow::WHEELBASE))?;
    Ok((overhang, wheelbase))
}

fn plain(case: &Case<'_>, loaded: &Loaded) -> Vec<Working> {
    let of = loaded.of.as_str();
    let build = case.build;
    let of_vehicle = |field| vehicle_of(build).and_then(|vehicle| given(vehicle, field));
    let gain = |work: &mut Work| {
        let t = tongue(work, loaded)?;
        let (o, b) = lever(work, build)?;
        let gain = Ok(alike(t.plus(&t.times(&o).over(&b)))?.shown_in("lb"));
        work.step("ΔR", "what the rear axle gains", "T · (1 + o / b)", gain, LEVERS)
    };
    let relief = |work: &mut Work| {
        let t = tongue(work, loaded)?;
        let (o, b) = lever(work, build)?;
        let relief = Ok(t.times(&o).over(&b).shown_in("lb"));
        work.step("ΔF", "what the front axle loses", "T · o / b", relief, LEVERS)
    };
    vec![
        figure(of, "combination", "weight of vehicle and trailer together", |work| {
            let m = work.take("m", "weight of the vehicle as it rides", of_vehicle(&tow::MASS))?;
            let w = work.take("W", "gross weight of the trailer", loaded.gross.clone())?;
            let origin = Origin::published("49 CFR 571.3: GCWR is of the loaded combination (seen)");
            work.step("C", "both together", "m + W", alike(m.plus(&w)), origin)
        }),
        figure(of, "payload_used", "what people, cargo and the ball put on the vehicle", |work| {
            let p = work.take("p", "people and cargo in the vehicle", of_vehicle(&tow::ABOARD))?;
            let t = tongue(work, loaded)?;
            work.step(
                "P",
                "payload used",
                "p + T",
                alike(p.plus(&t)),
                Origin::practice("the ball's load is payload of the vehicle"),
            )
        }),
        figure(of, "vehicle_gross", "weight on the vehicle's own wheels", |work| {
            let m = work.take("m", "weight of the vehicle as it rides", of_vehicle(&tow::MASS))?;
            let t = tongue(work, loaded)?;
            work.step("V", "vehicle with the ball's load", "m + T", alike(m.plus(&t)), Origin::derived("sum"))
        }),
        figure(of, "rear_axle_gain", "what the ball's load adds to the rear axle", gain),
        figure(of, "front_axle_relief", "what the ball's load takes from the front axle", relief),
        figure(of, "rear_axle_load", "load of the rear axle with the trailer, without spring bars", |work| {
            let gain = gain(work)?;
            let r = work.take("R₀", "rear axle without the trailer", of_vehicle(&tow::REAR_AXLE))?;
            work.step("R", "rear axle with it", "R₀ + ΔR", alike(r.plus(&gain)), LEVERS)
        }),
        figure(
            of,
            "front_axle_load",
            "load of the front axle with the trailer, without spring bars",
            |work| {
                let relief = relief(work)?;
                let f = work.take("F₀", "front axle without the trailer", of_vehicle(&tow::FRONT_AXLE))?;
                work.step("F", "front axle with it", "F₀ − ΔF", alike(f.minus(&relief)), LEVERS)
            },
        ),
        figure(of, "front_axle_share", "what is left on the front axle, as a share of what was", |work| {
            let relief = relief(work)?;
            let f = work.take("F₀", "front axle without the trailer", of_vehicle(&tow::FRONT_AXLE))?;
            let left = alike(f.minus(&relief))?.over(&f).as_share();
            work.step("q", "share left", "(F₀ − ΔF) / F₀", Ok(left), LEVERS)
        }),
        figure(
            of,
            "needs_distribution",
            "whether it is beyond what the hitch carries without spring bars",
            |work| {
                let hitch = vehicle_of(build)?.need_table(&tow::HITCH)?;
                let rating = hitch.need_table(&hitch::WEIGHT_CARRYING)?;
                let t = tongue(work, loaded)?;
                let w = work.take("W", "gross weight of the trailer", loaded.gross.clone())?;
                let most =
                    work.take("T₁", "most on the ball without spring bars", given(rating, &pair::TONGUE))?;
                let heaviest =
                    work.take("W₁", "most gross weight without spring bars", given(rating, &pair::GROSS))?;
                let within = t.quantity.at_most(most.quantity) == Ok(true)
                    && w.quantity.at_most(heaviest.quantity) == Ok(true);
                Ok(!within)
            },
        ),
    ]
}

/// Notes the moment of the spring bars, about the ball.
fn moment(work: &mut Work, case: &Case<'_>, t: &Figure, o: &Figure, l: &Figure) -> Known<Figure> {
    let hitch = vehicle_of(case.build)?.need_table(&tow::HITCH)?;
    if let Some(bars) = hitch.table(&hitch::BARS) {
        let lift = work.take("f", "pull in the chain of each bar", given(bars, &bars::LIFT))?;
        let lever = work.take("e", "from the ball to that chain", given(bars, &bars::LEVER))?;
        let count = f64::from(bars.need_count(&bars::COUNT)?.value);
        let turned = lift.times(&lever).scaled(count).shown_in("lb·ft");
        let formula = if count > 1.0 { "f · e of every bar" } else { "f · e" };
        return work.step(
            "M",
            "moment of the spring bars",
            formula,
            Ok(turned),
            Origin::derived("moments about the ball"),
        );
    }
    let s = work.assume("s", case, &assume::TOW, &assume::tow::RESTORES)?;
    let needed = Figure::by(Dimension::MOMENT, [&s, t, o, l], |[s, t, o, l]| restoring(s, t, o, l));
    work.step(
        "M",
        "moment of spring bars that give so much back",
        "s · T · o / (1 + o / L)",
        Ok(needed.shown_in("lb·ft")),
        BOTH,
    )
}

type Spread = (&'static str, &'static str, &'static str, &'static str, fn(Added) -> f64);

const SPREAD: [Spread; 4] = [
    (
        "front_axle_change",
        "what the front axle gains or loses with spring bars",
        "ΔF",
        "(M − T' · o) / b, T' = T − M / L",
        |added| added.front,
    ),
    (
        "rear_axle_change",
        "what the rear axle gains or loses with spring bars",
        "ΔR",
        "T' − ΔF, T' = T − M / L",
        |added| added.rear,
    ),
    ("trailer_axle_gain", "what spring bars add to the trailer's axles", "ΔA", "M / L", |added| {
        added.trailer
    }),
    ("ball_load_distributed", "what is left on the ball with spring bars", "T'", "T − M / L", |added| {
        added.ball
    }),
];

/// Notes one of the loads that spring bars change.
fn changed(
    work: &mut Work,
    case: &Case<'_>,
    loaded: &Loaded,
    (_, says, symbol, formula, of): Spread,
) -> Known<Figure> {
    let build = case.build;
    let t = tongue(work, loaded)?;
    let (overhang, wheelbase) = lever(work, build)?;
    let axle = Coordinate::of(build.trailer.need_table(&trailer::AXLE)?, &axle::BALL)?;
    let length = work.take("L", "from the ball to the trailer's axle", Ok(Figure::coordinate(&axle)))?;
    let m = moment(work, case, &t, &overhang, &length)?;
    let found = Figure::by(Dimension::MASS, [&t, &overhang, &wheelbase, &length, &m], |[t, o, b, l, m]| {
        of(added(t, o, b, l, m))
    });
    work.step(symbol, says, formula, Ok(found.shown_in("lb")), BOTH)
}

fn spread(case: &Case<'_>, loaded: &Loaded) -> Vec<Working> {
    const BARE: &str = "no spring bars are fitted";
    let of = loaded.of.as_str();
    let fitted = || distributes(case.build);
    let bars = |work: &mut Work, which: Spread| -> Known<Outcome> {
        if fitted()? {
            Ok(Outcome::Figure(changed(work, case, loaded, which)?))
        } else {
            Ok(Outcome::None(BARE.to_owned()))
        }
    };
    let [front, rear, ..] = SPREAD;
    let mut all = vec![figure(of, "bar_moment", "moment of the spring bars", |work| {
        if !fitted()? {
            return Ok(Outcome::None(BARE.to_owned()));
        }
        let t = tongue(work, loaded)?;
        let (o, _) = lever(work, case.build)?;
        let length = Coordinate::of(case.build.trailer.need_table(&trailer::AXLE)?, &axle::BALL)?;
        let l = work.take("L", "from the ball to the trailer's axle", Ok(Figure::coordinate(&length)))?;
        Ok(Outcome::Figure(moment(work, case, &t, &o, &l)?))
    })];
    all.extend(SPREAD.into_iter().map(|which| figure(of, which.0, which.1, |work| bars(work, which))));
    for (key, says, which, without, symbol) in [
        ("front_axle_distributed", "load of the front axle with spring bars", front, &tow::FRONT_AXLE, "F"),
        ("rear_axle_distributed", "load of the rear axle with spring bars", rear, &tow::REAR_AXLE, "R"),
    ] {
        all.push(figure(of, key, says, |work| {
            if !fitted()? {
                return Ok(Outcome::None(BARE.to_owned()));
            }
            let change = changed(work, case, loaded, which)?;
            let load =
                work.take("A₀", "axle without the trailer", given(vehicle_of(case.build)?, without))?;
            Ok(Outcome::Figure(work.step(
                symbol,
                "axle with it",
                "A₀ + Δ",
                alike(load.plus(&change)),
                BOTH,
            )?))
        }));
    }
    all
}

pub(super) fn workings(case: &Case<'_>, cases: &[Loaded]) -> Vec<Working> {
    let hitch = case.build.tow.as_ref().and_then(|tow| tow.table(&tow::HITCH));
    let mut all = Vec::new();
    for loaded in cases {
        all.extend(plain(case, loaded));
        // Of a vehicle whose hitch is not described, what spring bars do is not asked.
        if hitch.is_some() {
            all.extend(spread(case, loaded));
        }
    }
    all
}
