//! What no drawing shows and a calculation needs all the same, such as the coldest night: declared defaults of the
//! rulebook, which a shop or one build may restate. Nothing is assumed that is not in such a table.

use std::collections::BTreeMap;
use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_spec::Spanned;
use pintle_spec::field::Field;
use pintle_spec::schema::assume;
use pintle_spec::{Build, Footing, Known, Missing, Named};

use crate::figure::Figure;
use crate::origin::{Origin, Standing};
use crate::uncertainty::Tolerances;

/// A default of the rulebook.
#[derive(Debug, Clone)]
pub struct Assumption {
    /// The value and where it is written.
    pub value: Spanned<Quantity>,
    /// Where it comes from.
    pub origin: Origin,
}

/// The defaults in force, by topic and key, and how sure a value is that states no ± of its own. Cheap to clone.
#[derive(Debug, Clone, Default)]
pub struct Assumptions {
    held: Arc<BTreeMap<(&'static str, &'static str), Assumption>>,
    tolerances: Arc<Tolerances>,
}

impl Assumptions {
    /// Defaults from a list of topics, fields and values.
    pub fn from_list(list: impl IntoIterator<Item = (&'static Field, &'static Field, Assumption)>) -> Self {
        let keyed = list.into_iter().map(|(topic, field, value)| ((topic.key, field.key), value));
        Self { held: Arc::new(keyed.collect()), tolerances: Arc::default() }
    }

    /// The same with what is assumed of a value that states no ± of its own.
    #[must_use]
    pub fn with_tolerances(self, tolerances: Tolerances) -> Self {
        Self { tolerances: Arc::new(tolerances), ..self }
    }

    /// How sure a value is that states no ± of its own. Without any, only values that state a ± have one.
    pub fn tolerances(&self) -> &Tolerances {
        &self.tolerances
    }

    /// The default of a field.
    pub fn get(&self, topic: &'static Field, field: &'static Field) -> Option<&Assumption> {
        self.held.get(&(topic.key, field.key))
    }

    /// What is assumed of a build, and where it comes from: what its spec restates in `[assume]`, else the default.
    /// `topic` is a field of [`assume`], `field` one of that topic's.
    ///
    /// # Errors
    /// The assumption, where neither the build nor the rulebook states it.
    pub fn of(&self, build: &Build, topic: &'static Field, field: &'static Field) -> Known<(Figure, Origin)> {
        let own = build.assume.as_ref().and_then(|all| all.table(topic));
        if let Some(own) = own.filter(|own| own.value(field.key).is_some()) {
            return Ok((Figure::given(Named::of(own, field)?), Origin::WRITTEN));
        }
        let held = self.get(topic, field).ok_or_else(|| {
            Missing::new(
                format!("the assumption `{}.{}`", topic.key, field.key),
                None,
                format!("state it in the spec, in [{}.{}]: {}", assume_key(), topic.key, field.doc),
            )
        })?;
        let named = Named {
            key: field.key,
            owner: format!("the assumptions about {}", topic.key).into(),
            value: held.value,
            footing: Footing::Other,
        };
        Ok((Figure::given(named), held.origin.clone()))
    }
}

fn assume_key() -> &'static str {
    pintle_spec::schema::build::ASSUME.key
}

impl Assumption {
    /// A default with its standing and source.
    pub fn new(value: Spanned<Quantity>, standing: Standing, text: String) -> Self {
        Self { value, origin: Origin { standing, text: text.into() } }
    }
}

/// Every assumption there is a field for: topic and field.
pub fn fields() -> impl Iterator<Item = (&'static Field, &'static Field)> {
    assume::topics().flat_map(|(topic, schema)| schema.all().map(move |field| (topic, field)))
}
