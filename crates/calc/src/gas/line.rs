//! The lines of a build: what each carries, the way from the regulator to an appliance, and what is lost on it.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::gas::{self, line, regulator};
use pintle_spec::schema::kinds::appliance;
use pintle_spec::{Build, Item, Known, Missing, Record};

use super::burning::{input, propane_appliances};
use super::pipe::{CR_PROPANE, drop_nfpa, drop_spitzglass, size};
use crate::figure::Figure;
use crate::space::{alike, constant, given, greatest, sum};

/// The lines of a build, in the order of the spec.
pub fn lines(build: &Build) -> &[Record] {
    build.gas.as_ref().map_or(&[], |gas| gas.tables(&gas::LINES))
}

fn named<'b>(build: &'b Build, name: &str) -> Option<&'b Record> {
    lines(build).iter().find(|record| record.text(&line::NAME).is_some_and(|held| held.value == name))
}

fn name(record: &Record) -> &str {
    record.text(&line::NAME).map_or("", |name| name.value)
}

/// How messages call a line.
pub(crate) fn called(record: &Record) -> String {
    format!("line `{}`", name(record))
}

/// The way to an appliance: the line that it hangs on first, then each line before it.
///
/// # Errors
/// A line that ends at it.
pub fn way<'b>(build: &'b Build, appliance: &Item) -> Known<Vec<&'b Record>> {
    let ends_here =
        |record: &&Record| record.texts(&line::TO).iter().any(|tag| tag.value == appliance.tag.value);
    let last = lines(build).iter().find(ends_here).ok_or_else(|| {
        Missing::new(
            format!("a gas line to {}", appliance.called()),
            Some(appliance.tag.span),
            format!("add a [[gas.line]] with `to = [\"{}\"]`", appliance.tag.value),
        )
    })?;
    let mut way = vec![last];
    let mut at = last;
    while let Some(from) = at.text(&line::FROM) {
        // Loading has seen to it that lines do not go round in a circle.
        match named(build, from.value) {
            Some(before) if way.len() <= lines(build).len() => {
                way.push(before);
                at = before;
            }
            _ => break,
        }
    }
    Ok(way)
}

/// Whether a line lies before the regulator: it, or the first of those that it goes on from, begins at the cylinder.
fn before_regulator(build: &Build, record: &Record) -> bool {
    let mut at = record;
    for _ in 0..=lines(build).len() {
        match at.text(&line::FROM) {
            Some(from) if from.value == "cylinder" => return true,
            Some(from) => match named(build, from.value) {
                Some(before) => at = before,
                None => return false,
            },
            None => return false,
        }
    }
    false
}

/// Heat input of all propane appliances on a line and beyond it, in W; of one before the regulator that ends at none, of all there are.
///
/// # Errors
/// The `input` of one.
pub fn load(build: &Build, record: &Record) -> Known<Figure> {
    let mut inputs = Vec::new();
    for (_, burner) in propane_appliances(build)? {
        let on_it = |way: &Vec<&Record>| way.iter().any(|held| std::ptr::eq(*held, record));
        if way(build, burner).is_ok_and(|way| on_it(&way)) {
            inputs.push(given(&burner.record, &appliance::INPUT)?);
        }
    }
    if inputs.is_empty() && before_regulator(build, record) {
        return input(build);
    }
    sum(Dimension::POWER, inputs)
}

/// Length of a line with what its fittings count for, in m.
///
/// # Errors
/// `length`; `fittings` of what is no hose.
pub fn reckoned_length(record: &Record) -> Known<Figure> {
    let length = given(record, &line::LENGTH)?;
    let hose = record.need_word(&line::KIND)?.value == "hose";
    if hose && record.quantity(&line::FITTINGS).is_none() {
        return Ok(length);
    }
    alike(length.plus(&given(record, &line::FITTINGS)?))
}

/// Inside diameter of a line, in m: that of its trade size, or its bore.
///
/// # Errors
/// `size` or `bore`.
pub fn bore(record: &Record) -> Known<Figure> {
    match record.word(&line::SIZE).and_then(|word| size(word.value)) {
        Some(size) => Ok(Figure::constant(Quantity::inches(size.inside))),
        None => given(record, &line::BORE)
            .map_err(|missing| Missing { what: format!("`size` or `bore` of {}", record.what), ..missing }),
    }
}

