//! The inspection sheet: one page of HTML that an inspector signs and a customer understands.
//!
//! The page stands alone: no network, no other file, a strict content security policy, everything from a spec escaped.
//! It shows what was judged and never judges; it opens no file and prints nothing; what could not be judged is never
//! left out of it, nor made to look like a pass. Start from [`Sheet`] and [`page`].

mod aboard;
mod about;
#[cfg(test)]
mod bench;
mod built;
mod chart;
mod customer;
mod drawing;
mod eyes;
mod findings;
mod form;
mod frame;
mod head;
pub mod in_force;
mod index;
mod labels;
mod markup;
mod policy;
mod readings;
mod revision;
mod rulebook;
mod steps;
mod walk;
mod weights;
mod worked;

use jiff::civil::Date;
use pintle_calc::case::Case;
use pintle_finding::{Grade, Inspection};
use pintle_report::weights::Terms;
use pintle_source::Sources;
use pintle_spec::Build;

pub use index::{Entry, index};
pub use revision::Revision;
pub use walk::{Verdict, Walk, WalkPage, unreadable_page, verdict, walk_page};

/// All that a sheet is made of.
#[derive(Debug, Clone, Copy)]
pub struct Sheet<'s> {
    /// The build.
    pub build: &'s Build,
    /// What was found on it, with every reading.
    pub inspection: &'s Inspection,
    /// What the tool's own rules say of the rulebook in force: waivers, limits that were loosened.
    pub rulebook: Option<&'s Inspection>,
    /// The rulebook in force: what its files set, and what only eyes can tell.
    pub in_force: &'s in_force::InForce,
    /// The files that all of it was read from.
    pub sources: &'s Sources,
    /// The build with what is assumed, and with the places it is reckoned for.
    pub case: Case<'s>,
    /// How figures are told.
    pub terms: Terms<'s>,
    /// The shop's name, where its rulebook has one.
    pub shop: Option<&'s str>,
    /// The grade at or above which a build is held.
    pub hold: Grade,
    /// How many rules are in force.
    pub rules: usize,
    /// The day on which it was judged.
    pub day: Date,
}

/// The sheet as one HTML document.
pub fn page(sheet: &Sheet<'_>) -> String {
    frame::document(sheet).into_string()
}
