//! What can be wrong with a rule's two files: every problem is said at its place, and none of it is guessed away.

use pintle_finding::{Problem, Role};
use pintle_rulebook::PackFiles;

use crate::bench::{Bench, DATA, SCRIPT, pack};

/// What is wrong with a rule, and that the rule is then left out.
fn problems(data: &str, script: &str) -> (Bench, Vec<Problem>) {
    let (bench, problems) = Bench::tried(&pack(data, script), "");
    assert_eq!(bench.rulebook.ids().count(), usize::from(problems.is_empty()), "{problems:#?}");
    (bench, problems)
}

/// The first problem of a rule: its code, message, help, and the text it stands at.
fn first(data: &str, script: &str) -> (String, String, String, String) {
    let (bench, problems) = problems(data, script);
    let problem = &problems[0];
    let at = problem.labels.first().map(|label| bench.sources.slice(label.span).to_owned());
    (
        problem.code.to_owned(),
        problem.message.clone(),
        problem.help.clone().unwrap_or_default(),
        at.unwrap_or_default(),
    )
}

#[track_caller]
fn changed(from: &str, to: &str) -> String {
    assert!(DATA.contains(from));
    DATA.replacen(from, to, 1)
}

#[test]
fn a_sound_rule_has_no_problems() {
    let (bench, problems) = problems(DATA, SCRIPT);
    assert_eq!(problems, []);
    let bound = bench.rulebook.rule("own/trial-rule").unwrap();
    assert_eq!(bound.limits.len(), 1);
    assert_eq!(bound.file.trials.len(), 1);
}

#[test]
fn an_unknown_key_is_a_problem_and_the_nearest_is_offered() {
    for (from, to, key, near) in [
        ("grade ", "grad  ", "grad", "grade"),
        ("basis = \"shop\"\n\n[[source]]", "bassis = \"shop\"\n\n[[source]]", "bassis", "basis"),
        ("says ", "say  ", "say", "says"),
        ("expect", "expct", "expct", "expect"),
    ] {
        let (bench, problems) = problems(&changed(from, to), SCRIPT);
        let unknown = problems.iter().find(|problem| problem.code == "unknown-key");
        let unknown = unknown.unwrap_or_else(|| panic!("{key}: {problems:#?}"));
        assert!(unknown.message.contains(&format!("`{key}`")), "{unknown:?}");
        assert!(unknown.help.as_deref().unwrap().contains(near), "{unknown:?}");
        assert_eq!(bench.sources.slice(unknown.labels[0].span), key);
    }
}

#[test]
fn a_rule_judges_something_known() {
    let (code, message, help, at) = first(&changed("road state", "rode state"), SCRIPT);
    assert_eq!(code, "unknown-word");
    assert_eq!(message, "rule `own/trial-rule` judges `rode state`, and there is no such thing");
    assert_eq!(help, "did you mean `road state`?");
    assert_eq!(at, "\"rode state\"");
    let (_, _, help, _) = first(&changed("road state", "weather"), SCRIPT);
    assert!(help.starts_with("use a figure, such as `gas/burn_time`, or one of `build`"), "{help}");
}

#[test]
fn unknown_words_are_problems() {
    for (from, to, near) in [
        ("minor", "minro", "minor"),
        ("quote", "qoute", "quote"),
        ("\"fault\"", "\"fualt\"", "fault"),
        ("basis = \"shop\"\n\n[[source]]", "basis = \"shpo\"\n\n[[source]]", "shop"),
    ] {
        let (code, message, help, _) = first(&changed(from, to), SCRIPT);
        assert_eq!(code, "unknown-word", "{message}");
        assert!(help.contains(near) || message.contains(near), "{message}: {help}");
    }
}

