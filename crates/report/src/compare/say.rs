//! The words that the outputs of a comparison share.

use std::collections::BTreeMap;

use pintle_finding::{Bound, Reading, Verdict};
use pintle_quantity::{Quantity, Units, show_apart};
use pintle_source::Span;

use super::{
    Changes, Comparison, Fate, FieldChange, FigureChange, MarginChange, Matched, Move, News, PartChange,
    ReadingChange, RuleChange, Standing, Tolerance, Worth,
};
use crate::marks::Marks;
use crate::words::{self, counted};

/// Now less before, in the unit that is written now; none where the two measure different things.
pub(super) fn difference(old: Quantity, new: Quantity) -> Option<Quantity> {
    new.try_sub(old).ok()
}

/// A difference with its sign. That of two shares is in points: 12 % less 10 % is 2 points.
pub(super) fn signed(difference: Quantity, units: Units) -> String {
    let shown = apart_from_share(difference.show(units));
    let rises = difference.compare(difference.scaled(0.0)) == Ok(std::cmp::Ordering::Greater);
    if rises { format!("+{shown}") } else { shown }
}

/// Per cent as points.
fn apart_from_share(shown: String) -> String {
    match shown.strip_suffix(" %") {
        Some(number) if number.trim_start_matches('-') == "1" => format!("{number} point"),
        Some(number) => format!("{number} points"),
        None => shown,
    }
}

/// The quantity in whose unit a reading's sentence is written: its limit, or its value where that has no unit.
fn lead(reading: &Reading) -> Option<Quantity> {
    let limit = match &reading.bound {
        Bound::AtLeast(limit) | Bound::AtMost(limit) | Bound::Equal(limit) | Bound::Between(limit, _) => {
            Some(*limit)
        }
        Bound::Holds(_) | Bound::None => None,
    };
    limit.filter(|limit| limit.unit().is_some()).or(reading.value)
}

/// A quantity in the unit that another is written in.
fn in_unit_of(quantity: Quantity, lead: Option<Quantity>) -> Quantity {
    lead.map_or(quantity, |lead| quantity.with_unit_of(lead))
}

/// The margin before, now, and the difference, in the unit of the reading's sentence; told apart where they differ.
/// Margins are differences themselves.
fn margins(change: &ReadingChange, margin: &MarginChange, units: Units) -> [String; 3] {
    let lead = change.latest().and_then(lead);
    let of = |quantity| in_unit_of(quantity, lead);
    let (old, new) = show_apart(of(margin.old.amount), of(margin.new.amount), units);
    [apart_from_share(old), apart_from_share(new), signed(of(margin.by), units)]
}

/// `margin from 28 lb to -12 lb (-40 lb)`.
fn margin(change: &ReadingChange, moved: &MarginChange, units: Units) -> String {
    let [old, new, by] = margins(change, moved, units);
    if old == new { format!("margin {new} as before") } else { format!("margin from {old} to {new} ({by})") }
}

/// The margin before and now, and the difference; empty where there is none.
pub(super) fn margin_cells(change: &ReadingChange, units: Units) -> [String; 3] {
    change.margin.as_ref().map_or_else(Default::default, |margin| margins(change, margin, units))
}

/// What was measured, of what, and by which rule.
pub(super) fn measured(reading: &Reading) -> String {
    let what = if reading.what.is_empty() { reading.rule.title.as_str() } else { reading.what.as_str() };
    let of = match reading.subject.called() {
        name if name.is_empty() => name,
        name => format!(" of {name}"),
    };
    format!("{what}{of} ({})", reading.rule.id)
}

/// How much of the limit is left, in per cent; empty where there is no telling.
pub(super) fn share_left(reading: &Reading) -> String {
    let share = reading.margin().and_then(|margin| margin.share).filter(|share| share.is_finite());
    share.map_or(String::new(), |share| Quantity::share(share).show(Units::AsWritten))
}

/// What a list of readings with one sort of news is headed with.
pub(super) const fn heading(news: News) -> &'static str {
    match news {
        News::NewFault => "new faults",
        News::Unjudged => "cannot be judged now",
        News::Worse => "faults that are worse",
        News::Altered => "findings that are not what they were",
        News::Better => "faults that are less bad",
        News::Uncompared => "findings with no other version to compare with",
        News::Gone => "findings no longer there",
        News::Moved => "margins that moved",
        News::Otherwise => "readings taken for the first time, or no longer",
    }
}

