//! How long the water lasts, and whether what is used finds room.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume::water as assumed;
use pintle_spec::schema::build::{people, water};
use pintle_spec::schema::kinds::tank;
use pintle_spec::schema::{assume, build as build_fields};
use pintle_spec::{Build, Known, Missing, Table};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given, sum};
use crate::working::Work;

/// What the tanks of a build hold together, in m³, by what they hold.
#[derive(Debug, Clone)]
pub struct Budget {
    /// Fresh water.
    pub fresh: Figure,
    /// Room for grey water.
    pub grey: Figure,
}

impl Budget {
    /// What the tanks of a build hold.
    ///
    /// # Errors
    /// What a tank holds, where that is not given.
    pub fn of(build: &Build) -> Known<Self> {
        let held = |which: &str| -> Known<Figure> {
            let mut capacities = Vec::new();
            for (_, body) in build.of_table(Table::Tank) {
                if body.record.need_word(&tank::HOLDS)?.value == which {
                    capacities.push(given(&body.record, &tank::CAPACITY)?);
                }
            }
            sum(Dimension::VOLUME, capacities)
        };
        Ok(Self { fresh: held("fresh")?, grey: held("grey")? })
    }
}

/// What all use in a day, in m³ a day: as stated, or people × (drinking and cooking + washing up + washing) + showers.
///
/// # Errors
/// The number of people, or an assumption, that is not given.
pub fn use_per_day(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let record = case.build.water.as_ref();
    if let Some(record) = record.filter(|record| record.quantity(&water::USE).is_some()) {
        return work.take("u", "water used in a day", given(record, &water::USE));
    }
    let missing = || {
        Missing::new(
            "how many use the water",
            case.build.people.as_ref().map(|people| people.span),
            "add `count` to [people], or `use` to [water]",
        )
    };
    let people = case.build.people.as_ref().and_then(|people| people.count(&people::COUNT));
    let people = people.ok_or_else(missing)?.value;
    let mut each = |symbol, field| work.assume(symbol, case, &assume::WATER, field);
    let drinking = each("d", &assumed::DRINKING)?;
    let dishes = each("w", &assumed::DISHES)?;
    let washing = each("h", &assumed::WASHING)?;
    let shower = each("b", &assumed::SHOWER)?;
    let showers = record.and_then(|record| record.count(&water::SHOWERS)).map_or(0, |showers| showers.value);
    let person = alike(drinking.plus(&dishes)).and_then(|sum| alike(sum.plus(&washing)))?;
    let origin = || Origin::derived("sum of the uses");
    let what = format!("what {people} people use, showers aside");
    let people = Ok(person.scaled(f64::from(people)));
    let people = work.step("p", what, "people · (d + w + h)", people, origin())?;
    let what = format!("what {showers} showers use");
    let showers = work.step("s", what, "showers · b", Ok(shower.scaled(f64::from(showers))), origin())?;
    work.step("u", "water used in a day", "p + s", alike(people.plus(&showers)), origin())
}

/// `[water]`.
///
/// # Errors
/// The table, where it is not given.
pub(super) fn table(build: &Build) -> Known<&pintle_spec::Record> {
    let missing = || {
        let key = build_fields::WATER.key;
        Missing::new("how water is used", None, format!("add [{key}]"))
    };
    build.water.as_ref().ok_or_else(missing)
}