#[test]
fn title_why_sources_and_trials_must_be_there() {
    let sources = "[[source]]\nbasis = \"shop\"\nsays  = \"the hill is steep\"\n";
    let trials = "[[trial]]\nname   = \"as drawn\"\nbase   = \"sound-6x12-round\"\nexpect = \"fault\"\n";
    for (part, key) in [
        ("title  = \"heavier than we like\"\n", "title"),
        ("why    = \"It has to go up our hill.\"\n", "why"),
        ("grade  = \"minor\"\n", "grade"),
        ("from   = \"quote\"\n", "from"),
        (sources, "source"),
        (trials, "trial"),
    ] {
        let (code, message, _, _) = first(&changed(part, ""), SCRIPT);
        assert_eq!(code, "missing-value", "{message}");
        assert!(message.contains(&format!("`{key}`")), "{message}");
    }
    let bare = format!("source = []\ntrial = []\n{}", changed(sources, "").replace(trials, ""));
    let (_, problems) = problems(&bare, SCRIPT);
    assert_eq!(problems.len(), 2, "lists with nothing in them: {problems:#?}");
}

#[test]
fn a_script_that_cannot_be_read_is_a_problem_at_its_place() {
    let (code, message, help, at) =
        first(DATA, "let most = limit.most;\nreading(sate.gross).at_most(most);\n");
    assert_eq!(code, "bad-script");
    let said = "the script of rule `own/trial-rule` cannot be read: there is no variable `sate`";
    assert_eq!((message.as_str(), help.as_str(), at.as_str()), (said, "did you mean `state`?", "sate"));
    let (_, message, help, at) = first(DATA, "reading(state.gross).atmost(limit.most);");
    let said = "the script of rule `own/trial-rule` is wrong: there is no function `atmost`";
    assert_eq!((message.as_str(), help.as_str(), at.as_str()), (said, "did you mean `at_most`?", "atmost"));
    assert_eq!(first(DATA, "reading(state.gross").0, "bad-script");
}

/// Code, message, help, and every text that is marked with its words.
#[test]
fn all_that_is_wrong_with_a_script_is_said_at_once_each_at_its_place() {
    let script = "let a = state.gros;\nif trailer.brakes.kind == \"electrik\" { reading(state.gross).at_most(trailer.length); }\n\
                  reading(state.gross).at_most(limit.most);\nreading(build[\"space/head_room\"]).at_most(limit.mst);\n";
    let (bench, problems) = problems(DATA, script);
    let told = problems.iter().map(|problem| {
        let marks = problem.labels.iter();
        let marks: Vec<_> =
            marks.map(|label| (bench.sources.slice(label.span), label.text.as_str())).collect();
        (problem.code, problem.message.as_str(), problem.help.as_deref(), marks)
    });
    let said: Vec<_> = told.collect();
    let wrong = "the script of rule `own/trial-rule` is wrong: ";
    assert_eq!(
        said,
        [
            (
                "bad-script",
                format!("{wrong}a state has no `gros`").as_str(),
                Some("did you mean `gross`?"),
                vec![("gros", "no such name")]
            ),
            (
                "bad-script",
                format!("{wrong}this can never be `electrik`").as_str(),
                Some("did you mean `electric`?"),
                vec![("\"electrik\"", "not one of its words")]
            ),
            (
                "bad-script",
                format!("{wrong}a mass and a length cannot be added or compared").as_str(),
                None,
                vec![("at_most", "not like with like"), ("gross", "a mass"), ("length", "a length")]
            ),
            (
                "bad-script",
                format!("{wrong}there is no figure `space/head_room`").as_str(),
                Some("did you mean `space/headroom`?"),
                vec![("\"space/head_room\"", "no such name")]
            ),
            (
                "unknown-limit",
                "rule `own/trial-rule` has no limit `mst`",
                Some("did you mean `most`?"),
                vec![("mst", "no such limit")]
            ),
        ]
    );
    assert!(problems.iter().flat_map(|problem| &problem.labels).all(|label| label.role == Role::Script));
}

