//! Everything that a script can ask is asked of everything that the demo shop has.

use std::collections::BTreeSet;
use std::rc::Rc;

use pintle_calc::uncertainty;
use pintle_finding::{Grade, Problem};
use pintle_script::{End, Engine, Judges, Run, Tight, all_properties};
use pintle_source::Sources;
use pintle_spec::read_build;

use crate::bench::Bench;

/// Asks a property of every subject of a kind; says whether it had a value, for each.
fn ask(engine: &Engine, run: &Rc<Run>, word: &str, name: &str) -> Vec<bool> {
    let (judges, variable) = match word {
        "build" | "trailer" => ("build", word),
        "module" => (word, "item"),
        // Of a part in a state, or of the build: whichever has it.
        "figure" if name == "value" => ("space/headroom", word),
        "figure" => ("space/ways_out", word),
        "tight reading" => (word, "tight"),
        kind => (kind, kind),
    };
    let judges = Judges::from_word(judges).unwrap();
    let text = format!("let asked = {variable}.{name}; require(true, \"it can be asked\");");
    let source = Sources::new().add("ask.rhai", &text);
    let script = engine.compile(&text, source, judges).unwrap();
    let subjects = judges.subjects(run);
    let outcomes = subjects.into_iter().map(|what| engine.judge(&script, run, what, &Rc::from([])));
    outcomes
        .map(|judgement| match judgement.end {
            End::Done => true,
            End::Missing(missing) => {
                assert!(!missing.what.is_empty(), "{word}.{name} misses something without a name");
                false
            }
            end => panic!("{word}.{name} of {}: {end:?}", run.build.number.value),
        })
        .collect()
}

#[test]
fn every_property_can_be_asked_of_every_demo_build() {
    let bench = Bench::builtin();
    let engine = Engine::new();
    let mut answered: BTreeSet<(&str, &str)> = BTreeSet::new();
    let mut builds = 0;
    for (_, id) in &bench.specs {
        let mut problems: Vec<Problem> = Vec::new();
        let build = read_build(&bench.sources, *id, &bench.stock, &mut problems);
        assert_eq!(problems, []);
        let run = Run::new(build.unwrap(), &pintle_script::Grounds::default());
        // A reading that passes with little to spare, as a rule would leave it.
        if let Ok(share) = run.weights(0).tongue_share() {
            run.note_tight(vec![Tight {
                rule: "towing/light-tongue".to_owned(),
                grade: Grade::Critical,
                what: "tongue share".to_owned(),
                span: None,
                uncertainty: uncertainty::of(&share.trace, &bench.rulebook.tolerances),
                margin: share,
            }]);
        }
        builds += 1;
        for (word, properties) in all_properties() {
            for property in properties {
                if ask(&engine, &run, word, property.name).contains(&true) {
                    answered.insert((word, property.name));
                }
            }
        }
    }
    assert_eq!(builds, bench.specs.len());
    // Of what the demo shop has, every property is answered somewhere.
    let kinds: BTreeSet<&str> = answered.iter().map(|(word, _)| *word).collect();
    let unanswered: Vec<String> = all_properties()
        .into_iter()
        .filter(|(word, _)| kinds.contains(word))
        .flat_map(|(word, properties)| properties.iter().map(move |property| (word, property.name)))
        // A locker, which every part is asked for, is answered for by the cylinders.
        .filter(|asked| !answered.contains(asked) && asked.1 != "locker")
        .map(|(word, name)| format!("{word}.{name}"))
        .collect();
    assert_eq!(unanswered, Vec::<String>::new());
    assert!(answered.contains(&("cylinder", "locker")));
    assert!(kinds.len() >= 14, "{kinds:?}");
}

#[test]
fn every_property_is_described_in_plain_words() {
    let mut seen = BTreeSet::new();
    for (word, properties) in all_properties() {
        for property in properties {
            assert!(seen.insert((word, property.name)), "{word}.{} stands twice", property.name);
            assert!(!property.says.is_empty() && !property.doc.is_empty(), "{word}.{}", property.name);
            assert!(!property.doc.ends_with('.'), "{word}.{}: no full stop", property.name);
            assert!(!property.says.contains('_'), "{word}.{}: says words, not names", property.name);
        }
    }
    assert!(!seen.is_empty());
}
