//! `[[mend]]`: what a rule declares as a way to put its fault right.

use pintle_calc::space::room::Along;
use pintle_finding::{Label, Problem, Role, nearest};
use pintle_script::Judges;
use pintle_source::{Span, Spanned};
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::read::list;
use pintle_spec::record::{Record, Value};
use pintle_spec::schema::{tow, trailer};
use pintle_spec::{item_kinds, schema_of_kind};

use crate::schema::mend;

/// The fields of what is no table.
static NOTHING: Schema = Schema { name: "a value", fields: &[], common: None };

/// One way to put a fault right.
#[derive(Debug, Clone)]
pub enum Mend {
    /// Another value of one field.
    Field {
        /// The path of the value; `{subject}` stands for what is judged.
        field: Spanned<String>,
        /// Values to try, in this order.
        to: Vec<Node>,
        /// What to do, in words; `{to}` stands for the value.
        words: String,
    },
    /// Another part of the stock list.
    Exchange {
        /// The kind of part that is exchanged.
        kind: String,
        /// The field by which the nearest is tried first.
        by: String,
    },
    /// Something is moved.
    Move(Move),
}

/// What is moved to put a fault right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Move {
    /// What is judged, some way in a direction.
    Judged(Along),
    /// Removable parts and tanks, toward the axle.
    TowardAxle,
    /// The axle.
    Axle,
}

/// Reads the mends of a rule. One that is wrong is left out and said.
pub(super) fn read_mends(records: &[Record], judges: Judges, problems: &mut Vec<Problem>) -> Vec<Mend> {
    records.iter().filter_map(|record| read_mend(record, judges, problems)).collect()
}

fn read_mend(record: &Record, judges: Judges, problems: &mut Vec<Problem>) -> Option<Mend> {
    let given = |field: &'static Field| record.value(field.key).map(|value| value.span);
    let sorts: Vec<Span> =
        [&mend::FIELD, &mend::EXCHANGE, &mend::MOVE].into_iter().filter_map(given).collect();
    if sorts.len() != 1 {
        let mut problem = Problem::new("wrong-mend", "a mend is one of `field`, `exchange` and `move`")
            .help("write a `[[mend]]` of its own for each thing that can be tried");
        let at = sorts.get(1).copied().unwrap_or(record.span);
        problem = problem.at(Label::new(at, Role::Subject, "more than one, or none"));
        problems.push(problem);
        return None;
    }
    let (wanted, strangers): (&[&'static Field], &[&'static Field]) = if given(&mend::FIELD).is_some() {
        (&[&mend::TO, &mend::DO, &mend::BASIS, &mend::SAYS], &[&mend::BY])
    } else if given(&mend::EXCHANGE).is_some() {
        (&[&mend::BY], &[&mend::TO, &mend::DO, &mend::BASIS, &mend::SAYS])
    } else {
        (&[], &[&mend::TO, &mend::DO, &mend::BASIS, &mend::SAYS, &mend::BY])
    };
    let before = problems.len();
    for field in wanted.iter().filter(|field| given(field).is_none()) {
        problems.push(
            Problem::new("missing-value", format!("the mend has no `{}`", field.key))
                .at(Label::new(record.span, Role::Missing, format!("`{}` is missing here", field.key)))
                .help(format!("give `{}`: {}", field.key, field.doc)),
        );
    }
    for field in strangers {
        if let Some(span) = given(field) {
            problems.push(
                Problem::new("wrong-mend", format!("`{}` means nothing for such a mend", field.key))
                    .at(Label::new(span, Role::Subject, "leave it out"))
                    .help(format!("`{}` is {}", field.key, field.doc)),
            );
        }
    }
    let read = if given(&mend::FIELD).is_some() {
        field_mend(record, judges, problems)
    } else if given(&mend::EXCHANGE).is_some() {
        exchange_mend(record, problems)
    } else {
        record.word(&mend::MOVE).map(|word| {
            Mend::Move(match word.value {
                "across" => Move::Judged(Along::Width),
                "toward the axle" => Move::TowardAxle,
                "axle" => Move::Axle,
                _ => Move::Judged(Along::Length),
            })
        })
    };
    read.filter(|_| problems.len() == before)
}

