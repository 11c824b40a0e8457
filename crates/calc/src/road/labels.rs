//! What the label says: unloaded weight, cargo, water, and what an alteration has to be labelled for (49 CFR 571.110 and
//! 571.120; read in the 2015 edition).

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_spec::schema::build::head;
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Build, Known, Table};

use crate::figure::Figure;
use crate::space::{alike, constant, given, sum};

/// GVWR up to which 49 CFR 571.110 applies, in pounds; above it, 571.120 (S2 of the one, S3 of the other).
pub const LIGHT: f64 = 10_000.0;
/// Weight that may be added without a word, in pounds (571.110 S10.1, 571.120 S10.5.1).
pub const ADDED: f64 = 100.0;
/// The same as a share of the GVWR, up to 10,000 lb of it (571.110 S10.1).
pub const ADDED_SHARE: f64 = 0.015;
/// What one seat counts in a rating, in pounds (49 CFR 567.4(g)(3)); a trailer has none.
pub const A_SEAT: f64 = 150.0;
/// A litre of water on the label, in kilograms (571.110 S9.3.5(d), 571.120 S10.4.5(d)).
pub const LITRE: f64 = 1.0;
/// A gallon of water on the label, in pounds (the same). A litre of 1 kg would make it 8.345; the text prints both, and
/// each is used where its unit is. Physics has 8.34, which weights are reckoned with.
pub const GALLON: f64 = 8.3;
/// Of the six facilities of 571.3 so many make a recreational vehicle trailer.
pub const ENOUGH_FACILITIES: usize = 4;

/// The standard that a trailer is under by its GVWR.
///
/// # Errors
/// A GVWR that is no mass.
pub fn standard(gvwr: Quantity) -> Known<&'static str> {
    Ok(if alike(gvwr.at_most(Quantity::pounds(LIGHT)))? { "49 CFR 571.110" } else { "49 CFR 571.120" })
}

/// A weight as a label prints it: the nearest kilogram, and that kilogram converted to the nearest pound (571.110
/// S9.3.2, 571.120 S10.4.2). Rounding hides how sure it is.
///
/// ```
/// use pintle_calc::{Figure, road::labels::printed};
/// use pintle_quantity::Quantity;
///
/// let (kilograms, pounds) = printed(&Figure::constant(Quantity::kilograms(453.6)));
/// assert!((kilograms.quantity.si() - 454.0).abs() < 1e-9);
/// assert!((pounds.quantity.si() / 0.453_592_37 - 1001.0).abs() < 1e-9); // not 1,000
/// ```
#[must_use]
pub fn printed(weight: &Figure) -> (Figure, Figure) {
    let kilograms = weight.quantity.si().round();
    let rounded = |si: f64| Figure::new(Quantity::from_si(si, Dimension::MASS), weight.trace.clone());
    let a_pound = Quantity::pounds(1.0).si();
    let pounds = (kilograms / a_pound).round() * a_pound;
    (rounded(kilograms).shown_in("kg"), rounded(pounds).shown_in("lb"))
}

/// Water that the fresh tanks hold when full.
fn fresh(build: &Build) -> Known<Figure> {
    let mut full = Vec::new();
    for (_, body) in build.of_table(Table::Tank) {
        if body.record.need_word(&tank::HOLDS)?.value == "fresh" {
            full.push(given(&body.record, &tank::CAPACITY)?);
        }
    }
    sum(Dimension::VOLUME, full)
}

/// Weight of full fresh-water tanks as a label counts it, at 1 kg a litre (571.110 S9.3.5(d)). It is cargo; propane is
/// not.
///
/// # Errors
/// The `capacity` or `holds` of a tank.
pub fn water_in_kilograms(build: &Build) -> Known<Figure> {
    Ok(fresh(build)?.times(&constant(LITRE, "kg/L")?).shown_in("kg"))
}

/// The same at 8.3 lb a gallon.
///
/// # Errors
/// The `capacity` or `holds` of a tank.
pub fn water_in_pounds(build: &Build) -> Known<Figure> {
    Ok(fresh(build)?.times(&constant(GALLON, "lb/gal")?).shown_in("lb"))
}

/// What may be added before the first retail sale without correcting the label: the lesser of 1.5 % of the GVWR and
/// 100 lb; above 10,000 lb of GVWR 100 lb. More than this, and not this itself, has to be labelled.
///
/// # Errors
/// A GVWR that is no mass.
pub fn added_threshold(gvwr: &Figure) -> Known<Figure> {
    let flat = Figure::constant(Quantity::pounds(ADDED));
    if alike(gvwr.quantity.at_most(Quantity::pounds(LIGHT)))? {
        alike(gvwr.scaled(ADDED_SHARE).lesser(&flat))
    } else {
        Ok(flat)
    }
}

/// What axles and tongue carry beyond the GVWR: ΣGAWR + T − GVWR, with the tongue weight once, and of a range of it the
/// least (571.110 S9.2, 571.120 S10.2). Negative where they fall short.
///
/// # Errors
/// Values that are not all masses.
pub fn axle_sum_margin(gawr_sum: &Figure, tongue: &Figure, gvwr: &Figure) -> Known<Figure> {
    alike(alike(gawr_sum.plus(tongue))?.minus(gvwr))
}

/// What the GVWR is beyond the least it may be: GVWR − (UVW + rated cargo + 150 lb × seats), 49 CFR 567.4(g)(3).
///
/// # Errors
/// Values that are not all masses.
pub fn gvwr_floor_margin(gvwr: &Figure, unloaded: &Figure, cargo: &Figure, seats: f64) -> Known<Figure> {
    let people = Figure::constant(Quantity::pounds(A_SEAT * seats));
    alike(gvwr.minus(&alike(alike(unloaded.plus(cargo))?.plus(&people))?))
}

/// Whether it is a recreational vehicle trailer: at least four of the six facilities of 49 CFR 571.3, and not designed
/// primarily to carry cargo. Below that the labels of S9 and S10 do not bind; the placard of S4.3.5 does.
///
/// # Errors
/// `facilities` or, where there are enough of them, `cargo_first` of the build.
pub fn is_recreational(build: &Build) -> Known<bool> {
    let held = build.head.words(&head::FACILITIES).ok_or_else(|| build.head.missing(&head::FACILITIES))?;
    let mut names: Vec<&str> = held.iter().map(|word| word.value).collect();
    names.sort_unstable();
    names.dedup();
    Ok(names.len() >= ENOUGH_FACILITIES && !build.head.need_flag(&head::CARGO_FIRST)?.value)
}

/// In whole pounds, for what is told in words.
pub(super) fn in_pounds(figure: &Figure) -> String {
    let pounds = Unit::find("lb").and_then(|unit| figure.quantity.value_in(unit).ok());
    pounds.map_or_else(String::new, |pounds| format!("{pounds:.0} lb"))
}
