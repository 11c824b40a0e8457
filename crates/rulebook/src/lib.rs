//! The rules in force, and running them over builds.
//!
//! Packs of rules (two small files each), a shop's settings over them, and the judging: every rule over every one of
//! its subjects, every judgement a reading. Nothing is read from disk here. Start from [`Rulebook`], [`Judge`] and
//! [`Settings`].

mod arranged;
mod assumed;
mod judge;
mod labels;
mod pack;
mod pack_file;
mod places;
mod remedy;
mod rule_file;
mod rulebook;
mod schema;
mod settings;
mod taken;
mod tight;
mod tolerances;
mod trial;

pub(crate) use rulebook::set_twice;

pub use judge::{Detail, Judge};
pub use pack::{PackFiles, builtin_packs, trial_bases};
pub use pack_file::Picked;
pub use remedy::Workshop;
pub use rule_file::{Mend, Move, RuleFile, Trial, Wanted};
pub use rulebook::{Bound, Rulebook};
pub use settings::{Settings, read_settings};
pub use tolerances::BoundTolerance;
pub use trial::{Bases, Lines, TrialResult, Trials, run_trials};
