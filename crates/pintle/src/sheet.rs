//! `pintle sheet`: the inspection sheet of a spec, as one page of HTML.

use camino::{Utf8Path, Utf8PathBuf};
use pintle_calc::Case;
use pintle_finding::{Inspection, Problem};
use pintle_report::weights::Terms;
use pintle_rulebook::{Detail, Judge};
use pintle_source::Sources;

use crate::call::{Call, Sheet};
use crate::clock;
use crate::exit::Exit;
use crate::inspect::{Job, jobs_to_print, load};
use crate::print;
use crate::product::{self, Product};
use crate::round::{Rounds, closed};
use crate::shop::Shops;
use crate::weigh::band;

/// The file name that prints the page instead.
const PRINTED: &str = "-";

/// Runs the command.
pub(crate) fn run(call: &Call, wanted: &Sheet) -> Exit {
    let mut shops = Shops::new(call.rulebook.as_deref());
    let mut aside = print::Aside::new(print::look(call));
    let jobs = jobs_to_print(std::slice::from_ref(&wanted.spec), &mut shops, &mut aside);
    match jobs.as_slice() {
        [] => {}
        [job] => match page(call, job, &mut shops, &mut aside) {
            Some(text) => written(&text, job, wanted, &mut aside),
            None => aside.wrong = true,
        },
        many => {
            let message = format!("a sheet is of one spec, and {} are found in `{}`", many.len(), wanted.spec);
            let problem = Problem::new("many-specs", message).help("name one spec file");
            aside.say(&[problem], &Sources::new());
        }
    }
    if aside.wrong { Exit::Wrong } else { Exit::Released }
}

/// The page of a spec that can be read; what is wrong with one that cannot is said aside.
fn page(call: &Call, job: &Job, shops: &mut Shops, aside: &mut print::Aside) -> Option<String> {
    let (sources, build, problems) = load(job);
    aside.say(&problems, &sources);
    let build = build?;
    let (day, rulebook) = (clock::day(call), &job.shop.rulebook);
    let inspection = Judge::new(rulebook).inspect_on(day, build.clone(), &sources, Detail::Everything);
    let of_rulebook = of_rulebook(job, &inspection, shops, call);
    let band = band(rulebook);
    let sheet = pintle_sheet::Sheet {
        build: &build,
        inspection: &inspection,
        rulebook: of_rulebook.as_ref().map(|(inspection, _)| inspection),
        sources: &sources,
        case: Case { build: &build, assumptions: &rulebook.assumptions, places: &rulebook.places },
        terms: Terms { look: print::look(call), tolerances: &rulebook.tolerances, band: &band },
        shop: rulebook.shop.as_deref(),
        hold: rulebook.hold,
        rules: rulebook.rules.len(),
        day,
    };
    Some(pintle_sheet::page(&sheet))
}

/// What the tool's own rules say of the rulebook, once this one build was looked at.
fn of_rulebook(job: &Job, inspection: &Inspection, shops: &mut Shops, call: &Call) -> Option<(Inspection, Sources)> {
    let mut rounds = Rounds::default();
    rounds.add(&job.shop, inspection);
    closed(rounds, std::slice::from_ref(job), shops, clock::day(call)).into_iter().next()
}

fn written(text: &str, job: &Job, wanted: &Sheet, aside: &mut print::Aside) {
    let path = wanted.output.clone().unwrap_or_else(|| beside(&job.path));
    if path == PRINTED {
        print::out(text);
        return;
    }
    let sheet = Product {
        called: "sheet",
        such_as: "sheet.html",
        ours: &|opening| opening.contains("<title>Inspection sheet "),
    };
    match product::save(&path, text, &sheet) {
        Ok(()) => print::out(&format!("the sheet of `{}` is in `{path}`\n", job.name())),
        Err(problem) => aside.say(&[problem], &Sources::new()),
    }
}

/// The name of a sheet that is not named: as its spec, in the current folder.
fn beside(spec: &Utf8Path) -> Utf8PathBuf {
    Utf8PathBuf::from(spec.file_stem().unwrap_or("sheet")).with_extension("html")
}
