//! `pintle backlog`: the list of findings that were there when an old collection of specs was taken in.
//!
//! It is written once and can only shrink: what is new counts, and what is gone is taken off.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::{Arc, Mutex, PoisonError};

use camino::Utf8PathBuf;
use pintle_finding::{Accepted, Inspection, Problem};
use pintle_report::words::counted;
use pintle_report::{human, safe};
use pintle_rulebook::{Backlog as List, Detail, Entry, Finds};
use pintle_source::Sources;

use crate::call::{Backlog, BacklogCommand, BacklogPlace, Call};
use crate::clock;
use crate::crew;
use crate::exit::Exit;
use crate::files;
use crate::inspect::one;
use crate::mend::save;
use crate::print;
use crate::round::specs_of;
use crate::shop::{NO_BACKLOG, Shop, Shops};

/// So many findings that a list would grow by are told one by one.
const MOST_TOLD: usize = 20;

/// What is found, and how often on each item.
type Found = BTreeMap<Entry, BTreeMap<String, usize>>;

/// Runs the command.
pub(crate) fn run(call: &Call, backlog: &Backlog) -> Exit {
    let done = match &backlog.what {
        BacklogCommand::Record(place) => Spot::of(call, place, true).and_then(Spot::record),
        BacklogCommand::Show(place) => Spot::of(call, place, false).map(Spot::show),
        BacklogCommand::Shrink(place) => Spot::of(call, place, false).and_then(Spot::shrink),
    };
    match done {
        Ok(text) => {
            print::out(&text);
            Exit::Released
        }
        Err((problems, sources)) => {
            print::err(human::problems(&problems, &sources, &print::look(call)).trim_end());
            Exit::Wrong
        }
    }
}

type Refusal = (Vec<Problem>, Sources);

fn alone(problem: Problem) -> Refusal {
    (vec![problem], Sources::new())
}

/// A shop's backlog, and what is found on all its specs.
struct Spot {
    shop: Arc<Shop>,
    file: Utf8PathBuf,
    is_there: bool,
    found: Found,
    /// Faults of rules that cannot be waived, which are not listed.
    barred: usize,
    specs: usize,
}

impl Spot {
    fn of(call: &Call, place: &BacklogPlace, may_be_new: bool) -> Result<Self, Refusal> {
        let mut shops = Shops::new(call.rulebook.as_deref());
        let shop = shops.of(&place.at);
        let shop = shop.base.clone().unwrap_or(shop);
        let wrong: Vec<Problem> = shop
            .problems
            .iter()
            .filter(|problem| !(may_be_new && problem.code == NO_BACKLOG))
            .cloned()
            .collect();
        if Problem::any_wrong(&wrong) {
            return Err((wrong, shop.sources.clone()));
        }
        let mut aside = print::Aside::new(print::look(call));
        aside.say(&wrong, &shop.sources);
        let Some((file, is_there)) = shop.backlog.clone() else {
            let message = match &shop.name {
                Some(name) => format!("`{name}` names no backlog"),
                None => "there is no pintle.toml, and so no backlog".to_owned(),
            };
            return Err(alone(
                Problem::new("no-backlog-named", message)
                    .help("write `backlog = \"backlog.toml\"` in pintle.toml"),
            ));
        };
        let jobs = specs_of(&shop, &mut shops);
        for of_build in jobs.iter().filter(|job| job.shop.base.is_some() && !job.shop.is_wrong()) {
            aside.say(of_build.shop.own_problems(), &of_build.shop.sources);
        }
        let day = clock::day(call);
        let mut spot = Self { shop, file, is_there, found: Found::new(), barred: 0, specs: jobs.len() };
        let refused: Mutex<Vec<Refusal>> = Mutex::new(Vec::new());
        crew::work(
            &jobs,
            None,
            |bench, job| {
                let own = job.shop.own_problems();
                let (inspection, sources) = bench.judge(&job.shop, |judge| {
                    let (inspection, sources, _) = one(judge, job, day, Detail::Findings);
                    (inspection, sources)
                });
                let problems: Vec<Problem> = match job.shop.base {
                    Some(_) => own.iter().chain(&inspection.problems).cloned().collect(),
                    None => inspection.problems.clone(),
                };
                if Problem::any_wrong(&problems) {
                    refused.lock().unwrap_or_else(PoisonError::into_inner).push((problems, sources));
                }
                inspection
            },
            |inspection| spot.add(&inspection),
        );
        // What cannot be read could hide a finding, or look as if one were gone.
        let refused = refused.into_inner().unwrap_or_else(PoisonError::into_inner);
        match refused.into_iter().min_by(|one, other| named(one).cmp(&named(other))) {
            Some(first) => Err(first),
            None => Ok(spot),
        }
    }

