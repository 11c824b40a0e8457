//! The batteries that work as one: voltage, charge, energy, and the currents that they allow.

use pintle_quantity::Dimension;
use pintle_spec::field::Field;
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric::{BANK, bank as fields};
use pintle_spec::schema::kinds::battery;
use pintle_spec::{Item, Known, Missing};

use super::system::{System, TOPIC, one_or};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given, greatest, least};
use crate::working::{Outcome, Work, Working};

/// Several batteries as one.
#[derive(Debug, Clone)]
pub(crate) struct Bank<'a> {
    pub(crate) batteries: Vec<&'a Item>,
    /// How many stand in series in each string.
    pub(crate) series: u32,
    /// How many strings stand side by side.
    pub(crate) strings: u32,
}

const STRINGS: Origin =
    Origin::derived("batteries in series share one current, strings side by side one voltage");
const OHM: Origin = Origin::derived("Ohm's law");

/// The bank of a build; none where it has no battery.
///
/// # Errors
/// How several batteries are connected, where the spec does not say; or that they do not make whole strings.
pub(crate) fn bank(system: System<'_>) -> Known<Option<Bank<'_>>> {
    let all: Vec<&Item> = system.build.of_kind("battery").map(|(_, item)| item).collect();
    let Some(written) = system.written.and_then(|electric| electric.table(&BANK)) else {
        return match all.as_slice() {
            [] => Ok(None),
            [_] => Ok(Some(Bank { batteries: all, series: 1, strings: 1 })),
            [first, ..] => Err(Missing::new(
                format!("how {} batteries are connected", all.len()),
                Some(first.tag.span),
                "name those that work as one, in [electric.bank], and how many of them are in series",
            )),
        };
    };
    let batteries = system.parts(written.texts(&fields::BATTERIES));
    let series = one_or(written, &fields::SERIES);
    let count = u32::try_from(batteries.len()).unwrap_or(u32::MAX);
    if count == 0 || count % series != 0 {
        let span = written.count(&fields::SERIES).map_or(written.span, |count| count.span);
        return Err(Missing::new(
            format!("whole strings of {series} in series out of {count} batteries"),
            Some(span),
            "name as many batteries as make whole strings",
        ));
    }
    Ok(Some(Bank { batteries, series, strings: count / series }))
}

/// The bank, or that there is none.
pub(crate) fn need(system: System<'_>) -> Known<Bank<'_>> {
    bank(system)?.ok_or_else(|| Missing::new("a battery", None, "add a part of the kind `battery`"))
}

/// Energy that may be taken, in J: what is stored × the share that the chemistry allows.
#[must_use]
pub fn usable(energy: &Figure, share: &Figure) -> Figure {
    energy.times(share)
}

/// How fast a charge is taken or given, in 1/s: I/C. At C/20, 5 A for 100 Ah, it is 0.05 an hour.
#[must_use]
pub fn rate(current: &Figure, charge: &Figure) -> Figure {
    current.over(charge)
}

/// How long a charger takes to give back energy `e`, in s: E/(η·V·I), with the share η of what goes in that can be taken out
/// again. A lead battery takes less and less current in its last fifth, and longer.
#[must_use]
pub fn charge_time(e: &Figure, eta: &Figure, v: &Figure, i: &Figure) -> Figure {
    e.over(&eta.times(v).times(i))
}

/// What the bank is made of; what is missing where its batteries differ.
pub(crate) fn chemistry(bank: &Bank<'_>) -> Known<&'static str> {
    let mut found = None;
    for battery in &bank.batteries {
        let own = battery.record.need_word(&battery::CHEMISTRY)?;
        if found.is_some_and(|held| held != own.value) {
            return Err(Missing::new(
                "one chemistry of the bank",
                Some(own.span),
                "batteries of different chemistries cannot work as one bank",
            ));
        }
        found = Some(own.value);
    }
    found.ok_or_else(|| Missing::new("a battery", None, "add a part of the kind `battery`"))
}

fn each(bank: &Bank<'_>, field: &'static Field) -> Known<Vec<Figure>> {
    bank.batteries.iter().map(|battery| given(&battery.record, field)).collect()
}

fn nothing() -> Missing {
    Missing::new("a battery", None, "add a part of the kind `battery`")
}

/// Nominal voltage of the bank.
pub(crate) fn voltage(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let all = each(bank, &battery::VOLTAGE)?;
    let first = all.first().ok_or_else(nothing)?;
    for (battery, other) in bank.batteries.iter().zip(&all) {
        if other.quantity.compare(first.quantity).ok() != Some(std::cmp::Ordering::Equal) {
            return Err(Missing::new(
                "one voltage of the bank",
                battery.record.quantity(&battery::VOLTAGE).map(|voltage| voltage.span),
                "batteries of different voltages cannot work as one bank",
            ));
        }
    }
    let own = work.take("V₁", "nominal voltage of each battery", Ok(first.clone()))?;
    let voltage = Ok(own.scaled(f64::from(bank.series)));
    work.step("V", "nominal voltage of the bank", "s · V₁, s in series", voltage, STRINGS)
}

/// Charge of the bank: that of its smallest battery counts for all.
pub(crate) fn capacity(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let own = least(each(bank, &battery::CAPACITY)?).ok_or_else(nothing);
    let own = work.take("C₁", "charge of its smallest battery", own)?;
    let charge = Ok(own.scaled(f64::from(bank.strings)));
    work.step("C", "charge of the bank", "p · C₁, p strings side by side", charge, STRINGS)
}

/// Energy stored in the full bank.
pub(crate) fn energy(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let (voltage, charge) = (voltage(bank, work)?, capacity(bank, work)?);
    let energy = Ok(charge.times(&voltage).shown_in("Wh"));
    work.step("E", "energy of the full bank", "C · V", energy, Origin::derived("definition of the volt"))
}

/// The share of its energy that the bank may give.
pub(crate) fn usable_share(system: System<'_>, bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let field = match chemistry(bank)? {
        "lithium iron phosphate" => &electric::USABLE_LITHIUM,
        "flooded lead" => &electric::USABLE_FLOODED,
        "gel" => &electric::USABLE_GEL,
        _ => &electric::USABLE_MAT,
    };
    work.assume("u", &system.case, &assume::ELECTRIC, field)
}

/// The share of what goes in that can be taken out again.
pub(crate) fn charged_share(system: System<'_>, bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let lithium = chemistry(bank)? == "lithium iron phosphate";
    let field = if lithium { &electric::CHARGED_LITHIUM } else { &electric::CHARGED_LEAD };
    work.assume("η_c", &system.case, &assume::ELECTRIC, field)
}

/// Energy that may be taken from the full bank.
pub(crate) fn usable_energy(system: System<'_>, bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let (energy, share) = (energy(bank, work)?, usable_share(system, bank, work)?);
    let usable = Ok(usable(&energy, &share).shown_in("Wh"));
    work.step("E_u", "energy that may be taken", "E · u", usable, Origin::practice("depth by chemistry"))
}

/// Current that the bank allows without end: that of its weakest battery counts for all.
pub(crate) fn continuous(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let own = least(each(bank, &battery::CONTINUOUS)?).ok_or_else(nothing);
    let own = work.take("I₁", "current that its weakest battery allows without end", own)?;
    let current = Ok(own.scaled(f64::from(bank.strings)));
    work.step("I", "current of the bank", "p · I₁, p strings side by side", current, STRINGS)
}

/// Greatest charging current that the bank's makers allow.
pub(crate) fn charge_most(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let own = least(each(bank, &battery::CHARGE_MOST)?).ok_or_else(nothing);
    let own = work.take("I₁", "charging current that its weakest battery allows", own)?;
    let current = Ok(own.scaled(f64::from(bank.strings)));
    work.step("I", "charging current of the bank", "p · I₁, p strings side by side", current, STRINGS)
}

/// Current into a short circuit at the bank's terminals: the strongest battery counts for all.
pub(crate) fn short_circuit(bank: &Bank<'_>, work: &mut Work) -> Known<Figure> {
    let own = bank.batteries.iter().map(|battery| {
        let record = &battery.record;
        if record.value(battery::SHORT_CIRCUIT.key).is_some()
            || record.value(battery::RESISTANCE.key).is_none()
        {
            return given(record, &battery::SHORT_CIRCUIT);
        }
        Ok(given(record, &battery::VOLTAGE)?.over(&given(record, &battery::RESISTANCE)?).shown_in("A"))
    });
    let own = greatest(own.collect::<Known<Vec<_>>>()?).ok_or_else(nothing);
    let what = "short-circuit current of its strongest battery, or V/R of it";
    let own = work.step("I₁", what, "", own, OHM)?;
    let current = Ok(own.scaled(f64::from(bank.strings)));
    work.step("I_k", "short-circuit current of the bank", "p · I₁, p strings side by side", current, STRINGS)
}

/// Whether all batteries are of one voltage, one charge and one chemistry.
fn are_alike(bank: &Bank<'_>) -> Known<bool> {
    let same = |field| -> Known<bool> {
        let all = each(bank, field)?;
        let Some(first) = all.first() else { return Ok(true) };
        let mut equal = true;
        for other in &all {
            equal &= alike(other.quantity.compare(first.quantity))? == std::cmp::Ordering::Equal;
        }
        Ok(equal)
    };
    let kinds: Vec<_> = bank
        .batteries
        .iter()
        .map(|battery| battery.record.need_word(&battery::CHEMISTRY))
        .collect::<Known<_>>()?;
    let one_kind = kinds.windows(2).all(|pair| matches!(pair, [a, b] if a.value == b.value));
    Ok(same(&battery::VOLTAGE)? && same(&battery::CAPACITY)? && one_kind)
}

const SHORT: &str = "a short circuit at a battery can weld tools and start a fire within seconds; cover the terminals, take \
    rings off, and fuse at the terminal";

/// How a figure of the bank is worked out.
type Sum = fn(System<'_>, &Bank<'_>, &mut Work) -> Known<Outcome>;

/// The figures of the bank.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let bank = match bank(system) {
        Ok(None) => return Vec::new(),
        Ok(Some(bank)) => Ok(bank),
        Err(missing) => Err(missing),
    };
    let figures: &[(&'static str, &'static str, Sum, &'static str)] = &[
        (
            "bank_alike",
            "batteries of one voltage, charge and chemistry",
            |_, b, _| Ok(are_alike(b)?.into()),
            "",
        ),
        ("bank_chemistry", "what it is made of", |_, b, _| Ok(chemistry(b)?.to_owned().into()), ""),
        ("bank_voltage", "nominal voltage", |_, b, w| Ok(voltage(b, w)?.into()), ""),
        ("bank_capacity", "charge", |_, b, w| Ok(capacity(b, w)?.into()), ""),
        ("bank_energy", "energy when full", |_, b, w| Ok(energy(b, w)?.into()), ""),
        ("usable_energy", "energy that may be taken", |s, b, w| Ok(usable_energy(s, b, w)?.into()), ""),
        ("bank_continuous", "current without end", |_, b, w| Ok(continuous(b, w)?.into()), ""),
        ("bank_charge_most", "greatest charging current", |_, b, w| Ok(charge_most(b, w)?.into()), ""),
        (
            "bank_short_circuit",
            "current into a short circuit",
            |_, b, w| Ok(short_circuit(b, w)?.into()),
            SHORT,
        ),
    ];
    let of = |(key, says, sum, caution): &(&'static str, &'static str, Sum, &'static str)| {
        let found = |work: &mut Work| sum(system, bank.as_ref().map_err(Clone::clone)?, work);
        Working::of(TOPIC, key, "the bank", says, found).warned(caution)
    };
    figures.iter().map(of).collect()
}

/// Nothing of a dimension.
pub(crate) fn none_of(dimension: Dimension) -> Figure {
    Figure::constant(pintle_quantity::Quantity::from_si(0.0, dimension))
}
