//! Brakes, breakaway and tongue weight by place.

use pintle_spec::schema::trailer::{self, brakes as fields};
use pintle_spec::schema::{assume, record, tow};
use pintle_spec::{Known, Missing, Use};

use super::{Loaded, TOPIC, by_place, of_build, take_of};
use crate::arrange::{End, Extremum};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::place::{BrakeNeed, Place, Sort, Weighed, figures};
use crate::road::brakes::{
    axle_share, braked_axles, breakaway_charge, is_due, lacking, lowered_by, magnets, may_go_unbraked,
    needs_of, sort_of,
};
use crate::space::{alike, given, greatest};
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

const CONVERSION: &str = "whether a conversion is a camp trailer in law is an inference: ask the registry; figures of a place are \
     data with a date: verify them";

/// What a battery does not promise.
const REAL: &str = "before a battery's age and cold are allowed for; try it and write down how long it held";

fn difference() -> Origin {
    Origin::derived("difference")
}

/// The weight that a place compares with its threshold.
fn weight(work: &mut Work, case: &Case<'_>, loaded: &Loaded<'_>, need: &BrakeNeed) -> Known<Figure> {
    let over_all = || Origin::derived("the heaviest of all road arrangements");
    match need.weighed {
        Weighed::Gross => {
            let gross = loaded.at(Extremum::Gross, End::Most, Weights::gross);
            work.step("W", "greatest gross weight on the road", "", gross, over_all())
        }
        Weighed::Axles => {
            let axles = loaded.at(Extremum::Axles, End::Most, Weights::axles);
            work.step("W", "greatest axle load on the road", "", axles, over_all())
        }
        Weighed::Rating => {
            work.take("W", "gross vehicle weight rating", given(&case.build.trailer, &trailer::GVWR))
        }
    }
}

fn threshold(work: &mut Work, place: &Place, need: &BrakeNeed) -> Option<Figure> {
    let held = need.threshold?;
    let named = pintle_spec::Named {
        key: "brakes",
        owner: format!("place `{}`", need.ground.stated_by).into(),
        value: held,
        footing: pintle_spec::Footing::Exact,
    };
    let side = match need.from {
        crate::place::From::AtLeast => "from it on",
        crate::place::From::MoreThan => "above it",
    };
    let what = format!("threshold in {}; brakes are asked for {side} ({})", place.title, need.ground.note);
    Some(work.know("T", what, Figure::given(named), need.ground.origin.clone()))
}

fn by_stopping(place: &Place) -> Missing {
    Missing::new(
        format!("whether it stops in the distance that {} asks for", place.called()),
        None,
        "the place goes by stopping distance and not by weight: look the distance up and try it",
    )
}

/// The need with the greatest threshold that is reached; nothing where none is.
fn due<'p>(
    work: &mut Work,
    case: &Case<'_>,
    loaded: &Loaded<'_>,
    place: &'p Place,
) -> Known<Option<&'p BrakeNeed>> {
    let (sort, _) = sort_of(case.build);
    let mut reached = None;
    for need in needs_of(place, sort)? {
        let limit = threshold(work, place, need).ok_or_else(|| by_stopping(place))?;
        let weight = weight(work, case, loaded, need)?;
        if is_due(weight.quantity, limit.quantity, need.from)? {
            reached = Some(need);
        }
    }
    Ok(reached)
}

fn needs(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    let build = case.build;
    let lowest = |place: &Place| -> Known<BrakeNeed> {
        let needs = needs_of(place, sort_of(build).0)?;
        needs.first().map(|need| (*need).clone()).ok_or_else(|| by_stopping(place))
    };
    let mut all = vec![
        of_build("sort", "what it is registered as", |_| {
            let (sort, inferred) = sort_of(build);
            let how = match (inferred, sort) {
                (false, _) => "",
                (true, Sort::Camp) => ", inferred from its berths",
                (true, Sort::Other) => ", inferred as it has no berth",
            };
            Ok(format!("{}{how}", sort.word()))
        })
        .warned(CONVERSION),
    ];
    all.extend(by_place(case, "brake_threshold", "weight from which brakes are asked for", |work, place| {
        let need = lowest(place)?;
        Ok(threshold(work, place, &need).map_or_else(
            || Outcome::None("the place goes by stopping distance and not by weight".to_owned()),
            Into::into,
        ))
    }));
    all.extend(by_place(case, "brake_margin", "what is left until brakes are asked for", |work, place| {
        let need = lowest(place)?;
        let Some(limit) = threshold(work, place, &need) else {
            return Ok(Outcome::None("the place goes by stopping distance and not by weight".to_owned()));
        };
        let weight = weight(work, case, loaded, &need)?;
        work.step("m", "what is left", "T − W", alike(limit.minus(&weight)), difference()).map(Into::into)
    }));
    all.extend(by_place(case, "brakes_needed", "whether brakes are asked for", |work, place| {
        Ok(due(work, case, loaded, place)?.is_some())
    }));
    all.extend(by_place(
        case,
        "brakes_lacking",
        "what is asked for of brakes and is not there",
        |work, place| match due(work, case, loaded, place)? {
            Some(need) => lacking(build, place, need),
            None => Ok(Vec::new()),
        },
    ));
    let lowered = by_place(
        case,
        "threshold_lowered",
        "by how much conversion to a camp trailer lowers the threshold",
        |work, place| match lowered_by(place)? {
            None => Ok(Outcome::None("the place does not tell camp trailers from others".to_owned())),
            Some(by) => work
                .step("ΔT", "lowered by", "T of others − T of camp trailers", Ok(by), difference())
                .map(Into::into),
        },
    );
    all.extend(lowered.into_iter().map(|working| working.warned(CONVERSION)));
    all
}

