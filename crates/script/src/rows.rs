//! Lists of tables in a spec whose entries a rule may judge one by one.

use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::{electric, gas, record, trailer};

use crate::run::Run;
use crate::thing::{Thing, What};

/// One such list.
#[derive(Debug)]
pub(crate) struct Rows {
    /// What a rule file calls one entry.
    pub(crate) word: &'static str,
    /// The name under which a script finds it.
    pub(crate) variable: &'static str,
    /// The table that the list stands in.
    pub(crate) within: What,
    /// The list.
    pub(crate) field: &'static Field,
    /// The field by which an entry is called.
    name: &'static Field,
}

const fn rows(
    word: &'static str,
    variable: &'static str,
    within: What,
    field: &'static Field,
    name: &'static Field,
) -> Rows {
    Rows { word, variable, within, field, name }
}

/// All of them.
pub(crate) const ALL: &[Rows] = &[
    rows("circuit", "circuit", What::Electric, &electric::CIRCUIT, &electric::circuit::NAME),
    rows("electric use", "usage", What::Electric, &electric::USE, &electric::usage::WHAT),
    rows("gas line", "line", What::Gas, &gas::LINES, &gas::line::NAME),
    rows("scale ticket", "ticket", What::Record, &record::TICKETS, &record::ticket::STATE),
    rows("torque", "torque", What::Record, &record::TORQUES, &record::torque::ITEM),
    rows("recheck", "recheck", What::Record, &record::RECHECKS, &record::recheck::WHAT),
    rows("change", "change", What::Record, &record::CHANGES, &record::change::WHAT),
    rows("lamp", "lamp", What::Trailer, &trailer::LAMP, &trailer::lamp::NAME),
];

impl Rows {
    /// How many entries a build has.
    pub(crate) fn count(&self, run: &Run) -> usize {
        self.entries(run).len()
    }

    /// What an entry is called.
    pub(crate) fn called(&self, run: &Run, at: usize) -> Option<String> {
        let record = self.entries(run).get(at)?;
        let text = record.text(self.name).map(|text| text.value.to_owned());
        text.or_else(|| record.word(self.name).map(|word| word.value.to_owned()))
    }

    /// What the figures of an entry are said to be of. Two scale tickets may be of one state, so they are counted.
    pub(crate) fn of(&self, run: &Run, at: usize) -> Option<String> {
        let name = self.called(run, at)?;
        Some(if self.field.key == record::TICKETS.key {
            format!("ticket {}, state `{name}`", at + 1)
        } else {
            format!("{} `{name}`", self.field.key)
        })
    }

    /// The entries of a build.
    pub(crate) fn entries<'r>(&self, run: &'r Run) -> &'r [Record] {
        Thing::whole(run, self.within).map_or(&[], |(record, _)| record.tables(self.field))
    }
}