fn field_mend(record: &Record, judges: Judges, problems: &mut Vec<Problem>) -> Option<Mend> {
    let field = record.text(&mend::FIELD)?.map(str::to_owned);
    check_path(&field, judges, problems);
    let to = record.value(mend::TO.key)?;
    let values = match &to.value {
        Value::Raw(Node { value: NodeValue::Array(values), .. }) if !values.is_empty() => values.clone(),
        _ => {
            problems.push(
                Problem::new("wrong-type", "`to` of a mend must be a list of values")
                    .at(Label::new(to.span, Role::Subject, "nothing to try in here"))
                    .help("such as `to = [\"2000 lb\", \"3500 lb\"]`"),
            );
            return None;
        }
    };
    Some(Mend::Field { field, to: values, words: record.text(&mend::DO)?.value.to_owned() })
}

/// A path that leads nowhere would make every trial fail, and nobody would know why.
fn check_path(path: &Spanned<String>, judges: Judges, problems: &mut Vec<Problem>) {
    let mut steps = path.value.split('.');
    let first = steps.next().unwrap_or_default();
    let schema = match first {
        "trailer" => Some(&trailer::SCHEMA),
        "tow" => Some(&tow::SCHEMA),
        "{subject}" => schema_of_kind(judges.word()),
        _ => None,
    };
    let Some(mut schema) = schema else {
        let help = if first == "{subject}" {
            format!("a rule that judges each {} has no part as its subject", judges.word())
        } else {
            "a path is such as `trailer.chains.strength`, `tow.ball` or `{subject}.feet`".to_owned()
        };
        problems.push(
            Problem::new("unknown-path", format!("`{}` is no path of a value", path.value))
                .at(Label::new(path.span, Role::Subject, "leads nowhere"))
                .help(help),
        );
        return;
    };
    let mut reached = None;
    for step in steps {
        let found = schema.find(step);
        let Some(field) = found else {
            let keys = || schema.all().map(|field| field.key);
            let help = match nearest(step, keys()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("its fields are {}", list(keys())),
            };
            problems.push(
                Problem::new(
                    "unknown-path",
                    format!("`{}` leads nowhere: {} has no `{step}`", path.value, schema.name),
                )
                .at(Label::new(path.span, Role::Subject, "no such field"))
                .help(help),
            );
            return;
        };
        reached = Some(field);
        schema = match field.kind {
            Kind::Table(inner) => inner,
            _ => &NOTHING,
        };
    }
    if reached.is_none() {
        problems.push(
            Problem::new("unknown-path", format!("`{}` is no path of a value", path.value))
                .at(Label::new(path.span, Role::Subject, "a whole table"))
                .help("name the field of it that changes"),
        );
    }
}

fn exchange_mend(record: &Record, problems: &mut Vec<Problem>) -> Option<Mend> {
    let kind = record.text(&mend::EXCHANGE)?;
    let Some(schema) = schema_of_kind(kind.value).filter(|_| item_kinds().any(|name| name == kind.value))
    else {
        let help = match nearest(kind.value, item_kinds()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the kinds are {}", list(item_kinds())),
        };
        problems.push(
            Problem::new("unknown-kind", format!("no kind of part is called `{}`", kind.value))
                .at(Label::new(kind.span, Role::Subject, "nothing of this kind can be exchanged"))
                .help(help),
        );
        return None;
    };
    let by = record.text(&mend::BY)?;
    if schema.find(by.value).is_none() {
        let keys = || schema.all().map(|field| field.key);
        let help = match nearest(by.value, keys()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("its fields are {}", list(keys())),
        };
        problems.push(
            Problem::new("unknown-key", format!("a {} has no field `{}`", kind.value, by.value))
                .at(Label::new(by.span, Role::Subject, "not a field of such parts"))
                .help(help),
        );
        return None;
    }
    Some(Mend::Exchange { kind: kind.value.to_owned(), by: by.value.to_owned() })
}
