//! Remedies that were tried, for people: below each finding, one line each, or as a list of a spec's own.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use pintle_finding::{Bound, Cleared, Inspection, Reading, Remedies, Remedy, Sought};
use pintle_quantity::{Units, show_apart};
use unicode_width::UnicodeWidthStr;

use crate::words::counted;
use crate::{Look, safe};

/// So many remedies stand below a finding; the rest is counted, and `pintle mend` lists all.
const MOST_BELOW: usize = 5;
/// So many other findings that a remedy clears are named.
const MOST_NAMED: usize = 3;

/// What was tried for one finding, to stand below it: the remedies, cheapest first, or why there is none. Empty where
/// nothing was asked for or the finding is no fault.
///
/// A remedy is described once; below later findings only its number stands, and what it does there.
pub(crate) fn below(
    inspection: &Inspection,
    number: usize,
    described: &mut BTreeSet<usize>,
    look: Look,
) -> String {
    let Some((remedies, sought, reading)) = of(inspection, number) else { return String::new() };
    let mut text = String::new();
    let clearing = remedies.clearing(number);
    if clearing.is_empty() {
        text.push_str(&wrapped("no remedy found", 2, 2, look));
    } else {
        text.push_str(&wrapped("remedies, each tried on the whole spec:", 2, 2, look));
    }
    for (at, remedy, cleared) in clearing.iter().take(MOST_BELOW) {
        if !described.insert(*at) {
            let words = format!("{at:>3}  (above) {}", outcome(reading, cleared, look.units));
            text.push_str(&wrapped(&words, 0, 5, look));
            continue;
        }
        text.push_str(&entry(
            *at,
            remedy,
            &[&outcome(reading, cleared, look.units), &others(inspection, remedy, number)],
            look,
        ));
    }
    if clearing.len() > MOST_BELOW {
        let more = format!("{} more; `pintle mend` lists all", clearing.len() - MOST_BELOW);
        text.push_str(&wrapped(&more, 5, 5, look));
    }
    // Of a finding that others' remedies clear, nothing need be said of its own.
    if clearing.is_empty() || sought.tried > 0 {
        text.push_str(&wrapped(&trials(sought), 2, 2, look));
    }
    text
}

/// What was tried for one finding, one line for each remedy, or one that says why there is none.
pub(crate) fn lines(inspection: &Inspection, number: usize, look: Look) -> Vec<String> {
    let Some((remedies, sought, reading)) = of(inspection, number) else { return Vec::new() };
    let mut lines: Vec<String> = remedies
        .clearing(number)
        .into_iter()
        .map(|(at, remedy, cleared)| {
            let mut parts = vec![format!("remedy {at}: {}: {}", reading.rule.id, remedy.words())];
            parts.push(outcome(reading, cleared, look.units));
            parts.push(others(inspection, remedy, number));
            parts.extend(beside(remedy));
            parts.retain(|part| !part.is_empty());
            parts.join("; ").replace('\u{a0}', " ")
        })
        .collect();
    if lines.is_empty() {
        lines.push(format!("no remedy: {}: {}", reading.rule.id, trials(sought)));
    }
    lines
}

/// All remedies of a spec, each with every finding that it clears, and the faults for which none was found.
pub fn list(inspection: &Inspection, look: &Look) -> String {
    let mut text = String::new();
    let Some(remedies) = &inspection.remedies else { return text };
    for (at, remedy) in remedies.all.iter().enumerate() {
        let cleared = remedy.clears.iter().filter_map(|cleared| {
            let reading = inspection.readings.get(cleared.reading)?;
            Some(format!("clears {}: {}", reading.rule.id, outcome(reading, cleared, look.units)))
        });
        let cleared: Vec<String> = cleared.collect();
        let notes: Vec<&String> = cleared.iter().collect();
        text.push_str(&entry(at + 1, remedy, &notes, *look));
    }
    for sought in &remedies.sought {
        if remedies.clearing(sought.reading).is_empty()
            && let Some(reading) = inspection.readings.get(sought.reading)
        {
            let words = format!(
                "no remedy for {}: {}; {}",
                reading.rule.id,
                reading.sentence(look.units),
                trials(sought)
            );
            text.push_str(&wrapped(&words, 0, 5, *look));
        }
    }
    text
}

fn of(inspection: &Inspection, number: usize) -> Option<(&Remedies, &Sought, &Reading)> {
    let remedies = inspection.remedies.as_ref()?;
    Some((remedies, remedies.of(number)?, inspection.readings.get(number)?))
}

/// A number, what to do, and what comes of it.
fn entry(number: usize, remedy: &Remedy, notes: &[&String], look: Look) -> String {
    let mut text = String::new();
    for (at, step) in remedy.steps.iter().enumerate() {
        let lead = if at == 0 { format!("{number:>3}") } else { "and".to_owned() };
        text.push_str(&wrapped(&format!("{lead}  {step}"), 0, 5, look));
    }
    for note in notes.iter().filter(|note| !note.is_empty()) {
        text.push_str(&wrapped(note, 5, 7, look));
    }
    for told in beside(remedy) {
        text.push_str(&wrapped(&told, 5, 7, look));
    }
    text
}

