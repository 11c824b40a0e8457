//! A trial that came out otherwise than expected, told so that its author sees the difference.

use std::fmt::Write as _;

use pintle_report::{Look, human, safe};
use pintle_rulebook::{TrialResult, Wanted};
use pintle_source::Sources;

/// Most readings that are shown of one trial.
const MOST: usize = 6;

/// What was wanted, what came of it, and what the rule said.
pub(super) fn failure(result: &TrialResult, sources: &Sources, look: &Look) -> String {
    let place = sources.locate(result.span);
    let name = sources.name(result.span.source);
    let mut text = String::new();
    let head = format!("{name}:{}: {}: {}", place.line, result.rule, result.name);
    let _ = writeln!(text, "{}", safe::line(&head));
    let _ = writeln!(text, "  wanted  {}", wanted(result.expect));
    let failure = result.failure.as_deref().unwrap_or_default();
    let _ = writeln!(text, "  but     {}", safe::line(failure));
    for reading in result.readings.iter().take(MOST) {
        let line = format!("{}: {}", reading.verdict, reading.sentence(look.units));
        let _ = writeln!(text, "  it said {}", safe::line(&line));
    }
    if result.readings.len() > MOST {
        let _ = writeln!(text, "  and {} more", result.readings.len() - MOST);
    }
    text.push_str(&human::problems(&result.problems, sources, look));
    text
}

const fn wanted(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Pass => "pass",
        Wanted::Fault => "fault",
        Wanted::NotApplicable => "not applicable",
        Wanted::CannotJudge => "cannot judge",
    }
}
