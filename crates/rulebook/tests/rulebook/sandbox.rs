//! Whatever one rule does, it comes to a bounded end, and the other rules judge on.

use std::time::Duration;

use pintle_finding::Verdict;
use pintle_rulebook::PackFiles;

use crate::bench::{Bench, DATA, SCRIPT, of_states, pack};

/// The data of a rule without a limit, so that its script need not ask for one.
fn bare() -> String {
    DATA.replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "")
}

/// Two rules in a pack: a sound one, and one with this script.
fn beside(script: &str) -> Vec<PackFiles> {
    let sound = pack(DATA, SCRIPT).into_iter().flat_map(|pack| pack.files);
    let bad = pack(&bare(), script).into_iter().flat_map(|pack| pack.files);
    let bad = bad.map(|(name, bytes)| (name.replace("trial-rule", "bad-rule"), bytes));
    vec![PackFiles { name: "own".to_owned(), builtin: false, files: sound.chain(bad).collect() }]
}

/// The verdicts of both rules on the states of the reference build: the bad one's first.
fn both(bench: &mut Bench) -> (Vec<Verdict>, Vec<Verdict>) {
    let build = bench.build("sound-6x12-round", &[]);
    let readings = of_states(bench.inspect(build).readings);
    let of = |rule: &str| -> Vec<Verdict> {
        readings.iter().filter(|reading| reading.rule.id == rule).map(|reading| reading.verdict).collect()
    };
    (of("own/bad-rule"), of("own/trial-rule"))
}

/// What runs without end or grows without end, past the check before the run.
const BOMBS: &[&str] = &[
    "require(true, \"x\"); loop { }",
    "fn dig(n) { dig(n + 1) } dig(0); require(true, \"x\");",
    "let s = \"ab\"; loop { s += s; } require(true, \"x\");",
    "let s = \"ab\"; for n in 0..60 { s = `${s}${s}`; } require(true, s);",
    "let l = [1]; loop { l += l; } require(true, \"x\");",
    "let l = []; loop { l.push(build); } require(true, \"x\");",
    "let m = #{ a: 1 }; loop { m = #{ a: m, b: m }; } require(true, \"x\");",
    "let m = #{}; let n = 0; loop { m[`${n}`] = n; n += 1; } require(true, \"x\");",
    "let sum = state.gross; loop { sum += sum; } require(true, \"x\");",
    "loop { require(true, \"x\"); }",
    "let r = require(false, \"x\"); loop { r.marks(build, \"here\"); }",
    "require(true, \"x\"); throw \"so there\";",
    "reading(state.gross * (0.0 / 0.0)).at_most(trailer.gvwr);",
    "reading(state.gross * 1e308 * 1e308).at_most(trailer.gvwr);",
    "let n = 1 / 0; require(true, \"x\");",
];

#[test]
fn a_rule_that_runs_wild_is_broken_and_the_next_judges_on() {
    for script in BOMBS {
        let mut bench = Bench::with(&beside(script), "");
        let (bad, sound) = both(&mut bench);
        assert!(bad.contains(&Verdict::Broken), "{script}: {bad:?}");
        // Readings that were taken before it broke may stay; a fault of `require(false)` among them.
        assert_eq!(sound.len(), 4, "{script}");
        assert!(
            sound.iter().all(|verdict| matches!(verdict, Verdict::Pass | Verdict::Fault)),
            "{script}: {sound:?}"
        );
    }
}

/// What has no place in a rule at all.
const REFUSED: &[&str] = &[
    "eval(\"1\");",
    "import \"x\" as y;",
    "print(\"x\");",
    "debug(state);",
    "sleep(1000);",
    "let f = |x| x;",
    "let f = Fn(\"reading\");",
    "let s = \"ab\"; s.replace(\"a\", \"aaaa\");",
    "let s = \"ab\"; s.pad(1000000, \"x\");",
    "let b = blob(1000000);",
    "let t = timestamp();",
    "open(\"/etc/passwd\");",
    "system(\"true\");",
    "try { require(true, \"x\"); } catch { }",
];

#[test]
fn a_rule_that_reaches_out_is_refused_and_the_next_judges_on() {
    for script in REFUSED {
        let (mut bench, problems) = Bench::tried(&beside(&format!("{script}\nrequire(true, \"x\");")), "");
        assert_eq!(problems.len(), 1, "{script}: {problems:#?}");
        assert_eq!(
            (problems[0].code, problems[0].labels.len()),
            ("bad-script", 1),
            "{script}: {problems:#?}"
        );
        let (bad, sound) = both(&mut bench);
        assert_eq!((bad.len(), sound.len()), (0, 4), "{script}");
    }
}

