//! `pintle compare`: what changed between two versions of a spec, or of a folder of specs.

mod pairs;
mod sides;

use std::sync::Arc;

use jiff::civil::Date;
use pintle_finding::{Grade, Inspection, Problem, Rule};
use pintle_report::compare::{
    Changes, Comparison, RuleFacts, RulebookChange, RulebookFacts, Side, Tolerance, WaivedIn, WaiverFacts,
    WaiverTerms, compare, human, json, markdown, plain,
};
use pintle_rulebook::{Detail, Renamed, Waiver};
use pintle_source::Sources;

use crate::call::{Call, Compare, CompareFormat};
use crate::clock;
use crate::crew::{Bench, work};
use crate::exit::Exit;
use crate::inspect::{Job, load};
use crate::print;
use crate::shop::{Shop, Shops};
use pairs::{Pair, pair_up};
use sides::sides;

/// Runs the command.
pub(crate) fn run(call: &Call, call_to_compare: &Compare) -> Exit {
    let mut loose: Vec<(Vec<Problem>, Sources)> = Vec::new();
    let mut pairs = Vec::new();
    match sides(call_to_compare) {
        Ok([old, new]) => {
            let mut problems = Vec::new();
            let shops = |root| Shops::at(call.rulebook.as_deref(), root);
            let (mut before, mut after) = (shops(old.root.clone()), shops(new.root.clone()));
            pairs = pair_up(&old, &new, &mut before, &mut after, &mut problems);
            loose.extend(of_shops(&[before, after]));
            if pairs.is_empty() && problems.is_empty() {
                let places = [&old, &new].map(|side| format!("`{}`", side.shown()));
                problems.push(
                    Problem::new("no-specs", format!("no spec is found in {}", places.join(" or in "))).help(
                        "name two spec files, or folders that hold some; a spec is a TOML file that opens with [build]",
                    ),
                );
            }
            loose.push((problems, Sources::new()));
        }
        Err(problems) => loose.push((problems, Sources::new())),
    }
    loose.retain(|(problems, _)| !problems.is_empty());
    let hold = hold(call_to_compare.hold, &pairs);
    let mut specs = Vec::new();
    let json = call_to_compare.format == CompareFormat::Json;
    let day = clock::day(call);
    let detail = if json { Detail::Everything } else { Detail::Findings };
    work(
        &pairs,
        call_to_compare.threads,
        |bench, pair| one(bench, pair, hold, (detail, day)),
        |done| specs.push(done),
    );
    let changes = Changes::new(hold, specs, rulebooks(&pairs), loose);
    let look = print::look(call);
    print::out(&match call_to_compare.format {
        CompareFormat::Human => human::text(&changes, &look),
        CompareFormat::Plain => plain::text(&changes, &look),
        CompareFormat::Json => json::text(&changes, &look),
        CompareFormat::Markdown => markdown::text(&changes, &look),
    });
    changes.turn().into()
}

/// Problems of the shops' own files. Those of a shop that is on both sides are said once.
fn of_shops(shops: &[Shops; 2]) -> Vec<(Vec<Problem>, Sources)> {
    let wrong: Vec<&Arc<Shop>> =
        shops.iter().flat_map(Shops::all).filter(|shop| !shop.own_problems().is_empty()).collect();
    let again = |at: usize, shop: &Shop| {
        wrong.iter().take(at).any(|held| held.name == shop.name && held.own_problems() == shop.own_problems())
    };
    let once = wrong.iter().enumerate().filter(|(at, shop)| !again(*at, shop));
    once.map(|(_, shop)| (shop.own_problems().to_vec(), shop.sources.clone())).collect()
}

/// The hold in force: the call's, or the strictest of the new versions' shops; of the old ones' where nothing is new.
fn hold(stated: Option<Grade>, pairs: &[Pair]) -> Grade {
    let of = |side: fn(&Pair) -> Option<&Job>| {
        pairs.iter().filter_map(side).map(|job| job.shop.rulebook.hold).min()
    };
    stated
        .or_else(|| of(|pair| pair.new.as_ref()))
        .or_else(|| of(|pair| pair.old.as_ref()))
        .unwrap_or(Grade::Major)
}

