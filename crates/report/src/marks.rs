//! Which labels of a finding are shown, and in which order.

use pintle_finding::{Label, Problem, Reading, Role, Verdict};

/// The most labels one finding shows; the JSON output always has them all.
pub(crate) const MOST: usize = 8;

/// The labels of one finding or problem, the chief one first.
#[derive(Debug)]
pub(crate) struct Marks {
    /// Labels to show, at most [`MOST`].
    pub(crate) shown: Vec<Label>,
    /// How many more there are.
    pub(crate) more: usize,
}

impl Marks {
    /// Those of a reading. One that has none is marked at its subject.
    pub(crate) fn of_reading(reading: &Reading) -> Self {
        let mut labels = reading.labels.clone();
        if labels.is_empty()
            && let Some(span) = reading.subject.span
        {
            labels.push(Label::new(span, Role::Subject, ""));
        }
        labels.sort_by_key(|label| rank(reading.verdict, label.role));
        Self::first_of(labels)
    }

    /// Those of a problem, as they stand.
    pub(crate) fn of_problem(problem: &Problem) -> Self {
        Self::first_of(problem.labels.clone())
    }

    fn first_of(mut labels: Vec<Label>) -> Self {
        let more = labels.len().saturating_sub(MOST);
        labels.truncate(MOST);
        Self { shown: labels, more }
    }

    /// Says that there are more.
    pub(crate) fn more_words(&self) -> Option<String> {
        match self.more {
            0 => None,
            1 => Some("and 1 more place, which the JSON output lists".to_owned()),
            more => Some(format!("and {more} more places, which the JSON output lists")),
        }
    }
}

/// What is missing is looked for first where something is missing, the script where the script failed, else the
/// subject. Inputs and contributors come last, in the order they were given.
fn rank(verdict: Verdict, role: Role) -> u8 {
    match (verdict, role) {
        (Verdict::CannotJudge, Role::Missing) | (Verdict::Broken, Role::Script) => 0,
        (_, Role::Subject) => 1,
        (_, Role::Missing) => 2,
        (_, Role::Limit) => 3,
        (_, Role::Script) => 4,
        (_, Role::Input | Role::Contributor) => 5,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::Shop;

    fn roles(reading: &Reading) -> Vec<Role> {
        Marks::of_reading(reading).shown.iter().map(|label| label.role).collect()
    }

    #[test]
    fn the_chief_label_hangs_on_the_verdict() {
        let mut reading = Shop::new().light_tongue();
        let span = reading.labels[0].span;
        let all = [Role::Contributor, Role::Input, Role::Script, Role::Limit, Role::Missing, Role::Subject];
        reading.labels = all.map(|role| Label::new(span, role, "")).to_vec();
        let first = |verdict| roles(&Reading { verdict, ..reading.clone() })[0];
        assert_eq!(first(Verdict::Fault), Role::Subject);
        assert_eq!(first(Verdict::CannotJudge), Role::Missing);
        assert_eq!(first(Verdict::Broken), Role::Script);
        assert_eq!(roles(&reading)[4..], [Role::Contributor, Role::Input], "the given order is kept");
    }

    #[test]
    fn a_reading_without_labels_is_marked_at_its_subject() {
        let mut reading = Shop::new().light_tongue();
        reading.labels.clear();
        let marks = Marks::of_reading(&reading);
        assert_eq!(marks.shown[0].role, Role::Subject);
        assert_eq!(Some(marks.shown[0].span), reading.subject.span);
    }

    #[test]
    fn what_is_left_out_is_counted() {
        let mut reading = Shop::new().light_tongue();
        reading.labels = vec![reading.labels[0].clone(); MOST + 1];
        let words = |reading: &Reading| Marks::of_reading(reading).more_words();
        assert_eq!(words(&reading).as_deref(), Some("and 1 more place, which the JSON output lists"));
        reading.labels.extend_from_within(..2);
        assert_eq!(words(&reading).as_deref(), Some("and 3 more places, which the JSON output lists"));
        reading.labels.truncate(MOST);
        assert_eq!(words(&reading), None);
    }
}
