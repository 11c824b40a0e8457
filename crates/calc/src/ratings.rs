//! What axles and tires together may carry.

use pintle_spec::schema::trailer::{self, axle, tire};
use pintle_spec::{Build, Known};

use crate::figure::Figure;
use crate::space::given;

/// A passenger-car tire on a trailer counts for its rating divided by this (49 CFR 571.110 S4.2.2.2).
pub const PASSENGER_TIRE_DIVISOR: f64 = 1.10;

/// The load one tire may carry on this trailer: its rating, divided by 1.10 when it is made for passenger cars.
pub fn tire_rating(build: &Build) -> Known<Figure> {
    let record = build.trailer.need_table(&trailer::TIRE)?;
    let rating = given(record, &tire::RATING)?;
    Ok(match record.need_word(&tire::MADE_FOR)?.value {
        "passenger cars" => rating.scaled(1.0 / PASSENGER_TIRE_DIVISOR),
        _ => rating,
    })
}

/// What all tires of one axle may carry.
pub fn tires_of_axle(build: &Build) -> Known<Figure> {
    let tires = build.trailer.need_table(&trailer::TIRE)?.need_count(&tire::COUNT)?.value;
    Ok(tire_rating(build)?.scaled(f64::from(tires) / axle_count(build)?))
}

/// The gross axle weight rating of one axle.
pub fn gawr(build: &Build) -> Known<Figure> {
    given(build.trailer.need_table(&trailer::AXLE)?, &axle::GAWR)
}

/// The sum of the gross axle weight ratings.
pub fn gawr_sum(build: &Build) -> Known<Figure> {
    Ok(gawr(build)?.scaled(axle_count(build)?))
}

/// How many tires one side of one axle stands on.
pub fn tires_a_side(build: &Build) -> Known<f64> {
    let tires = build.trailer.need_table(&trailer::TIRE)?.need_count(&tire::COUNT)?.value;
    Ok(f64::from(tires) / (2.0 * axle_count(build)?))
}

/// What all tires of one side may carry.
pub fn tires_of_side(build: &Build) -> Known<Figure> {
    Ok(tire_rating(build)?.scaled(tires_a_side(build)? * axle_count(build)?))
}

fn axle_count(build: &Build) -> Known<f64> {
    let count = build.trailer.need_table(&trailer::AXLE)?.need_count(&axle::COUNT)?;
    Ok(f64::from(count.value))
}

/// The mass of the empty trailer as it came.
pub fn bare_mass(build: &Build) -> Known<Figure> {
    given(&build.trailer, &trailer::MASS)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::space::trial::{FLAT, build, close};

    /// Two axles on four tires of 1,760 lb: two on either side.
    #[test]
    fn tires_of_one_side() {
        let more = "axle = { ball = \"120 in\", count = 2, track = \"70 in\" }\n\
                    tire = { rating = \"1760 lb\", count = 4, made_for = \"trailers\" }\n";
        close(&tires_of_side(&build(FLAT, more)).unwrap(), 3520.0, "lb");
        let missing = tires_of_side(&build(FLAT, "")).unwrap_err();
        assert!(missing.what.contains("tire"), "{}", missing.what);
    }
}
