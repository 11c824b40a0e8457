//! How long each rule takes.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use pintle_report::safe;
use pintle_rulebook::{Bound, Detail, Judge, Rulebook, Trials};
use pintle_source::Sources;

/// Runs of each rule; the fastest counts, since nothing makes a run faster than it is.
const RUNS: usize = 5;

/// Each rule with the time that one inspection by it alone takes, the longest first.
pub(super) fn table(rulebook: &Rulebook, trials: &Trials<'_>, rules: &[&Bound], sources: &Sources) -> String {
    let mut timed: Vec<(Duration, &str)> = rules
        .iter()
        .filter_map(|bound| {
            let judge = Judge::of_rule(rulebook, bound);
            let runs = (0..RUNS).filter_map(|_| once(&judge, trials, bound, sources));
            Some((runs.min()?, bound.file.id.as_str()))
        })
        .collect();
    timed.sort_by(|left, right| right.cmp(left));
    let mut text = String::new();
    for (time, rule) in timed {
        let _ = writeln!(text, "{:>9.3} ms  {}", time.as_secs_f64() * 1000.0, safe::line(rule));
    }
    text
}

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the clock")]
fn once(judge: &Judge<'_>, trials: &Trials<'_>, bound: &Bound, sources: &Sources) -> Option<Duration> {
    let build = trials.first_base(bound)?;
    let begun = Instant::now();
    judge.inspect(build, sources, Detail::Findings);
    Some(begun.elapsed())
}
