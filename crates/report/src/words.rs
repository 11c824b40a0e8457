//! The words that the outputs for people share: grade and verdict, grounds, and who set a limit.

use std::fmt::Write as _;

use pintle_finding::{Accepted, Basis, Citation, Problem, Reading, SetBy, Setting, Verdict};
use pintle_source::{Sources, Span};

/// What a line about a problem opens with.
pub(crate) const fn of_problem(problem: &Problem) -> &'static str {
    if problem.is_warning { "warning" } else { "input wrong" }
}

/// `critical`, or `critical, cannot judge` where the verdict is no plain fault; and `critical, waived` where somebody has
/// accepted it.
pub fn grade_and_verdict(reading: &Reading) -> String {
    let mut words = match reading.verdict {
        Verdict::Fault => reading.grade().word().to_owned(),
        other => format!("{}, {}", reading.grade(), other),
    };
    if let Some(accepted) = &reading.accepted {
        let _ = write!(words, ", {}", accepted.word());
    }
    words
}

/// By what a finding is accepted: `waived until 2026-12-31 by R. Shopfloor (concession, pintle.toml:9:10): reason`.
pub fn accepted(reading: &Reading, sources: &Sources) -> Option<String> {
    let at = |span: Option<Span>, file: &str| span.map_or(file.to_owned(), |span| place(span, sources));
    Some(match reading.accepted.as_ref()? {
        Accepted::Waived(waived) => format!(
            "waived until {} by {} ({}, {}): {}",
            waived.until,
            waived.who,
            waived.kind.word(),
            at(waived.span, &waived.file),
            waived.reason
        ),
        Accepted::Backlog(listed) => format!("in the backlog ({})", at(listed.span, &listed.file)),
    })
}

/// A title as a message: its first letter small, unless its first word is written in capitals.
pub(crate) fn small_first(title: &str) -> String {
    let mut letters = title.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if first.is_uppercase() && !second.is_uppercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => title.to_owned(),
    }
}

/// A ground in full: `49 CFR 571.3(b) (published): what it says`.
pub fn ground(citation: &Citation) -> String {
    let text = citation.text.as_str();
    let head = match citation.basis {
        Basis::Published => format!("{text} (published)"),
        Basis::CommonPractice => headed("common practice, no source", text),
        Basis::Shop => headed("the shop's own", text),
        Basis::Memory => headed("from memory, to be checked", text),
    };
    format!("{}{}", headed(&head, &citation.says), yardstick(citation))
}

/// A ground in a few words: `see 49 CFR 571.3(b)`.
pub(crate) fn short_ground(citation: &Citation) -> String {
    let text = match citation.text.as_str() {
        "" => citation.says.as_str(),
        text => text,
    };
    let head = match citation.basis {
        Basis::Published => format!("see {text}"),
        Basis::CommonPractice => "common practice, no source".to_owned(),
        Basis::Shop => headed("the shop's own", text),
        Basis::Memory => format!("from memory, to be checked: {text}"),
    };
    format!("{head}{}", yardstick(citation))
}

/// A text that binds somebody else is never passed off as binding here.
fn yardstick(citation: &Citation) -> String {
    match &citation.guideline {
        Some(whom) => format!(" (binds {whom}; here a yardstick)"),
        None => String::new(),
    }
}

fn headed(head: &str, rest: &str) -> String {
    if rest.is_empty() { head.to_owned() } else { format!("{head}: {rest}") }
}

/// What the limit rests on: `least` rests on common practice. Silent where nothing is known.
pub(crate) fn limit_basis(reading: &Reading) -> Option<String> {
    let basis = match reading.limit_basis? {
        Basis::Published => "published",
        Basis::CommonPractice => "common practice, no source",
        Basis::Shop => "the shop's own",
        Basis::Memory => "from memory, to be checked",
    };
    Some(match reading.limit_name.as_str() {
        "" => format!("limit: {basis}"),
        name => format!("limit `{name}`: {basis}"),
    })
}

