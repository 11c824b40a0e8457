//! `pintle weigh`: the weights of every state, with the moment table, and of every arrangement.

mod plot;

use pintle_calc::Known;
use pintle_finding::Problem;
use pintle_report::weights::{self, Band, Limit, Terms};
use pintle_rulebook::Rulebook;
use pintle_source::Sources;
use pintle_spec::Missing;

use crate::call::{Call, Format, Weigh};
use crate::exit::Exit;
use crate::inspect::{jobs_to_print, load};
use crate::print;
use crate::shop::Shops;

/// Runs the command.
pub(crate) fn run(call: &Call, weigh: &Weigh) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let mut aside = print::Aside::new(look);
    let jobs = jobs_to_print(&weigh.paths, &mut shops, &mut aside);
    if weigh.plot.is_some() && jobs.len() > 1 {
        let message = format!("`--plot` draws one spec, and {} are named", jobs.len());
        let problem =
            Problem::new("many-specs", message).help("name one spec file; run it once for each drawing");
        aside.say(&[problem], &Sources::new());
        return Exit::Wrong;
    }
    let mut documents = Vec::new();
    for job in &jobs {
        let (sources, build, problems) = load(job);
        aside.say(&problems, &sources);
        if let Some(build) = build {
            let name = job.name();
            let band = band(&job.shop.rulebook);
            let terms = Terms { look, tolerances: &job.shop.rulebook.tolerances, band: &band };
            match weigh.format {
                Format::Json => documents.push(weights::document(&build, &name, terms)),
                Format::Human | Format::Plain => print::out(&weights::text(&build, &name, terms)),
            }
            if let Some(path) = &weigh.plot {
                match plot::draw(&build, terms, path) {
                    Ok(()) if weigh.format == Format::Json => {}
                    Ok(()) => print::out(&format!("the envelope is drawn in `{path}`\n")),
                    Err(problem) => aside.say(&[problem], &sources),
                }
            }
        }
    }
    if weigh.format == Format::Json {
        print::out(&weights::json(&documents));
    }
    if aside.wrong { Exit::Wrong } else { Exit::Released }
}

/// The band of tongue shares in force: a limit each of two rules.
pub(crate) fn band(rulebook: &Rulebook) -> Known<Band> {
    let limit = |id: &str, name: &str| -> Known<Limit> {
        let limits = rulebook.rule(id).map(|bound| bound.limits.as_slice()).unwrap_or_default();
        let limit = limits.iter().find(|limit| limit.name == name);
        let limit = limit.map(|limit| Limit { rule: id.to_owned(), share: limit.value });
        limit.ok_or_else(|| {
            Missing::new(
                format!("limit `{name}` of rule `{id}`"),
                None,
                "name its pack in `packs` of pintle.toml",
            )
        })
    };
    Ok(Band { least: limit("towing/light-tongue", "least")?, most: limit("towing/heavy-tongue", "most")? })
}
