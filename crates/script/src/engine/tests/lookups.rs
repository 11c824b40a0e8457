//! Names that are not there: the nearest is offered, and nothing comes out as a value.

use super::{Bench, at};
use crate::judges::Judges;
use crate::recorder::End;
use crate::thing::What;

#[test]
fn unknown_variables_are_refused_at_load() {
    let mut bench = Bench::new();
    at(&bench.refused("\nreading(sate.gross);"), 2, 9, "there is no variable `sate`; did you mean `state`?");
    at(&bench.refused("reading(zebra.gross);"), 1, 9, "there is no variable `zebra`");
    at(&bench.refused("reading(item.mass);"), 1, 9, "there is no variable `item`");
}

#[test]
fn unknown_functions_are_refused_at_load() {
    let mut bench = Bench::new();
    at(
        &bench.refused("\n  raeding(state.gross);"),
        2,
        3,
        "there is no function `raeding`; did you mean `reading`?",
    );
    at(
        &bench.refused("reading(state.gross).atmost(limit.most);"),
        1,
        22,
        "there is no function `atmost`; did you mean `at_most`?",
    );
    at(
        &bench.refused("max(state.gross, state.tongue);"),
        1,
        1,
        "there is no function `max`; did you mean `greater`?",
    );
    at(
        &bench.refused("fn shar() { 1 } share();"),
        1,
        17,
        "there is no function `share`; did you mean `shar`?",
    );
    assert_eq!(bench.refused("system(\"ls\");").message, "there is no function `system`");
    assert_eq!(bench.refused("sleep(1000);").message, "there is no function `sleep`");
    assert_eq!(bench.refused("if false { open(\"x\"); }").message, "there is no function `open`");
    assert_eq!(
        bench.refused("let t = `${cout([])}`;").message,
        "there is no function `cout`; did you mean `count`?"
    );
}

#[test]
fn functions_are_not_used_on_what_they_are_not_for() {
    let mut bench = Bench::new();
    at(&bench.fails("reading(3).at_most(limit.most);"), 1, 1, "`reading` does not work on a whole number");
    at(
        &bench.fails("reading(state.gross).at_most(3);"),
        1,
        22,
        "`at_most` does not work on a reading and a whole number",
    );
    assert_eq!(bench.fails("count(state);").message, "`count` does not work on a part of the build");
    assert_eq!(bench.fails("listed();").message, "`listed` needs something to work on");
    assert_eq!(
        bench.fails("let l = []; l.push(1);").message,
        "`push` does not work on a list and a whole number"
    );
}

#[test]
fn unknown_properties_are_failures_and_the_nearest_is_offered() {
    let mut bench = Bench::new();
    at(&bench.fails("\nreading(state.tonque);"), 2, 14, "a state has no `tonque`; did you mean `tongue`?");
    at(&bench.fails("reading(trailer.gvrw);"), 1, 16, "the trailer has no `gvrw`; did you mean `gvwr`?");
    at(&bench.fails("reading(trailer.axle.trak);"), 1, 21, "`axle` has no `trak`; did you mean `track`?");
    at(&bench.fails("reading(tow.zebra);"), 1, 12, "the tow vehicle has no `zebra`");
    assert_eq!(
        bench.fails("has(trailer, \"gvrw\");").message,
        "the trailer has no `gvrw`; did you mean `gvwr`?"
    );
    assert_eq!(
        bench.fails("let n = state.gross.weight;").message,
        "this has nothing that can be asked or set by that name"
    );
    assert_eq!(bench.fails("let m = #{ a: 1 }; m.b;").message, "there is no `b` in this");
}

#[test]
fn unknown_limits_are_failures_and_the_nearest_is_offered() {
    let mut bench = Bench::new();
    let said = "the rule has no limit `leest`; did you mean `least`?";
    at(&bench.fails("reading(state.tongue_share).at_least(limit.leest);"), 1, 43, said);
    assert_eq!(bench.fails("let l = limit[\"leest\"];").message, said);
    assert_eq!(bench.fails("limit.zebra;").message, "the rule has no limit `zebra`");
}

