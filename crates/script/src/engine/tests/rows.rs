//! Entries of lists in a spec are judged one by one.

use pintle_calc::Known;
use pintle_spec::Missing;

use super::Bench;
use crate::judges::Judges;
use crate::recorder::{End, Judgement};
use crate::rows;
use crate::thing::What;

const ROWS: &str = r#"
[[trailer.lamp]]
name   = "tail"
count  = 2
height = "20 in"

[[trailer.lamp]]
name   = "stop"
colour = "red"

[electric]

[[electric.circuit]]
name   = "lights"
from   = "bank"
length = "12 ft"
fuse   = "10 A"

[[electric.circuit]]
name = "pump"
from = "lights"
"#;

/// What a script makes of every entry, with its kind, its name, and the text that its place marks.
fn judged(word: &str, text: &str) -> Vec<(String, String, String, Judgement)> {
    let mut bench = Bench::with(ROWS);
    let judges = Judges::from_word(word).unwrap();
    let source = bench.sources.add("rule.rhai", text);
    let script = bench.engine.compile(text, source, judges).unwrap();
    judges
        .subjects(&bench.run)
        .into_iter()
        .map(|what| {
            let subject = judges.subject(&bench.run, what);
            let marked = subject.span.map(|span| bench.sources.slice(span).to_owned()).unwrap_or_default();
            let judgement = bench.engine.judge(&script, &bench.run, what, &bench.limits);
            (subject.kind.to_owned(), subject.name, marked, judgement)
        })
        .collect()
}

#[test]
fn each_entry_is_a_subject_with_its_name_and_place() {
    let found = judged("circuit", "require(circuit.name != \"pump\", circuit.from);");
    let named: Vec<(&str, &str)> =
        found.iter().map(|(kind, name, ..)| (kind.as_str(), name.as_str())).collect();
    assert_eq!(named, [("circuit", "lights"), ("circuit", "pump")]);
    assert_eq!(
        found.iter().map(|(.., judgement)| judgement.drafts[0].passes).collect::<Vec<_>>(),
        [true, false]
    );
    let marked: Vec<&str> = found.iter().map(|(_, _, marked, _)| marked.as_str()).collect();
    assert_eq!(marked, ["\"lights\"", "\"pump\""]);
}

#[test]
fn a_word_names_an_entry_as_a_text_does() {
    let found = judged("lamp", "require(lamp.name == \"tail\", \"x\");");
    let named: Vec<&str> = found.iter().map(|(_, name, ..)| name.as_str()).collect();
    assert_eq!(named, ["tail", "stop"]);
    assert!(found[0].3.drafts[0].passes && !found[1].3.drafts[0].passes);
}

#[test]
fn what_an_entry_does_not_say_is_missing() {
    let found = judged("circuit", "reading(circuit.fuse).at_most(quantity(\"15 A\"));");
    assert!(found[0].3.drafts[0].passes);
    match &found[1].3.end {
        End::Missing(missing) => assert!(missing.what.contains("fuse"), "{missing:?}"),
        end => panic!("{end:?}"),
    }
    let found = judged("lamp", "require(has(lamp, \"count\"), \"x\");");
    assert_eq!(found.iter().map(|(.., one)| one.drafts[0].passes).collect::<Vec<_>>(), [true, false]);
}

#[test]
fn every_list_can_be_judged_and_is_empty_where_nothing_is_written() {
    let bench = Bench::new();
    for (at, rows) in rows::ALL.iter().enumerate() {
        let judges = Judges::from_word(rows.word).unwrap();
        assert_eq!(judges.variables(), [rows.variable], "{}", rows.word);
        assert!(!judges.must_exist() && !judges.takes_figures() && !judges.takes_road_states());
        assert_eq!(judges.subjects(&bench.run), [], "{}", rows.word);
        assert_eq!((rows.count(&bench.run), rows.called(&bench.run, 0)), (0, None), "{}", rows.word);
        let none: Known<()> = crate::thing::Thing::whole(&bench.run, What::Row(at, 0)).map(|_| ());
        assert!(matches!(none, Err(Missing { .. })), "{}", rows.word);
    }
}

#[test]
fn entries_are_read_by_other_rules_as_lists() {
    let mut bench = Bench::with(ROWS);
    let text = "let fused = 0;\nfor circuit in electric.circuit { if has(circuit, \"fuse\") { fused += 1; } }\n\
                require(fused == 1 && count(electric.circuit) == 2, \"one of two has a fuse\");\n\
                require(electric.circuit[1].from == electric.circuit[0].name, \"the pump hangs on the lights\");";
    let judgement = bench.judge(text);
    assert!(matches!(judgement.end, End::Done), "{:?}", judgement.end);
    assert!(judgement.drafts.iter().all(|draft| draft.passes));
}
