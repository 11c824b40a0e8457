//! `pintle mend`: list the remedies of a spec, and write one into it.

pub(crate) mod save;
pub(crate) mod write;

use camino::Utf8Path;
use jiff::civil::Date;
use pintle_finding::{Change, Inspection, Problem, Remedies, Remedy};
use pintle_report::{Look, Summary, human, remedies, safe};
use pintle_rulebook::{Detail, Judge, Workshop};
use pintle_source::Sources;

use crate::call::{Call, Mend};
use crate::clock;
use crate::exit::Exit;
use crate::files::{self, Root};
use crate::inspect::{Job, load, tried};
use crate::print;
use crate::shop::Shops;

/// Lines shown before and after a change.
const CONTEXT: usize = 2;

/// Runs the command.
pub(crate) fn run(call: &Call, mend: &Mend) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let job = Job { path: mend.spec.clone(), root: Root::Working, shop: shops.of(&mend.spec) };
    let day = clock::day(call);
    if !job.shop.is_wrong() {
        print::Aside::new(look).say(&job.shop.problems, &job.shop.sources);
    }
    match prepared(&job, day) {
        Ok(spec) => mended(mend, &job, &spec, look, day),
        Err((problems, sources)) => refuse(&problems, &sources, look),
    }
}

/// A spec that was read and judged, with the remedies that were found.
struct Spec {
    bytes: Vec<u8>,
    sources: Sources,
    inspection: Inspection,
}

type Refusal = (Vec<Problem>, Sources);

fn refuse(problems: &[Problem], sources: &Sources, look: Look) -> Exit {
    print::err(human::problems(problems, sources, &look).trim_end());
    Exit::Wrong
}

fn prepared(job: &Job, day: Date) -> Result<Spec, Refusal> {
    let alone = |problem: Problem| (vec![problem], Sources::new());
    if job.path.is_dir() {
        let problem = Problem::new("no-specs", format!("`{}` is a folder", job.path));
        return Err(alone(problem.help("name one spec: what is written is written into one file")));
    }
    if job.shop.is_wrong() {
        return Err((job.shop.problems.clone(), job.shop.sources.clone()));
    }
    let absolute = job.path.canonicalize_utf8().unwrap_or_else(|_| job.path.clone());
    if job.shop.folders.iter().any(|folder| absolute.starts_with(folder)) {
        let problem = Problem::new(
            "not-a-spec",
            format!("`{}` belongs to the stock list, a pack or the rulebook", job.path),
        );
        return Err(alone(
            problem.help("name a spec; what a remedy changes of a stock part it restates in the spec"),
        ));
    }
    let bytes = files::read(&job.path).map_err(alone)?;
    let (sources, build, problems) = load(job);
    let Some(build) = build else { return Err((problems, sources)) };
    let source = build.source;
    // Only what was read is changed: the file may have been saved in between.
    if sources.text(source).as_bytes() != without_mark(&bytes) && sources.text(source).as_bytes() != bytes {
        return Err(alone(changed_meanwhile(&job.path)));
    }
    let judge = Judge::new(&job.shop.rulebook);
    let mut inspection = judge.inspect_on(day, build, &sources, Detail::Findings);
    inspection.remedies = Some(tried(&judge, job, &sources, source, &inspection));
    Ok(Spec { bytes, sources, inspection })
}

fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes)
}

fn changed_meanwhile(path: &Utf8Path) -> Problem {
    Problem::new("changed", format!("`{path}` has changed since it was read"))
        .help("nothing was written; run the same again on the file as it is now")
}

