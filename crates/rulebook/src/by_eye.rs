//! Checks that only eyes can make: the built-in list, with those of a shop's own after them.

use pintle_finding::{Basis, ByEye, Citation, Label, Problem, Role, Stage, Station};
use pintle_source::{Sources, Spanned};
use pintle_spec::node;
use pintle_spec::read::{read, require};
use pintle_spec::record::Record;

use crate::pack::builtin_by_eye;
use crate::schema::by_eye::{BASIS, FROM, HOW, LOOK, OF, SAYS, SOURCE, STATION};
use crate::schema::by_eye_list;
use crate::set_twice;

/// A check as it stands in a file.
#[derive(Debug, Clone)]
pub(crate) struct Written {
    look: Spanned<String>,
    check: ByEye,
}

/// The checks of a file; what is wrong with them is in `problems`.
pub(crate) fn read_all(tables: &[Record], problems: &mut Vec<Problem>) -> Vec<Written> {
    tables.iter().filter_map(|table| read_one(table, problems)).collect()
}

fn read_one(table: &Record, problems: &mut Vec<Problem>) -> Option<Written> {
    let text = |field| table.text(field).map(|text| text.value.to_owned());
    let look = table.text(&LOOK)?.map(str::to_owned);
    let written = table.word(&BASIS)?;
    let basis = Basis::from_word(written.value)?;
    let source = text(&SOURCE);
    if source.is_none() && matches!(basis, Basis::Published | Basis::Memory) {
        let message = format!("a check by eye that is {} names no text", of_basis(basis));
        problems.push(
            Problem::new("no-source", message)
                .at(Label::new(written.span, Role::Subject, "which text?"))
                .help("name the text and its section in `source`, or write `basis = \"common practice\"`"),
        );
        return None;
    }
    let check = ByEye {
        station: Station::from_word(table.word(&STATION)?.value)?,
        from: Stage::from_word(table.word(&FROM)?.value)?,
        look: look.value.clone(),
        how: text(&HOW)?,
        of: table.words(&OF).unwrap_or_default().iter().map(|word| word.value.to_owned()).collect(),
        ground: Citation {
            basis,
            text: source.unwrap_or_default(),
            says: text(&SAYS).unwrap_or_default(),
            guideline: None,
        },
        set_by: None,
        span: Some(look.span),
    };
    Some(Written { look, check })
}

fn of_basis(basis: Basis) -> &'static str {
    if basis == Basis::Memory { "from memory" } else { "published" }
}

/// The built-in checks.
pub(crate) fn builtin(sources: &mut Sources, problems: &mut Vec<Problem>) -> Vec<ByEye> {
    let Some((name, bytes)) = builtin_by_eye() else { return Vec::new() };
    let file = match sources.add_bytes(&name, &bytes) {
        Ok(file) => file,
        Err(error) => {
            problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
            return Vec::new();
        }
    };
    let root = node::parse(sources, file, problems);
    let record = read(&root, &by_eye_list::SCHEMA, "the list of checks by eye", problems);
    require(&record, &by_eye_list::SCHEMA, problems);
    let mut held = Vec::new();
    set(&mut held, &read_all(record.tables(&by_eye_list::BY_EYE), problems), None, problems);
    held
}

/// Lays the checks of a layer over those there are: one of the same station and the same `look` is set anew.
pub(crate) fn lay(held: &mut Vec<ByEye>, given: &[Written], sources: &Sources, problems: &mut Vec<Problem>) {
    set(held, given, Some(sources), problems);
}

fn set(held: &mut Vec<ByEye>, given: &[Written], sources: Option<&Sources>, problems: &mut Vec<Problem>) {
    for Written { look, check } in given {
        let set_by = sources.map(|sources| sources.name(look.span.source).to_owned());
        let check = ByEye { set_by, ..check.clone() };
        let same = held.iter_mut().find(|one| one.station == check.station && one.look == check.look);
        match same {
            Some(one) if one.span.is_some_and(|span| span.source == look.span.source) => {
                let what = format!("the check `{}` by eye", check.look);
                problems.push(set_twice(&what, look.span, one.span));
            }
            Some(one) => *one = check,
            None => held.push(check),
        }
    }
    held.sort_by_key(|check| check.station);
}

#[cfg(test)]
mod tests;
