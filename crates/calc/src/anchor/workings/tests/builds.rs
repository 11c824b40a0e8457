//! Trial builds with one part, and their figures by key.

use pintle_quantity::{Quantity, Unit};
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::Build;
use pintle_spec::schema::assume;

use crate::anchor::workings;
use crate::assumed::{Assumption, Assumptions};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Standing;
use crate::space::trial::{FLAT, read, spec};
use crate::working::{Outcome, Working};

/// What is assumed in these tests, as the rulebook has it.
pub(super) fn assumptions() -> Assumptions {
    let source = Sources::new().add("assumed.toml", "");
    let fields = [
        (&assume::anchor::FRICTION, 0.3),
        (&assume::anchor::TIPPING_ASIDE, 0.6),
        (&assume::anchor::WORKING_SHARE, 1.0 / 3.0),
        (&assume::anchor::SHEAR_SHARE, 0.6),
        (&assume::anchor::CLAMP_SHARE, 0.75),
        (&assume::anchor::NUT_FACTOR, 0.2),
    ];
    let list = (0..).zip(fields).map(|(at, (field, share))| {
        let value = Spanned::new(Quantity::share(share), Span::new(source, 10 * at, 10 * at + 5));
        (&assume::ANCHOR, field, Assumption::new(value, Standing::Memory, "a test".to_owned()))
    });
    Assumptions::from_list(list)
}

/// A spec with one part of 48 × 20 × 36 in on the floor and its `anchors`.
pub(super) fn part(kind: &str, mass: &str, anchors: &str) -> String {
    spec(
        FLAT,
        &format!(
            "[[item]]\ntag = \"it\"\nkind = \"{kind}\"\nmass = \"{mass}\"\nlength = \"48 in\"\nwidth = \"20 in\"\nheight = \"36 in\"\n\
             at = {{ front = \"20 in\", left = \"0 in\" }}\n{anchors}\n"
        ),
    )
}

/// What was worked out of a build.
pub(super) struct Found(Vec<Working>);

impl Found {
    pub(super) fn of(spec: &str) -> Self {
        Self::of_build(&read(spec))
    }

    pub(super) fn of_build(build: &Build) -> Self {
        Self(workings(&Case { build, assumptions: &assumptions(), places: &crate::place::Places::default() }))
    }

    #[track_caller]
    pub(super) fn working(&self, key: &str, of: &str) -> &Working {
        let found = self.0.iter().find(|working| working.key == key && working.of == of);
        found.unwrap_or_else(|| panic!("there is no {key} of {of}"))
    }

    pub(super) fn has(&self, key: &str, of: &str) -> bool {
        self.0.iter().any(|working| working.key == key && working.of == of)
    }

    /// A figure of `it`.
    #[track_caller]
    pub(super) fn figure(&self, key: &str) -> &Figure {
        let found = self.working(key, "item `it`").figure();
        found.unwrap_or_else(|missing| panic!("{key}: {} is missing", missing.what))
    }

    /// A figure of `it` in a unit.
    #[track_caller]
    pub(super) fn value(&self, key: &str, unit: &str) -> f64 {
        self.figure(key).quantity.value_in(Unit::find(unit).unwrap()).unwrap()
    }

    /// A figure of `it` in SI.
    #[track_caller]
    pub(super) fn si(&self, key: &str) -> f64 {
        self.figure(key).quantity.si()
    }

    #[track_caller]
    pub(super) fn text(&self, key: &str) -> String {
        match &self.working(key, "item `it`").outcome {
            Ok(Outcome::Text(text)) => text.clone(),
            Ok(Outcome::Texts(texts)) => texts.join(", "),
            other => panic!("{key}: {other:?}"),
        }
    }

    #[track_caller]
    pub(super) fn flag(&self, key: &str) -> bool {
        match &self.working(key, "item `it`").outcome {
            Ok(Outcome::Flag(flag)) => *flag,
            other => panic!("{key}: {other:?}"),
        }
    }

    /// What is missing to know a figure of `it`.
    #[track_caller]
    pub(super) fn missing(&self, key: &str) -> String {
        match &self.working(key, "item `it`").outcome {
            Err(missing) => missing.what.clone(),
            other => panic!("{key}: {other:?}"),
        }
    }

    /// Whether nothing is worked out, and that is known.
    #[track_caller]
    pub(super) fn none(&self, key: &str) -> bool {
        matches!(&self.working(key, "item `it`").outcome, Ok(Outcome::None(_)))
    }

    pub(super) fn all(&self) -> &[Working] {
        &self.0
    }
}

#[track_caller]
pub(super) fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}