/// The sorts of news that are told finding by finding, the worst first.
pub(super) const TOLD: [News; 7] =
    [News::NewFault, News::Unjudged, News::Worse, News::Altered, News::Better, News::Uncompared, News::Gone];

impl Comparison {
    /// Where a reading stands, such as `specs/a.toml:12:8`; the spec's name where it has no place.
    pub(super) fn place_of(&self, change: &ReadingChange) -> String {
        let Some(reading) = change.latest() else { return self.name().to_owned() };
        let of_new = change.new.is_some();
        let marked = Marks::of_reading(reading).shown.first().map(|label| label.span);
        let named = || {
            let head = if of_new { self.new.as_ref() } else { self.old.as_ref() };
            head.map_or(self.name(), |head| &head.spec).to_owned()
        };
        self.place(marked, of_new).unwrap_or_else(named)
    }

    /// A place in the files of one of the versions.
    pub(super) fn place(&self, span: Option<Span>, of_new: bool) -> Option<String> {
        Some(words::place(span?, self.sources(of_new)?))
    }

    /// What the reading is not, or is no longer: the other version of it.
    pub(super) fn other_words(&self, change: &ReadingChange, units: Units) -> String {
        let mut parts = match (&change.old, &change.new) {
            (old, Some(new)) if change.news != News::Gone => vec![match old {
                Some(old) => format!("before: {}", verdict_words(old, Some(new), units, "could not")),
                None if change.news == News::Uncompared => "before: not known".to_owned(),
                None => "before: not taken".to_owned(),
            }],
            (_, Some(new)) => {
                vec![format!("now: {}", verdict_words(new, change.old.as_ref(), units, "cannot"))]
            }
            (_, None) if change.news == News::Uncompared => vec!["now: not known".to_owned()],
            (Some(old), None) => vec![self.untaken(old)],
            (None, None) => Vec::new(),
        };
        parts.extend(change.margin.as_ref().map(|moved| margin(change, moved, units)));
        parts.join("; ")
    }

    fn untaken(&self, old: &Reading) -> String {
        let later = self.new.as_ref().is_some_and(|head| head.later.contains(&old.rule.id));
        match self.standing {
            _ if later => "now: the rule waits for a later stage".to_owned(),
            Standing::Removed => "now: the spec is no longer there".to_owned(),
            _ => "now: not taken; the rule, or what it judges, is no longer there".to_owned(),
        }
    }
}

/// What the spec is, and which version it is compared with.
pub(super) fn title(spec: &Comparison) -> (String, String) {
    let Some(head) = spec.new.as_ref().or(spec.old.as_ref()) else { return Default::default() };
    let build =
        if head.number.is_empty() { String::new() } else { format!(": {}, {}", head.number, head.title) };
    (format!("{}{build}", head.spec), before(spec, str::to_owned))
}

/// Which version a spec is compared with, and how it was found.
pub(super) fn before(spec: &Comparison, named: impl Fn(&str) -> String) -> String {
    let found = match spec.matched {
        Matched::Number => "; its path is gone, it was found by its build number",
        Matched::Call | Matched::Path => "",
    };
    match (&spec.old, &spec.new) {
        (Some(old), Some(_)) => format!("before: {}{found}", named(&old.spec)),
        (None, _) => "a new spec".to_owned(),
        (_, None) => "no longer there".to_owned(),
    }
}

