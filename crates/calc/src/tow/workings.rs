//! Every figure of the topic, with how it came about.

mod coupled;
mod europe;
mod limits;
mod vehicle;

use pintle_spec::schema::tow::{self, hitch};
use pintle_spec::{Build, Known, Missing, Record};

use super::cases::loaded;
use crate::case::Case;
use crate::working::{Outcome, Work, Working};

/// What a reader of any figure here must know.
const CAUTION: &str = "computed for level ground at rest: weigh vehicle and trailer coupled; makers' ratings and local law go first";

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let cases = loaded(case.build);
    let mut all = limits::workings(case.build);
    all.extend(coupled::workings(case.build, &cases));
    all.extend(vehicle::workings(case, &cases));
    all.extend(europe::workings(case.build));
    all
}

fn figure<O: Into<Outcome>>(
    of: &str,
    key: &'static str,
    says: &'static str,
    work: impl FnOnce(&mut Work) -> Known<O>,
) -> Working {
    Working::of("tow", key, of, says, work).warned(CAUTION)
}

/// Who a figure of the whole build is of.
const BUILD: &str = "the build";

/// The tow vehicle.
fn vehicle_of(build: &Build) -> Known<&Record> {
    build.tow.as_ref().ok_or_else(|| {
        Missing::new(
            "the tow vehicle",
            Some(build.trailer.span),
            "add `[tow]` with what the tow vehicle weighs and what its maker allows",
        )
    })
}

/// The hitch, where the spec states one.
fn hitch_of(build: &Build) -> Option<&Record> {
    build.tow.as_ref().and_then(|tow| tow.table(&tow::HITCH))
}

/// Whether spring bars are fitted, where the spec says which hitch is.
fn distributes(build: &Build) -> Known<bool> {
    let hitch = vehicle_of(build)?.need_table(&tow::HITCH)?;
    Ok(hitch.need_word(&hitch::FITTED)?.value == "distributing")
}

#[cfg(test)]
mod tests;
