//! Rules on every arrangement: what the extremes show is what judging each arrangement by itself shows.

use std::collections::{BTreeMap, BTreeSet};

use pintle_calc::arrange::Arrangements;
use pintle_finding::{Reading, Verdict};
use pintle_rulebook::{PackFiles, builtin_packs};
use pintle_spec::Build;

use crate::bench::{Bench, DATA, pack};

/// The least margin of each figure that a rule reads, over the road, whether on a state or an arrangement.
fn least_margins(readings: &[Reading]) -> BTreeMap<(String, String), f64> {
    let mut least = BTreeMap::new();
    for reading in readings {
        let Some(margin) = reading.margin() else { continue };
        if !matches!(reading.subject.kind, "road state" | "state" | "arrangement") {
            continue;
        }
        let key = (reading.rule.id.clone(), reading.what.clone());
        let held = least.entry(key).or_insert(f64::INFINITY);
        *held = held.min(margin.amount.si());
    }
    least
}

/// The build with every corner arrangement written out as a road state of its own.
fn written_out(build: &Build) -> Build {
    let corners: Vec<_> = Arrangements::of(build).unwrap().corners().unwrap().unwrap().collect();
    assert!(corners.len() >= 2, "{} has nothing to arrange", build.number.value);
    let mut whole = build.clone();
    whole.states.extend(corners);
    whole
}

/// The built-in rules that are judged on every arrangement, and no others: a figure of its own is judged where it stands.
fn of_road_states() -> Vec<PackFiles> {
    let all = Bench::builtin();
    let judged = |name: &str| {
        let rule = all.rulebook.rule(name.trim_start_matches("rules/").rsplit_once('.')?.0)?;
        rule.file.judges.takes_road_states().then_some(())
    };
    let mut packs = builtin_packs();
    for pack in &mut packs {
        pack.files.retain(|(name, _)| judged(name).is_some());
    }
    packs.retain(|pack| !pack.files.is_empty());
    packs
}

#[test]
fn the_extremes_show_what_judging_every_arrangement_shows() {
    let mut bench = Bench::with(&of_road_states(), "");
    let rules: BTreeSet<String> = bench.rulebook.ids().map(str::to_owned).collect();
    assert!(rules.len() >= 14, "{rules:?}");
    let mut compared = BTreeSet::new();
    let mut count = 0;
    for spec in [
        "sound-5x8-round",
        "sound-6x10-wedge",
        "sound-6x12-round",
        "rear-galley-5x8",
        "overload-6x12",
        "tall-rack-6x10",
    ] {
        let build = bench.build(spec, &[]);
        let by_extremes = least_margins(&bench.inspect(build.clone()).readings);
        let by_all = least_margins(&bench.inspect(written_out(&build)).readings);
        assert_eq!(by_extremes.keys().collect::<Vec<_>>(), by_all.keys().collect::<Vec<_>>(), "{spec}");
        for (what, all) in &by_all {
            let extreme = by_extremes[what];
            // A reading of the height of the centre of gravity can be worse between the corners: a tank part full.
            let no_worse = extreme <= all + 1e-9 * all.abs().max(1.0);
            let part_full = what.1.contains("stability") && extreme <= *all;
            let alike = (extreme - all).abs() <= 1e-9 * all.abs().max(1.0);
            assert!(
                no_worse && (alike || part_full),
                "{spec}: {what:?}: {extreme} by extremes, {all} by all"
            );
            compared.insert(what.0.clone());
            count += 1;
        }
    }
    assert!(count > 100, "{count}");
    assert_eq!(compared, rules, "every rule of road states was compared on some build");
}

#[test]
fn the_worst_arrangement_is_named_where_no_state_shows_it() {
    let mut bench = Bench::builtin();
    let build = bench.build("tall-rack-6x10", &[]);
    let readings = bench.readings("towing/narrow-stance", build);
    let arrangement: Vec<&Reading> =
        readings.iter().filter(|reading| reading.subject.kind == "arrangement").collect();
    let [worst] = arrangement.as_slice() else { panic!("{arrangement:#?}") };
    assert_eq!(worst.verdict, Verdict::Fault);
    assert!(worst.subject.name.contains("can out"), "{}", worst.subject.name);
    let states = readings.iter().filter(|reading| reading.subject.kind == "road state");
    let margin = |reading: &Reading| reading.margin().unwrap().amount.si();
    assert!(states.map(margin).all(|state| state > margin(worst)));
}

/// A value that is missing is said once, by the states, and not again by the arrangements.
#[test]
fn what_is_missing_is_not_said_twice() {
    let mut bench = Bench::builtin();
    let crate_ = "{ kind = \"module\", at = { front = \"40 in\", left = \"0 in\" }, length = \"10 in\", width = \"10 in\", height = \"10 in\" }";
    let build = bench.build("sound-6x12-round", &[("item.crate", crate_)]);
    let readings = bench.readings("towing/light-tongue", build);
    assert!(readings.iter().all(|reading| reading.verdict == Verdict::CannotJudge), "{readings:#?}");
    assert!(readings.iter().all(|reading| reading.subject.kind == "road state"), "{readings:#?}");
}

/// What only the arrangements need is missed by them: how full a tank is, is stated for each state, but a removable
/// module without a weight that every state leaves at home is met in no state.
#[test]
fn what_only_an_arrangement_needs_is_missed() {
    let mut bench = Bench::builtin();
    let crate_ = "{ kind = \"module\", removable = true, at = { front = \"40 in\", left = \"0 in\" }, length = \"10 in\", width = \"10 in\", height = \"10 in\" }";
    let states = "[{ name = \"road\", use = \"road\", out = [\"crate\"], fill = { fresh = \"0 %\", grey = \"0 %\" } }]";
    let build = bench.build("sound-6x12-round", &[("item.crate", crate_), ("state", states)]);
    let readings = bench.readings("towing/light-tongue", build);
    let missed: Vec<&Reading> =
        readings.iter().filter(|reading| reading.verdict == Verdict::CannotJudge).collect();
    let [missed] = missed.as_slice() else { panic!("{readings:#?}") };
    assert_eq!(missed.subject.kind, "arrangement");
    assert_eq!(missed.reason.as_deref(), Some("`mass` of item `crate` is not given"));
    assert!(!missed.labels.is_empty());
}

/// A formula of a shop's own over several figures is judged at the extremes of each.
#[test]
fn a_script_that_hands_the_state_on_is_judged_on_every_extreme() {
    let script =
        "fn weight(of) { of.gross }\nreading(weight(state)).at_most(limit.most).remedy(\"carry less\");\n";
    let mut bench = Bench::with(&pack(DATA, script), "");
    let build = bench.build("sound-6x12-round", &[]);
    let most = bench.readings("own/trial-rule", build.clone());
    let direct = Bench::with(&pack(DATA, crate::bench::SCRIPT), "").readings("own/trial-rule", build);
    let worst = |readings: &[Reading]| {
        let margins = readings.iter().map(|reading| reading.margin().unwrap().amount.si());
        margins.fold(f64::INFINITY, f64::min)
    };
    assert!((worst(&most) - worst(&direct)).abs() < 1e-9);
}
