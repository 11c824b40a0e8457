//! What a script can hold: the build, its trailer, a state, a part, and the tables within them.

use std::rc::Rc;

use pintle_calc::{Figure, Known};
use pintle_finding::nearest;
use pintle_quantity::Units;
use pintle_source::Span;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::record::{Missing, Record, Value};
use pintle_spec::schema::item;
use pintle_spec::{Named, OwnField, OwnValue, own_value, schema, schema_of_kind};
use rhai::{Dynamic, EvalAltResult, INT, ImmutableString};

use crate::check::with_article;
use crate::desk::Desk;
use crate::measured::Measured;
use crate::properties::{self, Found, Property};
use crate::recorder::Mark;
use crate::rows;
use crate::run::Run;
use crate::stop::{Stop, failed};
use crate::tight::Tight;
use crate::watch::Watch;
use crate::worked;

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
    /// Its gas system, whether or not one is stated.
    Gas,
    /// Its electric system, whether or not one is stated.
    Electric,
    /// How its water is used, whether or not that is stated.
    Water,
    /// What the customer was offered, whether or not a quote is stated.
    Quote,
    /// What is recorded of the built trailer, whether or not anything is.
    Record,
    /// An entry of one of the lists whose entries can be judged: which list, and which entry.
    Row(usize, usize),
    /// A figure of a topic, as [`Run::figure`] counts them.
    Figure(usize),
}

/// A step from a table into one within it.
#[derive(Debug, Clone, Copy)]
enum Inner {
    /// A table.
    Table(&'static Field),
    /// An entry of a list of tables.
    Entry(&'static Field, usize),
    /// The fields of the shop's own, on a part of which the way leads to the part itself.
    Own,
}

impl Inner {
    fn key(self) -> (&'static str, usize) {
        match self {
            Self::Table(field) => (field.key, 0),
            Self::Entry(field, at) => (field.key, at),
            Self::Own => (item::SHOP.key, 0),
        }
    }

    fn schema(self) -> Option<&'static Schema> {
        match self {
            Self::Table(Field { kind: Kind::Table(schema), .. })
            | Self::Entry(Field { kind: Kind::Tables(schema), .. }, _) => Some(schema),
            _ => None,
        }
    }
}

/// A thing of a build, or a table within it.
#[derive(Debug, Clone)]
pub struct Thing {
    run: Rc<Run>,
    /// Which thing.
    pub what: What,
    /// The way to the table within it that is meant; empty for the thing itself.
    within: Vec<Inner>,
}

impl Thing {
    /// A thing of the build under inspection.
    pub fn new(run: &Rc<Run>, what: What) -> Self {
        Self { run: Rc::clone(run), what, within: Vec::new() }
    }

    /// The build under inspection.
    pub fn run(&self) -> &Rc<Run> {
        &self.run
    }

    /// Whether another is the same thing, or the same table within it.
    pub(crate) fn is(&self, other: &Self) -> bool {
        let within =
            |thing: &Self| -> Vec<(&str, usize)> { thing.within.iter().map(|step| step.key()).collect() };
        self.what == other.what && within(self) == within(other)
    }

    fn into(&self, step: Inner) -> Self {
        let within = self.within.iter().copied().chain([step]).collect();
        Self { run: Rc::clone(&self.run), what: self.what, within }
    }

