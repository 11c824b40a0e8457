//! The places that the rulebook holds, one built-in file each, and the names by which builds and shops call them.

use std::collections::BTreeMap;

use pintle_calc::origin::{Origin, Standing};
use pintle_calc::place::{BrakeNeed, From, Ground, Place, PlaceFigure, Places, Sort, Weighed, figures};
use pintle_finding::{Label, Problem, Role, nearest};
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::Build;
use pintle_spec::node;
use pintle_spec::read::{list, read, require};
use pintle_spec::record::Record;
use pintle_spec::schema::build::head;

use crate::assumed::fits;
use crate::pack::builtin_data;
use crate::rulebook::Rulebook;
use crate::schema::{ground, place, place_brakes, place_figure};

/// Where what a place asks comes from, with the year of the text and whom it binds.
fn ground(record: &Record, stated_by: &str) -> Option<Ground> {
    let standing = Standing::from_word(record.word(&ground::BASIS)?.value)?;
    let text = |field| record.text(field).map(|text| text.value.to_owned());
    let (source, seen) = (text(&ground::SOURCE)?, text(&ground::SEEN)?);
    let verify = record.flag(&ground::VERIFY)?.value;
    let guideline = text(&ground::GUIDELINE);
    let mut line = format!("{source}, {seen}");
    if let Some(whom) = &guideline {
        line = format!("{line}; a guideline: it binds {whom}");
    }
    if verify {
        line.push_str("; verify");
    }
    let origin = Origin { standing, text: line.into() };
    let note = text(&ground::NOTE).unwrap_or_default();
    Some(Ground { origin, seen, verify, guideline, note, stated_by: stated_by.to_owned() })
}

fn brake_need(record: &Record, place: &str, problems: &mut Vec<Problem>) -> Option<BrakeNeed> {
    use place_brakes::{AT_LEAST, BREAKAWAY, BY, MORE_THAN, SORT, WHEELS};
    let by = record.word(&BY)?;
    let (more_than, at_least) = (record.quantity(&MORE_THAN), record.quantity(&AT_LEAST));
    let weighed = match by.value {
        "rating" => Weighed::Rating,
        "axle load" => Weighed::Axles,
        _ => Weighed::Gross,
    };
    let by_weight = by.value != "stopping distance";
    if more_than.is_some() == at_least.is_some() && by_weight
        || !by_weight && (more_than.or(at_least)).is_some()
    {
        problems.push(
            Problem::new("two-thresholds", format!("the brakes of place `{place}` need one threshold"))
                .at(Label::new(record.span, Role::Subject, "one of `more_than` and `at_least`"))
                .help("state `more_than` or `at_least`; neither where the place goes by stopping distance"),
        );
        return None;
    }
    Some(BrakeNeed {
        sort: record.word(&SORT).and_then(|word| Sort::from_word(word.value)),
        threshold: more_than.or(at_least),
        from: if more_than.is_some() { From::MoreThan } else { From::AtLeast },
        weighed,
        wheels: record.word(&WHEELS).map(|word| word.value),
        breakaway: record.flag(&BREAKAWAY).map(|flag| flag.value),
        ground: ground(record, place)?,
    })
}

