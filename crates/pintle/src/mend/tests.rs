//! Every remedy of the demo shop through the writer: the changed text, read from scratch, gives what was promised.

use camino::Utf8PathBuf;
use pintle_finding::{Change, Reading, Verdict, Written};
use pintle_quantity::Quantity;
use pintle_rulebook::{Detail, Judge};
use pintle_spec::read_build;
use proptest::prelude::*;

use super::write;
use crate::inspect::{Job, load, tried};
use crate::shop::Shops;

fn builds() -> Utf8PathBuf {
    Utf8PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../specs/builds")
}

fn job(shops: &mut Shops, build: &str) -> Job {
    let path = builds().join(format!("{build}.toml"));
    Job { shop: shops.of(&path), root: crate::files::Root::Working, path }
}

/// The readings of a text in place of a spec's own.
fn readings(job: &Job, judge: &Judge<'_>, text: &str) -> Vec<Reading> {
    let mut sources = job.shop.sources.clone();
    let source = sources.add("changed.toml", text);
    let mut problems = Vec::new();
    let build = read_build(&sources, source, &job.shop.stock, &mut problems);
    assert_eq!(problems, [], "{text}");
    judge.inspect(build.unwrap(), &sources, Detail::Findings).readings
}

#[test]
fn every_remedy_written_and_weighed_from_scratch_gives_what_was_promised() {
    let mut shops = Shops::new(None);
    let mut written = 0;
    for build in ["rear-galley-5x8", "tall-rack-6x10", "stuffy-5x8", "no-brakes-7x14", "overload-6x12"] {
        let job = job(&mut shops, build);
        let judge = Judge::new(&job.shop.rulebook);
        let (sources, spec, problems) = load(&job);
        assert_eq!(problems, []);
        let spec = spec.unwrap();
        let source = spec.source;
        let inspection = judge.inspect(spec, &sources, Detail::Findings);
        let remedies = tried(&judge, &job, &sources, source, &inspection);
        let text = sources.text(source);
        for remedy in &remedies.all {
            written += 1;
            let words = format!("{build}: {}", remedy.words());
            let new = write::changed(text, &remedy.changes).unwrap_or_else(|why| panic!("{words}: {why}"));
            for comment in text.lines().filter_map(|line| line.get(line.find('#')?..)) {
                assert!(new.contains(comment), "{words}: {comment} is gone");
            }
            let after = readings(&job, &judge, &new);
            for cleared in &remedy.clears {
                let fault = &inspection.readings[cleared.reading];
                // What arrangements and tight readings are called changes with the arrangement that is worst.
                let named = matches!(fault.subject.kind, "arrangement" | "tight reading");
                let stays = after.iter().any(|reading| {
                    !named
                        && reading.verdict == Verdict::Fault
                        && (&reading.rule.id, &reading.subject.name, &reading.what)
                            == (&fault.rule.id, &fault.subject.name, &fault.what)
                });
                assert!(!stays, "{words}: {} stays", fault.rule.id);
                if let Some(value) = cleared.value {
                    let same = |reading: &Reading| {
                        reading.rule.id == fault.rule.id
                            && reading.value.is_some_and(|found| found.equals(value) == Ok(true))
                    };
                    assert!(after.iter().any(same), "{words}: no reading of {} is {value:?}", fault.rule.id);
                }
            }
        }
    }
    assert!(written >= 12, "only {written} remedies");
}

/// Places and weights of the demo shop's galley build that a remedy could write, as whole quarters of an inch or pounds.
fn any_change() -> impl Strategy<Value = Change> {
    let inches = (-40..400_i32).prop_map(|quarters| {
        Written::Text(Quantity::inches(f64::from(quarters) / 4.0).show(pintle_quantity::Units::AsWritten))
    });
    let pounds = (0..300_i32).prop_map(|pounds| Written::Text(format!("{pounds} lb")));
    let share = (0..=20_i32).prop_map(|twentieths| Written::Text(format!("{} %", twentieths * 5)));
    let at = |keys: &'static [&'static str]| move |to: Written| Change::set(keys, to);
    prop_oneof![
        inches.clone().prop_map(at(&["item", "battery", "at", "rear"])),
        inches.clone().prop_map(at(&["item", "deck", "at", "front"])),
        inches.clone().prop_map(at(&["tank", "fresh", "at", "rear"])),
        inches.prop_map(at(&["load", "bags", "at", "front"])),
        (90..120_i32).prop_map(|inches| Change::set(
            &["trailer", "axle", "ball"],
            Written::Text(format!("{inches} in"))
        )),
        (50..250_i32)
            .prop_map(|pounds| Change::set(&["trailer", "tongue"], Written::Text(format!("{pounds} lb")))),
        (60..300_i32)
            .prop_map(|pounds| Change::set(&["load", "bags", "mass"], Written::Text(format!("{pounds} lb")))),
        pounds.prop_map(at(&["item", "galley", "mass"])),
        share.prop_map(at(&["state", "night", "fill", "fresh"])),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The law under every remedy: what is weighed of the changed tree, as a trial does, and what is weighed of the changed
    /// text, as whoever opens the file does, are the same figures.
    #[test]
    fn tree_and_text_weigh_the_same(changes in prop::collection::vec(any_change(), 1..4)) {
        let mut shops = Shops::new(None);
        let job = job(&mut shops, "rear-galley-5x8");
        let (sources, spec, _) = load(&job);
        let source = spec.unwrap().source;
        let new = write::changed(sources.text(source), &changes).unwrap();
        let mut from_text = job.shop.sources.clone();
        let changed = from_text.add("changed.toml", &new);
        let text = read_build(&from_text, changed, &job.shop.stock, &mut Vec::new());
        let mut root = pintle_spec::node::parse(&sources, source, &mut Vec::new());
        let span = root.span;
        for Change { at, to } in &changes {
            let mut value = pintle_source::Sources::new();
            let file = value.add("value.toml", &format!("v = {}\n", to.as_ref().unwrap().toml()));
            let node = pintle_spec::node::parse(&value, file, &mut Vec::new());
            let steps: Vec<&str> = at.iter().map(String::as_str).collect();
            pintle_spec::patch::set_at(&mut root, &steps, span, node.child("v").unwrap()).unwrap();
        }
        let tree = pintle_spec::read_build_node(&root, source, &job.shop.stock, &mut Vec::new());
        prop_assert_eq!(text.is_some(), tree.is_some());
        let (Some(text), Some(tree)) = (text, tree) else { return Ok(()) };
        for state in 0..tree.states.len() {
            let weigh = |build| {
                let weights = pintle_calc::weights::Weights::of_state(build, state);
                let figures = [weights.gross(), weights.tongue(), weights.centre_x(), weights.centre_z(), weights.side_difference()];
                figures.map(|figure| figure.map(|figure| figure.quantity.si()))
            };
            prop_assert_eq!(weigh(&text), weigh(&tree));
        }
    }
}