/// How a reading stands before and after: "tongue share 4.7 %, then 10.3 % (at least 10 %)".
fn outcome(reading: &Reading, cleared: &Cleared, units: Units) -> String {
    let tight = if cleared.tight { ", less inside than it could be off by" } else { "" };
    format!("{}{tight}", compared(reading, cleared, units))
}

fn compared(reading: &Reading, cleared: &Cleared, units: Units) -> String {
    if let Some(why) = &cleared.not_applicable {
        return format!("the rule then does not apply: {why}");
    }
    let subject = match reading.subject.called() {
        name if name.is_empty() => name,
        name => format!(" of {name}"),
    };
    let (Some(before), Some(after)) = (reading.value, cleared.value) else {
        let holds = cleared.holds.as_deref().unwrap_or("the rule finds nothing wrong");
        return match subject.strip_prefix(" of ") {
            Some(subject) => format!("{subject}: then {holds}"),
            None => format!("then {holds}"),
        };
    };
    let limit = |words: &str, limit| {
        let (before, _) = show_apart(before, limit, units);
        let (after, shown) = show_apart(after, limit, units);
        let [before, after, shown] = [before, after, shown].map(|shown| together(&shown));
        format!("{}{subject} {before}, then {after} ({words} {shown})", reading.what)
    };
    match &reading.bound {
        Bound::AtLeast(least) => limit("at least", *least),
        Bound::AtMost(most) => limit("at most", *most),
        Bound::Equal(to) => limit("equal to", *to),
        Bound::Between(..) | Bound::Holds(_) | Bound::None => {
            let [before, after] = [before, after].map(|value| together(&value.show(units)));
            format!("{}{subject} {before}, then {after}", reading.what)
        }
    }
}

/// What stands beside the good that a remedy does.
fn beside(remedy: &Remedy) -> Vec<String> {
    let leaves = remedy.leaves.iter().map(|left| format!("leaves, no worse than before: {left}"));
    let worsens = remedy.worsens.iter().map(|worse| format!("less good: {worse}"));
    leaves.chain(worsens).collect()
}

/// Holds a quantity on one line: its spaces are not broken at.
fn together(shown: &str) -> String {
    shown.replace(' ', "\u{a0}")
}

/// The other findings that a remedy clears, in words; empty for none.
fn others(inspection: &Inspection, remedy: &Remedy, number: usize) -> String {
    let others: Vec<&Reading> = remedy
        .clears
        .iter()
        .filter(|cleared| cleared.reading != number)
        .filter_map(|cleared| inspection.readings.get(cleared.reading))
        .collect();
    let names: Vec<String> = others.iter().take(MOST_NAMED).map(|reading| called(reading)).collect();
    match others.len().saturating_sub(MOST_NAMED) {
        _ if names.is_empty() => String::new(),
        0 => format!("also clears {}", names.join(", ")),
        more => format!("also clears {} and {more} more", names.join(", ")),
    }
}

fn called(reading: &Reading) -> String {
    match reading.subject.called() {
        name if name.is_empty() => reading.rule.id.clone(),
        name => format!("{} of {name}", reading.rule.id),
    }
}

/// What was tried, in counts: nothing is left unsaid.
fn trials(sought: &Sought) -> String {
    if sought.tried == 0 && sought.untried == 0 {
        let mut words =
            vec!["nothing was tried: neither the rule nor the lever rule offers a change".to_owned()];
        words.extend(sought.notes.iter().cloned());
        return words.join("; ");
    }
    let mut parts = Vec::new();
    let mut part = |count: usize, words: &str| {
        if count > 0 {
            parts.push(format!("{count} {words}"));
        }
    };
    part(sought.tried - sought.not_enough - sought.new_fault - sought.no_room, "cleared it");
    part(sought.not_enough, "not enough");
    part(sought.new_fault, "would bring or worsen another finding");
    part(sought.no_room, "without room for it");
    let mut words = vec![format!("{} tried: {}", counted(sought.tried, "change"), parts.join(", "))];
    if sought.untried > 0 {
        words.push(format!("{} not tried: trials are bounded", counted(sought.untried, "more change")));
    }
    words.extend(sought.notes.iter().cloned());
    if let Some(but) = &sought.but {
        words.push(format!(
            "the least harmful that clears it is no remedy: {}; then {}: {}",
            but.words, but.rule, but.finds
        ));
    }
    words.join("; ")
}

/// A text made safe and broken into lines, the first indented by one number of spaces, the others by another.
fn wrapped(text: &str, first: usize, rest: usize, look: Look) -> String {
    let safe = safe::line(text);
    let mut wrapped = String::new();
    // Spaces at the start line numbers up; those between words stay as they are.
    let lead = safe.len() - safe.trim_start_matches(' ').len();
    let mut line = " ".repeat(first + lead);
    let mut empty = true;
    for word in safe.trim_start_matches(' ').split(' ') {
        if !empty && line.width() + 1 + word.width() > look.columns() {
            let _ = writeln!(wrapped, "{}", line.trim_end());
            line = " ".repeat(rest);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    let _ = writeln!(wrapped, "{}", line.trim_end());
    wrapped.replace('\u{a0}', " ")
}

#[cfg(test)]
mod tests;
