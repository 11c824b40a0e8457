//! The demo shop's builds under the built-in rules, or under a rule made for one test.

use pintle_finding::{Inspection, Problem, Reading, Verdict};
use pintle_rulebook::{
    Bases, Bound, Detail, Judge, PackFiles, Rulebook, Settings, TrialResult, builtin_packs, day, each_rule,
    read_build_layer, read_layer, trial_bases,
};
use pintle_script::ARRANGEMENT;
use pintle_source::{SourceId, Sources};
use pintle_spec::node::{Node, parse};
use pintle_spec::{Build, Stock, patch, read_build_node, read_stock};

/// The demo shop's files, read, and a rulebook over them.
pub(crate) struct Bench {
    pub(crate) sources: Sources,
    pub(crate) rulebook: Rulebook,
    pub(crate) stock: Stock,
    pub(crate) specs: Vec<(String, SourceId)>,
}

impl Bench {
    /// The built-in packs, with nothing over them.
    pub(crate) fn builtin() -> Self {
        Self::with(&builtin_packs(), "")
    }

    /// Packs under a rulebook file, all of which must be sound.
    pub(crate) fn with(packs: &[PackFiles], settings: &str) -> Self {
        let (bench, problems) = Self::tried(packs, settings);
        assert_eq!(problems, []);
        bench
    }

    /// Packs under rulebook files, each over those before it, and what is wrong with them.
    pub(crate) fn layered(packs: &[PackFiles], files: &[(&str, &str)]) -> (Self, Vec<Problem>) {
        let mut sources = Sources::new();
        let mut problems = Vec::new();
        let mut layers = Vec::new();
        for (name, text) in files {
            let file = sources.add(name, text);
            layers.push(read_layer(&sources, file, &mut problems));
        }
        let rulebook = Rulebook::assemble(&mut sources, &Settings { layers }, packs, &mut problems);
        (Self::over(sources, rulebook), problems)
    }

    /// The same with the rulebook of one build above all.
    pub(crate) fn under(&mut self, text: &str) -> Vec<Problem> {
        let mut problems = Vec::new();
        let file = self.sources.add("builds/a.pintle.toml", text);
        let layer = read_build_layer(&self.sources, file, &mut problems);
        self.rulebook = self.rulebook.under(&layer, &self.sources, &mut problems);
        problems
    }

    /// Everything the rulebook says of a build on a day.
    pub(crate) fn inspect_on(&self, on: &str, build: Build) -> Inspection {
        Judge::new(&self.rulebook).inspect_on(day(on).unwrap(), build, &self.sources, Detail::Everything)
    }

    /// Packs under a rulebook file, and what is wrong with them.
    pub(crate) fn tried(packs: &[PackFiles], settings: &str) -> (Self, Vec<Problem>) {
        let mut sources = Sources::new();
        let mut problems = Vec::new();
        let settings = if settings.is_empty() {
            Settings::default()
        } else {
            let file = sources.add("pintle.toml", settings);
            Settings { layers: vec![read_layer(&sources, file, &mut problems)] }
        };
        let rulebook = Rulebook::assemble(&mut sources, &settings, packs, &mut problems);
        (Self::over(sources, rulebook), problems)
    }

    /// The demo shop's builds under a rulebook.
    fn over(mut sources: Sources, rulebook: Rulebook) -> Self {
        let mut shop = Vec::new();
        let (mut stock, mut specs) = (Vec::new(), Vec::new());
        for (name, bytes) in trial_bases() {
            let id = sources.add_bytes(&name, &bytes).unwrap();
            if name.contains("/stock/") {
                stock.push(id);
            } else {
                let stem = name.rsplit('/').next().unwrap().trim_end_matches(".toml").to_owned();
                specs.push((stem, id));
            }
        }
        let stock = read_stock(&sources, &stock, &mut shop);
        assert_eq!(shop, [], "the demo shop's stock must be sound");
        Self { sources, rulebook, stock, specs }
    }

