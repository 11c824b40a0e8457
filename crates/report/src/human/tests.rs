//! What a person sees.

use insta::assert_snapshot;
use pintle_finding::{Grade, Label, Reading, Role, Verdict};
use pintle_source::Span;

use super::*;
use crate::sample::{Shop, reading};

fn look() -> Look {
    Look::default()
}

fn of(shop: &Shop, readings: Vec<Reading>) -> String {
    let inspection = Inspection { readings, ..Inspection::default() };
    findings(&inspection, &shop.sources, &look())
}

#[test]
fn findings_of_the_sample_shop() {
    let shop = Shop::new();
    assert_snapshot!(findings(&shop.inspection, &shop.sources, &look()));
}

#[test]
fn findings_in_ascii_on_a_narrow_terminal() {
    let shop = Shop::new();
    let narrow = Look { unicode: false, width: 50, ..look() };
    let text = findings(&shop.inspection, &shop.sources, &narrow);
    assert!(text.is_ascii());
    assert_snapshot!(text);
}

#[test]
fn problems_of_files() {
    let shop = Shop::new();
    assert_snapshot!(problems(&shop.problems(), &shop.sources, &look()));
}

#[test]
fn the_text_of_every_label_is_shown() {
    let shop = Shop::new();
    let text = findings(&shop.inspection, &shop.sources, &look());
    let labels: Vec<_> = shop.inspection.findings().flat_map(|reading| &reading.labels).collect();
    assert_eq!(labels.len(), 7);
    for label in labels {
        assert!(text.contains(&label.text), "`{}` is missing", label.text);
    }
    let text = problems(&shop.problems(), &shop.sources, &look());
    assert!(text.contains("no part of this name") && text.contains("the only module there is"));
}

#[test]
fn a_label_anywhere_in_a_file_is_shown() {
    for source in ["", "\n", "a", "a\n", "a\nb", "a\r\nb\r\n\r\n", "½\n\té = 1\n", "a\rb\n"] {
        let mut shop = Shop::new();
        let file = shop.sources.add("small.toml", source);
        let length = u32::try_from(source.len()).unwrap();
        // Also past the end and inside a character: a place that is wrong must not cost the label.
        for start in 0..=length + 2 {
            for end in start..=length + 3 {
                let mut reading = reading(Verdict::Fault, Grade::Major);
                let other = Span::new(file, 0, length);
                reading.labels = vec![
                    Label::new(Span::new(file, start, end), Role::Subject, "here it is"),
                    Label::new(other, Role::Input, "and there"),
                ];
                let text = of(&shop, vec![reading]);
                assert!(text.contains("here it is"), "{source:?} {start}..{end}\n{text}");
                assert!(text.contains("and there"), "{source:?} {start}..{end}\n{text}");
            }
        }
    }
}

#[test]
fn a_place_inside_a_character_counts_as_the_character() {
    let mut shop = Shop::new();
    let file = shop.sources.add("small.toml", "a½b");
    let mut reading = reading(Verdict::Fault, Grade::Major);
    reading.labels = vec![Label::new(Span::new(file, 2, 2), Role::Subject, "here")];
    let text = of(&shop, vec![reading]);
    assert!(text.contains("[small.toml:1:2]"), "{text}");
}

#[test]
fn a_label_in_a_file_that_is_not_at_hand_is_told_in_words() {
    let shop = Shop::new();
    let mut others = shop.sources.clone();
    let far = others.add("far.toml", "x");
    let mut reading = reading(Verdict::Fault, Grade::Major);
    reading.labels = vec![Label::new(Span::new(far, 0, 1), Role::Subject, "the missing one")];
    let text = of(&shop, vec![reading]);
    assert!(text.contains("also, in a file that is not at hand: the missing one"), "{text}");
}

#[test]
fn labels_beyond_eight_are_counted() {
    let shop = Shop::new();
    let mut reading = shop.light_tongue();
    let span = reading.labels[0].span;
    reading.labels.extend((0..6).map(|n| Label::new(span.part(n..n + 1), Role::Input, format!("mark {n}"))));
    let text = of(&shop, vec![reading]);
    for kept in ["mark 0", "mark 1", "mark 2", "light in this state", "the least share is set here"] {
        assert!(text.contains(kept), "{kept}\n{text}");
    }
    assert!(!text.contains("mark 3") && text.contains("and 3 more places"), "{text}");
}

#[test]
fn the_piece_with_the_chief_label_comes_first_and_columns_count_characters() {
    let mut shop = Shop::new();
    let file = shop.sources.add("deep.toml", "a = 1\n\n\n\n\n\nwidth = \"7½ in\" # here\n");
    let here = shop.span(file, "here");
    let mut reading = reading(Verdict::Fault, Grade::Minor);
    reading.labels = vec![
        Label::new(shop.span(file, "a"), Role::Input, "from this"),
        Label::new(here, Role::Subject, "wrong"),
    ];
    let text = of(&shop, vec![reading]);
    let (first, second) = (text.find("[deep.toml:7:19]").unwrap(), text.find("[deep.toml:1:1]").unwrap());
    assert!(first < second, "{text}");
}

#[test]
fn labels_on_one_line_stand_apart_and_those_at_one_place_are_joined() {
    let mut shop = Shop::new();
    let file = shop.sources.add("line.toml", "at = { rear = \"6 in\" }\n");
    let mut reading = reading(Verdict::Fault, Grade::Minor);
    reading.labels = vec![
        Label::new(shop.span(file, "{ rear = \"6 in\" }"), Role::Subject, "the place"),
        Label::new(shop.span(file, "rear"), Role::Input, "from the rear"),
        Label::new(shop.span(file, "rear = \"6 in\""), Role::Input, "six inches"),
    ];
    assert_snapshot!(of(&shop, vec![reading]), @r#"
house/sample

  ⚠ minor: sample
  │
   ╭─[line.toml:1:6]
 1 │ at = { rear = "6 in" }
   ·      ─┬──────┬──────
   ·       │      ╰── from the rear; six inches
   ·       ╰── the place
   ╰────
"#);
}

#[test]
fn verdict_words_are_said_and_nothing_unjudged_looks_like_a_pass() {
    let shop = Shop::new();
    let text = |verdict, grade| of(&shop, vec![reading(verdict, grade)]);
    assert!(text(Verdict::Fault, Grade::Minor).contains("⚠ minor: sample"));
    assert!(text(Verdict::Fault, Grade::Critical).contains("× critical: sample"));
    assert!(text(Verdict::Fault, Grade::Major).contains("× major: sample"));
    assert!(text(Verdict::Fault, Grade::Advice).contains("☞ advice: sample"));
    assert!(text(Verdict::CannotJudge, Grade::Advice).contains("⚠ advice, cannot judge: sample"));
    let broken = text(Verdict::Broken, Grade::Advice);
    assert!(broken.contains("× advice, broken: sample") && broken.contains("the rule failed"), "{broken}");
    assert_eq!(text(Verdict::Pass, Grade::Critical), "");
    assert_eq!(text(Verdict::NotApplicable, Grade::Critical), "");
}

#[test]
fn colour_is_written_only_when_asked_for() {
    let shop = Shop::new();
    let drawn = |colour| findings(&shop.inspection, &shop.sources, &Look { colour, ..look() });
    assert!(!drawn(false).contains('\u{1b}'));
    assert!(drawn(true).contains("\u{1b}[31m"));
}