    fn add(&mut self, inspection: &Inspection) {
        let mut here = Found::new();
        for reading in &inspection.readings {
            let open = !matches!(reading.accepted, Some(Accepted::Waived(_)));
            let Some(finds) = Finds::of(reading).filter(|_| open) else { continue };
            match self.shop.rulebook.rule(&reading.rule.id).map(|bound| bound.file.waivable) {
                Some(true) => {
                    let (rule, build) = (reading.rule.id.clone(), inspection.number.clone());
                    let on = here.entry(Entry { rule, build, finds }).or_default();
                    *on.entry(reading.path.clone()).or_default() += 1;
                }
                Some(false) => self.barred += 1,
                // One of the tool's own rules, on the list itself among others.
                None => {}
            }
        }
        // Two specs of one number are one build: what is found on either of them.
        for (entry, on) in here {
            let held = self.found.entry(entry).or_default();
            for (path, count) in on {
                let place = held.entry(path).or_default();
                *place = count.max(*place);
            }
        }
    }

    fn listed(&self) -> Found {
        let mut listed = Found::new();
        let entries = self.shop.rulebook.backlog.iter().flat_map(|list: &List| &list.entries);
        for (entry, items) in entries {
            for (path, _) in items {
                let on = listed.entry(entry.clone()).or_default();
                *on.entry(path.clone()).or_default() += 1;
            }
        }
        listed
    }

    fn record(self) -> Result<String, Refusal> {
        if !self.is_there {
            let text = written(&self.found);
            save::create(&self.file, text.as_bytes()).map_err(alone)?;
            return Ok(self.told(&self.found, "recorded"));
        }
        let grown = without(&self.found, &self.listed());
        if grown.is_empty() {
            return self.shrink();
        }
        let new: Vec<String> = lines(&grown);
        let count = counted(count(&grown), "finding");
        let message = format!(
            "{count} of the specs would be new in `{}`, and it can only shrink",
            files::shown(&self.file)
        );
        let more = new.len().saturating_sub(MOST_TOLD);
        let more = if more == 0 { String::new() } else { format!("; and {more} more") };
        let told: Vec<String> = new.into_iter().take(MOST_TOLD).collect();
        Err(alone(
            Problem::new("growing-backlog", message)
                .help(format!("mend them, or waive them: {}{more}", told.join("; "))),
        ))
    }

    fn shrink(self) -> Result<String, Refusal> {
        let listed = self.listed();
        let gone = without(&listed, &self.found);
        let left = without(&listed, &gone);
        if gone.is_empty() {
            return Ok(self.told(&left, "nothing to take off;"));
        }
        let shown = files::shown(&self.file);
        let read = self.shop.sources.iter().find(|source| source.name() == shown);
        let before = files::read(&self.file).map_err(alone)?;
        if !read.is_some_and(|read| before.ends_with(read.text().as_bytes())) {
            let problem = Problem::new("changed", format!("`{}` has changed since it was read", self.file));
            return Err(alone(problem.help("nothing was written; run the same again")));
        }
        save::replace(&self.file, &before, written(&left).as_bytes()).map_err(alone)?;
        let mut text = String::new();
        for line in lines(&gone) {
            let _ = writeln!(text, "off the list: {}", safe::line(&line));
        }
        text.push_str(&self.told(&left, "left"));
        Ok(text)
    }

