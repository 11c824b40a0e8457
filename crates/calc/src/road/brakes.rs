//! Brakes: from which weight a place asks for them, what the trailer has, and how long a breakaway's battery lasts.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::build::head;
use pintle_spec::schema::trailer::{self, axle, brakes};
use pintle_spec::{Build, Known, Missing, Table};

use crate::figure::Figure;
use crate::place::{BrakeNeed, From, Place, Sort};
use crate::space::alike;

/// The weight up to which the share of 49 CFR 393.42(b)(3) counts at all, in pounds.
pub const LIGHT: f64 = 3000.0;

/// What the trailer is registered as: as stated; else a camp trailer where it has a berth. That is an inference, which
/// the second value says: whether a conversion is one in law, the registry decides.
pub fn sort_of(build: &Build) -> (Sort, bool) {
    let stated = build.head.word(&head::REGISTERED).and_then(|word| Sort::from_word(word.value));
    let inferred = if build.of_table(Table::Berth).next().is_some() { Sort::Camp } else { Sort::Other };
    stated.map_or((inferred, true), |sort| (sort, false))
}

/// Whether a weight is on the side of a threshold on which brakes are asked for.
///
/// ```
/// use pintle_calc::place::From;
/// use pintle_calc::road::brakes::is_due;
/// use pintle_quantity::Quantity;
///
/// let threshold = Quantity::pounds(3000.0);
/// assert!(is_due(threshold, threshold, From::AtLeast)?);
/// assert!(!is_due(threshold, threshold, From::MoreThan)?);
/// # Ok::<(), pintle_spec::Missing>(())
/// ```
///
/// # Errors
/// Values that are not both masses.
pub fn is_due(weight: Quantity, threshold: Quantity, from: From) -> Known<bool> {
    match from {
        From::AtLeast => alike(weight.at_least(threshold)),
        From::MoreThan => Ok(!alike(weight.at_most(threshold))?),
    }
}

/// What a place asks of brakes for one sort of trailer, the lowest threshold first.
///
/// # Errors
/// The threshold, where the place holds none for this sort.
pub fn needs_of(place: &Place, sort: Sort) -> Known<Vec<&BrakeNeed>> {
    let for_sort = |need: &&BrakeNeed| need.sort.is_none_or(|held| held == sort);
    let mut needs: Vec<&BrakeNeed> = place.brakes.iter().filter(for_sort).collect();
    if needs.is_empty() {
        return Err(Missing::new(
            format!("from which weight brakes are asked for in {}", place.called()),
            None,
            "no figure is held for it: ask the place's own authority",
        ));
    }
    let size = |need: &&BrakeNeed| need.threshold.map_or(0.0, |threshold| threshold.value.si());
    needs.sort_by(|one, other| size(one).total_cmp(&size(other)));
    Ok(needs)
}

/// Axle load of the trailer as a share of the sum of the tow vehicle's axle loads, both weighed coupled: the tongue
/// weight is then on the tow vehicle's side (49 CFR 393.42(b)(3)). It is the axle load that is compared, not the rating.
///
/// ```
/// use pintle_calc::{Figure, road::brakes::axle_share};
/// use pintle_quantity::Quantity;
///
/// let of = |pounds| Figure::constant(Quantity::pounds(pounds));
/// let share = axle_share(&of(2350.0), &of(6000.0));
/// assert!((share.quantity.si() - 2350.0 / 6000.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn axle_share(trailer_axles: &Figure, tow_axles: &Figure) -> Figure {
    trailer_axles.over(tow_axles).as_share()
}

/// Whether 49 CFR 393.42(b)(3) lets a trailer go without brakes: a gross weight of 3,000 lb or less **and** an axle load
/// of at most 40 % of the sum of the tow vehicle's axle loads. Both must hold.
///
/// # Errors
/// A weight that is no mass, or a share that is no plain number.
pub fn may_go_unbraked(gross: Quantity, share: Quantity, most: Quantity) -> Known<bool> {
    Ok(alike(gross.at_most(Quantity::pounds(LIGHT)))? && alike(share.at_most(most))?)
}