/// How a reading came out, in a few words, beside the other version of it.
fn verdict_words(reading: &Reading, beside: Option<&Reading>, units: Units, could: &str) -> String {
    let leads = beside.and_then(lead);
    let value = reading.value.map(|value| {
        let value = in_unit_of(value, leads);
        match beside.and_then(|other| other.value) {
            Some(other) if other.dimension() == value.dimension() => {
                show_apart(value, in_unit_of(other, leads), units).0
            }
            _ => value.show(units),
        }
    });
    let limit =
        beside.filter(|other| other.bound != reading.bound).and_then(|_| bound(reading, leads, units));
    let at = match (value, limit) {
        (Some(value), Some(limit)) => format!(" with {value}, {limit}"),
        (Some(value), None) => format!(" with {value}"),
        (None, Some(limit)) => format!(": {limit}"),
        (None, None) => String::new(),
    };
    let because = |reason: &Option<String>| reason.as_ref().map_or(String::new(), |why| format!(": {why}"));
    let words = match reading.verdict {
        Verdict::Pass => format!("pass{at}"),
        Verdict::Fault => format!("fault{at}"),
        Verdict::NotApplicable => format!("does not apply{}", because(&reading.reason)),
        Verdict::CannotJudge => format!("{could} be judged{}", because(&reading.reason)),
        Verdict::Broken => format!("the rule failed{}", because(&reading.reason)),
    };
    let words = match beside {
        Some(other)
            if other.subject.kind != reading.subject.kind || other.subject.name != reading.subject.name =>
        {
            format!("{words}, of {}", reading.subject.called())
        }
        _ => words,
    };
    let accepted = |reading: &Reading| reading.accepted.as_ref().map(pintle_finding::Accepted::word);
    let words = match (accepted(reading), beside.and_then(accepted)) {
        (now, then) if now == then => words,
        (Some(word), _) => format!("{word}, {words}"),
        (None, _) => format!("accepted by nobody, {words}"),
    };
    match beside {
        Some(other) if other.grade() != reading.grade() => format!("{}, {words}", reading.grade()),
        _ => words,
    }
}

fn bound(reading: &Reading, lead: Option<Quantity>, units: Units) -> Option<String> {
    let shown = |limit: &Quantity| in_unit_of(*limit, lead).show(units);
    let words = match &reading.bound {
        Bound::AtLeast(limit) => format!("at least {}", shown(limit)),
        Bound::AtMost(limit) => format!("at most {}", shown(limit)),
        Bound::Between(least, most) => format!("within {} to {}", shown(least), shown(most)),
        Bound::Equal(to) => format!("equal to {}", shown(to)),
        Bound::Holds(condition) => condition.clone(),
        Bound::None => return None,
    };
    Some(words)
}

/// A field before and now, and the difference; `not given` where it is not.
pub(super) fn field(change: &FieldChange, units: Units) -> [String; 3] {
    let absent = || "not given".to_owned();
    let (old, new) = match (&change.old, &change.new) {
        (Some(old), Some(new)) => Worth::show_both(old, new, units),
        (old, new) => (
            old.as_ref().map_or_else(absent, |old| old.show(units)),
            new.as_ref().map_or_else(absent, |new| new.show(units)),
        ),
    };
    [old, new, change.by.map_or(String::new(), |by| signed(by, units))]
}

/// A weight before and now, and the difference; `not known` where it is not.
pub(super) fn figure(change: &FigureChange, units: Units) -> [String; 3] {
    let unknown = |_: &String| "not known".to_owned();
    let (old, new) = match (&change.old, &change.new) {
        (Ok(old), Ok(new)) => show_apart(*old, *new, units),
        (old, new) => (
            old.as_ref().map_or_else(unknown, |old| old.show(units)),
            new.as_ref().map_or_else(unknown, |new| new.show(units)),
        ),
    };
    [old, new, change.by.map_or(String::new(), |by| signed(by, units))]
}

