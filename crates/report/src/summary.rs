//! The closing words of a run: what was looked at, what came of it, how near the passes are, and a caution.

use std::cmp::Ordering;
use std::fmt::Write as _;

use pintle_finding::{Grade, Inspection, Problem, Tally, Verdict};

use crate::outcome::of_tally;
use crate::words::counted;
use crate::{Look, Outcome, safe};

/// So many tight margins are named.
const TIGHTEST: usize = 5;

pub(crate) const CAUTION: &str = "figures are computed, not measured: weigh the real trailer; \
                       gas and mains work belongs to qualified people";

/// What the closing words need of a run, gathered one inspection at a time so that none has to be kept.
#[derive(Debug, Clone)]
pub struct Summary {
    hold: Grade,
    tally: Tally,
    later: usize,
    tightest: Vec<Tight>,
}

/// A pass with little margin.
#[derive(Debug, Clone)]
struct Tight {
    share: f64,
    words: String,
}

impl Summary {
    /// Nothing looked at yet; builds are held at `hold` and above.
    pub fn new(hold: Grade) -> Self {
        Self { hold, tally: Tally::default(), later: 0, tightest: Vec::new() }
    }

    /// Adds one inspection.
    pub fn add(&mut self, inspection: &Inspection, look: &Look) {
        self.tally.add(inspection);
        self.later += inspection.later.len();
        for (reading, share) in inspection.margins() {
            self.note(share, || {
                let sentence = reading.sentence(look.units);
                format!(
                    "{}: {}: {sentence}; {} of the limit left",
                    inspection.spec,
                    reading.rule.id,
                    percent(share)
                )
            });
        }
    }

    /// Adds problems that belong to no spec: of a rulebook, a stock list or the call.
    pub fn add_problems(&mut self, problems: &[Problem]) {
        self.tally.add_problems(problems);
    }

    /// Keeps a pass among the tightest where it is one of them; ties keep the order of the run.
    fn note(&mut self, share: f64, words: impl FnOnce() -> String) {
        let place = self.tightest.partition_point(|held| held.share.total_cmp(&share) != Ordering::Greater);
        if place < TIGHTEST {
            self.tightest.insert(place, Tight { share, words: words() });
            self.tightest.truncate(TIGHTEST);
        }
    }

    /// The grade at or above which a build is stopped.
    pub const fn hold(&self) -> Grade {
        self.hold
    }

    /// The counts.
    pub const fn tally(&self) -> &Tally {
        &self.tally
    }

    /// What the run comes to.
    pub fn outcome(&self) -> Outcome {
        of_tally(&self.tally, self.hold)
    }

    /// The closing summary, in plain lines that can be read aloud. The outcome is the line before the last, the
    /// caution the last.
    pub fn text(&self) -> String {
        let mut text = String::new();
        let mut line = |words: &str| {
            let _ = writeln!(text, "{}", safe::line(words));
        };
        line(&looked_at(&self.tally));
        if self.tally.all_readings() > 0 {
            line(&found(&self.tally));
        }
        if self.later > 0 {
            line(&format!("not judged yet, for want of a later stage: {}", counted(self.later, "rule")));
        }
        if !self.tightest.is_empty() {
            line("tightest margins among the passes:");
        }
        for tight in &self.tightest {
            line(&format!("  {}", tight.words));
        }
        line(&outcome_words(&self.tally, self.hold));
        line(CAUTION);
        text
    }
}

fn looked_at(tally: &Tally) -> String {
    let specs = counted(tally.specs, "spec");
    let readings = match tally.all_readings() {
        0 => "nothing was judged".to_owned(),
        all => format!("took {}", counted(all, "reading")),
    };
    let problems = match tally.problems {
        0 => String::new(),
        all => {
            format!("; not judged: {} with {}", counted(tally.unreadable, "file"), counted(all, "problem"))
        }
    };
    let warnings = match tally.warnings {
        0 => String::new(),
        all => format!("; {}", counted(all, "warning")),
    };
    format!("looked at {specs}; {readings}{problems}{warnings}")
}

