//! `pintle weigh`: the weights of every state, with the moment table.

use pintle_finding::Problem;
use pintle_report::{human, weights};
use pintle_source::Sources;

use crate::call::{Call, Format, Weigh};
use crate::exit::Exit;
use crate::inspect::{jobs, load};
use crate::print;
use crate::shop::Shops;

/// Runs the command.
pub(crate) fn run(call: &Call, weigh: &Weigh) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let (jobs, problems) = jobs(&weigh.paths, &mut shops);
    let mut wrong = false;
    // Problems go to standard error, so that a table stays a table and JSON stays JSON.
    let mut say = |problems: &[Problem], sources: &Sources| {
        if !problems.is_empty() {
            wrong = true;
            print::err(human::problems(problems, sources, &look).trim_end());
        }
    };
    say(&problems, &Sources::new());
    for shop in shops.all() {
        say(&shop.problems, &shop.sources);
    }
    if jobs.is_empty() {
        say(
            &[Problem::new("no-specs", "no spec is found")
                .help("name a spec file, or a folder that holds some")],
            &Sources::new(),
        );
    }
    let mut documents = Vec::new();
    for job in &jobs {
        let (sources, build, problems) = load(job);
        say(&problems, &sources);
        if let Some(build) = build {
            let name = job.name();
            let tolerances = &job.shop.rulebook.tolerances;
            match weigh.format {
                Format::Json => documents.push(weights::document(&build, &name, &look, tolerances)),
                Format::Human | Format::Plain => print::out(&weights::text(&build, &name, &look, tolerances)),
            }
        }
    }
    if weigh.format == Format::Json {
        print::out(&weights::json(&documents));
    }
    if wrong { Exit::Wrong } else { Exit::Released }
}