    /// Where it stands in the files.
    pub fn span(&self) -> Option<Span> {
        if let Some((last, before)) = self.within.split_last() {
            let (record, _) = Self::whole(&self.run, self.what).ok()?;
            let outer = before.iter().try_fold(record, |record, step| inner(record, *step)).ok()?;
            return match *last {
                Inner::Table(field) => outer.value(field.key).map(|value| value.span),
                Inner::Entry(field, at) => outer.tables(field).get(at).map(|record| record.span),
                Inner::Own => outer.value(item::SHOP.key).map(|value| value.span),
            };
        }
        match self.what {
            What::Build => Some(self.run.build.number.span),
            What::State(at) => self.run.state(at).map(|state| state.name.span),
            What::Item(at) => self.run.build.items.get(at).map(|item| item.tag.span),
            What::Reading(at) => self.run.tight(at).and_then(|reading| reading.span),
            What::Figure(at) => worked::span(&self.run, at),
            What::Row(rows, at) => rows::ALL.get(rows)?.entries(&self.run).get(at).map(|record| record.span),
            What::Trailer
            | What::Tow
            | What::People
            | What::Gas
            | What::Electric
            | What::Water
            | What::Quote
            | What::Record => Self::whole(&self.run, self.what).ok().map(|(record, _)| record.span),
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

    /// The table of a thing, and what it may hold.
    pub(crate) fn whole(run: &Run, what: What) -> Known<(&Record, &'static Schema)> {
        let build = &run.build;
        let absent = |what: &str, table: &str| {
            Missing::new(what, Some(build.number.span), format!("add `[{table}]` to the spec"))
        };
        let (record, name, table) = match what {
            What::Build => (Some(&build.head), "the build", "build"),
            What::Trailer => (Some(&build.trailer), "the trailer", "trailer"),
            What::Tow => (build.tow.as_ref(), "the tow vehicle", "tow"),
            What::People => (build.people.as_ref(), "the people", "people"),
            What::Gas => (build.gas.as_ref(), "the gas system", "gas"),
            What::Electric => (build.electric.as_ref(), "the electric system", "electric"),
            What::Water => (build.water.as_ref(), "how water is used", "water"),
            What::Quote => (build.quote.as_ref(), "the quote", "quote"),
            What::Record => (build.record.as_ref(), "the record", "record"),
            What::Item(at) => {
                (build.items.get(at).map(|item| &item.record), "a part of a known kind", "item")
            }
            What::Row(rows, at) => {
                let entry = rows::ALL.get(rows).and_then(|rows| rows.entries(run).get(at));
                (entry, "an entry", "build")
            }
            What::State(_) => (None, "fields of a state", "state"),
            What::Reading(_) => (None, "fields of a reading", "reading"),
            What::Figure(_) => (None, "fields of a figure", "figure"),
        };
        record.zip(Self::schema_of(run, what)).ok_or_else(|| absent(name, table))
    }

    fn schema_of(run: &Run, what: What) -> Option<&'static Schema> {
        match what {
            What::Build => Some(&schema::build::head::SCHEMA),
            What::Trailer => Some(&schema::trailer::SCHEMA),
            What::Tow => Some(&schema::tow::SCHEMA),
            What::People => Some(&schema::build::people::SCHEMA),
            What::Gas => Some(&schema::gas::SCHEMA),
            What::Electric => Some(&schema::electric::SCHEMA),
            What::Water => Some(&schema::build::water::SCHEMA),
            What::Quote => Some(&schema::quote::SCHEMA),
            What::Record => Some(&schema::record::SCHEMA),
            What::Item(at) => run.build.items.get(at).and_then(|item| schema_of_kind(item.kind)),
            What::Row(rows, _) => match rows::ALL.get(rows)?.field.kind {
                Kind::Tables(schema) => Some(schema),
                _ => None,
            },
            What::State(_) | What::Reading(_) | What::Figure(_) => None,
        }
    }

    fn schema(&self) -> Option<&'static Schema> {
        match self.within.last() {
            Some(step) => step.schema(),
            None => Self::schema_of(&self.run, self.what),
        }
    }

    fn record(&self) -> Known<&Record> {
        let (whole, _) = Self::whole(&self.run, self.what)?;
        self.within.iter().try_fold(whole, |record, step| inner(record, *step))
    }

    /// The properties that are worked out for it.
    fn computed(&self) -> &'static [Property] {
        if self.within.is_empty() { properties::of(self.what, &self.run) } else { &[] }
    }

    fn found(&self, property: &Property) -> Result<Found, Box<EvalAltResult>> {
        let found =
            (property.get)(&self.run, self.what.at()).map_err(|missing| Stop::Missing(missing).raise())?;
        debug_assert!(property.gives.fits(&found), "`{}` does not give {found:?}", property.name);
        Ok(found)
    }

    /// Looks a property up: what is worked out first, then what is written. A name such as `gas/burn_time` is that
    /// figure of it.
    fn property(&self, name: &str) -> Result<Dynamic, Box<EvalAltResult>> {
        if name.contains('/') {
            let found = worked::of(self, name)?;
            return self.dynamic(found, "");
        }
        if let Some(Inner::Own) = self.within.last() {
            return self.own(name);
        }
        let computed = self.computed();
        if let Some(property) = computed.iter().find(|property| property.name == name) {
            let found = self.found(property)?;
            return self.dynamic(found, property.says);
        }
        let field = self.schema().and_then(|schema| schema.find(name));
        match field {
            Some(field) if field.key == item::SHOP.key => Ok(Dynamic::from(self.into(Inner::Own))),
            Some(field) => self.field(field).map_err(|missing| Stop::Missing(missing).raise()),
            None => Err(self.unknown(name, computed)),
        }
    }

    /// A field of the shop's own.
    fn own(&self, name: &str) -> Result<Dynamic, Box<EvalAltResult>> {
        let raise = |missing| Stop::Missing(missing).raise();
        let field = self.own_field(name)?;
        let record = self.record().map_err(raise)?;
        Ok(match own_value(record, field) {
            Some(OwnValue::Quantity(named)) => Dynamic::from(Measured::new(Figure::given(named), field.key)),
            Some(OwnValue::Text(text)) => Dynamic::from(ImmutableString::from(text)),
            Some(OwnValue::Flag(flag)) => Dynamic::from(flag),
            Some(OwnValue::Count(count)) => Dynamic::from(INT::from(count)),
            None => {
                let what = format!("`shop.{name}` of {}", record.what);
                let help = format!("state it as `shop = {{ {name} = … }}`: {}", field.doc);
                return Err(raise(Missing::new(what, Some(record.span), help)));
            }
        })
    }

