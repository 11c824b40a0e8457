//! What an inspection has to say, as plain data.
//!
//! Readings, verdicts, grades, labels, citations, and the problems of files that could not be read as specs or
//! rules. Nothing here renders, colours or prints; `pintle-report` does. Start from [`Reading`], [`Inspection`]
//! and [`Problem`].

mod accepted;
mod by_eye;
mod grade;
mod inspection;
mod label;
mod problem;
mod reading;
mod remedy;
mod sentence;

pub use accepted::{Accepted, Listed, Waived, WaiverKind};
pub use by_eye::{ASKED_OF, ByEye, Station};
pub use grade::{Basis, Grade, Stage, Verdict};
pub use inspection::{Inspection, Tally};
pub use label::{Contribution, Input, Label, Role};
pub use problem::{Problem, nearest};
pub use reading::{Bound, Citation, FIGURE, Margin, Reading, Rule, SetBy, Setting, Subject};
pub use remedy::{But, Change, Cleared, Cost, Remedies, Remedy, Sought, Written};