fn figure(
    name: &Spanned<String>,
    record: &Record,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<(&'static pintle_spec::field::Field, PlaceFigure)> {
    let Some(field) = figures::SCHEMA.find(&name.value) else {
        let names = || figures::SCHEMA.all().map(|field| field.key);
        problems.push(
            Problem::new("unknown-figure", format!("a place has no figure `{}`", name.value))
                .at(Label::new(name.span, Role::Subject, "no such figure"))
                .help(match nearest(&name.value, names()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("the figures of a place are {}", list(names())),
                }),
        );
        return None;
    };
    let value = record.quantity(&place_figure::VALUE)?;
    let called = format!("figure `{}` of place `{place}`", name.value);
    fits(field, &called, &value, problems)
        .then(|| Some((field, PlaceFigure { value, ground: ground(record, place)? })))?
}

fn read_place(name: &str, record: &Record, problems: &mut Vec<Problem>) -> Option<Place> {
    let named = record.named(&place::FIGURES).iter();
    let figures = named.filter_map(|(key, table)| figure(key, table, name, problems)).collect();
    let brakes = record.tables(&place::BRAKES).iter();
    let brakes = brakes.filter_map(|table| brake_need(table, name, problems)).collect();
    Some(Place {
        name: name.to_owned(),
        title: record.text(&place::TITLE)?.value.to_owned(),
        within: record.text(&place::WITHIN).map(|within| within.value.to_owned()),
        figures,
        brakes,
        lamps: record.table(&place::LAMPS).and_then(|table| ground(table, name)),
    })
}

/// The places as written, each with the place of its `within` in its file.
fn written(
    files: &[(String, Vec<u8>)],
    sources: &mut Sources,
    problems: &mut Vec<Problem>,
) -> BTreeMap<String, (Place, Span)> {
    let mut held = BTreeMap::new();
    for (file_name, bytes) in files {
        let Some(name) = file_name.rsplit('/').next().and_then(|file| file.strip_suffix(".toml")) else {
            continue;
        };
        let file = match sources.add_bytes(file_name, bytes) {
            Ok(file) => file,
            Err(error) => {
                problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
                continue;
            }
        };
        let root = node::parse(sources, file, problems);
        let record = read(&root, &place::SCHEMA, &format!("place `{name}`"), problems);
        require(&record, &place::SCHEMA, problems);
        let span = record.text(&place::WITHIN).map_or(record.span, |within| within.span);
        if let Some(place) = read_place(name, &record, problems) {
            held.insert(name.to_owned(), (place, span));
        }
    }
    held
}

/// A place with what it takes over from the places it lies within.
fn with_what_it_lies_within(
    place: &Place,
    span: Span,
    all: &BTreeMap<String, (Place, Span)>,
    problems: &mut Vec<Problem>,
) -> Place {
    let mut whole = place.clone();
    let mut next = place.within.clone();
    let mut seen = vec![place.name.clone()];
    while let Some(name) = next.take() {
        let Some((around, _)) = all.get(&name).filter(|_| !seen.contains(&name)) else {
            let message = format!("place `{}` cannot lie within `{name}`", place.name);
            problems.push(
                Problem::new("unknown-place", message)
                    .at(Label::new(span, Role::Subject, "no such place around it"))
                    .help(match nearest(&name, all.keys().map(String::as_str)) {
                        Some(near) if near != name => format!("did you mean `{near}`?"),
                        _ => "name another place that the rulebook holds".to_owned(),
                    }),
            );
            break;
        };
        for (field, figure) in &around.figures {
            if !whole.figures.iter().any(|(held, _)| held.key == field.key) {
                whole.figures.push((field, figure.clone()));
            }
        }
        if whole.brakes.is_empty() {
            whole.brakes.clone_from(&around.brakes);
        }
        if whole.lamps.is_none() {
            whole.lamps.clone_from(&around.lamps);
        }
        seen.push(name);
        next.clone_from(&around.within);
    }
    whole
}

/// The places that the rulebook holds, and those of the shop.
pub(crate) fn bind(
    sources: &mut Sources,
    of_shop: &[Spanned<String>],
    problems: &mut Vec<Problem>,
) -> Places {
    bind_files(&builtin_data("places"), sources, of_shop, problems)
}

fn bind_files(
    files: &[(String, Vec<u8>)],
    sources: &mut Sources,
    of_shop: &[Spanned<String>],
    problems: &mut Vec<Problem>,
) -> Places {
    let all = written(files, sources, problems);
    let places: Vec<Place> =
        all.values().map(|(place, span)| with_what_it_lies_within(place, *span, &all, problems)).collect();
    let places = Places::from_list(places, of_shop.to_vec());
    problems.extend(of_shop.iter().filter_map(|name| unknown(name, &places)));
    places
}

fn unknown(name: &Spanned<String>, places: &Places) -> Option<Problem> {
    if places.get(&name.value).is_some() {
        return None;
    }
    let names = || places.all().map(|place| place.name.as_str());
    let problem = Problem::new("unknown-place", format!("no place is called `{}`", name.value))
        .at(Label::new(name.span, Role::Subject, "no such place"));
    Some(problem.help(match nearest(&name.value, names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("the places are {}", list(names())),
    }))
}

impl Rulebook {
    /// What is wrong with the names of places in a build: one for each that the rulebook does not hold.
    pub fn unknown_places(&self, build: &Build) -> Vec<Problem> {
        let named = build.head.texts(&head::PLACES).iter();
        named.filter_map(|name| unknown(name, &self.places)).collect()
    }
}

#[cfg(test)]
mod tests;