    fn show(self) -> String {
        let listed = self.listed();
        let gone = without(&listed, &self.found);
        let mut text = String::new();
        for (entry, on) in &listed {
            for (path, count) in on {
                let left = gone.get(entry).and_then(|on| on.get(path)).copied().unwrap_or(0);
                let state = match left {
                    0 => "still found",
                    left if left < *count => "found less often",
                    _ => "no longer found",
                };
                let line = line(entry, path, *count);
                let _ = writeln!(text, "{}", safe::line(&format!("{line}: {state}")));
            }
        }
        let state = if gone.is_empty() {
            "all of them still found".to_owned()
        } else {
            format!("{} no longer found: `pintle backlog shrink` takes them off", count(&gone))
        };
        let _ = writeln!(
            text,
            "{} in {}, {state}",
            counted(count(&listed), "finding"),
            safe::line(&files::shown(&self.file))
        );
        text
    }

    /// What the list holds, and what it does not.
    fn told(&self, found: &Found, done: &str) -> String {
        let mut text = format!(
            "{done} {} of {} in {}\n",
            counted(count(found), "finding"),
            counted(self.specs, "spec"),
            safe::line(&files::shown(&self.file))
        );
        if self.barred > 0 {
            let _ = writeln!(
                text,
                "{} of rules that cannot be waived are not listed, and count",
                counted(self.barred, "finding")
            );
        }
        text
    }
}

fn named((problems, sources): &Refusal) -> String {
    let place = problems.first().and_then(|problem| problem.labels.first());
    place.map_or(String::new(), |label| sources.name(label.span.source).to_owned())
}

/// What is in the one and not in the other.
fn without(all: &Found, others: &Found) -> Found {
    let mut rest = Found::new();
    for (entry, on) in all {
        for (path, count) in on {
            let other = others.get(entry).and_then(|on| on.get(path)).copied().unwrap_or(0);
            if *count > other {
                rest.entry(entry.clone()).or_default().insert(path.clone(), count - other);
            }
        }
    }
    rest
}

fn count(found: &Found) -> usize {
    found.values().flat_map(BTreeMap::values).sum()
}

fn line(entry: &Entry, path: &str, count: usize) -> String {
    let times = if count == 1 { String::new() } else { format!(", {count} times") };
    format!("{}: {} on {path}, {}{times}", entry.build, entry.rule, entry.finds.word())
}

fn lines(found: &Found) -> Vec<String> {
    let all = found.iter().flat_map(|(entry, on)| on.iter().map(move |(path, count)| (entry, path, count)));
    all.map(|(entry, path, count)| line(entry, path, *count)).collect()
}

/// The list as a file: one table for each rule, build and sort, in order.
fn written(found: &Found) -> String {
    let mut text = "# Findings that were there when these specs were taken in. Written by `pintle backlog record`, made\n\
                    # shorter by `pintle backlog shrink`; it can only shrink. What is not listed here counts.\n"
        .to_owned();
    for (entry, on) in found.iter().filter(|(_, on)| !on.is_empty()) {
        let items: Vec<String> =
            on.iter().flat_map(|(path, count)| std::iter::repeat_n(quoted(path), *count)).collect();
        let _ = write!(
            text,
            "\n[[known]]\nrule  = {}\nbuild = {}\nfinds = {}\nitems = [{}]\n",
            quoted(&entry.rule),
            quoted(&entry.build),
            quoted(entry.finds.word()),
            items.join(", ")
        );
    }
    text
}

fn quoted(text: &str) -> String {
    pintle_finding::Written::Text(text.to_owned()).toml()
}
