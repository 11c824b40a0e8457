//! What a script can hold: the build, its trailer, a state, a part, and the tables within them.

use std::rc::Rc;

use pintle_calc::{Figure, Known};
use pintle_finding::nearest;
use pintle_quantity::Units;
use pintle_source::Span;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::record::{Missing, Record, Value};
use pintle_spec::{Named, schema, schema_of_kind};
use rhai::{Dynamic, Engine, EvalAltResult, INT, ImmutableString};

use crate::measured::Measured;
use crate::properties::{self, Found, Property};
use crate::recorder::Mark;
use crate::run::Run;
use crate::stop::{Stop, failed};
use crate::tight::Tight;

/// Which thing of a build.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// The build as a whole.
    Build,
    /// Its trailer.
    Trailer,
    /// Its tow vehicle, whether or not one is stated.
    Tow,
    /// Its people, whether or not they are stated.
    People,
    /// One of its states.
    State(usize),
    /// One of its parts.
    Item(usize),
    /// One of the readings that pass with least to spare.
    Reading(usize),
}

/// A thing of a build, or a table within it.
#[derive(Debug, Clone)]
pub struct Thing {
    run: Rc<Run>,
    /// Which thing.
    pub what: What,
    /// The table within it that is meant; none for the thing itself.
    table: Option<&'static Field>,
}

impl Thing {
    /// A thing of the build under inspection.
    pub fn new(run: &Rc<Run>, what: What) -> Self {
        Self { run: Rc::clone(run), what, table: None }
    }

    /// The build under inspection.
    pub fn run(&self) -> &Rc<Run> {
        &self.run
    }

    /// Whether another is the same thing, or the same table within it.
    pub(crate) fn is(&self, other: &Self) -> bool {
        let table = |thing: &Self| thing.table.map(|table| table.key);
        self.what == other.what && table(self) == table(other)
    }

    /// Where it stands in the files.
    pub fn span(&self) -> Option<Span> {
        if let (Some(table), Ok((record, _))) = (self.table, self.record_of_whole()) {
            return record.value(table.key).map(|value| value.span);
        }
        match self.what {
            What::Build => Some(self.run.build.number.span),
            What::State(at) => self.run.state(at).map(|state| state.name.span),
            What::Item(at) => self.run.build.items.get(at).map(|item| item.tag.span),
            What::Reading(at) => self.run.tight(at).and_then(|reading| reading.span),
            What::Trailer | What::Tow | What::People => {
                self.record_of_whole().ok().map(|(record, _)| record.span)
            }
        }
    }

    /// Its place, with words set against it. Of a tight reading those are the places of the masses to weigh first, each
    /// with what it does to the margin.
    pub(crate) fn marked(&self, words: &str) -> Vec<Mark> {
        let What::Reading(at) = self.what else {
            return self.span().map(|span| Mark { span, text: words.to_owned() }).into_iter().collect();
        };
        let tight = self.run.tight(at);
        let masses = tight.as_deref().map(Tight::masses_to_weigh).unwrap_or_default();
        let marks = masses.into_iter().map(|(mass, effect)| {
            let (half_width, effect) =
                (mass.half_width.show(Units::AsWritten), effect.show(Units::AsWritten));
            Mark {
                span: mass.input.value.span,
                text: format!("{words}: ± {half_width} here is ± {effect} of the margin"),
            }
        });
        marks.collect()
    }

    fn record_of_whole(&self) -> Known<(&Record, &'static Schema)> {
        let build = &self.run.build;
        let absent = |what: &str, table: &str| {
            Missing::new(what, Some(build.number.span), format!("add `[{table}]` to the spec"))
        };
        match self.what {
            What::Build => Ok((&build.head, &schema::build::head::SCHEMA)),
            What::Trailer => Ok((&build.trailer, &schema::trailer::SCHEMA)),
            What::Tow => {
                let record = build.tow.as_ref().ok_or_else(|| absent("the tow vehicle", "tow"))?;
                Ok((record, &schema::tow::SCHEMA))
            }
            What::People => {
                let record = build.people.as_ref().ok_or_else(|| absent("the people", "people"))?;
                Ok((record, &schema::build::people::SCHEMA))
            }
            What::Item(at) => {
                let item = build.items.get(at).ok_or_else(|| absent("a part", "item"))?;
                let schema =
                    schema_of_kind(item.kind).ok_or_else(|| absent("a part of a known kind", "item"))?;
                Ok((&item.record, schema))
            }
            What::State(_) => Err(absent("fields of a state", "state")),
            What::Reading(_) => Err(absent("fields of a reading", "reading")),
        }
    }

