//! The electric system of a build as its other modules ask for it.

use pintle_spec::field::Field;
use pintle_spec::schema::electric::{CIRCUIT, USE, circuit};
use pintle_spec::schema::{assume, build};
use pintle_spec::{Build, Item, Known, Missing, Record};

use crate::case::Case;
use crate::figure::Figure;
use crate::space::given;
use crate::working::Work;

/// The name of the topic.
pub(crate) const TOPIC: &str = "electric";

/// A build's electric system.
#[derive(Debug, Clone, Copy)]
pub(crate) struct System<'a> {
    pub(crate) case: Case<'a>,
    pub(crate) build: &'a Build,
    /// `[electric]`.
    pub(crate) written: Option<&'a Record>,
}

impl<'a> System<'a> {
    pub(crate) fn of(case: &Case<'a>) -> Self {
        Self { case: *case, build: case.build, written: case.build.electric.as_ref() }
    }

    /// `[electric]`, or that it is missing.
    pub(crate) fn need(self) -> Known<&'a Record> {
        self.written.ok_or_else(|| {
            Missing::new(
                format!("[{}] of the spec", build::ELECTRIC.key),
                None,
                "describe the electric system in a table [electric]",
            )
        })
    }

    pub(crate) fn circuits(self) -> &'a [Record] {
        self.written.map_or(&[], |electric| electric.tables(&CIRCUIT))
    }

    /// The circuit with a name.
    pub(crate) fn circuit(self, name: &str) -> Option<&'a Record> {
        let named = |record: &&Record| record.text(&circuit::NAME).is_some_and(|held| held.value == name);
        self.circuits().iter().find(named)
    }

    pub(crate) fn uses(self) -> &'a [Record] {
        self.written.map_or(&[], |electric| electric.tables(&USE))
    }

    /// The part with a tag, if it is of a kind.
    pub(crate) fn part_of(self, tag: &str, kind: &str) -> Option<&'a Item> {
        self.build.item(tag).filter(|item| item.kind == kind)
    }

    /// The parts with these tags.
    pub(crate) fn parts(self, tags: &[pintle_spec::Spanned<String>]) -> Vec<&'a Item> {
        tags.iter().filter_map(|tag| self.build.item(&tag.value)).collect()
    }

    /// What a part's own record states, else the assumption in its place.
    pub(crate) fn own_or(
        self,
        work: &mut Work,
        symbol: &'static str,
        record: &Record,
        field: &'static Field,
        assumed: &'static Field,
    ) -> Known<Figure> {
        if record.value(field.key).is_some() {
            work.take(symbol, field.doc, given(record, field))
        } else {
            work.assume(symbol, &self.case, &assume::ELECTRIC, assumed)
        }
    }
}

/// A count of a record, one where it is not given, as the schema says.
pub(crate) fn one_or(record: &Record, field: &'static Field) -> u32 {
    record.count(field).map_or(1, |count| count.value)
}