#[test]
fn a_script_knows_which_limits_it_asks_for() {
    let bench = Bench::new();
    let (judges, _) = Bench::judges("road state");
    let limits = |text: &str| {
        let source = pintle_source::Sources::new().add("rule.rhai", text);
        let script = bench.engine.compile(text, source, judges).unwrap();
        let names: Vec<String> = script.limits().iter().map(|(name, _)| name.clone()).collect();
        (names, script.limits_otherwise())
    };
    let names = |names: &[&str]| names.iter().map(|&name| name.to_owned()).collect::<Vec<_>>();
    assert_eq!(limits("require(limit.a < limit.b * 2, `${limit.c}`);"), (names(&["a", "b", "c"]), false));
    assert_eq!(limits("if true { reading(limit.a).at_most(limit.b); }"), (names(&["a", "b"]), false));
    assert_eq!(limits("let l = limit; reading(l.a).at_most(limit.b);"), (names(&["b"]), true));
    assert_eq!(limits("limit[\"a\"];"), (names(&[]), true));
    assert_eq!(limits("state.gross;"), (names(&[]), false));
}

#[test]
fn what_is_not_given_is_missing_and_not_a_failure() {
    let mut bench = Bench::new();
    for (text, what) in [
        ("trailer.jack;", "jack"),
        ("trailer.tire_rating;", "tire"),
        ("tow.tongue_rating;", "tongue_rating"),
        ("people.mass;", "people"),
    ] {
        match bench.judge(text).end {
            End::Missing(missing) => assert!(missing.what.contains(what), "{text}: {missing:?}"),
            end => panic!("{text}: {end:?}"),
        }
    }
}

#[test]
fn has_tells_what_is_not_there_from_what_is_not_known() {
    let mut bench = Bench::new();
    let says = |bench: &mut Bench, word: &str, text: &str| {
        let judgement = bench.judge_a(word, &format!("require({text}, \"x\");")).unwrap();
        (judgement.drafts.first().map(|draft| draft.passes), judgement.end)
    };
    assert_eq!(says(&mut bench, "road state", "has(trailer, \"gvwr\")").0, Some(true));
    assert_eq!(says(&mut bench, "road state", "has(trailer, \"jack\")").0, Some(false));
    assert_eq!(says(&mut bench, "road state", "has(tow, \"ball\")").0, Some(false));
    assert_eq!(says(&mut bench, "road state", "has(people, \"mass\")").0, Some(false));
    assert_eq!(says(&mut bench, "road state", "has(state, \"gross\")").0, Some(true));
    // The tires are not described, so their sum is not known; that is no reason to say there is none.
    let (passes, end) = says(&mut bench, "road state", "has(trailer, \"tires_of_axle\")");
    assert_eq!(passes, None);
    assert!(matches!(end, End::Missing(_)), "{end:?}");
    // The hob stands in no locker, and that is known.
    assert_eq!(says(&mut bench, "appliance", "has(appliance, \"locker\")").0, Some(false));
}

/// A rack with nothing fitted on it, and a load that may ride there.
const LOADED: &str = r#"
[[item]]
tag    = "rack"
kind   = "rack"
zone   = "roof"
mass   = "0 lb"
length = "60 in"
width  = "50 in"
height = "3 in"
at     = { front = "10 in" }

[[load]]
tag   = "bikes"
mass  = "60 lb"
least = "0 lb"
zone  = "rack"
at    = { front = "0 in", gap = "1 in" }
"#;

#[test]
fn loads_are_judged_by_themselves_and_are_no_fitted_parts() {
    let mut bench = Bench::with(LOADED);
    let subjects = |word: &str| Judges::from_word(word).unwrap().subjects(&bench.run);
    assert_eq!(subjects("item"), [What::Item(0), What::Item(1)]);
    assert_eq!(subjects("load"), [What::Item(2)]);
    assert_eq!(subjects("removable"), []);
    let text = "for part in build.items { require(part.kind != \"load\", \"it is fitted\"); }\n\
                require(count(build.items) == 2, \"two parts are fitted\");";
    let judgement = bench.judge(text);
    assert!(matches!(judgement.end, End::Done), "{:?}", judgement.end);
    assert_eq!(judgement.drafts.iter().map(|draft| draft.passes).collect::<Vec<_>>(), [true; 3]);
    let source = bench.sources.add("rule.rhai", "");
    let of = |word: &str, at: usize, text: &str| {
        let script = bench.engine.compile(text, source, Judges::from_word(word).unwrap()).unwrap();
        bench.engine.judge(&script, &bench.run, What::Item(at), &bench.limits)
    };
    assert!(of("rack", 1, "require(!rack.loaded, \"no part lies on it\");").drafts[0].passes);
    assert!(of("load", 2, "reading(load.mass - load.least).at_most(limit.most);").drafts[0].passes);
}
