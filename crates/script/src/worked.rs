//! Figures of topics as scripts and readings have them: what each came to, what it is of, and where that stands.

use pintle_calc::topics;
use pintle_calc::{Known, Outcome, Working};
use pintle_finding::{FIGURE, Subject, nearest};
use pintle_source::Span;
use pintle_spec::{Build, Missing, Table};
use rhai::EvalAltResult;

use crate::properties::Found;
use crate::rows;
use crate::run::Run;
use crate::stop::failed;
use crate::thing::{Thing, What};

/// A figure.
pub(crate) fn figure(run: &Run, at: usize) -> Known<&Working> {
    run.figure(at).ok_or_else(|| Missing::new("the figure", None, ""))
}

/// What a figure came to. One that there is none of is none of the rule's business.
pub(crate) fn value(run: &Run, at: usize) -> Known<Found> {
    let figure = figure(run, at)?;
    Ok(match &figure.outcome {
        Ok(Outcome::None(why)) => Found::NotApplicable(why.clone()),
        _ => found(figure)?,
    })
}

fn found(figure: &Working) -> Known<Found> {
    Ok(match figure.outcome.clone()? {
        Outcome::Figure(value) => Found::Named(value, figure.says),
        Outcome::Flag(flag) => Found::Flag(flag),
        Outcome::Text(text) => Found::Text(text),
        Outcome::Texts(texts) => Found::Texts(texts),
        Outcome::None(why) => Found::None(Missing::new(format!("{}: {why}", figure.says), None, "")),
    })
}

/// A figure of a thing by its name, such as `gas/burn_time`. A figure's own thing is what the figure is of.
pub(crate) fn of(thing: &Thing, name: &str) -> Result<Found, Box<EvalAltResult>> {
    let run = thing.run();
    let Some(sort) = topics::find_sort(name) else {
        return Err(failed(match nearest(name, topics::sorts().map(|sort| sort.name)) {
            Some(near) => format!("there is no figure `{name}`; did you mean `{near}`?"),
            None => format!("there is no figure `{name}`"),
        }));
    };
    let figures = run.figures_named(name);
    let mut figures = figures.into_iter().filter_map(|at| figure(run, at).ok());
    let called = called(run, thing.what);
    let found = if let Some(called) = called {
        figures.find(|figure| figure.of == called)
    } else if let Some(whole) = whole_of(run, thing.what, name) {
        Some(whole)
    } else {
        let only = figures.next();
        if figures.next().is_some() {
            return Err(failed(format!(
                "there are several `{name}`: ask a part or a state for it, or judge each with `judges = \"{name}\"`"
            )));
        }
        only
    };
    let Some(figure) = found else {
        return Ok(Found::None(Missing::new(sort.says, thing.span(), "")));
    };
    // A flag that is missing, or a figure, is missing here too: no rule passes for want of it.
    found_or_stop(figure)
}

fn found_or_stop(figure: &Working) -> Result<Found, Box<EvalAltResult>> {
    found(figure).map_err(|missing| crate::stop::Stop::Missing(missing).raise())
}

/// The figure of the build itself, where there are others of the name besides, such as of each cylinder.
fn whole_of<'r>(run: &'r Run, what: What, name: &str) -> Option<&'r Working> {
    if what != What::Build {
        return None;
    }
    let figures = run.figures_named(name);
    figures.into_iter().filter_map(|at| figure(run, at).ok()).find(|figure| figure.of == "the build")
}

/// What the figures of a thing are said to be of; none for the build and its systems, whose figure is the only one of
/// its name.
fn called(run: &Run, what: What) -> Option<String> {
    let build = &run.build;
    match what {
        What::State(at) => {
            let state = run.state(at)?;
            let sort = if run.is_arrangement(at) { "arrangement" } else { "state" };
            Some(format!("{sort} `{}`", state.name.value))
        }
        What::Item(at) => build.items.get(at).map(pintle_spec::Item::called),
        What::Row(at, entry) => rows::ALL.get(at)?.of(run, entry),
        What::Figure(at) => figure(run, at).ok().map(|figure| figure.of.clone()),
        _ => None,
    }
}

/// The part that a figure is of; where it is of several, the one named first.
pub(crate) fn part(run: &Run, at: usize) -> Option<usize> {
    let of = &figure(run, at).ok()?.of;
    let named =
        run.build.items.iter().enumerate().filter_map(|(at, item)| Some((of.find(&item.called())?, at)));
    named.min().map(|(_, at)| at)
}

/// The state that a figure is of; of an arrangement none.
pub(crate) fn state(run: &Run, at: usize) -> Option<usize> {
    let of = &figure(run, at).ok()?.of;
    run.build.states.iter().position(|state| of.contains(&format!("state `{}`", state.name.value)))
}

/// The place of what a figure is of.
pub(crate) fn span(run: &Run, at: usize) -> Option<Span> {
    let build = &run.build;
    if let Some(item) = part(run, at).and_then(|at| build.items.get(at)) {
        return Some(item.tag.span);
    }
    let entry = || {
        let of = &figure(run, at).ok()?.of;
        rows::ALL.iter().find_map(|rows| {
            let named = |entry: &usize| rows.of(run, *entry).is_some_and(|name| of.contains(&name));
            let entry = (0..rows.count(run)).find(named)?;
            rows.entries(run).get(entry).map(|record| record.span)
        })
    };
    let of_state = || Some(build.states.get(state(run, at)?)?.name.span);
    let name = figure(run, at).ok()?.topic;
    entry().or_else(of_state).or_else(|| whole(build, name)).or(Some(build.number.span))
}

/// The table of a topic.
fn whole(build: &Build, topic: &str) -> Option<Span> {
    let record = match topic {
        "gas" => build.gas.as_ref(),
        "electric" => build.electric.as_ref(),
        "water" => build.water.as_ref(),
        "scale" => build.record.as_ref(),
        "quote" => build.quote.as_ref(),
        "tow" => build.tow.as_ref(),
        _ => None,
    };
    record.map(|record| record.span)
}

/// How readings name what a figure is of.
pub(crate) fn subject(run: &Run, at: usize) -> Subject {
    let span = span(run, at);
    let Ok(figure) = figure(run, at) else { return Subject { kind: FIGURE, name: String::new(), span } };
    if figure.of == "the build" {
        return Subject { kind: "build", name: String::new(), span };
    }
    let one = figure.of.strip_suffix('`').and_then(|of| of.split_once(" `"));
    let kinds = [
        Table::Item,
        Table::Tank,
        Table::Locker,
        Table::Bulkhead,
        Table::Berth,
        Table::Vent,
        Table::Opening,
        Table::Load,
    ];
    let kinds = kinds.map(Table::key).into_iter().chain([
        "state",
        "arrangement",
        "circuit",
        "line",
        "place",
        "month",
    ]);
    let known = one
        .filter(|(_, name)| !name.contains('`'))
        .and_then(|(kind, name)| Some((kinds.clone().find(|known| *known == kind)?, name)));
    let (kind, name) = known.unwrap_or((FIGURE, &figure.of));
    Subject { kind, name: name.to_owned(), span }
}
