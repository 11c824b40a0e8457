//! Which old version of a spec belongs to which new one.

use std::collections::BTreeMap;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;
use pintle_report::compare::Matched;
use pintle_source::Sources;
use pintle_spec::node::parse;
use pintle_spec::schema::build::{self, head};

use super::sides::Place;
use crate::inspect::{Job, jobs};
use crate::shop::Shops;

/// Two versions of one spec, or the only one there is.
#[derive(Debug)]
pub(super) struct Pair {
    pub(super) old: Option<Job>,
    pub(super) new: Option<Job>,
    pub(super) matched: Matched,
}

/// Brings the specs of two places together: two files as they are named; those of two folders by their paths in them,
/// and those whose path is gone by their build numbers.
pub(super) fn pair_up(
    old: &Place,
    new: &Place,
    old_shops: &mut Shops,
    new_shops: &mut Shops,
    problems: &mut Vec<Problem>,
) -> Vec<Pair> {
    let mut specs = |place: &Place, shops: &mut Shops| {
        let (jobs, mut wrong) = jobs(std::slice::from_ref(&place.path), shops);
        problems.append(&mut wrong);
        jobs
    };
    let (before, after) = (specs(old, old_shops), specs(new, new_shops));
    if !old.is_folder() {
        let (old, new) = (before.into_iter().next(), after.into_iter().next());
        return vec![Pair { old, new, matched: Matched::Call }];
    }
    let within = |place: &Place, job: Job| (within(&place.path, &job.path), job);
    let mut before: BTreeMap<Utf8PathBuf, Job> = before.into_iter().map(|job| within(old, job)).collect();
    let mut pairs: Vec<Pair> = Vec::new();
    let mut unmatched: Vec<Job> = Vec::new();
    for (path, job) in after.into_iter().map(|job| within(new, job)) {
        match before.remove(&path) {
            Some(old) => pairs.push(Pair { old: Some(old), new: Some(job), matched: Matched::Path }),
            None => unmatched.push(job),
        }
    }
    pairs.extend(by_number(before.into_values().collect(), unmatched));
    pairs
}

/// Where a spec stands within the folder that is compared.
fn within(folder: &Utf8Path, spec: &Utf8Path) -> Utf8PathBuf {
    let plain = |path: &Utf8Path| -> Utf8PathBuf {
        path.components().filter(|part| !matches!(part, camino::Utf8Component::CurDir)).collect()
    };
    let (folder, spec) = (plain(folder), plain(spec));
    spec.strip_prefix(&folder).map_or(spec.clone(), Utf8Path::to_owned)
}

/// Specs under one build number, where just one old and just one new one have it.
fn by_number(old: Vec<Job>, new: Vec<Job>) -> Vec<Pair> {
    let mut numbers: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let numbered = |job: Job| (number(&job), job);
    let old: Vec<(Option<String>, Job)> = old.into_iter().map(numbered).collect();
    let new: Vec<(Option<String>, Job)> = new.into_iter().map(numbered).collect();
    for (number, _) in &old {
        numbers.entry(number.clone().unwrap_or_default()).or_default().0 += 1;
    }
    for (number, _) in &new {
        numbers.entry(number.clone().unwrap_or_default()).or_default().1 += 1;
    }
    let alone =
        |number: &Option<String>| number.as_ref().is_some_and(|number| numbers.get(number) == Some(&(1, 1)));
    let mut before: Vec<(Option<String>, Job)> = Vec::new();
    let mut pairs: Vec<Pair> = Vec::new();
    for (number, job) in old {
        if alone(&number) {
            before.push((number, job));
        } else {
            pairs.push(Pair { old: Some(job), new: None, matched: Matched::Path });
        }
    }
    for (number, job) in new {
        let held = before.iter().position(|(held, _)| alone(&number) && *held == number);
        let old = held.map(|at| before.swap_remove(at).1);
        let matched = if old.is_some() { Matched::Number } else { Matched::Path };
        pairs.push(Pair { old, new: Some(job), matched });
    }
    pairs
}

/// A spec's build number, also where something else in it is wrong.
fn number(job: &Job) -> Option<String> {
    let bytes = job.root.read(&job.path).ok()?;
    let mut sources = Sources::new();
    let file = sources.add_bytes("", &bytes).ok()?;
    // What is wrong with it is said when it is read as a spec.
    let root = parse(&sources, file, &mut Vec::new());
    let number = root.child(build::HEAD.key)?.child(head::NUMBER.key)?.text()?.to_owned();
    (!number.trim().is_empty()).then_some(number)
}
