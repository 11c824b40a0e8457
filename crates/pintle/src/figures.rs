//! `pintle figures`: what the trade works out of a build, with how each figure came about.

use pintle_calc::{Case, topics};
use pintle_finding::{Problem, nearest};
use pintle_report::figures;
use pintle_source::Sources;

use crate::call::{Call, Figures, Format};
use crate::exit::Exit;
use crate::inspect::{jobs_to_print, load};
use crate::print;
use crate::shop::Shops;

/// Runs the command.
pub(crate) fn run(call: &Call, wanted: &Figures) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let mut aside = print::Aside::new(look);
    let jobs = jobs_to_print(&wanted.paths, &mut shops, &mut aside);
    let unknown: Vec<Problem> = wanted.topics.iter().filter_map(|name| unknown_topic(name)).collect();
    aside.say(&unknown, &Sources::new());
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
        aside.say(&problems, &sources);
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
    aside.say(&unmet.collect::<Vec<_>>(), &Sources::new());
    if aside.wrong { Exit::Wrong } else { Exit::Released }
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
