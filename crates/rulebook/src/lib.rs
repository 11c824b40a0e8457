//! The rules in force, and running them over builds.
//!
//! Packs of rules (two small files each), a shop's settings over them, and the judging: every rule over every one of
//! its subjects, every judgement a reading. Nothing is read from disk here. Start from [`Rulebook`], [`Judge`] and
//! [`Settings`].

mod arranged;
mod assumed;
mod backlog;
mod by_eye;
mod direction;
mod judge;
mod kept;
mod labels;
mod loosened;
mod overrides;
mod pack;
mod pack_file;
mod paths;
mod places;
mod remedy;
mod renamed;
mod round;
mod rule_file;
mod rulebook;
mod schema;
mod settings;
mod settle;
mod taken;
mod tight;
mod tolerances;
mod trial;
mod waiver;

pub(crate) use rulebook::set_twice;

pub use backlog::{Backlog, Entry, Finds, Item, read_backlog};
pub use judge::{Detail, Judge};
pub use kept::Kept;
pub use pack::{PackFiles, builtin_packs, trial_bases};
pub use pack_file::Picked;
pub use remedy::Workshop;
pub use renamed::Renamed;
pub use round::Round;
pub use rule_file::{Mend, Move, RuleFile, Trial, Wanted};
pub use rulebook::{Bound, Rulebook};
pub use settings::{Layer, Settings, read_build_layer, read_layer};
pub use tolerances::BoundTolerance;
pub use trial::{Bases, Lines, TrialResult, Trials, each_rule};
pub use waiver::{Waiver, Waivers, day};
