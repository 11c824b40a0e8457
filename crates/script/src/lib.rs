//! Rule scripts: the one room that knows the script language.
//!
//! A script is given one subject, asks it for figures, and leaves readings. It can not read a file, reach the
//! network, print, keep anything between runs, or bring the tool down: operations, sizes and depths are bounded,
//! and a script that fails is reported as failed, never as passed. One engine serves one thread. Start from
//! [`Engine`], [`Judges`] and [`Judgement`].

mod check;
mod compare;
mod coverage;
mod desk;
mod engine;
mod extremes;
mod functions;
mod judges;
mod limits;
mod lists;
mod measured;
mod place;
mod properties;
mod recorder;
mod reference;
mod rows;
mod run;
mod scan;
mod stop;
mod thing;
mod tight;
mod watch;
mod words;
mod worked;

pub use check::Around;
pub use engine::{Engine, Script, ScriptError};
pub use extremes::Extremes;
pub use functions::{ALL as FUNCTIONS, Form, Function, Kind};
pub use judges::{ARRANGEMENT, Judges, TIGHT};
pub use measured::{Limit, Measured};
pub use place::place;
pub use properties::{Gives, Property, all as all_properties};
pub use recorder::{Comparison, Draft, End, Judgement, Mark};
pub use reference::{Entry, Section, comes_to, sections};
pub use rhai::Position;
pub use run::{Grounds, Run};
pub use thing::{Thing, What};
pub use tight::Tight;
pub use watch::Clock;
