//! What the trials try: which lines of the scripts they run, and which verdicts they bring about.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use pintle_finding::Verdict;
use pintle_report::safe;
use pintle_rulebook::{Bound, Lines, TrialResult};
use pintle_source::{SourceId, Sources};

/// What the trials of some rules try.
#[derive(Debug, Default)]
pub(super) struct Cover {
    lines: usize,
    run: usize,
    rules: usize,
    both: usize,
    not_applicable: usize,
    cannot_judge: usize,
    gaps: Vec<Gap>,
}

/// A rule whose trials leave something out.
#[derive(Debug)]
struct Gap {
    rule: String,
    script: SourceId,
    lines: Vec<usize>,
    verdicts: Vec<&'static str>,
}

impl Cover {
    /// Adds the trials of one rule.
    pub(super) fn add(&mut self, bound: &Bound, lines: &Lines, results: &[TrialResult]) {
        let said: BTreeSet<Verdict> =
            results.iter().flat_map(|result| &result.readings).map(|reading| reading.verdict).collect();
        let missed: Vec<usize> = lines.all.difference(&lines.run).copied().collect();
        let asked = [Verdict::Pass, Verdict::Fault];
        let verdicts: Vec<&'static str> =
            asked.into_iter().filter(|verdict| !said.contains(verdict)).map(Verdict::word).collect();
        self.rules += 1;
        self.lines += lines.all.len();
        self.run += lines.all.len() - missed.len();
        self.both += usize::from(verdicts.is_empty());
        self.not_applicable += usize::from(said.contains(&Verdict::NotApplicable));
        self.cannot_judge += usize::from(said.contains(&Verdict::CannotJudge));
        if !missed.is_empty() || !verdicts.is_empty() {
            let (rule, script) = (bound.file.id.clone(), bound.file.script);
            self.gaps.push(Gap { rule, script, lines: missed, verdicts });
        }
    }

    /// Counts, and each line and verdict that no trial brings about.
    pub(super) fn report(&self, sources: &Sources) -> String {
        let mut text = String::new();
        for gap in &self.gaps {
            for line in &gap.lines {
                let place =
                    format!("{}:{line}: {}: no trial runs this line", sources.name(gap.script), gap.rule);
                let _ = writeln!(text, "{}", safe::line(&place));
            }
            for verdict in &gap.verdicts {
                let _ =
                    writeln!(text, "{}", safe::line(&format!("{}: no trial ends in {verdict}", gap.rule)));
            }
        }
        let Self { lines, run, rules, both, not_applicable, cannot_judge, .. } = self;
        let _ = writeln!(
            text,
            "lines of scripts run: {run} of {lines}; rules with a pass and a fault: {both} of {rules}; \
             not applicable is tried of {not_applicable}, cannot judge of {cannot_judge}"
        );
        text
    }
}
