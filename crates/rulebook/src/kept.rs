//! The rules that the tool itself keeps: on waivers, on limits that a shop loosens, and on the backlog.
//!
//! They judge a rulebook rather than a trailer, so they are no scripts; but they are rules in all else: each has an id,
//! a grade that a shop may set, and its grounds, and leaves a reading of whatever it judges. None of them can be waived.

use std::sync::Arc;

use pintle_finding::{Basis, Citation, Grade, Rule, Stage};

/// A rule of the tool's own, in force.
#[derive(Debug, Clone)]
pub struct Kept {
    /// What its readings share.
    pub rule: Arc<Rule>,
    /// What it judges, one at a time.
    pub judges: &'static str,
    which: Which,
}

/// Which of them it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Which {
    Expired,
    Unused,
    NotAllowed,
    Loosened,
    Lowered,
    PutOff,
    Stale,
}

/// A rule as it is built in.
struct BuiltIn {
    which: Which,
    id: &'static str,
    title: &'static str,
    why: &'static str,
    judges: &'static str,
    grade: Grade,
    says: &'static str,
}

const ALL: [BuiltIn; 7] = [
    BuiltIn {
        which: Which::Expired,
        id: "record/waiver-expired",
        title: "A waiver has run out",
        why: "A fault was accepted until a day that is past; nobody accepts it any more, and it counts again.",
        judges: "waiver",
        grade: Grade::Minor,
        says: "a permission to depart from what is asked holds for a stated time, and ends with it",
    },
    BuiltIn {
        which: Which::Unused,
        id: "record/waiver-unused",
        title: "A waiver of a fault that is not there",
        why: "It would silently accept the fault when it comes back, or it names something that is not there.",
        judges: "waiver",
        grade: Grade::Minor,
        says: "what has been settled is taken off the list of open departures",
    },
    BuiltIn {
        which: Which::NotAllowed,
        id: "record/waiver-not-allowed",
        title: "A waiver of what cannot be waived",
        why: "Faults that can cost a life are mended, not accepted; and what is not built yet cannot be conceded.",
        judges: "waiver",
        grade: Grade::Major,
        says: "a deviation is permitted before a thing is made, a concession given for what was made",
    },
    BuiltIn {
        which: Which::Loosened,
        id: "record/limit-loosened",
        title: "A limit is looser than it was",
        why: "What the rule, or the company, holds for a fault passes in this shop: whoever reviews a build must know.",
        judges: "limit that a shop sets",
        grade: Grade::Advice,
        says: "a change of an acceptance limit is shown to whoever relies on it",
    },
    BuiltIn {
        which: Which::Lowered,
        id: "record/grade-lowered",
        title: "A grade is lower than it was",
        why: "A fault that would have stopped a build may no longer do so: whoever reviews a build must know.",
        judges: "grade that a shop sets",
        grade: Grade::Advice,
        says: "a change of a defect's class is shown to whoever relies on it",
    },
    BuiltIn {
        which: Which::PutOff,
        id: "record/stage-put-off",
        title: "A rule is judged later than it was",
        why: "Until its stage comes the rule says nothing: whoever reviews a build must know.",
        judges: "stage that a shop sets",
        grade: Grade::Advice,
        says: "a check that is put off is shown to whoever relies on it",
    },
    BuiltIn {
        which: Which::Stale,
        id: "record/backlog-stale",
        title: "The backlog lists what is no longer found",
        why: "As long as it is listed the fault may come back unseen; the backlog can only shrink.",
        judges: "entry of the backlog",
        grade: Grade::Major,
        says: "a list of known faults is kept to those that are there",
    },
];

/// The tool's own rules, with the grades that they have themselves.
pub(crate) fn all() -> Vec<Kept> {
    ALL.iter().map(BuiltIn::kept).collect()
}

impl BuiltIn {
    fn kept(&self) -> Kept {
        let mut citations = vec![Citation {
            basis: Basis::CommonPractice,
            text: String::new(),
            says: self.says.to_owned(),
            guideline: None,
        }];
        if matches!(self.which, Which::Expired | Which::NotAllowed) {
            citations.push(Citation {
                basis: Basis::Memory,
                text: "ISO 9000, terms concession and deviation permit".to_owned(),
                says:
                    "the one is given after a thing is made, the other before, each for a limited use or time"
                        .to_owned(),
                guideline: None,
            });
        }
        let rule = Rule {
            id: self.id.to_owned(),
            title: self.title.to_owned(),
            why: self.why.to_owned(),
            judges: self.judges.to_owned(),
            grade: self.grade,
            grade_set_by: None,
            from: Stage::Quote,
            from_set_by: None,
            citations,
            kept: true,
        };
        Kept { rule: Arc::new(rule), judges: self.judges, which: self.which }
    }
}

impl Kept {
    /// The grade that the tool gives it.
    pub fn own_grade(&self) -> Grade {
        ALL.iter().find(|built_in| built_in.which == self.which).map_or(Grade::Minor, |found| found.grade)
    }

    pub(crate) fn is(&self, which: Which) -> bool {
        self.which == which
    }
}