#[test]
fn a_script_asks_for_limits_that_there_are() {
    let (bench, problems) = problems(DATA, "reading(state.gross).at_most(limit.msot);");
    let said: Vec<(&str, &str, Option<&str>, &str)> = problems
        .iter()
        .map(|problem| {
            let at = bench.sources.slice(problem.labels[0].span);
            (problem.code, problem.message.as_str(), problem.help.as_deref(), at)
        })
        .collect();
    assert_eq!(
        said,
        [
            (
                "unknown-limit",
                "rule `own/trial-rule` has no limit `msot`",
                Some("did you mean `most`?"),
                "msot"
            ),
            (
                "unused-limit",
                "the script of rule `own/trial-rule` never asks for `most`",
                Some("compare with `limit.most` in the script, or leave the limit out"),
                "most"
            ),
        ]
    );
    let data = changed("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let (_, _, help, _) = first(&data, SCRIPT);
    assert_eq!(help, "state it as `[limit.most]`, with its value and basis");
}

/// Whoever hands all limits on asks for all of them, as far as can be seen.
#[test]
fn limits_that_are_handed_on_are_not_called_unused() {
    let script = "fn most(limits) { limits.most }\nreading(state.gross).at_most(most(limit));";
    let (_, problems) = problems(DATA, script);
    assert_eq!(problems, []);
}

#[test]
fn a_limit_needs_a_value_and_its_unit() {
    let (_, message, ..) = first(&changed("\"2000 lb\"", "\"2000 lbz\""), SCRIPT);
    assert!(message.contains("lbz"), "{message}");
    let (_, message, ..) = first(&changed("value = \"2000 lb\"\n", ""), SCRIPT);
    assert!(message.contains("`value`"), "{message}");
}

#[test]
fn all_problems_of_a_rule_are_said_at_once() {
    let data = changed("grade  = \"minor\"", "grade  = \"grave\"")
        .replace("judges = \"road state\"", "judges = \"moon\"");
    let (_, problems) = problems(&data, SCRIPT);
    let said = |word: &str| problems.iter().any(|problem| problem.message.contains(word));
    assert!(said("`grave`") && said("`moon`"), "{problems:#?}");
}

#[test]
fn half_a_rule_and_stray_files_are_problems() {
    let file = |name: &str, text: &str| (format!("rules/own/{name}"), text.as_bytes().to_vec());
    let files = vec![
        file("README.md", "notes"),
        file("alone.toml", DATA),
        file("lonely.rhai", SCRIPT),
        file("notes.txt", "stray"),
        file("whole.rhai", SCRIPT),
        file("whole.toml", DATA),
    ];
    let (bench, problems) = Bench::tried(&[PackFiles { name: "own".to_owned(), builtin: false, files }], "");
    let said: Vec<(&str, &str)> =
        problems.iter().map(|problem| (problem.code, problem.message.as_str())).collect();
    assert_eq!(
        said,
        [
            ("half-a-rule", "`rules/own/alone.toml` has no script beside it"),
            ("half-a-rule", "`rules/own/lonely.rhai` has no data file beside it"),
            ("stray-file", "`rules/own/notes.txt` is not part of a rule"),
        ]
    );
    assert_eq!(bench.rulebook.ids().collect::<Vec<_>>(), ["own/whole"]);
}

#[test]
fn a_file_that_is_no_text_is_a_problem() {
    let mut packs = pack(DATA, SCRIPT);
    packs[0].files[0].1 = vec![0xff, 0xfe, 0x00];
    let (bench, problems) = Bench::tried(&packs, "");
    assert_eq!(problems.len(), 1, "{problems:#?}");
    assert_eq!(problems[0].code, "unreadable");
    assert_eq!(bench.rulebook.ids().count(), 0);
}

/// A mend that could never be tried is a problem when the rule is read, not a silence when it would be needed.
#[test]
fn mends_that_could_never_be_tried_are_problems() {
    let sound = "field = \"trailer.chains.strength\"\nto = [\"5000 lb\"]\ndo = \"fit {to}\"\nbasis = \"shop\"\nsays = \"what we stock\"\n";
    let rule = |mend: &str| DATA.replacen("[[trial]]", &format!("[[mend]]\n{mend}\n[[trial]]"), 1);
    let (bench, found) = problems(&rule(sound), SCRIPT);
    assert_eq!(found, []);
    assert_eq!(bench.rulebook.rule("own/trial-rule").unwrap().file.mends.len(), 1);
    // (from, to, code, part of the message, part of the help, text marked)
    let rows = [
        (
            "chains.strength",
            "chains.strenght",
            "unknown-path",
            "the safety chains has no `strenght`",
            "did you mean `strength`?",
            "\"trailer.chains.strenght\"",
        ),
        (
            "trailer.chains",
            "trayler.chains",
            "unknown-path",
            "is no path of a value",
            "a path is such as",
            "\"trayler.chains.strength\"",
        ),
        (
            "chains.strength",
            "chains.strength.more",
            "unknown-path",
            "a value has no `more`",
            "its fields are none",
            "\"trailer.chains.strength.more\"",
        ),
        (
            "trailer.chains.strength",
            "trailer",
            "unknown-path",
            "is no path of a value",
            "name the field",
            "\"trailer\"",
        ),
        (
            "trailer.chains.strength",
            "{subject}.feet",
            "unknown-path",
            "is no path of a value",
            "judges each road state",
            "\"{subject}.feet\"",
        ),
        (
            "[\"5000 lb\"]",
            "\"5000 lb\"",
            "wrong-type",
            "must be a list of values",
            "such as `to = ",
            "\"5000 lb\"",
        ),
        ("[\"5000 lb\"]", "[]", "wrong-type", "must be a list of values", "such as `to = ", "[]"),
        (
            "do = \"fit {to}\"",
            "",
            "missing-value",
            "the mend has no `do`",
            "`{to}` stands for the value",
            "[[mend]]",
        ),
        (
            "basis = \"shop\"",
            "by = \"area\"",
            "missing-value",
            "the mend has no `basis`",
            "where the values come from",
            "[[mend]]",
        ),
        (
            "field =",
            "move = \"across\"\nfield =",
            "wrong-mend",
            "one of `field`, `exchange` and `move`",
            "of its own",
            "\"across\"",
        ),
    ];
    for (from, to, code, message, help, at) in rows {
        assert!(sound.contains(from), "{from}");
        let (found, said, helped, marked) = first(&rule(&sound.replacen(from, to, 1)), SCRIPT);
        assert_eq!(found, code, "{to}: {said}");
        assert!(said.contains(message), "{to}: {said}");
        assert!(helped.contains(help), "{to}: {helped}");
        assert_eq!(marked, at, "{to}");
    }
}

#[test]
fn exchanges_and_moves_that_could_never_be_tried_are_problems() {
    let rule = |mend: &str| DATA.replacen("[[trial]]", &format!("[[mend]]\n{mend}\n[[trial]]"), 1);
    let rows = [
        ("exchange = \"vant\"\nby = \"area\"", "unknown-kind", "`vant`", "did you mean `vent`?"),
        ("exchange = \"vent\"\nby = \"aria\"", "unknown-key", "`aria`", "did you mean `area`?"),
        ("exchange = \"vent\"", "missing-value", "the mend has no `by`", "the nearest is tried first"),
        ("exchange = \"trailer\"\nby = \"gvwr\"", "unknown-kind", "`trailer`", "the kinds are"),
        ("move = \"up\"", "unknown-word", "`up`", "across"),
        ("move = \"across\"\nto = [1]", "wrong-mend", "`to` means nothing", "the values to try"),
    ];
    for (mend, code, message, help) in rows {
        let (found, said, helped, _) = first(&rule(mend), SCRIPT);
        assert_eq!(found, code, "{mend}: {said}");
        assert!(said.contains(message) && helped.contains(help), "{mend}: {said}; {helped}");
    }
}
