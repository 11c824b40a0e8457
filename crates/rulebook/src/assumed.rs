//! What is assumed where a build does not say: the built-in tables, with a shop's own over them.

use std::collections::BTreeMap;

use pintle_calc::assumed::{Assumption, Assumptions, fields};
use pintle_calc::origin::Standing;
use pintle_finding::{Label, Problem, Role, nearest};
use pintle_quantity::{Quantity, Units};
use pintle_source::{Sources, Spanned};
use pintle_spec::field::{Field, Kind};
use pintle_spec::node;
use pintle_spec::read::{list, read, require};
use pintle_spec::record::Record;

use crate::pack::builtin_data;
use crate::schema::{assumption, assumption_override, assumptions};
use crate::set_twice;
use crate::settings::Layer;

/// An assumption of the shop's own.
#[derive(Debug, Clone)]
pub(crate) struct AssumptionOverride {
    of: Spanned<String>,
    value: Spanned<Quantity>,
    reason: String,
}

pub(crate) fn read_override(record: &Record) -> Option<AssumptionOverride> {
    Some(AssumptionOverride {
        of: record.text(&assumption_override::OF)?.map(str::to_owned),
        value: record.quantity(&assumption_override::VALUE)?,
        reason: record.text(&assumption_override::REASON)?.value.to_owned(),
    })
}

type Held = (&'static Field, &'static Field, Assumption);

fn name(topic: &Field, field: &Field) -> String {
    format!("{}.{}", topic.key, field.key)
}

fn field_of(
    of: &Spanned<String>,
    called: &str,
    problems: &mut Vec<Problem>,
) -> Option<(&'static Field, &'static Field)> {
    let found = fields().find(|(topic, field)| name(topic, field) == called);
    if found.is_none() {
        let names: Vec<String> = fields().map(|(topic, field)| name(topic, field)).collect();
        let names = || names.iter().map(String::as_str);
        problems.push(
            Problem::new("unknown-assumption", format!("there is no assumption `{called}`"))
                .at(Label::new(of.span, Role::Subject, "nothing is called so"))
                .help(match nearest(called, names()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("the assumptions are {}", list(names())),
                }),
        );
    }
    found
}

/// Says what is wrong with a value, and whether it can be used.
pub(crate) fn fits(
    field: &Field,
    called: &str,
    value: &Spanned<Quantity>,
    problems: &mut Vec<Problem>,
) -> bool {
    let Kind::Quantity(dimension, range) = field.kind else { return true };
    if value.value.dimension() != dimension {
        let found = value.value.dimension().noun();
        problems.push(
            Problem::new("wrong-dimension", format!("{called} is {}, and this is {found}", dimension.noun()))
                .at(Label::new(value.span, Role::Subject, format!("must be {}", dimension.noun())))
                .help(format!("write it such as `{}`", dimension.example())),
        );
        return false;
    }
    let wanted = range.refuses(value.value.si());
    if let Some(wanted) = wanted {
        problems.push(
            Problem::new("impossible-number", format!("{called} must be {wanted}"))
                .at(Label::new(value.span, Role::Subject, format!("must be {wanted}")))
                .help("correct the number, or its sign"),
        );
    }
    wanted.is_none()
}

fn builtin(sources: &mut Sources, problems: &mut Vec<Problem>) -> Vec<Held> {
    let mut held: Vec<Held> = Vec::new();
    for (file_name, bytes) in builtin_data("assumptions") {
        let topic =
            file_name.rsplit('/').next().and_then(|file| file.strip_suffix(".toml")).unwrap_or_default();
        let file = match sources.add_bytes(&file_name, &bytes) {
            Ok(file) => file,
            Err(error) => {
                problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
                continue;
            }
        };
        let root = node::parse(sources, file, problems);
        let record = read(&root, &assumptions::SCHEMA, "the table of assumptions", problems);
        require(&record, &assumptions::SCHEMA, problems);
        for record in record.tables(&assumptions::ASSUMPTIONS) {
            use assumption::{BASIS, NOTE, OF, SOURCE, VALUE};
            let Some((of, value)) = record.text(&OF).zip(record.quantity(&VALUE)) else { continue };
            let standing = record.word(&BASIS).and_then(|word| Standing::from_word(word.value));
            let of = of.map(str::to_owned);
            let called = format!("{topic}.{}", of.value);
            let found = field_of(&of, &called, problems);
            let Some(((topic, field), standing)) = found.zip(standing) else { continue };
            if let Some((.., first)) =
                held.iter().find(|(held_topic, held_field, _)| name(held_topic, held_field) == called)
            {
                problems.push(set_twice(&format!("assumption `{called}`"), of.span, Some(first.value.span)));
            } else if fits(field, &format!("assumption `{called}`"), &value, problems) {
                let text = |field| record.text(field).map(|text| text.value).unwrap_or_default();
                let parts = [text(&SOURCE), text(&NOTE)].into_iter().filter(|part| !part.is_empty());
                let text = parts.collect::<Vec<_>>().join("; ");
                held.push((topic, field, Assumption::new(value, standing, text)));
            }
        }
    }
    held
}

/// The assumptions in force: the built-in tables, with a shop's own over them, layer by layer.
pub(crate) fn bind(sources: &mut Sources, layers: &[Layer], problems: &mut Vec<Problem>) -> Assumptions {
    let mut held = builtin(sources, problems);
    // What each layer's value takes the place of, the nearest first.
    let mut chains: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for layer in layers {
        let mut set: Vec<(String, pintle_source::Span)> = Vec::new();
        for AssumptionOverride { of, value, reason } in &layer.assumptions {
            let Some((topic, field)) = field_of(of, &of.value, problems) else { continue };
            let called = name(topic, field);
            if let Some((_, first)) = set.iter().find(|(held, _)| *held == called) {
                problems.push(set_twice(&format!("assumption `{called}`"), value.span, Some(*first)));
                continue;
            }
            if !fits(field, &format!("assumption `{called}`"), value, problems) {
                continue;
            }
            set.push((called.clone(), value.span));
            let under = held.iter().position(|(topic, field, _)| name(topic, field) == called);
            let under = under.map(|at| held.remove(at).2);
            let file = sources.name(value.span.source).to_owned();
            let chain = chains.entry(called).or_default();
            if let Some(under) = under {
                let written = sources.name(under.value.span.source);
                chain.insert(0, format!("{}, {written}", under.value.value.show(Units::AsWritten)));
            }
            let text = match chain.join("; before that ") {
                below if below.is_empty() => format!("{file}, {reason}"),
                below => format!("{file}, {reason}; in place of {below}"),
            };
            held.push((topic, field, Assumption::new(*value, Standing::Shop, text)));
        }
    }
    Assumptions::from_list(held)
}