fn one<'j>(bench: &mut Bench<'j>, pair: &'j Pair, hold: Grade, (detail, day): (Detail, Date)) -> Comparison {
    let mut side = |job: &'j Job| {
        let (sources, build, problems) = load(job);
        let inspection = match &build {
            Some(build) => {
                bench.judge(&job.shop, |judge| judge.inspect_on(day, build.clone(), &sources, detail))
            }
            None => Inspection { spec: job.name(), problems, ..Inspection::default() },
        };
        Side { inspection, build, sources }
    };
    let mut old = pair.old.as_ref().map(&mut side);
    // A finding of a rule that has another id now is the same finding.
    if let (Some(old), Some(job)) = (&mut old, &pair.new) {
        call_as_now(&mut old.inspection, &job.shop.rulebook.renamed);
    }
    let new = pair.new.as_ref().map(&mut side);
    compare(old, new, pair.matched, hold)
}

/// Puts the ids that rules have now in place of those that they had.
fn call_as_now(inspection: &mut Inspection, renamed: &Renamed) {
    for reading in &mut inspection.readings {
        if let Some(now) = renamed.now(&reading.rule.id) {
            reading.rule = Arc::new(Rule { id: now.to_owned(), ..Rule::clone(&reading.rule) });
        }
    }
    for (rule, _) in &mut inspection.later {
        if let Some(now) = renamed.now(rule) {
            now.clone_into(rule);
        }
    }
}

/// What changed from the rulebooks of the old versions to those of the new, each pair of them once.
fn rulebooks(pairs: &[Pair]) -> Vec<RulebookChange> {
    let mut seen: Vec<(&Arc<Shop>, &Arc<Shop>)> = Vec::new();
    let mut changes = Vec::new();
    for (old, new) in
        pairs.iter().filter_map(|pair| Some((&pair.old.as_ref()?.shop, &pair.new.as_ref()?.shop)))
    {
        if seen.iter().any(|(held_old, held_new)| Arc::ptr_eq(held_old, old) && Arc::ptr_eq(held_new, new)) {
            continue;
        }
        seen.push((old, new));
        changes.extend(facts(old, &new.rulebook.renamed).to(&facts(new, &Renamed::default())));
    }
    changes
}

/// What is in force in a shop, under the ids that another version of it has for its rules.
fn facts(shop: &Shop, renamed: &Renamed) -> RulebookFacts {
    let rules = shop.rulebook.rules.iter().map(|bound| RuleFacts {
        id: renamed.now(&bound.rule.id).unwrap_or(&bound.rule.id).to_owned(),
        called: renamed.now(&bound.rule.id).map(|_| bound.rule.id.clone()),
        grade: bound.rule.grade,
        from: bound.rule.from,
        judges: bound.file.judges.word(),
        limits: bound.limits.iter().map(|limit| (limit.name.clone(), limit.value)).collect(),
        script: bound.file.script_text.clone(),
    });
    let tolerances = shop.rulebook.bound_tolerances.iter().filter_map(|bound| {
        Some((bound.footing.name()?.to_owned(), Tolerance { value: bound.value, least: bound.least }))
    });
    let waivers = shop.rulebook.waivers.all().flat_map(|(_, waiver)| each_build(waiver, renamed));
    RulebookFacts {
        name: shop.name.clone(),
        hold: shop.rulebook.hold,
        rules: rules.collect(),
        tolerances: tolerances.collect(),
        waivers: waivers.collect(),
    }
}

/// A waiver, once for every build that it names.
fn each_build(waiver: &Waiver, renamed: &Renamed) -> Vec<WaiverFacts> {
    let wide = if waiver.of_build { WaivedIn::Own } else { WaivedIn::Any };
    let named = waiver.builds.iter().map(|build| WaivedIn::Build(build.value.clone()));
    let all: Vec<WaivedIn> = if waiver.builds.is_empty() { vec![wide] } else { named.collect() };
    let held = &waiver.waived;
    let facts = |waived_in| WaiverFacts {
        rule: renamed.now(&waiver.rule.value).unwrap_or(&waiver.rule.value).to_owned(),
        item: waiver.item.as_ref().map(|item| item.value.clone()),
        waived_in,
        terms: WaiverTerms {
            kind: held.kind.word(),
            until: held.until.clone(),
            who: held.who.clone(),
            reason: held.reason.clone(),
        },
    };
    all.into_iter().map(facts).collect()
}
