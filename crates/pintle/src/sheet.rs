//! `pintle sheet`: the inspection sheet of a spec as one page of HTML or a PDF, or those of a folder of specs with an index.

mod all;
mod pdf;

use camino::{Utf8Path, Utf8PathBuf};
use jiff::civil::Date;
use pintle_calc::Case;
use pintle_finding::{Inspection, Problem};
use pintle_report::Look;
use pintle_report::weights::Terms;
use pintle_rulebook::{Detail, Judge};
use pintle_source::Sources;
use pintle_spec::Build;

use crate::call::{Call, Sheet};
use crate::clock;
use crate::exit::Exit;
use crate::in_force::in_force;
use crate::inspect::{Job, jobs_to_print, load};
use crate::print;
use crate::product::{self, Product};
use crate::round::{Rounds, closed};
use crate::shop::Shops;
use crate::weigh::band;

/// The file name that prints the page instead.
const PRINTED: &str = "-";

/// Files by which an earlier sheet is known again.
const SHEET: Product<'_> = Product {
    called: "sheet",
    such_as: "sheet.html",
    ours: &|opening| opening.contains("<title>Inspection sheet"),
};

/// Runs the command.
pub(crate) fn run(call: &Call, wanted: &Sheet) -> Exit {
    let mut shops = Shops::new(call.rulebook.as_deref());
    let mut aside = print::Aside::new(print::look(call));
    let here = [Utf8PathBuf::from(".")];
    let paths = if wanted.specs.is_empty() { &here } else { wanted.specs.as_slice() };
    let jobs = jobs_to_print(paths, &mut shops, &mut aside);
    let how = How { day: clock::day(call), look: print::look(call) };
    if let Some(folder) = &wanted.all {
        all::write(&jobs, folder, how, &mut shops, &mut aside);
    } else {
        match jobs.as_slice() {
            [] => {}
            [job] => single(job, wanted, how, &mut shops, &mut aside),
            many => {
                let message = format!("a sheet is of one spec, and {} are found", many.len());
                let help = "name one spec file, or write them all into a folder with `--all DIR`";
                aside.say(&[Problem::new("many-specs", message).help(help)], &Sources::new());
            }
        }
    }
    if aside.wrong { Exit::Wrong } else { Exit::Released }
}

/// How sheets are made.
#[derive(Debug, Clone, Copy)]
pub(crate) struct How {
    pub(crate) day: Date,
    pub(crate) look: Look,
}

/// A spec judged, with all that its sheet needs.
struct Judged {
    build: Option<Build>,
    inspection: Inspection,
    sources: Sources,
}

fn judged(judge: &Judge<'_>, job: &Job, how: How) -> Judged {
    let (sources, build, problems) = load(job);
    let inspection = match &build {
        Some(build) => judge.inspect_on(how.day, build.clone(), &sources, Detail::Everything),
        None => Inspection { spec: job.name(), problems, ..Inspection::default() },
    };
    Judged { build, inspection, sources }
}

/// The page of a build. `of_rulebook` is what the tool's own rules say of the rulebook.
fn page(job: &Job, judged: &Judged, of_rulebook: Option<&Inspection>, how: How) -> Option<String> {
    let build = judged.build.as_ref()?;
    let (inspection, sources) = (&judged.inspection, &judged.sources);
    Some(made(job, build, inspection, sources, of_rulebook, how, pintle_sheet::page))
}

/// What is made of the sheet of a build that was judged.
pub(crate) fn made<T>(
    job: &Job,
    build: &Build,
    inspection: &Inspection,
    sources: &Sources,
    rulebook: Option<&Inspection>,
    how: How,
    make: impl FnOnce(&pintle_sheet::Sheet<'_>) -> T,
) -> T {
    let book = &job.shop.rulebook;
    let band = band(book);
    let in_force = in_force(book, inspection, sources);
    make(&pintle_sheet::Sheet {
        build,
        inspection,
        rulebook,
        in_force: &in_force,
        sources,
        case: Case { build, assumptions: &book.assumptions, places: &book.places },
        terms: Terms { look: how.look, tolerances: &book.tolerances, band: &band },
        shop: book.shop.as_deref(),
        hold: book.hold,
        rules: book.rules.len(),
        day: how.day,
    })
}

/// What the tool's own rules say of the rulebook, once this one build was looked at.
pub(crate) fn of_rulebook(
    job: &Job,
    inspection: &Inspection,
    shops: &mut Shops,
    day: Date,
) -> Option<(Inspection, Sources)> {
    let mut rounds = Rounds::default();
    rounds.add(&job.shop, inspection);
    closed(rounds, std::slice::from_ref(job), shops, day).into_iter().next()
}

fn single(job: &Job, wanted: &Sheet, how: How, shops: &mut Shops, aside: &mut print::Aside) {
    let judged = judged(&Judge::new(&job.shop.rulebook), job, how);
    aside.say(&judged.inspection.problems, &judged.sources);
    let of_rulebook = of_rulebook(job, &judged.inspection, shops, how.day);
    let of_rulebook = of_rulebook.as_ref().map(|(inspection, _)| inspection);
    let Some(text) = page(job, &judged, of_rulebook, how) else { return };
    let ending = if wanted.pdf { "pdf" } else { "html" };
    let path = wanted.output.clone().unwrap_or_else(|| beside(&job.path, ending));
    if path == PRINTED {
        if wanted.pdf {
            let problem = Problem::new("unwritable", "a PDF is not printed on standard output");
            aside.say(&[problem.help("name a file with `-o`")], &Sources::new());
        } else {
            print::out(&text);
        }
        return;
    }
    let written = if wanted.pdf { pdf::save(&path, &text) } else { product::save(&path, &text, &SHEET) };
    match written {
        Ok(()) => print::out(&format!("the sheet of `{}` is in `{path}`\n", job.name())),
        Err(problem) => aside.say(&[problem], &Sources::new()),
    }
}

/// The name of a sheet that is not named: as its spec, in the current folder.
fn beside(spec: &Utf8Path, ending: &str) -> Utf8PathBuf {
    Utf8PathBuf::from(spec.file_stem().unwrap_or("sheet")).with_extension(ending)
}