/// `37 in aft, 3 in down`.
pub(super) fn moved(moves: &[Move], units: Units) -> String {
    let one = |step: &Move| {
        let rises = step.by.si() > 0.0;
        format!("{} {}", step.by.abs().show(units), step.axis.towards(rises))
    };
    moves.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// `item `galley`: moved 37 in aft`, without its fields.
pub(super) fn part(change: &PartChange, units: Units) -> String {
    match change.fate {
        Fate::Added | Fate::Removed => format!("{}: {}", change.what, change.fate.word()),
        Fate::Changed if change.moves.is_empty() => format!("{}: restated", change.what),
        Fate::Changed => format!("{}: moved {}", change.what, moved(&change.moves, units)),
    }
}

/// Parts that say nothing else and moved along with something, by how they moved, in the order of the spec.
pub(super) fn carried(parts: &[PartChange], units: Units) -> Vec<(String, Vec<&PartChange>)> {
    let mut groups: Vec<(String, Vec<&PartChange>)> = Vec::new();
    let mut index: BTreeMap<String, usize> = BTreeMap::new();
    for part in parts.iter().filter(|part| is_carried(part)) {
        let words = moved(&part.moves, units);
        let next = groups.len();
        let at = *index.entry(words.clone()).or_insert(next);
        match groups.get_mut(at) {
            Some((_, held)) => held.push(part),
            None => groups.push((words, vec![part])),
        }
    }
    groups
}

/// Whether a part moved only because what it is measured from did.
pub(super) fn is_carried(part: &PartChange) -> bool {
    part.fate == Fate::Changed && part.fields.is_empty()
}

/// What changed about a rulebook, in a line.
pub(super) fn rule(change: &RuleChange, units: Units) -> String {
    match change {
        RuleChange::Hold(old, new) => format!("hold: from {old} to {new}"),
        RuleChange::Added(id) => format!("{id}: added"),
        RuleChange::Removed(id) => format!("{id}: removed"),
        RuleChange::Renamed(was, id) => format!("{id}: renamed, before {was}"),
        RuleChange::Grade(id, old, new) => format!("{id}: grade from {old} to {new}"),
        RuleChange::From(id, old, new) => format!("{id}: judged from stage {new} on, before from {old} on"),
        RuleChange::Limit(id, name, Some(old), Some(new)) => {
            let (was, is) = show_apart(*old, *new, units);
            let by = difference(*old, *new).map_or(String::new(), |by| format!(" ({})", signed(by, units)));
            format!("{id}: limit `{name}` from {was} to {is}{by}")
        }
        RuleChange::Limit(id, name, old, new) => {
            let fate = if new.is_some() { "added" } else { "removed" };
            let value = new.or(*old).map_or(String::new(), |value| format!(", {}", value.show(units)));
            format!("{id}: limit `{name}` {fate}{value}")
        }
        RuleChange::Judgement(id) => format!("{id}: judges in another way"),
        RuleChange::Tolerance(name, old, new) => {
            let shown = |tolerance: &Option<Tolerance>| {
                tolerance.as_ref().map_or_else(|| "not given".to_owned(), |one| one.show(units))
            };
            format!("tolerance of `{name}`: from {} to {}", shown(old), shown(new))
        }
        RuleChange::Waiver(waiver) => waiver.sentence(),
    }
}

/// `specs/pintle.toml, before: HEAD~1:specs/pintle.toml`.
pub(super) fn rulebook(old: Option<&str>, new: Option<&str>) -> String {
    let named = |name: Option<&str>| name.unwrap_or("the built-in packs alone").to_owned();
    format!("{}, before: {}", named(new), named(old))
}

/// `looked at 3 specs: 1 changed, 1 new, 1 as before`.
pub(super) fn looked_at(changes: &Changes) -> String {
    let specs = &changes.specs;
    let count = |wanted: &dyn Fn(&Comparison) -> bool| specs.iter().filter(|spec| wanted(spec)).count();
    let both = |spec: &Comparison| spec.standing == Standing::Both;
    let rows = [
        (count(&|spec| spec.counts.problems > 0), "that cannot be read"),
        (count(&|spec| both(spec) && !spec.is_same()), "changed"),
        (count(&|spec| spec.standing == Standing::Added), "new"),
        (count(&|spec| spec.standing == Standing::Removed), "no longer there"),
        (count(&|spec| both(spec) && spec.is_same()), "as before"),
    ];
    let said = rows.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}"));
    let said = said.collect::<Vec<_>>().join(", ");
    let separator = if said.is_empty() { "" } else { ": " };
    format!("looked at {}{separator}{said}", counted(specs.len(), "spec"))
}

/// What is as it was, in a line; empty when nothing is.
pub(super) fn unchanged(comparison: &Comparison) -> String {
    let counts = &comparison.counts;
    let rows =
        [(counts.same_parts, "part"), (counts.same_figures, "weight"), (counts.same_readings, "reading")];
    let said = rows.iter().filter(|(count, _)| *count > 0).map(|(count, what)| counted(*count, what));
    let said = said.collect::<Vec<_>>().join(", ");
    if said.is_empty() { said } else { format!("as before: {said}") }
}

/// The words for readings that are no finding in either version and come or go.
pub(super) fn come_and_gone(comparison: &Comparison) -> Option<String> {
    let otherwise = || comparison.readings.iter().filter(|change| change.news == News::Otherwise);
    let come = otherwise().filter(|change| change.old.is_none()).count();
    let gone = otherwise().filter(|change| change.new.is_none()).count();
    let turned = otherwise().count() - come - gone;
    let rows = [
        (come, "taken for the first time"),
        (gone, "no longer taken"),
        (turned, "between pass and not applicable"),
    ];
    let said = rows.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}"));
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| format!("other readings: {}", said.join(", ")))
}
