//! `pintle inspect`: judge specs and report.

use std::io::IsTerminal;
use std::sync::Arc;

use camino::{Utf8Path, Utf8PathBuf};
use indicatif::{ProgressBar, ProgressStyle};
use jiff::civil::Date;
use pintle_finding::{Grade, Inspection, Problem, Remedies};
use pintle_report::{Look, Summary, human, json, plain};
use pintle_rulebook::{Detail, Judge, Workshop};
use pintle_source::{SourceId, Sources};
use pintle_spec::{Build, check_own_of_build, read_build};

use crate::call::{Call, Format, Inspect};
use crate::clock;
use crate::crew;
use crate::exit::Exit;
use crate::files::Root;
use crate::print;
use crate::round::{Rounds, closed};
use crate::shop::{RULEBOOK, Shop, Shops, spec_of};

/// More specs than this are reported plainly unless asked otherwise.
const MOST_ANNOTATED: usize = 50;
/// More specs than this show a progress bar on a terminal.
const LONG_RUN: usize = 200;

/// A spec to judge, under its shop.
#[derive(Debug, Clone)]
pub(crate) struct Job {
    pub(crate) path: Utf8PathBuf,
    pub(crate) root: Root,
    pub(crate) shop: Arc<Shop>,
}

impl Job {
    /// The spec's name in every output.
    pub(crate) fn name(&self) -> String {
        self.root.shown(&self.path)
    }
}

/// Runs the command.
pub(crate) fn run(call: &Call, inspect: &Inspect) -> Exit {
    let mut shops = Shops::new(call.rulebook.as_deref());
    let (jobs, mut problems) = jobs(&inspect.paths, &mut shops);
    if jobs.is_empty() && problems.is_empty() {
        let places: Vec<&str> = inspect.paths.iter().map(|path| path.as_str()).collect();
        problems.push(Problem::new("no-specs", format!("no spec is found in {}", places.join(", "))).help(
            "name a spec file, or a folder that holds some; a spec is a TOML file that opens with [build]",
        ));
    }
    let look = print::look(call);
    let format =
        inspect.format.unwrap_or(if jobs.len() > MOST_ANNOTATED { Format::Plain } else { Format::Human });
    let hold = hold(inspect.hold, &shops);
    let mut report =
        Report { format, look, summary: Summary::new(hold), kept: Vec::new(), loose: Vec::new() };
    for shop in shops.all() {
        report.loose(shop.own_problems(), &shop.sources);
    }
    report.loose(&problems, &Sources::new());
    let bar = progress(jobs.len());
    let how = How { day: clock::day(call), detail: detail(format), format, remedies: inspect.remedies, look };
    let mut rounds = Rounds::default();
    let mut due = jobs.iter();
    crew::work(
        &jobs,
        inspect.threads,
        |bench, job| bench.judge(&job.shop, |judge| judged(judge, job, how)),
        |done: Done| {
            if let Some(job) = due.next() {
                rounds.add(&job.shop, &done.inspection);
            }
            report.take(done);
            bar.inc(1);
        },
    );
    bar.finish_and_clear();
    for (inspection, sources) in closed(rounds, &jobs, &mut shops, how.day) {
        let text = written(&inspection, &sources, how);
        report.take(Done { inspection, text, sources });
    }
    report.close()
}

/// The hold in force: the call's, or the strictest of the shops'.
fn hold(stated: Option<Grade>, shops: &Shops) -> Grade {
    let of_shops = shops.all().map(|shop| shop.rulebook.hold).min();
    stated.or(of_shops).unwrap_or(Grade::Major)
}

fn progress(specs: usize) -> ProgressBar {
    if specs <= LONG_RUN || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(u64::try_from(specs).unwrap_or(0));
    if let Ok(style) = ProgressStyle::with_template("{pos} of {len} specs {bar:30} {eta} left") {
        bar.set_style(style);
    }
    bar
}

/// The same for a command that prints what it works out: what is wrong with files and shops is said aside, and that
/// there is no spec at all.
pub(crate) fn jobs_to_print(paths: &[Utf8PathBuf], shops: &mut Shops, aside: &mut print::Aside) -> Vec<Job> {
    let (jobs, problems) = jobs(paths, shops);
    aside.say(&problems, &Sources::new());
    for shop in shops.all() {
        aside.say(shop.own_problems(), &shop.sources);
    }
    if jobs.is_empty() {
        let problem = Problem::new("no-specs", "no spec is found");
        aside.say(&[problem.help("name a spec file, or a folder that holds some")], &Sources::new());
    }
    jobs
}

