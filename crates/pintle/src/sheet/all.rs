//! The sheets of many specs in one folder, with an index of them: static files, to be looked at from disk or from any host.

use std::collections::BTreeSet;

use camino::Utf8Path;
use pintle_finding::{Inspection, Problem};
use pintle_sheet::Entry;
use pintle_source::Sources;

use super::{How, Judged, SHEET, judged, page};
use crate::crew;
use crate::files;
use crate::inspect::Job;
use crate::print;
use crate::product;
use crate::round::{Rounds, base, closed};
use crate::shop::Shops;

const INDEX: &str = "index.html";

/// Writes them. A spec that cannot be read has no sheet, and stands in the index with what is wrong.
pub(super) fn write(jobs: &[Job], folder: &Utf8Path, how: How, shops: &mut Shops, aside: &mut print::Aside) {
    if jobs.is_empty() {
        return;
    }
    let mut rounds = Rounds::default();
    let mut all: Vec<(&Job, Judged)> = Vec::new();
    let mut due = jobs.iter();
    crew::work(
        jobs,
        None,
        |bench, job| bench.judge(&job.shop, |judge| judged(judge, job, how)),
        |done| {
            if let Some(job) = due.next() {
                rounds.add(&job.shop, &done.inspection);
                all.push((job, done));
            }
        },
    );
    let of_rulebooks = closed(rounds, jobs, shops, how.day);
    let mut names = BTreeSet::from([INDEX.to_owned()]);
    let mut entries = Vec::new();
    for (job, judged) in &all {
        aside.say(&judged.inspection.problems, &judged.sources);
        let of_rulebook = of_rulebooks.iter().map(|(inspection, _)| inspection).find(|one| is_of(one, job));
        let file = page(job, judged, of_rulebook, how).and_then(|text| {
            let file = free_name(job, &mut names);
            let saved = made(folder).and_then(|()| product::save(&folder.join(&file), &text, &SHEET));
            saved.map_err(|problem| aside.say(&[problem], &Sources::new())).ok().map(|()| file)
        });
        let hold = job.shop.rulebook.hold;
        entries.push(Entry::of(file.as_deref(), &judged.inspection, hold, how.look.units));
    }
    let shop = jobs.first().and_then(|job| job.shop.rulebook.shop.as_deref());
    let one_shop = jobs.iter().all(|job| job.shop.rulebook.shop.as_deref() == shop);
    let index = pintle_sheet::index(shop.filter(|_| one_shop), &entries, how.day);
    match made(folder).and_then(|()| product::save(&folder.join(INDEX), &index, &SHEET)) {
        Ok(()) => print::out(&format!(
            "the sheets of {} specs are in `{folder}`: open `{}`\n",
            entries.len(),
            folder.join(INDEX)
        )),
        Err(problem) => aside.say(&[problem], &Sources::new()),
    }
}

/// Whether an inspection is of the rulebook that a spec stands under.
fn is_of(inspection: &Inspection, job: &Job) -> bool {
    base(&job.shop).name.as_deref() == Some(inspection.spec.as_str())
}

fn made(folder: &Utf8Path) -> Result<(), Problem> {
    std::fs::create_dir_all(folder).map_err(|error| {
        Problem::new("unwritable", format!("`{folder}` cannot be made: {}", files::reason(&error)))
            .help("name another folder")
    })
}

/// A name for a spec's sheet that no other has, whatever case a host's file system keeps.
fn free_name(job: &Job, names: &mut BTreeSet<String>) -> String {
    let stem = job.path.file_stem().unwrap_or("sheet");
    let safe = |letter: char| if letter.is_alphanumeric() || "-_.".contains(letter) { letter } else { '-' };
    let stem: String = stem.chars().map(safe).collect();
    let numbered =
        |count: usize| if count < 2 { format!("{stem}.html") } else { format!("{stem}-{count}.html") };
    // Among one more than there are names, one is free.
    let free = (1..=names.len() + 1).map(numbered).find(|name| !names.contains(&name.to_lowercase()));
    let free = free.unwrap_or_default();
    names.insert(free.to_lowercase());
    free
}