/// `8 passes, 2 faults (1 critical, 1 minor), 1 waived (1 major), 1 not applicable, ...`; what is nought is left out.
fn found(tally: &Tally) -> String {
    let verdicts = [
        (Verdict::Pass, "pass"),
        (Verdict::Fault, "fault"),
        (Verdict::NotApplicable, "not applicable"),
        (Verdict::CannotJudge, "cannot judge"),
        (Verdict::Broken, "broken"),
    ];
    let mut parts = Vec::new();
    for (verdict, noun) in verdicts {
        let count = tally.with(verdict);
        let counted = match verdict {
            Verdict::Pass | Verdict::Fault => counted(count, noun),
            _ if count == 0 => continue,
            _ => format!("{count} {noun}"),
        };
        if verdict.is_finding() {
            let at = |grade: &Grade| tally.readings.get(&(verdict, *grade)).copied();
            parts.push(counted + &by_grade(at));
        } else {
            parts.push(counted);
        }
        if verdict == Verdict::Fault {
            for (word, of) in [("waived", &tally.waived), ("in the backlog", &tally.backlog)] {
                let count: usize = of.values().sum();
                if count > 0 {
                    parts.push(format!("{count} {word}{}", by_grade(|grade| of.get(grade).copied())));
                }
            }
        }
    }
    format!("found {}", parts.join(", "))
}

fn by_grade(count: impl Fn(&Grade) -> Option<usize>) -> String {
    let grades = Grade::ALL.iter().rev();
    let counts = grades.filter_map(|grade| Some((count(grade)?, grade)));
    let parts: Vec<_> = counts.map(|(count, grade)| format!("{count} {grade}")).collect();
    if parts.is_empty() { String::new() } else { format!(" ({})", parts.join(", ")) }
}

/// A share in per cent to one place. A margin that is there is not shown as none.
fn percent(share: f64) -> String {
    let share = share.max(0.0);
    if share > 0.0 && share < 0.0005 {
        "less than 0.1 %".to_owned()
    } else {
        format!("{:.1} %", share * 100.0)
    }
}

fn outcome_words(tally: &Tally, hold: Grade) -> String {
    let faults = tally.at_or_above(Verdict::Fault, hold);
    let unsure = tally.at_or_above(Verdict::CannotJudge, hold) + tally.at_or_above(Verdict::Broken, hold);
    let unjudged = match unsure {
        0 => String::new(),
        count => format!("; {} there could not be judged", counted(count, "reading")),
    };
    match of_tally(tally, hold) {
        Outcome::Released if tally.all_readings() == 0 => "released: there was nothing to judge".to_owned(),
        Outcome::Released => {
            format!("released: no finding at or above {hold}{}", accepted_words(tally, hold))
        }
        Outcome::Held => format!("held by {} at or above {hold}{unjudged}", counted(faults, "fault")),
        Outcome::InputWrong => {
            let files = counted(tally.unreadable, "file");
            let besides = match faults + unsure {
                0 => String::new(),
                _ => format!("; besides, {} at or above {hold}{unjudged}", counted(faults, "fault")),
            };
            format!("input wrong: {files} with problems{besides}")
        }
        Outcome::CannotJudge => {
            format!("cannot judge: {} at or above {hold} could not be judged", counted(unsure, "reading"))
        }
    }
}

/// What would hold, had nobody accepted it.
fn accepted_words(tally: &Tally, hold: Grade) -> String {
    let of = |counts: &std::collections::BTreeMap<Grade, usize>| -> usize {
        counts.iter().filter(|(grade, _)| **grade >= hold).map(|(_, count)| count).sum()
    };
    let (waived, listed) = (of(&tally.waived), of(&tally.backlog));
    let parts = [(waived, "waived"), (listed, "in the backlog")].into_iter().filter(|(count, _)| *count > 0);
    let parts: Vec<String> = parts.map(|(count, word)| format!("{count} {word}")).collect();
    if parts.is_empty() { String::new() } else { format!(" but what is accepted: {}", parts.join(", ")) }
}

#[cfg(test)]
mod tests;
