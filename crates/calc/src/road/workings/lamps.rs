//! Lamps by place.

use pintle_quantity::Quantity;
use pintle_spec::schema::trailer;
use pintle_spec::{Known, Missing, Use};

use super::{by_place, of_build};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::place::Place;
use crate::road::{
    hidden_lamps, lamps_misplaced, lamps_too_few, lamps_wrong_colour, missing_lamps, needs_tape,
    overall_length, overall_width, required_lamps,
};
use crate::space::given;
use crate::working::{Work, Working};

/// Notes by what the lamps follow, where the place's table is the one that is known here.
fn sized(work: &mut Work, case: &Case<'_>, place: &Place) -> Known<(Quantity, Quantity)> {
    let ground = place.lamps.as_ref().ok_or_else(|| {
        Missing::new(
            format!("the lamps that are asked for in {}", place.called()),
            None,
            "no table of lamps is held for it: go by the place's own rules",
        )
    })?;
    let width = work.step(
        "b",
        "outside width with rigid fenders",
        "",
        overall_width(case.build),
        ground.origin.clone(),
    )?;
    let length = work.step(
        "l",
        "outside length with the tongue",
        "",
        overall_length(case.build),
        ground.origin.clone(),
    )?;
    Ok((width.quantity, length.quantity))
}

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = by_place(case, "lamps_required", "lamps and reflectors asked for", |work, place| {
        let (width, length) = sized(work, case, place)?;
        Ok(required_lamps(width, length)?.iter().map(crate::road::RequiredLamp::line).collect::<Vec<_>>())
    });
    all.extend(by_place(
        case,
        "lamps_missing",
        "lamps and reflectors asked for and not fitted",
        |work, place| {
            sized(work, case, place)?;
            Ok(missing_lamps(build)?.into_iter().map(str::to_owned).collect::<Vec<_>>())
        },
    ));
    all.extend(by_place(case, "lamps_too_few", "lamps fitted of which there are too few", |work, place| {
        sized(work, case, place)?;
        lamps_too_few(build)
    }));
    all.extend(by_place(case, "lamps_wrong_colour", "lamps fitted of another colour", |work, place| {
        sized(work, case, place)?;
        lamps_wrong_colour(build)
    }));
    all.extend(by_place(
        case,
        "lamps_misplaced",
        "lamps fitted too low, too high or too near each other",
        |work, place| {
            sized(work, case, place)?;
            lamps_misplaced(build)
        },
    ));
    all.extend(by_place(
        case,
        "lamps_hidden",
        "lamps with something in front of them on the road",
        |work, place| {
            sized(work, case, place)?;
            hidden_lamps(build, Use::Road)
        },
    ));
    all.extend(by_place(
        case,
        "lamps_hidden_parked",
        "lamps with something in front of them when parked, tents open",
        |work, place| {
            sized(work, case, place)?;
            hidden_lamps(build, Use::Camp)
        },
    ));
    all.extend(by_place(case, "tape_needed", "whether conspicuity tape is asked for", |work, place| {
        let (width, _) = sized(work, case, place)?;
        let gvwr = work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
        let over =
            Origin::published("49 CFR 393.11(b), 2015 edition: 80 in or wider and more than 10,000 lb");
        work.know("W", "weight above which it counts", Figure::constant(Quantity::pounds(10_000.0)), over);
        needs_tape(width, gvwr.quantity)
    }));
    all.push(of_build("plate_lamp", "whether a lamp lights the number plate", |_| {
        Ok(!missing_lamps(build)?.contains(&"plate"))
    }));
    all
}
