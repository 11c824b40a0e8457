//! Where a finding points: at its subject, its limit, the items that weigh most in it, and its inputs.

use pintle_calc::{Part, Parts};
use pintle_finding::{Bound, Contribution, Input, Label, Reading, Role};
use pintle_quantity::Units;
use pintle_script::{Draft, Measured};
use pintle_source::Span;

/// Contributors that get a label.
const MOST_CONTRIBUTORS: usize = 3;
/// Inputs that get a label, for figures that are not sums over items.
const MOST_INPUTS: usize = 4;

/// Lists what a reading's value was worked out from, and which items weigh most in it.
pub(crate) fn explain(reading: &mut Reading, draft: &Draft, limits: &[&Measured]) {
    let measured = draft.value.iter().chain(limits.iter().copied());
    for input in measured.flat_map(|value| value.figure.trace.inputs()) {
        let span = Some(input.value.span);
        let input = Input { name: input.name(), value: input.value.value, span };
        if !reading.inputs.contains(&input) {
            reading.inputs.push(input);
        }
    }
    if let Some(sum) = draft.value.as_ref().and_then(|value| value.figure.trace.parts()) {
        reading.sum = Some(sum.measure.word());
        let mut contributions: Vec<Contribution> = sum
            .parts
            .into_iter()
            .map(|part| Contribution { name: part.name, amount: part.amount, span: part.span })
            .collect();
        contributions.sort_by(|left, right| right.amount.si().abs().total_cmp(&left.amount.si().abs()));
        reading.contributions = contributions;
    }
}

/// Sets labels on a fault.
pub(crate) fn point(reading: &mut Reading, draft: &Draft, limits: &[&Measured]) {
    let mut labels = Labels::default();
    // A finding stands in the spec: what a script marks in the stock list comes after its subject.
    let subject = reading.subject.span.map(|span| (span, of_subject(reading, draft)));
    let in_stock = |span: Span| subject.as_ref().is_some_and(|(subject, _)| subject.source != span.source);
    let marks_first = draft.marks.first().is_none_or(|mark| !in_stock(mark.span));
    let add_marks = |labels: &mut Labels| {
        for mark in &draft.marks {
            labels.add(mark.span, Role::Subject, mark.text.clone());
        }
    };
    if marks_first {
        add_marks(&mut labels);
    }
    if let Some((span, words)) = &subject {
        labels.add(*span, Role::Subject, words.clone());
    }
    if !marks_first {
        add_marks(&mut labels);
    }
    for limit in limits {
        for input in limit.figure.trace.plain_inputs().into_iter().take(MOST_INPUTS) {
            let shown = input.value.value.show(Units::AsWritten);
            labels.add(input.value.span, Role::Limit, format!("limit, by {}: {shown}", input.name()));
        }
        if let Some(limit) = limit.limit_used()
            && let Some((set_by, span)) = limit.set_by.as_ref().zip(limit.span)
        {
            labels.add(span, Role::Limit, format!("limit `{}` set here: {}", limit.name, set_by.reason));
        }
    }
    let trace = draft.value.as_ref().map(|value| &value.figure.trace);
    if let Some(sum) = trace.and_then(pintle_calc::Trace::parts) {
        let measure = sum.measure.word();
        for part in culprits(reading, sum) {
            let amount = part.amount.abs().show(Units::AsWritten);
            let words = if part.amount.si() < 0.0 {
                format!("{} takes {amount} off the {measure}", part.name)
            } else {
                format!("{} adds {amount} to the {measure}", part.name)
            };
            if let Some(span) = part.span {
                labels.add(span, Role::Contributor, words);
            }
            for input in part.inputs.iter().filter(|input| Some(input.value.span) != part.span) {
                let words = format!("{}: {}", input.name(), input.value.value.show(Units::AsWritten));
                labels.add(input.value.span, Role::Input, words);
            }
        }
    }
    for input in trace.map(pintle_calc::Trace::plain_inputs).unwrap_or_default().iter().take(MOST_INPUTS) {
        let words = format!("{}: {}", input.name(), input.value.value.show(Units::AsWritten));
        labels.add(input.value.span, Role::Input, words);
    }
    reading.labels = labels.0;
}

/// The words at the subject's place.
fn of_subject(reading: &Reading, draft: &Draft) -> String {
    match (reading.value, reading.what.as_str()) {
        (Some(value), what) => format!("{what} {}", value.show(Units::AsWritten)),
        (None, _) if draft.marks.is_empty() => "here".to_owned(),
        (None, _) => format!("in this {}", reading.subject.kind),
    }
}

/// The parts that push the value beyond its limit, worst first: for a value that is too great the largest, for one
/// that is too small those that take away.
fn culprits(reading: &Reading, sum: Parts) -> Vec<Part> {
    let mut parts = sum.parts;
    let too_small = match (&reading.bound, reading.value) {
        (Bound::AtLeast(_), _) => true,
        (Bound::Between(least, _), Some(value)) => value.si() < least.si(),
        _ => false,
    };
    let worth = |part: &Part| if too_small == sum.rises { -part.amount.si() } else { part.amount.si() };
    parts.retain(|part| worth(part) > 0.0);
    parts.sort_by(|left, right| worth(right).total_cmp(&worth(left)));
    parts.truncate(MOST_CONTRIBUTORS);
    parts
}

/// Labels with one entry a place; the first to speak of a place keeps it, and later words are added to it.
#[derive(Default)]
struct Labels(Vec<Label>);

impl Labels {
    fn add(&mut self, span: Span, role: Role, words: String) {
        match self.0.iter_mut().find(|label| label.span == span) {
            Some(label) if label.text.contains(&words) => {}
            Some(label) => {
                label.text.push_str("; ");
                label.text.push_str(&words);
            }
            None => self.0.push(Label::new(span, role, words)),
        }
    }
}