/// The share of every road state, by what the tow vehicle's axles carry with the tongue on them.
fn share(work: &mut Work, case: &Case<'_>, state: usize) -> Known<Figure> {
    let vehicle = case.build.tow.as_ref().ok_or_else(|| {
        Missing::new("the tow vehicle", Some(case.build.number.span), "describe it in [tow], with its `mass`")
    })?;
    let weights = Weights::of_state(case.build, state);
    let by_balance = || Origin::derived("statics of a beam on two supports");
    let a = work.step("A", "load of the trailer's axles", "", weights.axles(), by_balance())?;
    let t = work.step("T", "weight on the tongue", "", weights.tongue(), by_balance())?;
    let m = work.take("M", "tow vehicle with people and cargo, not coupled", given(vehicle, &tow::MASS))?;
    let s =
        work.step("S", "load of the tow vehicle's axles, coupled", "M + T", alike(m.plus(&t)), by_balance())?;
    let origin = Origin::published("49 CFR 393.42(b)(3), 2015 edition");
    work.step("p", "axle load as a share of the tow vehicle's", "A / S", Ok(axle_share(&a, &s)), origin)
}

fn forty_per_cent(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    let build = case.build;
    let on_road = || build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road);
    let says = "axle load as a share of the tow vehicle's axle loads";
    let mut all: Vec<Working> = on_road()
        .map(|(at, state)| {
            Working::of(TOPIC, "axle_share", format!("state `{}`", state.name.value), says, |work| {
                share(work, case, at)
            })
        })
        .collect();
    let most_share = |work: &mut Work| -> Known<Figure> {
        let shares = on_road().map(|(at, _)| share(&mut Work::default(), case, at));
        let shares = shares.collect::<Known<Vec<Figure>>>()?;
        let most = greatest(shares).ok_or_else(|| {
            Missing::new(
                "a state for the road",
                Some(build.number.span),
                "add a `[[state]]` with `use = \"road\"`",
            )
        });
        work.step(
            "p",
            "greatest share of any road state",
            "A / S",
            most,
            Origin::published("49 CFR 393.42(b)(3), 2015 edition"),
        )
    };
    let none = |place: &Place| Outcome::None(format!("no such share is held for {}", place.called()));
    all.extend(by_place(
        case,
        "axle_share_margin",
        "what is left of the share up to which brakes may be left out",
        |work, place| {
            if place.figure(&figures::MOST_AXLE_SHARE).is_err() {
                return Ok(none(place));
            }
            let most = take_of(work, "P", place, &figures::MOST_AXLE_SHARE)?;
            let share = most_share(work)?;
            let left = alike(most.minus(&share)).map(|left| left.as_share());
            work.step("m", "what is left", "P − p", left, difference()).map(Into::into)
        },
    ));
    all.extend(by_place(
        case,
        "unbraked_by_share",
        "whether 393.42(b)(3) lets it go without brakes",
        |work, place| {
            if place.figure(&figures::MOST_AXLE_SHARE).is_err() {
                return Ok(none(place));
            }
            let most = take_of(work, "P", place, &figures::MOST_AXLE_SHARE)?;
            let gross = loaded.at(Extremum::Gross, End::Most, Weights::gross);
            let gross = work.step(
                "W",
                "greatest gross weight on the road",
                "",
                gross,
                Origin::derived("over all road arrangements"),
            )?;
            let share = most_share(work)?;
            may_go_unbraked(gross.quantity, share.quantity, most.quantity).map(Into::into)
        },
    ));
    all
}