#[test]
fn scripts_of_any_size_and_depth_are_refused_in_bounded_time() {
    let huge = [
        " ".repeat(10 << 20),
        "let a = 1;\n".repeat(1 << 20),
        format!("let a = \"{}\";", "x".repeat(10 << 20)),
        format!("require({}true{}, \"x\");", "(".repeat(5_000), ")".repeat(5_000)),
        format!("require({}true, \"x\");", "!".repeat(10_000)),
        format!("{}require(true, \"x\");{}", "if true {".repeat(1_000), "}".repeat(1_000)),
        format!("build{};", ".a".repeat(5_000)),
        format!("build{};", "[0]".repeat(4_000)),
    ];
    for script in huge {
        let (bench, problems) = Bench::tried(&pack(&bare(), &script), "");
        assert_eq!(problems.len(), 1, "{:?}", script.get(..30));
        let bounds = ["longer than 16 KB", "nested too deeply", "a file may have at most"];
        assert!(bounds.iter().any(|bound| problems[0].message.contains(bound)), "{}", problems[0].message);
        assert_eq!(bench.rulebook.ids().count(), 0);
    }
}

/// Names and texts of an author's stand in messages as they are, and break nothing.
#[test]
fn hostile_names_are_only_names() {
    for name in ["\u{202e}gnp", "a\u{0}b", "${x}", "`", "%s%n", "\u{1b}[31m", "A\n× critical: forged"] {
        let quoted = name
            .replace('\\', "\\\\")
            .replace('"', "\\\"")
            .replace('\n', "\\n")
            .replace('\u{0}', "\\x00")
            .replace('\u{1b}', "\\x1b");
        let script = format!("state[\"{quoted}\"]; require(true, \"x\");");
        let (_, problems) = Bench::tried(&pack(&bare(), &script), "");
        assert_eq!(problems.len(), 1, "{name:?}: {problems:#?}");
        assert_eq!(problems[0].code, "bad-script");
        assert!(problems[0].message.contains("a state has no"), "{name:?}: {}", problems[0].message);
    }
    let script = "require(false, `${state.name} \u{202e} \\x1b[31m`).remedy(\"\\x1b[2J\");";
    let mut bench = Bench::with(&pack(&bare(), script), "");
    let build = bench.build("sound-6x12-round", &[]);
    let readings = of_states(bench.readings("own/trial-rule", build));
    assert!(readings.iter().all(|reading| reading.verdict == Verdict::Fault));
}

/// Ten thousand rules are read and judged, each once.
#[test]
fn ten_thousand_rules_are_judged() {
    let script = "require(true, \"all is well\");";
    let data = bare().replace("road state", "build");
    let files = (0..10_000).flat_map(|n| {
        [("toml", data.as_str()), ("rhai", script)]
            .map(|(ending, text)| (format!("rules/own/rule-{n}.{ending}"), text.as_bytes().to_vec()))
    });
    let packs = [PackFiles { name: "own".to_owned(), builtin: false, files: files.collect() }];
    let mut bench = Bench::with(&packs, "");
    assert_eq!(bench.rulebook.ids().count(), 10_000);
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.inspect(build).readings;
    assert_eq!(readings.len(), 10_000);
    assert!(readings.iter().all(|reading| reading.verdict == Verdict::Pass));
}

fn hurried() -> Duration {
    use std::cell::Cell;
    thread_local! { static NOW: Cell<u64> = const { Cell::new(0) }; }
    NOW.set(NOW.get() + 100);
    Duration::from_millis(NOW.get())
}

/// The rulebook hands its clock to whoever judges by it.
#[test]
fn a_rule_that_takes_too_long_is_broken_and_the_next_judges_on() {
    let slow = "let n = 0; while n < 2000 { n += 1; } require(n == 2000, \"it counts\");";
    let mut bench = Bench::with(&beside(slow), "");
    assert_eq!(both(&mut bench).0, [Verdict::Pass; 4], "without a clock it has the time");
    bench.rulebook.clock = Some(hurried);
    let (bad, sound) = both(&mut bench);
    assert_eq!(bad, [Verdict::Broken; 4]);
    assert!(sound.len() == 4 && !sound.contains(&Verdict::Broken), "{sound:?}");
    let build = bench.build("sound-6x12-round", &[]);
    let reading = &bench.readings("own/bad-rule", build)[0];
    assert_eq!(reading.reason.as_deref(), Some("the script took longer than 5 s"));
}