/// Every spec that paths lead to, with its shop.
pub(crate) fn jobs(paths: &[Utf8PathBuf], shops: &mut Shops) -> (Vec<Job>, Vec<Problem>) {
    let mut jobs: Vec<Job> = Vec::new();
    let mut problems = Vec::new();
    let root = shops.root().clone();
    let job = |path: Utf8PathBuf, shop| Job { path, root: root.clone(), shop };
    for path in paths {
        if root.is_dir(path) {
            for file in root.below(path, "toml", &mut problems) {
                let shop = shops.of(&file);
                if is_spec(&file, &root, &shop) {
                    jobs.push(job(file, shop));
                } else {
                    problems.extend(stray(&file, &root, &shop));
                }
            }
        } else {
            jobs.push(job(path.clone(), shops.of(path)));
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    jobs.retain(|job| seen.insert(job.path.clone()));
    (jobs, problems)
}

/// Whether a file in a folder is a spec rather than a rulebook, a stock list or a rule.
fn is_spec(file: &Utf8Path, root: &Root, shop: &Shop) -> bool {
    file.file_name() != Some(RULEBOOK) && spec_of(file).is_none() && !root.is_in_any(file, &shop.folders)
}

/// What is wrong with the rulebook of one build beside which there is no such spec.
fn stray(file: &Utf8Path, root: &Root, shop: &Shop) -> Option<Problem> {
    let spec = spec_of(file).filter(|spec| !root.is_file(spec) && !root.is_in_any(file, &shop.folders))?;
    let message =
        format!("`{}` is the rulebook of no build: there is no `{}`", root.shown(file), root.shown(&spec));
    Some(Problem::new("stray-rulebook", message).help("name it as its spec, or take it away with the spec"))
}

/// One spec judged, and its report.
struct Done {
    inspection: Inspection,
    text: String,
    sources: Sources,
}

fn detail(format: Format) -> Detail {
    if format == Format::Json { Detail::Everything } else { Detail::Findings }
}

/// How specs are judged and reported.
#[derive(Debug, Clone, Copy)]
struct How {
    day: Date,
    detail: Detail,
    format: Format,
    remedies: bool,
    look: Look,
}

fn judged(judge: &Judge<'_>, job: &Job, how: How) -> Done {
    let (mut inspection, sources, source) = one(judge, job, how.day, how.detail);
    if let (true, Some(source)) = (how.remedies, source) {
        inspection.remedies = Some(tried(judge, job, &sources, source, &inspection));
    }
    let text = written(&inspection, &sources, how);
    let sources = if how.format == Format::Json { sources } else { Sources::new() };
    Done { inspection, text, sources }
}

/// An inspection as its report has it; nothing for JSON, which is written at the end.
fn written(inspection: &Inspection, sources: &Sources, how: How) -> String {
    let (problems, look) = (&inspection.problems, &how.look);
    match how.format {
        Format::Human => {
            [human::problems(problems, sources, look), human::findings(inspection, sources, look)].concat()
        }
        Format::Plain => {
            [plain::problems(problems, sources, look), plain::findings(inspection, sources, look)].concat()
        }
        Format::Json => String::new(),
    }
}

/// A spec judged, the files it was read from, and which of them it is, if it could be read.
pub(crate) fn one(
    judge: &Judge<'_>,
    job: &Job,
    day: Date,
    detail: Detail,
) -> (Inspection, Sources, Option<SourceId>) {
    let (sources, build, problems) = load(job);
    let source = build.as_ref().map(|build| build.source);
    let inspection = match build {
        Some(build) => judge.inspect_on(day, build, &sources, detail),
        None => Inspection { spec: job.name(), problems, ..Inspection::default() },
    };
    (inspection, sources, source)
}

/// Changes tried for every fault of a spec.
pub(crate) fn tried(
    judge: &Judge<'_>,
    job: &Job,
    sources: &Sources,
    source: SourceId,
    inspection: &Inspection,
) -> Remedies {
    let root = pintle_spec::node::parse(sources, source, &mut Vec::new());
    let workshop = Workshop { judge, rulebook: &job.shop.rulebook, stock: &job.shop.stock, sources };
    workshop.remedies(&root, source, inspection)
}

/// Reads one spec: the files it was read from, the build if it is sound, and what is wrong if it is not.
pub(crate) fn load(job: &Job) -> (Sources, Option<Build>, Vec<Problem>) {
    match job.root.read(&job.path) {
        Ok(bytes) => load_bytes(job, &bytes),
        Err(problem) => (job.shop.sources.clone(), None, vec![problem]),
    }
}

/// The same of bytes that may stand in the spec's file, or may come to.
pub(crate) fn load_bytes(job: &Job, bytes: &[u8]) -> (Sources, Option<Build>, Vec<Problem>) {
    let mut sources = job.shop.sources.clone();
    let mut problems = Vec::new();
    let read = sources
        .add_bytes(&job.name(), bytes)
        .map_err(|error| Problem::new("unreadable", error.to_string()).help(error.help()));
    let build = match read {
        Ok(id) => read_build(&sources, id, &job.shop.stock, &mut problems),
        Err(problem) => {
            problems.push(problem);
            None
        }
    };
    let rulebook = &job.shop.rulebook;
    let unknown = build.as_ref().map(|build| {
        let mut unknown = rulebook.unknown_places(build);
        unknown.extend(check_own_of_build(build, &rulebook.own_fields));
        unknown
    });
    let unknown = unknown.unwrap_or_default();
    let build = build.filter(|_| unknown.is_empty());
    problems.extend(unknown);
    (sources, build, problems)
}

/// The report under way.
struct Report {
    format: Format,
    look: Look,
    summary: Summary,
    kept: Vec<(Inspection, Sources)>,
    loose: Vec<(Vec<Problem>, Sources)>,
}

impl Report {
    /// Problems that belong to no spec: of the shop's files or of the call.
    fn loose(&mut self, problems: &[Problem], sources: &Sources) {
        if problems.is_empty() {
            return;
        }
        self.summary.add_problems(problems);
        match self.format {
            Format::Human => print::out(&human::problems(problems, sources, &self.look)),
            Format::Plain => print::out(&plain::problems(problems, sources, &self.look)),
            Format::Json => self.loose.push((problems.to_vec(), sources.clone())),
        }
    }

    fn take(&mut self, done: Done) {
        self.summary.add(&done.inspection, &self.look);
        print::out(&done.text);
        if self.format == Format::Human && !done.text.is_empty() {
            print::out("\n");
        }
        if self.format == Format::Json {
            self.kept.push((done.inspection, done.sources));
        }
    }

    fn close(self) -> Exit {
        match self.format {
            Format::Json => print::out(&json::text(&self.kept, &self.loose, &self.summary, &self.look)),
            Format::Human | Format::Plain => print::out(&self.summary.text()),
        }
        self.summary.outcome().into()
    }
}