/// How many axles of the trailer are braked.
///
/// # Errors
/// `brakes` of the trailer, or `axles` of it where there are brakes.
pub fn braked_axles(build: &Build) -> Known<u32> {
    let record = build.trailer.need_table(&trailer::BRAKES)?;
    match record.need_word(&brakes::KIND)?.value {
        "none" => Ok(0),
        _ => Ok(record.need_count(&brakes::AXLES)?.value),
    }
}

/// How many electromagnets its brakes have: as stated, else two for each braked axle. None where they are not electric.
///
/// # Errors
/// What [`braked_axles`] needs.
pub fn magnets(build: &Build) -> Known<Option<u32>> {
    let record = build.trailer.need_table(&trailer::BRAKES)?;
    if record.need_word(&brakes::KIND)?.value != "electric" {
        return Ok(None);
    }
    match record.count(&brakes::MAGNETS) {
        Some(count) => Ok(Some(count.value)),
        None => Ok(Some(braked_axles(build)?.saturating_mul(2))),
    }
}

/// Charge that a breakaway draws while it holds: Q = n · I · t, with n magnets, the current I of each and the time t.
///
/// ```
/// use pintle_calc::{Figure, road::brakes::breakaway_charge};
/// use pintle_quantity::{Quantity, Unit};
///
/// let of = |text| Ok::<_, pintle_quantity::ParseError>(Figure::constant(Quantity::parse(text)?));
/// let charge = breakaway_charge(4, &of("3 A")?, &of("15 min")?);
/// assert!((charge.quantity.value_in(Unit::find("Ah").unwrap())? - 3.0).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn breakaway_charge(n: u32, i: &Figure, t: &Figure) -> Figure {
    i.times(t).scaled(f64::from(n)).shown_in("Ah")
}

/// What a place asks of brakes that the trailer does not have, where brakes are due there.
///
/// # Errors
/// What the trailer has; or which wheels and whether a breakaway are asked for, where the place's text does not say and
/// the trailer has less than all of it.
pub fn lacking(build: &Build, place: &Place, need: &BrakeNeed) -> Known<Vec<String>> {
    let record = build.trailer.need_table(&trailer::BRAKES)?;
    if record.need_word(&brakes::KIND)?.value == "none" {
        let mut lacking = vec!["brakes".to_owned()];
        lacking.extend((need.breakaway == Some(true)).then(|| "a breakaway switch".to_owned()));
        return Ok(lacking);
    }
    let mut lacking = Vec::new();
    let braked = braked_axles(build)?;
    let axles = build.trailer.need_table(&trailer::AXLE)?.need_count(&axle::COUNT)?.value;
    let unsaid = |what: &str| {
        Missing::new(
            format!("{what} in {}", place.called()),
            None,
            "the text at hand does not say: ask the place's own authority",
        )
    };
    match need.wheels {
        Some("all wheels") if braked < axles => lacking.push(format!("brakes on all {axles} axles")),
        Some(_) if braked == 0 => lacking.push("brakes on one axle".to_owned()),
        None if braked < axles => return Err(unsaid("which wheels are to be braked")),
        _ => {}
    }
    let has_switch = record.flag(&brakes::BREAKAWAY).map(|flag| flag.value);
    match (need.breakaway, has_switch) {
        (Some(false), _) | (_, Some(true)) => {}
        (Some(true), Some(false)) => lacking.push("a breakaway switch".to_owned()),
        (Some(true), None) => return Err(record.missing(&brakes::BREAKAWAY)),
        (None, _) => return Err(unsaid("whether a breakaway switch is asked for")),
    }
    Ok(lacking)
}

/// By how much a conversion to a camp trailer lowers the threshold in a place: the other trailers' less the camp
/// trailers'. None where the place does not tell the two apart, or goes by something else than weight.
///
/// # Errors
/// What [`needs_of`] needs.
pub fn lowered_by(place: &Place) -> Known<Option<Figure>> {
    let lowest = |sort| -> Known<Option<Figure>> {
        let needs = needs_of(place, sort)?;
        Ok(needs.first().and_then(|need| need.threshold).map(|held| Figure::constant(held.value)))
    };
    let (Some(other), Some(camp)) = (lowest(Sort::Other)?, lowest(Sort::Camp)?) else { return Ok(None) };
    let by = alike(other.minus(&camp))?;
    let nothing = Quantity::from_si(0.0, Dimension::MASS);
    Ok((!alike(by.quantity.equals(nothing))?).then_some(by))
}
