//! `[electric]`: gives its circuits and uses their names in messages, and ties what they name to parts and to each other.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_source::{Span, Spanned};

use super::items::Fitted;
use super::only_one;
use super::tags::{Sort, Tags};
use crate::field::Field;
use crate::read::list;
use crate::record::{Record, Value};
use crate::say::{PAST_HELP, full, near, past_help, shown};
use crate::schema::electric::{
    ARRAY, BANK, CIRCUIT, ENDS, FEEDERS, MAINS, USE, array, bank, circuit, mains, usage,
};

/// The electric system as written, its tables named, with all that is wrong in what it names said.
pub(super) fn read_electric(written: &Record, fitted: &Fitted, problems: &mut Vec<Problem>) -> Record {
    let mut electric = written.clone();
    let circuits = name_tables(&mut electric, &CIRCUIT, &circuit::NAME, "circuit", problems);
    let uses = name_tables(&mut electric, &USE, &usage::WHAT, "use", problems);
    name_arrays(&mut electric);
    if let Some(Value::Table(inner)) = electric.value_mut(MAINS.key) {
        name_tables(inner, &mains::OUTLETS, &mains::outlet::NAME, "outlet", problems);
    }
    let find = |tag: Option<Spanned<&str>>, what: &str, sort: Sort, problems: &mut Vec<Problem>| {
        let tag = tag?;
        Tags { fitted, what }.find(tag.value, tag.span, sort, problems)
    };
    if let Some(bank) = electric.table(&BANK) {
        let tags = bank.texts(&bank::BATTERIES);
        Tags { fitted, what: "`batteries` of `bank`" }.find_all(tags, Sort::Battery, problems);
    }
    for record in electric.tables(&ARRAY) {
        let what = format!("`panels` of {}", record.what);
        Tags { fitted, what: &what }.find_all(record.texts(&array::PANELS), Sort::Panel, problems);
        let what = format!("`controller` of {}", record.what);
        find(record.text(&array::CONTROLLER), &what, Sort::Charger, problems);
    }
    for record in electric.tables(&USE) {
        refuse_two_powers(record, problems);
        let what = format!("`item` of {}", record.what);
        find(record.text(&usage::ITEM), &what, Sort::Part, problems);
        let what = format!("`through` of {}", record.what);
        find(record.text(&usage::THROUGH), &what, Sort::Inverter, problems);
    }
    let names = Names { fitted, circuits: &circuits, uses: &uses };
    for record in electric.tables(&CIRCUIT) {
        if full(problems) {
            break;
        }
        names.check(record, &circuit::FROM, false, problems);
        names.check(record, &circuit::TO, true, problems);
    }
    refuse_loops(electric.tables(&CIRCUIT), fitted, problems);
    electric
}

/// What a use takes is given by its power or by its current; the two may differ.
fn refuse_two_powers(record: &Record, problems: &mut Vec<Problem>) {
    if let (Some(power), Some(current)) = (record.quantity(&usage::POWER), record.quantity(&usage::CURRENT)) {
        let message = format!("{} gives what it takes twice: by `power` and by `current`", record.what);
        problems.push(
            Problem::new("two-powers", message)
                .at(Label::new(power.span, Role::Subject, "as a power"))
                .at(Label::new(current.span, Role::Subject, "as a current"))
                .help("keep the one that was measured or that its plate states"),
        );
    }
}

/// Calls every table of a list by its name; gives the names, each once.
fn name_tables(
    within: &mut Record,
    field: &'static Field,
    name: &'static Field,
    noun: &'static str,
    problems: &mut Vec<Problem>,
) -> BTreeMap<String, Span> {
    let mut names = BTreeMap::new();
    let Some(Value::Tables(records)) = within.value_mut(field.key) else { return names };
    for record in records {
        let Some(called) = record.text(name).map(|text| text.map(str::to_owned)) else { continue };
        record.rename(&format!("{noun} `{}`", shown(&called.value)));
        record.span = called.span;
        only_one(&called, &format!("{noun} name"), &mut names, problems);
    }
    names
}