/// Pressure to which the regulator is set, above the atmosphere's, in Pa.
///
/// # Errors
/// The regulator, or its pressure.
pub fn supply(build: &Build) -> Known<Figure> {
    let gas = build.gas.as_ref().ok_or_else(|| {
        Missing::new(
            "the gas system",
            None,
            "describe it in [gas]: the regulator and the lines to the appliances",
        )
    })?;
    given(gas.need_table(&gas::REGULATOR)?, &regulator::PRESSURE)
}

/// Pressure in a line: its own, or the regulator's; of one before the regulator, its own only.
///
/// # Errors
/// The pressure.
pub fn pressure(build: &Build, record: &Record) -> Known<Figure> {
    if record.quantity(&line::PRESSURE).is_some() || before_regulator(build, record) {
        return given(record, &line::PRESSURE);
    }
    supply(build)
}

/// The greatest pressure brought to a vehicle, in inches of water: 1/2 psi, 24 CFR 3280.704(a)(2).
pub const LOW_PRESSURE: f64 = 14.0;

/// Whether a line lies on the high-pressure side: before the regulator, or with more than 14 in of water in it.
///
/// # Errors
/// The pressure.
pub fn is_high(build: &Build, record: &Record) -> Known<bool> {
    if before_regulator(build, record) {
        return Ok(true);
    }
    let limit = constant(LOW_PRESSURE, "inH2O")?;
    alike(pressure(build, record)?.quantity.at_most(limit.quantity)).map(|low| !low)
}

/// A section of the way to an appliance.
#[derive(Debug, Clone)]
pub struct Section {
    /// What the line is called.
    pub name: String,
    /// Vapour through it, in m³/s, when everything beyond it burns at full flame.
    pub flow: Figure,
    /// Its length with its fittings, in m.
    pub length: Figure,
    /// Its inside diameter, in m.
    pub bore: Figure,
}

impl Section {
    /// Pressure lost in it, in Pa, by NFPA 54 for propane.
    pub fn lost(&self) -> Figure {
        let inputs = [&self.flow, &self.length, &self.bore];
        Figure::by(Dimension::PRESSURE, inputs, |[q, l, d]| drop_nfpa(q, l, d, CR_PROPANE)).shown_in("inH2O")
    }

    /// Pressure lost in it, in Pa, by Spitzglass, with `s` the weight of the vapour against air.
    pub fn lost_by_spitzglass(&self, s: &Figure) -> Figure {
        let inputs = [&self.flow, &self.length, &self.bore, s];
        Figure::by(Dimension::PRESSURE, inputs, |[q, l, d, s]| drop_spitzglass(q, l, d, s)).shown_in("inH2O")
    }
}

/// The sections between the regulator and an appliance, the nearest to the appliance first. `vapour` is the heat in a cubic metre
/// of vapour, in J/m³.
///
/// # Errors
/// What is missing of a line; a line before the regulator's or with more than 14 in of water in it is left to who made it.
pub fn sections(build: &Build, appliance: &Item, vapour: &Figure) -> Known<Vec<Section>> {
    let mut sections = Vec::new();
    for record in way(build, appliance)? {
        if is_high(build, record)? {
            continue;
        }
        sections.push(Section {
            name: name(record).to_owned(),
            flow: load(build, record)?.over(vapour),
            length: reckoned_length(record)?,
            bore: bore(record)?,
        });
    }
    Ok(sections)
}

/// Length of the low-pressure way to an appliance with its fittings, in m.
///
/// # Errors
/// What is missing of a line.
pub fn run(build: &Build, appliance: &Item) -> Known<Figure> {
    let mut lengths = Vec::new();
    for record in way(build, appliance)? {
        if !is_high(build, record)? {
            lengths.push(reckoned_length(record)?);
        }
    }
    sum(Dimension::LENGTH, lengths)
}

/// The longest low-pressure way to any appliance that burns propane, in m; none without one.
///
/// # Errors
/// What is missing of a line, or a line to an appliance.
pub fn longest(build: &Build) -> Known<Option<Figure>> {
    let mut runs = Vec::new();
    for (_, burner) in propane_appliances(build)? {
        runs.push(run(build, burner)?);
    }
    Ok(greatest(runs))
}
