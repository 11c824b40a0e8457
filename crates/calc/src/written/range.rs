//! Values against the stock list: how far beyond what stock has of the kind, and slips of units.

use pintle_quantity::{Dimension, Quantity, Units};
use pintle_spec::schema::{item, trailer};
use pintle_spec::{Build, Part, Record, Value, schema_of_kind};

use crate::figure::Figure;
use crate::origin::Origin;
use crate::working::{Outcome, Working};

/// Fewer stock parts than this that state a value are no range; ours, no source.
const FEWEST: usize = 3;

/// A slip of units is taken for one when a value is off by its factor to within this; ours, no source.
const NEAR: f64 = 0.005;

/// Factors by which a value is off that was written in the wrong unit, by what it measures.
const SLIPS: &[(Dimension, f64, &str)] = &[
    (Dimension::MASS, 2.204_622_6, "pounds and kilograms"),
    (Dimension::MASS, 16.0, "pounds and ounces"),
    (Dimension::LENGTH, 2.54, "inches and centimetres"),
    (Dimension::LENGTH, 25.4, "inches and millimetres"),
    (Dimension::LENGTH, 12.0, "inches and feet"),
    (Dimension::VOLUME, 3.785_411_8, "gallons and litres"),
    (Dimension::POWER, 3.412_141_6, "watts and Btu/h"),
];

/// A value of the spec's own, beside what stock has.
struct Own<'b> {
    key: &'static str,
    value: Quantity,
    /// The least and the greatest of the stock parts of its kind, zeroes left out.
    range: Option<(Quantity, Quantity)>,
    /// The stock part's own, which it restates.
    restated: Option<Quantity>,
    named: &'b str,
}

/// The figures of every part of which the spec states sizes of its own that stock has too.
pub(super) fn workings(build: &Build) -> Vec<Working> {
    let trailer = ("the trailer".to_owned(), "trailer", &build.trailer);
    let items = build.items.iter().map(|item| (item.called(), item.kind, &item.record));
    std::iter::once(trailer)
        .chain(items)
        .flat_map(|(of, kind, record)| of_part(build, &of, kind, record))
        .collect()
}

fn of_part(build: &Build, of: &str, kind: &'static str, record: &Record) -> Vec<Working> {
    let part = part_of(build, kind, record);
    let own = own(build, kind, record, part);
    if own.iter().all(|own| own.range.is_none() && own.restated.is_none()) {
        return Vec::new();
    }
    let farthest = own.iter().map(Own::beyond).fold(1.0, f64::max);
    let beyond = own.iter().filter(|own| own.beyond() > 1.0).filter_map(Own::told_range).collect();
    let slips = own.iter().filter_map(Own::slip).collect();
    let says = "how many times beyond what stock has of its kind, the farthest of its sizes";
    vec![
        Working::of("spec", "off_range", of, says, |work| {
            let times = Ok(Figure::constant(Quantity::share(farthest)));
            let formula = "greatest of value / greatest and least / value, and one";
            work.step("", "times", formula, times, Origin::derived("the stock list"))
        }),
        Working::of(
            "spec",
            "off_range_of",
            of,
            "which of its sizes are beyond what stock has of its kind",
            |_| Ok(Outcome::Texts(beyond)),
        ),
        Working::of(
            "spec",
            "unit_slips",
            of,
            "values that are off the stock part's by a slip of units",
            |_| Ok(Outcome::Texts(slips)),
        ),
    ]
}

/// The stock part that a part is.
fn part_of<'b>(build: &'b Build, kind: &str, record: &Record) -> Option<&'b Part> {
    if kind == "trailer" {
        // The record of a trailer does not keep the name: it is the stock trailer that most of its values stand in.
        let stock = build.stock.parts().filter(|part| part.kind == kind);
        let shared = |part: &&Part| shared_values(record, &part.record);
        return stock.max_by_key(shared).filter(|part| shared(part) > 0);
    }
    build.stock.part(record.text(&item::PART)?.value)
}

fn shared_values(record: &Record, stock: &Record) -> usize {
    let same = |key: &&str| {
        stock.value(key).zip(record.value(key)).is_some_and(|(theirs, mine)| theirs.span == mine.span)
    };
    record.keys().filter(|key| same(key)).count()
}

/// The values of a part that the spec states itself.
fn own<'b>(build: &'b Build, kind: &'static str, record: &Record, part: Option<&'b Part>) -> Vec<Own<'b>> {
    let Some(schema) = schema_of_kind(kind) else { return Vec::new() };
    let prices = [item::PRICE.key, trailer::PRICE.key];
    let own = schema.all().filter(|field| !prices.contains(&field.key)).filter_map(|field| {
        let value = record.value(field.key)?;
        let Value::Quantity(quantity) = value.value else { return None };
        let stocked = part.and_then(|part| part.record.value(field.key));
        if stocked.is_some_and(|stocked| stocked.span == value.span) || quantity.si() <= 0.0 {
            return None;
        }
        let restated = stocked.and_then(|stocked| positive(&stocked.value));
        let all = build.stock.parts().filter(|part| part.kind == kind);
        let all = all.filter_map(|part| positive(&part.record.value(field.key)?.value));
        let by_size = |one: &Quantity, other: &Quantity| one.si().total_cmp(&other.si());
        let range = all.clone().min_by(by_size).zip(all.clone().max_by(by_size));
        let range = range.filter(|_| all.count() >= FEWEST);
        Some(Own {
            key: field.key,
            value: quantity,
            range,
            restated,
            named: part.map_or("", |part| &part.name.value),
        })
    });
    own.collect()
}

fn positive(value: &Value) -> Option<Quantity> {
    match value {
        Value::Quantity(quantity) if quantity.si() > 0.0 => Some(*quantity),
        _ => None,
    }
}

fn shown(quantity: Quantity) -> String {
    quantity.show(Units::AsWritten)
}

impl Own<'_> {
    /// How many times beyond the range it is; one inside it, and where there is none.
    fn beyond(&self) -> f64 {
        let Some((least, most)) = self.range else { return 1.0 };
        (self.value.si() / most.si()).max(least.si() / self.value.si()).max(1.0)
    }

    fn told_range(&self) -> Option<String> {
        let (least, most) = self.range?;
        Some(format!("{} {}: stock has {} to {}", self.key, shown(self.value), shown(least), shown(most)))
    }

    /// The slip that would explain how it differs from the stock part.
    fn slip(&self) -> Option<String> {
        let restated = self.restated?;
        let times = self.value.si() / restated.si();
        let is_off_by = |factor: f64| {
            [times / factor, times * factor].into_iter().any(|times| (times - 1.0).abs() <= NEAR)
        };
        let (_, _, what) = SLIPS
            .iter()
            .find(|(dimension, factor, _)| *dimension == self.value.dimension() && is_off_by(*factor))?;
        let (value, restated) = (shown(self.value), shown(restated));
        Some(format!("{} {value}, and {restated} of `{}` in stock: {what}?", self.key, self.named))
    }
}
