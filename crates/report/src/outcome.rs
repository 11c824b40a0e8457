//! Whether the builds may go, in one word and one exit code.

use pintle_finding::{Grade, Inspection, Tally, Verdict};

/// What an inspection comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Nothing at or above the hold grade.
    Released,
    /// A fault at or above the hold grade.
    Held,
    /// A file could not be read as what it should be.
    InputWrong,
    /// Something at or above the hold grade could not be judged, and nothing else holds.
    CannotJudge,
}

impl Outcome {
    /// The exit code: 0 released, 1 held, 2 input wrong, 3 cannot judge.
    pub const fn code(self) -> u8 {
        match self {
            Self::Released => 0,
            Self::Held => 1,
            Self::InputWrong => 2,
            Self::CannotJudge => 3,
        }
    }

    /// The words for it in every output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Released => "released",
            Self::Held => "held",
            Self::InputWrong => "input wrong",
            Self::CannotJudge => "cannot judge",
        }
    }
}

/// What these inspections come to when builds are held at `hold` and above.
///
/// ```
/// use pintle_finding::{Grade, Inspection, Problem};
/// use pintle_report::{Outcome, outcome};
///
/// let unreadable = Inspection { problems: vec![Problem::new("syntax", "no such key")], ..Inspection::default() };
/// assert_eq!(outcome(&[unreadable], Grade::Major), Outcome::InputWrong);
/// ```
pub fn outcome(inspections: &[Inspection], hold: Grade) -> Outcome {
    of_tally(&tally(inspections), hold)
}

pub(crate) fn tally(inspections: &[Inspection]) -> Tally {
    let mut tally = Tally::default();
    for inspection in inspections {
        tally.add(inspection);
    }
    tally
}

pub(crate) fn of_tally(tally: &Tally, hold: Grade) -> Outcome {
    let holds = |verdict| tally.at_or_above(verdict, hold) > 0;
    if tally.problems > 0 {
        Outcome::InputWrong
    } else if holds(Verdict::Fault) {
        Outcome::Held
    } else if holds(Verdict::CannotJudge) || holds(Verdict::Broken) {
        Outcome::CannotJudge
    } else {
        Outcome::Released
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{Shop, reading};
    use pintle_finding::Problem;

    fn of(verdicts: &[(Verdict, Grade)]) -> Inspection {
        let readings = verdicts.iter().map(|(verdict, grade)| reading(*verdict, *grade)).collect();
        Inspection { readings, ..Inspection::default() }
    }

    #[test]
    fn wrong_input_goes_before_held_and_held_before_cannot_judge() {
        let fault = of(&[(Verdict::Fault, Grade::Critical), (Verdict::CannotJudge, Grade::Critical)]);
        let unsure = of(&[(Verdict::CannotJudge, Grade::Major), (Verdict::Pass, Grade::Critical)]);
        let broken = of(&[(Verdict::Broken, Grade::Critical)]);
        let wrong = Inspection { problems: vec![Problem::new("syntax", "a")], ..Inspection::default() };
        let at = |inspections: &[Inspection]| outcome(inspections, Grade::Major);
        assert_eq!(at(&[fault.clone(), unsure.clone(), wrong]), Outcome::InputWrong);
        assert_eq!(at(&[unsure.clone(), fault]), Outcome::Held);
        assert_eq!(at(&[unsure]), Outcome::CannotJudge);
        assert_eq!(at(&[broken]), Outcome::CannotJudge);
    }

    #[test]
    fn only_what_reaches_the_hold_grade_holds() {
        let minor = of(&[
            (Verdict::Fault, Grade::Minor),
            (Verdict::CannotJudge, Grade::Minor),
            (Verdict::Broken, Grade::Advice),
            (Verdict::NotApplicable, Grade::Critical),
            (Verdict::Pass, Grade::Critical),
        ]);
        let inspections = [minor];
        assert_eq!(outcome(&inspections, Grade::Major), Outcome::Released);
        assert_eq!(outcome(&inspections, Grade::Minor), Outcome::Held);
        assert_eq!(outcome(&[], Grade::Advice), Outcome::Released);
    }

    #[test]
    fn the_exit_codes_and_words_are_the_published_ones() {
        let all = [Outcome::Released, Outcome::Held, Outcome::InputWrong, Outcome::CannotJudge];
        let codes = all.map(|outcome| (outcome.code(), outcome.word()));
        assert_eq!(codes, [(0, "released"), (1, "held"), (2, "input wrong"), (3, "cannot judge")]);
    }

    #[test]
    fn the_sample_shop_is_held() {
        assert_eq!(outcome(&[Shop::new().inspection], Grade::Major), Outcome::Held);
    }
}
