//! Law 9 at the terminal: hostile text in every corner, and lines that are far too long.

use pintle_finding::{
    Accepted, Basis, Bound, But, Change, Citation, Cleared, Cost, Grade, Label, Listed, Reading, Remedies,
    Remedy, Role, Rule, SetBy, Setting, Sought, Subject, Verdict, Waived, WaiverKind, Written,
};
use pintle_source::Span;
use std::sync::Arc;

use super::*;
use crate::{safe, sample};

/// Clears the screen, sets the title, turns the line round, and ends it.
pub(crate) const EVIL: &str = "\u{1b}[2J\u{9d}0;owned\u{7}\u{202e}\u{2066}\u{200b}\u{e0041}\r\n\u{2028}end";

/// Every text of it hostile, the source included.
pub(crate) fn hostile() -> (Sources, Inspection, Vec<Problem>) {
    let mut sources = Sources::new();
    let file = sources.add(&format!("{EVIL}.toml"), &format!("before {EVIL}\nname = \"{EVIL}\" # after\n"));
    let start = u32::try_from(sources.text(file).find("name").unwrap()).unwrap();
    let span = Span::new(file, start, start + 40);
    let setting =
        || Setting { file: evil(), value: evil(), quantity: None, reason: Some(evil()), span: Some(span) };
    let chain = || -> Arc<[Setting]> { Arc::new([setting(), setting(), setting()]) };
    let by = || Some(SetBy { file: evil(), reason: evil(), was: evil(), span: Some(span), chain: chain() });
    let cite = |basis| Citation { basis, text: evil(), says: evil(), guideline: Some(evil()) };
    let rule = Rule {
        id: evil(),
        title: evil(),
        why: evil(),
        judges: evil(),
        grade: Grade::Critical,
        grade_set_by: by(),
        from: pintle_finding::Stage::Quote,
        from_set_by: by(),
        citations: Basis::ALL.iter().map(|basis| cite(*basis)).collect(),
        kept: false,
    };
    let reading = |verdict| Reading {
        rule: Arc::new(rule.clone()),
        subject: Subject { kind: "item", name: evil(), span: Some(span) },
        path: evil(),
        what: evil(),
        bound: Bound::Holds(evil()),
        limit_name: evil(),
        limit_basis: Some(Basis::Shop),
        limit_set_by: by(),
        reason: Some(evil()),
        remedy: Some(evil()),
        labels: vec![Label::new(span, Role::Subject, EVIL)],
        ..sample::reading(verdict, Grade::Critical)
    };
    let waived = Waived {
        kind: WaiverKind::Concession,
        reason: evil(),
        who: evil(),
        until: evil(),
        file: evil(),
        span: Some(span),
        chain: vec![setting()],
    };
    let accepted =
        [Accepted::Waived(Arc::new(waived)), Accepted::Backlog(Listed { file: evil(), span: Some(span) })];
    let accepted = accepted.map(|one| Reading { accepted: Some(one), ..reading(Verdict::Fault) });
    let problem = || Problem::new("syntax", EVIL).help(EVIL).at(Label::new(span, Role::Subject, EVIL));
    let inspection = Inspection {
        spec: evil(),
        number: evil(),
        title: evil(),
        readings: Verdict::ALL.iter().map(|verdict| reading(*verdict)).chain(accepted).collect(),
        later: vec![(evil(), pintle_finding::Stage::Service)],
        problems: vec![problem()],
        remedies: Some(remedies()),
        ..Inspection::default()
    };
    (sources, inspection, vec![problem()])
}

fn evil() -> String {
    EVIL.to_owned()
}