/// How long a breakaway must hold: the longest that any of the places asks, else what is assumed.
fn hold(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let mut held = Vec::new();
    for place in case.places.of(case.build)? {
        if place.figure(&figures::BREAKAWAY_HOLD).is_ok() {
            held.push(take_of(work, "t", place, &figures::BREAKAWAY_HOLD)?);
        }
    }
    match greatest(held) {
        Some(longest) => Ok(longest),
        None => work.assume("t", case, &assume::ROAD, &assume::road::HOLD),
    }
}

fn breakaway(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let axles = || -> Known<(u32, u32)> {
        let group = build.trailer.need_table(&trailer::AXLE)?;
        Ok((braked_axles(build)?, group.need_count(&trailer::axle::COUNT)?.value))
    };
    let mut all = vec![
        of_build("braked_axles", "how many axles are braked", |_| {
            let (braked, of) = axles()?;
            Ok(format!("{braked} of {of}"))
        }),
        of_build("every_axle_braked", "whether every axle is braked", |_| {
            let (braked, of) = axles()?;
            Ok(braked >= of)
        }),
    ];
    let Some(own) = build.trailer.table(&trailer::BRAKES) else { return all };
    if own.word(&fields::KIND).is_some_and(|kind| kind.value == "none") {
        return all;
    }
    let charge = |work: &mut Work| -> Known<Option<Figure>> {
        let Some(n) = magnets(build)? else { return Ok(None) };
        let i = work.assume("I", case, &assume::ROAD, &assume::road::MAGNET_CURRENT)?;
        let t = hold(work, case)?;
        let q = Ok(breakaway_charge(n, &i, &t));
        let what = format!("charge drawn while it holds, with n = {n} magnets");
        work.step("Q", what, "n · I · t", q, Origin::derived("charge is current × time")).map(Some)
    };
    let mechanical = || Outcome::None("its brakes draw no current".to_owned());
    all.push(
        of_build("breakaway_charge", "charge that the breakaway draws while it holds", |work| {
            Ok(charge(work)?.map_or_else(mechanical, Into::into))
        })
        .warned(REAL),
    );
    all.push(
        of_build("breakaway_charge_margin", "what the breakaway's battery has beyond that", |work| {
            let Some(q) = charge(work)? else { return Ok(mechanical()) };
            let c = work.take("C", "the breakaway's battery", given(own, &fields::BATTERY))?;
            work.step("m", "what is left", "C − Q", alike(c.minus(&q)), difference()).map(Into::into)
        })
        .warned(REAL),
    );
    all.push(of_build(
        "breakaway_hold_margin",
        "how much longer than asked for the breakaway held when tried",
        |work| {
            let asked = hold(work, case)?;
            let written = build.record.as_ref().ok_or_else(|| {
                Missing::new(
                    "how long the breakaway held when it was tried",
                    Some(build.number.span),
                    "pull its pin, time it, and write it down: `breakaway_hold` in [record]",
                )
            })?;
            let held = work.take("h", "how long it held", given(written, &record::BREAKAWAY_HOLD))?;
            work.step("m", "what is left", "h − t", alike(held.minus(&asked)), difference())
        },
    ));
    all
}

fn tongue(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    let none = |place: &Place| Outcome::None(format!("no figure for it is held for {}", place.called()));
    let mut all = by_place(
        case,
        "tongue_share_margin",
        "what the least tongue share is beyond the place's least",
        |work, place| {
            if place.figure(&figures::LEAST_TONGUE_SHARE).is_err() {
                return Ok(none(place));
            }
            let floor = take_of(work, "f", place, &figures::LEAST_TONGUE_SHARE)?;
            let share = loaded.at(Extremum::TongueShare, End::Least, Weights::tongue_share);
            let s = work.step(
                "s",
                "least tongue share on the road",
                "T / W",
                share,
                Origin::derived("over all road arrangements"),
            )?;
            let left = alike(s.minus(&floor)).map(|left| left.as_share());
            work.step("m", "what is left", "s − f", left, difference()).map(Into::into)
        },
    );
    all.extend(by_place(
        case,
        "tongue_weight_margin",
        "what the least tongue weight is beyond the place's least",
        |work, place| {
            if place.figure(&figures::LEAST_TONGUE).is_err() {
                return Ok(none(place));
            }
            let floor = take_of(work, "F", place, &figures::LEAST_TONGUE)?;
            let least = loaded.at(Extremum::Tongue, End::Least, Weights::tongue);
            let t = work.step(
                "T",
                "least tongue weight on the road",
                "",
                least,
                Origin::derived("over all road arrangements"),
            )?;
            work.step("m", "what is left", "T − F", alike(t.minus(&floor)), difference()).map(Into::into)
        },
    ));
    all
}

pub(super) fn workings(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    [needs(case, loaded), forty_per_cent(case, loaded), breakaway(case), tongue(case, loaded)].concat()
}
