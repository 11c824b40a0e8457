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

/// All of them.
pub(crate) const ALL: &[Rows] = &[
    Rows {
        word: "circuit",
        variable: "circuit",
        within: What::Electric,
        field: &electric::CIRCUIT,
        name: &electric::circuit::NAME,
    },
    Rows {
        word: "electric use",
        variable: "usage",
        within: What::Electric,
        field: &electric::USE,
        name: &electric::usage::WHAT,
    },
    Rows {
        word: "gas line",
        variable: "line",
        within: What::Gas,
        field: &gas::LINES,
        name: &gas::line::NAME,
    },
    Rows {
        word: "scale ticket",
        variable: "ticket",
        within: What::Record,
        field: &record::TICKETS,
        name: &record::ticket::STATE,
    },
    Rows {
        word: "torque",
        variable: "torque",
        within: What::Record,
        field: &record::TORQUES,
        name: &record::torque::ITEM,
    },
    Rows {
        word: "recheck",
        variable: "recheck",
        within: What::Record,
        field: &record::RECHECKS,
        name: &record::recheck::WHAT,
    },
    Rows {
        word: "change",
        variable: "change",
        within: What::Record,
        field: &record::CHANGES,
        name: &record::change::WHAT,
    },
    Rows {
        word: "lamp",
        variable: "lamp",
        within: What::Trailer,
        field: &trailer::LAMP,
        name: &trailer::lamp::NAME,
    },
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