/// A remedy for the reading that is a fault, and none for it, in words from a hostile spec.
fn remedies() -> Remedies {
    let fault = Verdict::ALL.iter().position(|verdict| *verdict == Verdict::Fault).unwrap();
    let cleared = Cleared {
        reading: fault,
        value: None,
        margin: None,
        holds: Some(evil()),
        tight: true,
        not_applicable: None,
    };
    let remedy = Remedy {
        steps: vec![evil(), evil()],
        changes: vec![Change { at: vec![evil()], to: Some(Written::Text(evil())) }],
        cost: Cost::default(),
        clears: vec![cleared],
        leaves: vec![evil()],
        worsens: vec![evil()],
    };
    let but = But { words: evil(), rule: evil(), finds: evil() };
    let sought =
        Sought { reading: fault, tried: 1, notes: vec![evil()], but: Some(but), ..Sought::default() };
    Remedies { all: vec![remedy], sought: vec![sought] }
}

/// Panics on a character that a terminal obeys, line ends apart.
pub(crate) fn assert_harmless(text: &str) {
    let bad: Vec<_> = text.chars().filter(|letter| *letter != '\n' && safe::is_hidden(*letter)).collect();
    assert!(bad.is_empty(), "{bad:?} in {text:?}");
    assert!(text.contains("end"), "the harmless part of the text is kept: {text:?}");
}

#[test]
fn nothing_hostile_reaches_the_terminal() {
    let (sources, inspection, wrong) = hostile();
    let look = Look::default();
    let shown = findings(&inspection, &sources, &look);
    assert!(shown.contains("  1  "), "the remedy is shown: {shown:?}");
    assert_harmless(&shown);
    assert_harmless(&crate::remedies::list(&inspection, &look));
    assert_harmless(&problems(&wrong, &sources, &look));
}

#[test]
fn the_underline_stays_under_its_text_after_hostile_characters() {
    let mut sources = Sources::new();
    let file = sources.add("a.toml", "\u{1b}\u{202e}\u{9b} gvwr = 1\n");
    let start = u32::try_from(sources.text(file).find("gvwr").unwrap()).unwrap();
    let label = Label::new(Span::new(file, start, start + 4), Role::Subject, "here");
    let text = problems(&[Problem::new("syntax", "wrong").at(label)], &sources, &Look::default());
    let column =
        |needle: &str| text.lines().find_map(|line| Some(line.split_once(needle)?.0.chars().count()));
    assert!(column("gvwr").is_some() && column("gvwr") == column("──┬─"), "{text}");
}

#[test]
fn a_line_of_a_megabyte_is_cut_to_the_terminal() {
    let mut sources = Sources::new();
    let long = "ä".repeat(300_000);
    let file = sources.add("a.toml", &format!("{long}\n{long} gvwr = 1 {long}\n{long}\n"));
    let start = u32::try_from(sources.text(file).find("gvwr").unwrap()).unwrap();
    let far = Span::new(file, start + 500, start + 504);
    let problem = Problem::new("syntax", "wrong")
        .at(Label::new(Span::new(file, start, start + 4), Role::Subject, "here"))
        .at(Label::new(far, Role::Input, "far off"));
    let text = problems(&[problem], &sources, &Look::default());
    assert!(text.contains("gvwr") && text.contains("here") && text.contains("far off"), "{text}");
    assert!(text.contains("[a.toml:2:300002]"), "{text}");
    let rows: Vec<_> = text.lines().filter(|line| line.contains('ä')).collect();
    assert_eq!(rows.len(), 3, "{text}");
    assert!(rows.iter().all(|row| row.chars().count() <= 100), "{text}");
}

#[test]
fn a_label_over_a_whole_file_shows_only_its_first_line() {
    let mut sources = Sources::new();
    let file = sources.add("a.toml", &"a = 1\n".repeat(5_000));
    let label = Label::new(Span::new(file, 0, 30_000), Role::Subject, "all of it");
    let text = problems(&[Problem::new("syntax", "wrong").at(label)], &sources, &Look::default());
    assert!(text.contains("all of it") && text.lines().count() < 10, "{text}");
}

#[test]
fn a_terminal_of_no_width_is_drawn_for_all_the_same() {
    let shop = sample::Shop::new();
    let drawn = |width| findings(&shop.inspection, &shop.sources, &Look { width, ..Look::default() });
    assert!(drawn(0).contains("light in this state"));
    assert_eq!(drawn(0), drawn(40));
    assert_ne!(drawn(40), drawn(41));
}