/// Calls every array by its controller, or by its first panel.
fn name_arrays(electric: &mut Record) {
    let Some(Value::Tables(records)) = electric.value_mut(ARRAY.key) else { return };
    for record in records {
        let controller = record.text(&array::CONTROLLER).map(|text| text.map(str::to_owned));
        let named = controller.or_else(|| record.texts(&array::PANELS).first().cloned());
        if let Some(named) = named {
            record.rename(&format!("the array on `{}`", shown(&named.value)));
            record.span = named.span;
        }
    }
}

/// Everything that a circuit can come from or lead to.
struct Names<'a> {
    fitted: &'a Fitted,
    circuits: &'a BTreeMap<String, Span>,
    uses: &'a BTreeMap<String, Span>,
}

impl Names<'_> {
    /// Says of an end of a circuit that is nothing known.
    fn check(&self, record: &Record, field: &'static Field, leads_to: bool, problems: &mut Vec<Problem>) {
        let Some(end) = record.text(field) else { return };
        let others = if leads_to { self.uses } else { self.circuits };
        let tags = || self.fitted.items.iter().map(|item| item.tag.value.as_str());
        let known = || {
            let others = others.keys().map(String::as_str);
            ENDS.iter().copied().chain(others).chain(tags()).filter(|name| !name.is_empty())
        };
        if known().any(|name| name == end.value) {
            return;
        }
        let said = problems.len();
        let help = match near(end.value, known(), said) {
            None if past_help(said) => PAST_HELP.to_owned(),
            Some(near) => format!("did you mean `{}`?", shown(near)),
            None => format!("it can be {}", list(known())),
        };
        let message = format!(
            "`{}` of {} names `{}`, and nothing is called so",
            field.key,
            record.what,
            shown(end.value)
        );
        problems.push(
            Problem::new("unknown-tag", message)
                .at(Label::new(end.span, Role::Subject, "nothing has this name"))
                .help(help),
        );
    }
}

/// The most circuits that may feed one another, one after another.
const LONGEST_CHAIN: usize = 64;

/// Says of circuits that are fed, in the end, by themselves, or through more others than anybody builds.
fn refuse_loops(circuits: &[Record], fitted: &Fitted, problems: &mut Vec<Problem>) {
    let mut by_name: BTreeMap<&str, &Record> = BTreeMap::new();
    for record in circuits {
        if let Some(name) = record.text(&circuit::NAME) {
            by_name.entry(name.value).or_insert(record);
        }
    }
    let before = |record: &Record| {
        let from = record.text(&circuit::FROM)?.value;
        let part = fitted.hosts.find(from).and_then(|at| fitted.items.get(at));
        if ENDS.contains(&from) || part.is_some_and(|part| FEEDERS.contains(&part.kind)) {
            return None;
        }
        by_name.get(from).copied()
    };
    for record in circuits {
        if full(problems) {
            return;
        }
        let mut at = before(record);
        let mut steps = 0;
        while let Some(held) = at {
            if std::ptr::eq(held, record) {
                let span = record.text(&circuit::FROM).map_or(record.span, |from| from.span);
                problems.push(
                    Problem::new("circuit-loop", format!("{} is fed, in the end, by itself", record.what))
                        .at(Label::new(span, Role::Subject, "part of a loop of circuits"))
                        .help("say what the first of them is fed from: the bank, a part, the mains"),
                );
                break;
            }
            steps += 1;
            // The way into a loop: those that form it are said.
            if steps > circuits.len() {
                break;
            }
            if steps > LONGEST_CHAIN {
                let span = record.text(&circuit::FROM).map_or(record.span, |from| from.span);
                let message = format!("{} is fed through more than {LONGEST_CHAIN} others", record.what);
                problems.push(
                    Problem::new("circuit-loop", message)
                        .at(Label::new(span, Role::Subject, "one too many, or the way into a loop"))
                        .help("say what the first of them is fed from: the bank, a part, the mains"),
                );
                break;
            }
            at = before(held);
        }
    }
}
