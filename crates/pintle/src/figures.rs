//! `pintle figures`: what the trade works out of a build, with how each figure came about.

use pintle_calc::{Case, topics};
use pintle_finding::{Problem, nearest};
use pintle_report::{figures, human};
use pintle_source::Sources;

use crate::call::{Call, Figures, Format};
use crate::exit::Exit;
use crate::inspect::{jobs, load};
use crate::print;
use crate::shop::Shops;

/// Runs the command.
pub(crate) fn run(call: &Call, wanted: &Figures) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let (jobs, problems) = jobs(&wanted.paths, &mut shops);
    let mut wrong = false;
    // Problems go to standard error, so that figures stay figures and JSON stays JSON.
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
        let problem = Problem::new("no-specs", "no spec is found");
        say(&[problem.help("name a spec file, or a folder that holds some")], &Sources::new());
    }
    let unknown: Vec<Problem> = wanted.topics.iter().filter_map(|name| unknown_topic(name)).collect();
    say(&unknown, &Sources::new());
    if !unknown.is_empty() {
        return Exit::Wrong;
    }
    // All of a build's figures with all their steps are a book; what is asked for by name is shown step by step.
    let depth = if wanted.topics.is_empty() { figures::Depth::Values } else { figures::Depth::Steps };
    let mut documents = Vec::new();
    // A figure that is asked for by name must be one of some build.
    let mut met = vec![false; wanted.topics.len()];
    for job in &jobs {
        let (sources, build, problems) = load(job);
        say(&problems, &sources);
        let Some(build) = build else { continue };
        let rulebook = &job.shop.rulebook;
        let case = Case { build: &build, assumptions: &rulebook.assumptions, places: &rulebook.places };
        let asked_for = |topic: &str| wanted.topics.iter().any(|name| topic_of(name) == topic);
        let topics = topics::ALL.iter().filter(|topic| wanted.topics.is_empty() || asked_for(topic.name));
        let all = topics.flat_map(|topic| topic.figures(&case));
        let chosen = all.filter(|working| {
            let full = format!("{}/{}", working.topic, working.key);
            let mut asked = wanted.topics.is_empty();
            for (name, met) in wanted.topics.iter().zip(&mut met) {
                if name == working.topic || *name == full {
                    (*met, asked) = (true, true);
                }
            }
            asked
        });
        let chosen = chosen.collect();
        let document = figures::document(&build, &job.name(), chosen, &sources, &rulebook.tolerances, look);
        match wanted.format {
            Format::Json => documents.push(document),
            Format::Human => print::out(&figures::text(&document, depth, look)),
            Format::Plain => print::out(&figures::plain(&document)),
        }
    }
    if wanted.format == Format::Json {
        print::out(&figures::json(&documents));
    }
    let unmet = wanted.topics.iter().zip(&met).filter(|(name, met)| !**met && name.contains('/'));
    let unmet = unmet.map(|(name, _)| {
        Problem::new("no-figure", format!("none of these builds has a figure `{name}`"))
            .help("run without `--of` to see what there is; figures of parts are there only for parts that are fitted")
    });
    say(&unmet.collect::<Vec<_>>(), &Sources::new());
    if wrong { Exit::Wrong } else { Exit::Released }
}

/// The topic of `gas` and of `gas/stored_energy`.
fn topic_of(name: &str) -> &str {
    name.split('/').next().unwrap_or(name)
}

fn unknown_topic(name: &str) -> Option<Problem> {
    let topic = topic_of(name);
    if topics::find(topic).is_some() {
        return None;
    }
    let names = || topics::ALL.iter().map(|topic| topic.name);
    let help = match nearest(topic, names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("the topics are {}", names().collect::<Vec<_>>().join(", ")),
    };
    Some(Problem::new("unknown-topic", format!("there is no topic `{topic}`")).help(help))
}