fn mended(mend: &Mend, job: &Job, spec: &Spec, look: Look, day: Date) -> Exit {
    let name = safe::line(&files::shown(&job.path)).into_owned();
    let found = spec.inspection.remedies.as_ref().map_or(&[][..], |remedies: &Remedies| &remedies.all);
    let Some(number) = mend.take else {
        print::out(&listed(&name, spec, found, look));
        return Exit::Released;
    };
    let Some(remedy) = number.checked_sub(1).and_then(|at| found.get(at)) else {
        let problem = Problem::new("no-remedy", format!("`{name}` has no remedy {number}"));
        let help = match found.len() {
            0 => "none was found for it".to_owned(),
            1 => "there is only remedy 1".to_owned(),
            many => format!("its remedies are 1 to {many}; `pintle mend {name}` lists them"),
        };
        return refuse(&[problem.help(help)], &Sources::new(), look);
    };
    match rewritten(job, spec, remedy) {
        Err(problem) => refuse(&[problem], &spec.sources, look),
        Ok(new) => {
            let old = String::from_utf8_lossy(&spec.bytes);
            print::out(&format!(
                "{}\n{}",
                safe::line(&format!("remedy {number}: {}", remedy.words())),
                diff(&name, &old, &new)
            ));
            if mend.dry_run {
                print::out("nothing was written\n");
                return Exit::Released;
            }
            match save::replace(&job.path, &spec.bytes, new.as_bytes()) {
                Err(problem) => refuse(&[problem], &spec.sources, look),
                Ok(()) => say_now(&name, job, look, day),
            }
        }
    }
}

fn listed(name: &str, spec: &Spec, found: &[Remedy], look: Look) -> String {
    let list = remedies::list(&spec.inspection, &look);
    match (found.len(), list.is_empty()) {
        (0, true) => format!("{name} has no fault\n"),
        (0, false) => format!("no remedy was found for {name}\n{list}"),
        _ => format!(
            "remedies of {name}, each tried on the whole spec\n{list}\
             take one with `pintle mend {name} --take N`; `--dry-run` shows the change first\n"
        ),
    }
}

/// The text of a spec with a remedy in it, read and judged once more: what was promised must come true of the text too.
fn rewritten(job: &Job, spec: &Spec, remedy: &Remedy) -> Result<String, Problem> {
    let name = files::shown(&job.path);
    let refused = |why: String| {
        let by_hand: Vec<String> = remedy.changes.iter().map(in_words).collect();
        Problem::new("unwritable", format!("the remedy cannot be written into `{name}`: {why}"))
            .help(format!("make the change by hand: {}", by_hand.join("; ")))
    };
    let text = std::str::from_utf8(&spec.bytes).map_err(|_| refused("it is not UTF-8".to_owned()))?;
    let new = write::changed(text, &remedy.changes).map_err(refused)?;
    let mut sources = job.shop.sources.clone();
    let source = sources.add_bytes(&name, new.as_bytes()).map_err(|error| refused(error.to_string()))?;
    let mut problems = Vec::new();
    let build = pintle_spec::read_build(&sources, source, &job.shop.stock, &mut problems);
    let Some(build) = build else {
        let why = problems.first().map_or_else(String::new, |problem| format!(": {}", problem.message));
        return Err(refused(format!("the changed file could not be read{why}")));
    };
    let judge = Judge::new(&job.shop.rulebook);
    let after = judge.inspect(build, &sources, Detail::Findings);
    if Workshop::comes_true(remedy, &spec.inspection, &after) {
        Ok(new)
    } else {
        Err(refused("the changed file would not be what was tried".to_owned()))
    }
}

/// A change as somebody would make it by hand.
fn in_words(change: &Change) -> String {
    let place = change.at.join(" / ");
    match &change.to {
        Some(to) => format!("at {place} write {}", to.toml()),
        None => format!("take away {place}"),
    }
}

/// What changes in a text, line by line.
fn diff(name: &str, old: &str, new: &str) -> String {
    let diff = similar::TextDiff::from_lines(old, new);
    let unified = diff.unified_diff().context_radius(CONTEXT).header(name, name).to_string();
    let lines: Vec<_> = unified.lines().map(safe::line).collect();
    lines.join("\n") + "\n"
}

/// Reads the file that was written, and says what the rules say of it now.
fn say_now(name: &str, job: &Job, look: Look, day: Date) -> Exit {
    let (sources, build, problems) = load(job);
    let Some(build) = build else { return refuse(&problems, &sources, look) };
    let judge = Judge::new(&job.shop.rulebook);
    let inspection = judge.inspect_on(day, build, &sources, Detail::Findings);
    let mut summary = Summary::new(job.shop.rulebook.hold);
    summary.add(&inspection, &look);
    let findings = human::findings(&inspection, &sources, &look);
    let gap = if findings.is_empty() { "" } else { "\n" };
    print::out(&format!(
        "written into {name}; it is now inspected anew\n\n{findings}{gap}{}",
        summary.text()
    ));
    summary.outcome().into()
}

#[cfg(test)]
mod tests;