    fn schema(&self) -> Option<&'static Schema> {
        if let Some(Field { kind: Kind::Table(schema), .. }) = self.table {
            return Some(schema);
        }
        match self.what {
            What::Build => Some(&schema::build::head::SCHEMA),
            What::Trailer => Some(&schema::trailer::SCHEMA),
            What::Tow => Some(&schema::tow::SCHEMA),
            What::People => Some(&schema::build::people::SCHEMA),
            What::Item(at) => self.run.build.items.get(at).and_then(|item| schema_of_kind(item.kind)),
            What::State(_) | What::Reading(_) => None,
        }
    }

    fn record(&self) -> Known<&Record> {
        let (whole, _) = self.record_of_whole()?;
        match self.table {
            None => Ok(whole),
            Some(table) => whole.need_table(table),
        }
    }

    /// The properties that are worked out for it.
    fn computed(&self) -> &'static [Property] {
        if self.table.is_some() { &[] } else { properties::of(self.what, &self.run) }
    }

    fn found(&self, property: &Property) -> Result<Found, Box<EvalAltResult>> {
        let at = match self.what {
            What::State(at) | What::Item(at) | What::Reading(at) => at,
            _ => 0,
        };
        (property.get)(&self.run, at).map_err(|missing| Stop::Missing(missing).raise())
    }

    /// Looks a property up: what is worked out first, then what is written.
    fn property(&self, name: &str) -> Result<Dynamic, Box<EvalAltResult>> {
        let computed = self.computed();
        if let Some(property) = computed.iter().find(|property| property.name == name) {
            let found = self.found(property)?;
            return self.dynamic(found, property.says).map_err(|missing| Stop::Missing(missing).raise());
        }
        let field = self.schema().and_then(|schema| schema.find(name));
        match field {
            Some(field) => self.field(field).map_err(|missing| Stop::Missing(missing).raise()),
            None => Err(self.unknown(name, computed)),
        }
    }

    #[expect(clippy::unnecessary_box_returns, reason = "functions of the script language give boxed errors")]
    fn unknown(&self, name: &str, computed: &[Property]) -> Box<EvalAltResult> {
        let known = || {
            let written = self.schema().into_iter().flat_map(Schema::all).map(|field| field.key);
            computed.iter().map(|property| property.name).chain(written)
        };
        let sort = self.sort();
        failed(match nearest(name, known()) {
            Some(near) => format!("{sort} has no `{name}`; did you mean `{near}`?"),
            None => format!("{sort} has no `{name}`"),
        })
    }

    fn sort(&self) -> String {
        if let Some(table) = self.table {
            return format!("`{}`", table.key);
        }
        match self.what {
            What::Build => "the build".to_owned(),
            What::Trailer => "the trailer".to_owned(),
            What::Tow => "the tow vehicle".to_owned(),
            What::People => "the people".to_owned(),
            What::State(_) => "a state".to_owned(),
            What::Reading(_) => "a reading".to_owned(),
            What::Item(at) => {
                self.run.build.items.get(at).map_or("a part".to_owned(), |item| format!("a {}", item.kind))
            }
        }
    }

    fn field(&self, field: &'static Field) -> Known<Dynamic> {
        let record = self.record()?;
        let held = record.value(field.key).ok_or_else(|| record.missing(field))?;
        Ok(match &held.value {
            Value::Quantity(_) => {
                let named = Named::of(record, field)?;
                Dynamic::from(Measured::new(Figure::given(named), field.key))
            }
            Value::Text(text) => Dynamic::from(ImmutableString::from(text.as_str())),
            Value::Word(word) => Dynamic::from(ImmutableString::from(*word)),
            Value::Words(words) => texts(words.iter().map(|word| word.value)),
            Value::Texts(list) => texts(list.iter().map(|text| text.value.as_str())),
            Value::Flag(flag) => Dynamic::from(*flag),
            Value::Count(count) => Dynamic::from(INT::from(*count)),
            Value::Table(_) => {
                Dynamic::from(Self { run: Rc::clone(&self.run), what: self.what, table: Some(field) })
            }
            Value::Tables(_) | Value::Named(_) | Value::ByName(_) | Value::Raw(_) => {
                return Err(Missing::new(
                    format!("a value of `{}` that a script can use", field.key),
                    None,
                    "",
                ));
            }
        })
    }

    fn dynamic(&self, found: Found, says: &'static str) -> Known<Dynamic> {
        Ok(match found {
            Found::Figure(figure) => Dynamic::from(Measured::new(figure, says)),
            Found::Text(text) => Dynamic::from(ImmutableString::from(text)),
            Found::Flag(flag) => Dynamic::from(flag),
            Found::Count(count) => Dynamic::from(INT::try_from(count).unwrap_or(INT::MAX)),
            Found::Thing(what) => Dynamic::from(Self::new(&self.run, what)),
            Found::Things(list) => {
                let list = list.into_iter().map(|what| Dynamic::from(Self::new(&self.run, what)));
                Dynamic::from_array(list.collect())
            }
            Found::Texts(list) => texts(list.iter().map(String::as_str)),
            Found::None(missing) => return Err(missing),
        })
    }

    /// Whether a property has a value: for rules that bear only on what is fitted.
    ///
    /// A field that is not written has none. What is worked out has none only when that is known: a value that is
    /// missing from the sum is missing here too, or a rule would pass for want of it.
    fn has(&self, name: &str) -> Result<bool, Box<EvalAltResult>> {
        let computed = self.computed();
        if let Some(property) = computed.iter().find(|property| property.name == name) {
            return Ok(!matches!(self.found(property)?, Found::None(_)));
        }
        match self.schema().and_then(|schema| schema.find(name)) {
            Some(field) => Ok(self.record().is_ok_and(|record| record.value(field.key).is_some())),
            None => Err(self.unknown(name, computed)),
        }
    }
}

fn texts<'a>(list: impl Iterator<Item = &'a str>) -> Dynamic {
    Dynamic::from_array(list.map(|text| Dynamic::from(ImmutableString::from(text))).collect())
}

/// Teaches an engine to look things up.
pub(crate) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Thing>("thing");
    engine.register_indexer_get(|thing: &mut Thing, name: ImmutableString| thing.property(&name));
    engine.register_fn("has", |thing: Thing, name: ImmutableString| thing.has(&name));
}
