//! Small builds and their figures by name and owner.

use std::collections::BTreeMap;

use pintle_quantity::{Quantity, Unit};
use pintle_source::{Sources, Spanned};
use pintle_spec::schema::assume;
use pintle_spec::{Build, Known, Span};
use toml::Value;

use crate::assumed::{Assumption, Assumptions, fields};
use crate::case::Case;
use crate::electric::Course;
use crate::origin::Standing;
use crate::place::Places;
use crate::space::trial::{FLAT, build};
use crate::working::{Outcome, Working};

/// The rulebook's own assumptions.
pub(super) fn assumptions() -> Assumptions {
    let text = include_str!("../../../../../rules/assumptions/electric.toml");
    let file: BTreeMap<String, Value> = toml::from_str(text).unwrap();
    let span = Span::new(Sources::new().add("assumptions", ""), 0, 0);
    let rows = file["assumption"].as_array().unwrap().clone();
    Assumptions::from_list(rows.into_iter().map(|row| {
        let word = |key: &str| row[key].as_str().unwrap().to_owned();
        let (topic, field) = fields()
            .find(|(topic, field)| topic.key == assume::ELECTRIC.key && field.key == word("of"))
            .unwrap_or_else(|| panic!("nothing is assumed as `{}`", word("of")));
        let value = Spanned::new(Quantity::parse(&word("value")).unwrap(), span);
        let standing = Standing::from_word(&word("basis")).unwrap();
        (topic, field, Assumption::new(value, standing, String::new()))
    }))
}

/// The figures of a build.
pub(super) struct Found(Vec<Working>);

/// The figures of a spec that is built of a box and more tables.
pub(super) fn figures(more: &str) -> Found {
    of_build(&build(FLAT, more))
}

/// The courses of a stay of such a spec.
pub(super) fn courses(more: &str) -> Vec<(String, Known<Course>)> {
    let (build, assumptions, places) = (build(FLAT, more), assumptions(), Places::default());
    super::super::courses(&Case { build: &build, assumptions: &assumptions, places: &places })
}

fn of_build(build: &Build) -> Found {
    let assumptions = assumptions();
    let places = Places::default();
    Found(super::super::workings(&Case { build, assumptions: &assumptions, places: &places }))
}

impl Found {
    #[track_caller]
    pub(super) fn working(&self, key: &str, of: &str) -> &Working {
        let found = self.0.iter().find(|working| working.key == key && working.of == of);
        found.unwrap_or_else(|| {
            let all: Vec<String> = self.0.iter().map(|it| format!("{}/{}", it.key, it.of)).collect();
            panic!("no `{key}` of {of} among {all:#?}")
        })
    }

    pub(super) fn has(&self, key: &str, of: &str) -> bool {
        self.0.iter().any(|working| working.key == key && working.of == of)
    }

    /// A figure in a unit; a plain number with an empty one.
    #[track_caller]
    pub(super) fn value(&self, key: &str, of: &str, unit: &str) -> f64 {
        let figure = self.working(key, of).figure().unwrap_or_else(|missing| panic!("{key}: {missing:?}"));
        match unit {
            "" => figure.quantity.si(),
            unit => figure.quantity.value_in(Unit::find(unit).unwrap()).unwrap(),
        }
    }

    #[track_caller]
    pub(super) fn close(&self, key: &str, of: &str, expected: f64, unit: &str) {
        let found = self.value(key, of, unit);
        let near = (found - expected).abs() <= 1e-9 * expected.abs().max(1e-3);
        assert!(near, "{key} of {of}: {found} {unit}, not {expected}");
    }

    #[track_caller]
    pub(super) fn flag(&self, key: &str, of: &str) -> bool {
        match &self.working(key, of).outcome {
            Ok(Outcome::Flag(flag)) => *flag,
            other => panic!("{key} of {of}: {other:?}"),
        }
    }

    #[track_caller]
    pub(super) fn texts(&self, key: &str, of: &str) -> Vec<String> {
        match &self.working(key, of).outcome {
            Ok(Outcome::Texts(texts)) => texts.clone(),
            Ok(Outcome::Text(text)) => vec![text.clone()],
            other => panic!("{key} of {of}: {other:?}"),
        }
    }

    /// What is missing for a figure.
    #[track_caller]
    pub(super) fn missing(&self, key: &str, of: &str) -> String {
        match &self.working(key, of).outcome {
            Err(missing) => missing.what.clone(),
            Ok(other) => panic!("{key} of {of}: {other:?}"),
        }
    }

    /// Why there is no figure.
    #[track_caller]
    pub(super) fn none(&self, key: &str, of: &str) -> String {
        match &self.working(key, of).outcome {
            Ok(Outcome::None(why)) => why.clone(),
            other => panic!("{key} of {of}: {other:?}"),
        }
    }
}

pub(super) fn battery(tag: &str, chemistry: &str, more: &str) -> String {
    format!(
        "
[[item]]
tag = \"{tag}\"
kind = \"battery\"
capacity = \"100 Ah\"
voltage = \"12 V\"
chemistry = \"{chemistry}\"
at = {{ front = \"1 in\", left = \"1 in\" }}
{more}
"
    )
}

pub(super) const LITHIUM: &str = "lithium iron phosphate";

pub(super) const RATED: &str = "continuous = \"90 A\"\ncharge_most = \"40 A\"\nresistance = \"6 mΩ\"";

/// A run of 20 ft, one way, of 10 AWG at 105 °C from the bank.
pub(super) fn circuit(more: &str) -> String {
    format!(
        "
[[electric.circuit]]
name = \"pump\"
from = \"bank\"
current = \"10 A\"
length = \"20 ft\"
gauge = \"10 AWG\"
insulation = \"105 °C\"
{more}
"
    )
}

pub(super) fn one(more: &str) -> Found {
    figures(&(battery("b", LITHIUM, RATED) + more))
}

pub(super) const PUMP: &str = "circuit `pump`";

pub(super) const BANK: &str = "the bank";

pub(super) const CHARGER: &str = r#"
[[item]]
tag = "m"
kind = "charger"
sort = "mains"
current = "30 A"
voltage = "14 V"
efficiency = "84 %"
charges = ["flooded lead", "gel"]
clearance = "3 in"
clearance_needed = "4 in"
at = { front = "80 in", left = "30 in" }
"#;