    fn own_field(&self, name: &str) -> Result<&OwnField, Box<EvalAltResult>> {
        let fields = self.run.own_fields();
        fields.iter().find(|field| field.key == name).ok_or_else(|| {
            failed(match nearest(name, fields.iter().map(|field| field.key)) {
                Some(near) => format!("no pack declares a field `{name}`; did you mean `{near}`?"),
                None => format!("no pack declares a field `{name}`"),
            })
        })
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
        if let Some(step) = self.within.last() {
            return format!("`{}`", step.key().0);
        }
        match self.what {
            What::Build => "the build".to_owned(),
            What::Trailer => "the trailer".to_owned(),
            What::Tow => "the tow vehicle".to_owned(),
            What::People => "`people`".to_owned(),
            What::State(_) => "a state".to_owned(),
            What::Reading(_) => "a reading".to_owned(),
            What::Gas => "the gas system".to_owned(),
            What::Electric => "the electric system".to_owned(),
            What::Water => "`water`".to_owned(),
            What::Quote => "the quote".to_owned(),
            What::Record => "the record".to_owned(),
            What::Row(rows, _) => rows::ALL.get(rows).map_or(String::new(), |rows| with_article(rows.word)),
            What::Figure(_) => "a figure".to_owned(),
            What::Item(at) => {
                self.run.build.items.get(at).map_or("a part".to_owned(), |item| with_article(item.kind))
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
            Value::Table(_) => Dynamic::from(self.into(Inner::Table(field))),
            Value::Tables(list) => {
                let entries = (0..list.len()).map(|at| Dynamic::from(self.into(Inner::Entry(field, at))));
                Dynamic::from_array(entries.collect())
            }
            Value::Named(_) | Value::ByName(_) | Value::Raw(_) => {
                return Err(Missing::new(
                    format!("a value of `{}` that a script can use", field.key),
                    None,
                    "",
                ));
            }
        })
    }

    fn dynamic(&self, found: Found, says: &'static str) -> Result<Dynamic, Box<EvalAltResult>> {
        Ok(match found {
            Found::Figure(figure) => Dynamic::from(Measured::new(figure, says)),
            Found::Named(figure, name) => Dynamic::from(Measured::new(figure, name)),
            Found::Text(text) => Dynamic::from(ImmutableString::from(text)),
            Found::Flag(flag) => Dynamic::from(flag),
            Found::Count(count) => Dynamic::from(INT::try_from(count).unwrap_or(INT::MAX)),
            Found::Thing(what) => Dynamic::from(Self::new(&self.run, what)),
            Found::Things(list) => {
                let list = list.into_iter().map(|what| Dynamic::from(Self::new(&self.run, what)));
                Dynamic::from_array(list.collect())
            }
            Found::Texts(list) => texts(list.iter().map(String::as_str)),
            Found::None(missing) => return Err(Stop::Missing(missing).raise()),
            Found::NotApplicable(why) => return Err(Stop::NotApplicable(why).raise()),
        })
    }

    /// Whether a property has a value: for rules that bear only on what is fitted.
    ///
    /// A field that is not written has none. What is worked out has none only when that is known: a value that is
    /// missing from the sum is missing here too, or a rule would pass for want of it.
    fn has(&self, name: &str) -> Result<bool, Box<EvalAltResult>> {
        if name.contains('/') {
            return Ok(!matches!(worked::of(self, name)?, Found::None(_)));
        }
        if let Some(Inner::Own) = self.within.last() {
            let field = self.own_field(name)?;
            return Ok(self.record().is_ok_and(|record| own_value(record, field).is_some()));
        }
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

impl What {
    /// Its place among its sort.
    fn at(self) -> usize {
        match self {
            Self::State(at) | Self::Item(at) | Self::Reading(at) | Self::Row(_, at) | Self::Figure(at) => at,
            _ => 0,
        }
    }
}

fn inner(record: &Record, step: Inner) -> Known<&Record> {
    match step {
        Inner::Table(field) => record.need_table(field),
        Inner::Entry(field, at) => record.tables(field).get(at).ok_or_else(|| record.missing(field)),
        Inner::Own => Ok(record),
    }
}

fn texts<'a>(list: impl Iterator<Item = &'a str>) -> Dynamic {
    Dynamic::from_array(list.map(|text| Dynamic::from(ImmutableString::from(text))).collect())
}

/// Teaches an engine to look things up.
pub(crate) fn register(desk: &mut Desk<'_>, watch: &Rc<Watch>) {
    desk.register_type_with_name::<Thing>("thing");
    let on = Rc::clone(watch);
    desk.engine().register_indexer_get(move |thing: &mut Thing, name: ImmutableString| {
        on.rest(|| thing.property(&name))
    });
    let on = Rc::clone(watch);
    desk.register_fn("has", move |thing: Thing, name: ImmutableString| on.rest(|| thing.has(&name)));
}
