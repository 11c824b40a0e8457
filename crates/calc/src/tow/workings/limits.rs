//! The least of all ratings for the trailer's weight and for the weight on the ball, and whose it is.

use pintle_spec::field::Field;
use pintle_spec::schema::tow;
use pintle_spec::schema::tow::hitch::{self, pair};
use pintle_spec::schema::trailer::{self, coupler, jack};
use pintle_spec::{Build, Known, Record};

use super::{BUILD, figure, hitch_of, vehicle_of};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::{Work, Working};

type Rating = (&'static str, Known<Figure>);

fn of_trailer(build: &Build, table: &'static Field, field: &'static Field) -> Known<Figure> {
    given(build.trailer.need_table(table)?, field)
}

fn of_vehicle(build: &Build, field: &'static Field) -> Known<Figure> {
    given(vehicle_of(build)?, field)
}

/// The receiver's ratings: those with spring bars where such a hitch is fitted, else those without.
fn receiver(hitch: &Record) -> &'static Field {
    match hitch.word(&hitch::FITTED).map(|word| word.value) {
        Some("distributing") => &hitch::DISTRIBUTING,
        _ => &hitch::WEIGHT_CARRYING,
    }
}

/// Ratings of the hitch, part by part: those that are stated.
fn of_hitch(build: &Build, field: &'static Field) -> Vec<Rating> {
    let Some(hitch) = hitch_of(build) else { return Vec::new() };
    let stated = |table: &'static Field, name: &'static str| {
        let record = hitch.table(table)?;
        record.value(field.key).is_some().then(|| (name, given(record, field)))
    };
    [stated(receiver(hitch), "receiver"), stated(&hitch::BALL_MOUNT, "ball mount")]
        .into_iter()
        .flatten()
        .collect()
}

/// Every rating for the weight on the ball.
fn on_ball(build: &Build) -> Vec<Rating> {
    let mut all = vec![
        ("coupler", of_trailer(build, &trailer::COUPLER, &coupler::TONGUE_RATING)),
        ("jack", of_trailer(build, &trailer::JACK, &jack::RATING)),
        ("tow vehicle", of_vehicle(build, &tow::TONGUE_RATING)),
    ];
    all.extend(of_hitch(build, &pair::TONGUE));
    all
}

/// Every rating for the trailer's gross weight.
fn of_gross(build: &Build) -> Vec<Rating> {
    let mut all = vec![
        ("trailer", given(&build.trailer, &trailer::GVWR)),
        ("coupler", of_trailer(build, &trailer::COUPLER, &coupler::RATING)),
        ("tow vehicle", of_vehicle(build, &tow::RATING)),
    ];
    all.extend(of_hitch(build, &pair::GROSS));
    if let Some(hitch) = hitch_of(build).filter(|hitch| hitch.value(hitch::BALL_RATING.key).is_some()) {
        all.push(("ball", given(hitch, &hitch::BALL_RATING)));
    }
    all
}

/// The least of several ratings, and whose it is.
fn least(work: &mut Work, ratings: Vec<Rating>) -> Known<(&'static str, Figure)> {
    let mut least: Option<(&'static str, Figure)> = None;
    for (whose, rating) in ratings {
        let rating = work.take("R", format!("rating of the {whose}"), rating)?;
        least = Some(match least {
            None => (whose, rating),
            Some((held, before)) => {
                let name = if rating.quantity.si() < before.quantity.si() { whose } else { held };
                (name, alike(before.lesser(&rating))?)
            }
        });
    }
    let (whose, least) = least.ok_or_else(|| pintle_spec::Missing::new("any rating", None, "report this"))?;
    let origin = Origin::published(
        "a magazine's page on towing limits: the lowest of ball, coupling, hitch and vehicle counts (seen)",
    );
    let least =
        work.step("R", format!("least of them, that of the {whose}"), "least of all", Ok(least), origin)?;
    Ok((whose, least))
}

pub(super) fn workings(build: &Build) -> Vec<Working> {
    vec![
        figure(
            BUILD,
            "tongue_limit",
            "most weight on the ball that coupler, jack, hitch and vehicle allow",
            |work| Ok(least(work, on_ball(build))?.1),
        ),
        figure(BUILD, "tongue_limit_by", "whose rating limits the weight on the ball", |work| {
            Ok(least(work, on_ball(build))?.0.to_owned())
        }),
        figure(
            BUILD,
            "gross_limit",
            "most gross weight that trailer, coupler, ball, hitch and vehicle allow",
            |work| Ok(least(work, of_gross(build))?.1),
        ),
        figure(BUILD, "gross_limit_by", "whose rating limits the gross weight", |work| {
            Ok(least(work, of_gross(build))?.0.to_owned())
        }),
    ]
}
