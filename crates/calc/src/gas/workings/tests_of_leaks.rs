//! The leak test on record, beside what its procedure asks for.

use pintle_quantity::Dimension;
use pintle_spec::schema::gas::leak_test as test;
use pintle_spec::schema::record;
use pintle_spec::{Known, Missing, Record};

use super::{GAS, known};
use crate::case::Case;
use crate::gas::leak::{LeakTest, leak_test};
use crate::origin::Origin;
use crate::space::given;
use crate::working::Working;

const BUILD: &str = "the build";

fn recorded<'b>(case: &Case<'b>) -> Known<&'b Record> {
    let missing = || {
        Missing::new("the leak test", None, "record it in [record.leak_test]: method, pressure, time, drop")
    };
    case.build.record.as_ref().and_then(|record| record.table(&record::LEAK_TEST)).ok_or_else(missing)
}

fn procedure(case: &Case<'_>) -> Known<&'static LeakTest> {
    let recorded = recorded(case)?;
    let method = recorded.need_word(&test::METHOD)?;
    leak_test(method.value).ok_or_else(|| recorded.missing(&test::METHOD))
}

fn origin(test: &LeakTest) -> Origin {
    if test.memory { Origin::memory(test.source) } else { Origin::published(test.source) }
}

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let fitted = case.build.of_kind("cylinder").next().is_some();
    if !fitted && recorded(case).is_err() {
        return Vec::new();
    }
    let asked = |key: &'static str,
                 says: &'static str,
                 pick: fn(&LeakTest) -> f64,
                 dimension: Dimension,
                 unit: &'static str| {
        Working::of(GAS, key, BUILD, says, |work| {
            let test = procedure(case)?;
            Ok(work.know("X", says, known(pick(test), dimension, unit), origin(test)))
        })
    };
    let measured = |key: &'static str, says: &'static str, field| {
        Working::of(GAS, key, BUILD, says, |work| work.take("x", says, given(recorded(case)?, field)))
    };
    vec![
        measured("leak_test_pressure", "pressure of the leak test", &test::PRESSURE),
        asked(
            "leak_test_least",
            "least pressure its procedure asks for",
            |test| test.least,
            Dimension::PRESSURE,
            "inH2O",
        ),
        measured("leak_test_settled", "how long it was left to settle", &test::SETTLED),
        asked(
            "leak_test_settle",
            "how long its procedure lets it settle",
            |test| test.settle,
            Dimension::TIME,
            "min",
        ),
        measured("leak_test_held", "how long it was watched", &test::HELD),
        asked("leak_test_time", "how long its procedure asks for", |test| test.hold, Dimension::TIME, "min"),
        measured("leak_test_fell", "how far the pressure fell", &test::DROP),
        asked(
            "leak_test_drop",
            "how far its procedure lets it fall",
            |test| test.drop,
            Dimension::PRESSURE,
            "inH2O",
        ),
    ]
}