/// Who set the limit and the grade, where that is not the rule itself.
pub fn setters(reading: &Reading, sources: &Sources) -> Vec<String> {
    let limit = reading.limit_set_by.as_ref().map(|by| set_by("limit", by, sources));
    let grade = reading.rule.grade_set_by.as_ref().map(|by| set_by("grade", by, sources));
    let stage = reading.rule.from_set_by.as_ref().map(|by| set_by("stage", by, sources));
    limit.into_iter().chain(grade).chain(stage).collect()
}

/// `limit set by pintle.toml:4:9: reason (was 9 %)`.
fn set_by(what: &str, by: &SetBy, sources: &Sources) -> String {
    let place = by.span.map_or_else(|| by.file.clone(), |span| place(span, sources));
    let was = match by.chain.split_last().map(|(_, under)| under) {
        Some([own, between @ ..]) if !between.is_empty() => {
            let between =
                between.iter().rev().map(|held| format!("{} by {}, ", held.value, at(held, sources)));
            format!(" (was {}{} by the rule)", between.collect::<String>(), own.value)
        }
        _ if by.was.is_empty() => String::new(),
        _ => format!(" (was {})", by.was),
    };
    format!("{}{was}", headed(&format!("{what} set by {place}"), &by.reason))
}

/// Where a value was set: `company/pintle.toml:4:9`.
fn at(setting: &Setting, sources: &Sources) -> String {
    setting.span.map_or_else(|| setting.file.clone(), |span| place(span, sources))
}

/// `specs/a.toml:12:8`.
pub fn place(span: Span, sources: &Sources) -> String {
    let at = sources.locate(span);
    format!("{}:{}:{}", sources.name(span.source), at.line, at.column)
}

/// `1 finding`, `2 findings`.
pub fn counted(count: usize, one: &str) -> String {
    let plural = if count == 1 {
        ""
    } else if one.ends_with("ss") {
        "es"
    } else {
        "s"
    };
    format!("{count} {one}{plural}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cited(basis: Basis, text: &str, guideline: Option<&str>) -> Citation {
        let guideline = guideline.map(str::to_owned);
        Citation { basis, text: text.to_owned(), says: "what it says".to_owned(), guideline }
    }

    #[test]
    fn every_ground_says_how_good_it_is() {
        let published = cited(Basis::Published, "49 CFR 571.3(b)", None);
        assert_eq!(ground(&published), "49 CFR 571.3(b) (published): what it says");
        assert_eq!(short_ground(&published), "see 49 CFR 571.3(b)");
        let habit = cited(Basis::CommonPractice, "", None);
        assert_eq!(ground(&habit), "common practice, no source: what it says");
        assert_eq!(short_ground(&habit), "common practice, no source");
        let memory = cited(Basis::Memory, "EN 721", None);
        assert_eq!(ground(&memory), "from memory, to be checked: EN 721: what it says");
        assert_eq!(short_ground(&memory), "from memory, to be checked: EN 721");
        assert_eq!(ground(&cited(Basis::Shop, "", None)), "the shop's own: what it says");
        let carriers = cited(Basis::Published, "49 CFR 393.70", Some("commercial carriers"));
        let yardstick = "(binds commercial carriers; here a yardstick)";
        assert_eq!(ground(&carriers), format!("49 CFR 393.70 (published): what it says {yardstick}"));
        assert_eq!(short_ground(&carriers), format!("see 49 CFR 393.70 {yardstick}"));
    }

    #[test]
    fn a_title_loses_its_capital_but_an_abbreviation_does_not() {
        assert_eq!(small_first("Too little weight on the tongue"), "too little weight on the tongue");
        assert_eq!(small_first("GVWR exceeded"), "GVWR exceeded");
        assert_eq!(small_first(""), "");
    }

    #[test]
    fn counts_agree_with_their_nouns() {
        assert_eq!(
            [counted(1, "pass"), counted(2, "pass"), counted(0, "spec")],
            ["1 pass", "2 passes", "0 specs"]
        );
    }
}