    /// What came of the trials of all its rules.
    #[expect(
        clippy::redundant_closure_for_method_calls,
        reason = "the method itself is of one lifetime only"
    )]
    pub(crate) fn trials(&mut self) -> Vec<TrialResult> {
        let mut problems = Vec::new();
        let bases = Bases::builtin(&mut self.sources, &mut problems);
        assert_eq!(problems, []);
        let rules: Vec<&Bound> = self.rulebook.rules.iter().collect();
        let own = Bases::default();
        let tried =
            each_rule(&self.rulebook, &bases, &own, &self.sources, &rules, |trials, bound| trials.of(bound));
        tried.into_iter().flatten().collect()
    }

    /// One of the demo shop's builds, with values put in by path.
    pub(crate) fn build(&mut self, stem: &str, changes: &[(&str, &str)]) -> Build {
        let id = self.specs.iter().find(|(name, _)| name == stem).unwrap().1;
        let mut problems = Vec::new();
        let mut root: Node = parse(&self.sources, id, &mut problems);
        for (path, value) in changes {
            let file = self.sources.add("change.toml", &format!("value = {value}"));
            let change = parse(&self.sources, file, &mut problems);
            let value = change.child("value").unwrap();
            patch::set(&mut root, path, value.span, value).unwrap();
        }
        let build = read_build_node(&root, id, &self.stock, &mut problems);
        assert_eq!(problems, []);
        build.unwrap()
    }

    /// Everything the rulebook says of a build.
    pub(crate) fn inspect(&self, build: Build) -> Inspection {
        Judge::new(&self.rulebook).inspect(build, &self.sources, Detail::Everything)
    }

    /// What one rule says of a build.
    pub(crate) fn readings(&self, rule: &str, build: Build) -> Vec<Reading> {
        let bound = self.rulebook.rule(rule).unwrap();
        let all = Judge::of_rule(&self.rulebook, bound).inspect(build, &self.sources, Detail::Everything);
        all.readings.into_iter().filter(|reading| reading.rule.id == rule).collect()
    }

    /// The first fault that one rule finds in a build.
    pub(crate) fn fault(&self, rule: &str, build: Build) -> Reading {
        let readings = self.readings(rule, build);
        let fault = readings.iter().find(|reading| reading.verdict == Verdict::Fault);
        fault.unwrap_or_else(|| panic!("{rule} finds no fault in {readings:#?}")).clone()
    }

    /// The file a label stands in, the text it underlines, and its words.
    pub(crate) fn labels(&self, reading: &Reading) -> Vec<(String, String, String)> {
        let labels = reading.labels.iter();
        labels
            .map(|label| {
                let file = self.sources.name(label.span.source).to_owned();
                (file, self.sources.slice(label.span).to_owned(), label.text.clone())
            })
            .collect()
    }
}

/// A pack of one rule.
pub(crate) fn pack(data: &str, script: &str) -> Vec<PackFiles> {
    let files = vec![
        ("rules/own/trial-rule.rhai".to_owned(), script.as_bytes().to_vec()),
        ("rules/own/trial-rule.toml".to_owned(), data.as_bytes().to_vec()),
    ];
    vec![PackFiles { name: "own".to_owned(), builtin: false, files }]
}

/// A sound rule file that judges every road state against `limit.most`.
pub(crate) const DATA: &str = r#"title  = "heavier than we like"
why    = "It has to go up our hill."
judges = "road state"
grade  = "minor"
from   = "quote"

[limit.most]
value = "2000 lb"
basis = "shop"

[[source]]
basis = "shop"
says  = "the hill is steep"

[[trial]]
name   = "as drawn"
base   = "sound-6x12-round"
expect = "fault"
"#;

/// Its script.
pub(crate) const SCRIPT: &str =
    "reading(state.gross)\n    .at_most(limit.most)\n    .remedy(\"carry less\");\n";

/// What an own script says of the reference build's four road states, under [`DATA`] without its limit.
pub(crate) fn says(script: &str) -> Vec<Reading> {
    let data = DATA.replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let mut bench = Bench::with(&pack(&data, script), "");
    let build = bench.build("sound-6x12-round", &[]);
    of_states(bench.readings("own/trial-rule", build))
}

/// Of some readings those on the spec's own states.
pub(crate) fn of_states(readings: Vec<Reading>) -> Vec<Reading> {
    readings.into_iter().filter(|reading| reading.subject.kind != ARRANGEMENT).collect()
}
