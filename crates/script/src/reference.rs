//! All that a script can ask for, as the page for rule authors lists it: made from the same tables by which scripts are
//! run and held against what they ask.

use pintle_calc::topics;
use pintle_spec::field::Schema;
use pintle_spec::item_kinds;

use crate::check::{Sort, Type, with_article};
use crate::engine::GIVEN;
use crate::judges::Judges;
use crate::properties::Property;
use crate::rows;

/// One thing, and all that it can be asked for.
#[derive(Debug)]
pub struct Section {
    /// What it is called.
    pub heading: String,
    /// What a rule judges to be given it; none for what every rule is given.
    pub judges: Option<&'static str>,
    /// The variable under which a script finds it.
    pub variable: &'static str,
    /// What it can be asked for.
    pub entries: Vec<Entry>,
}

/// One thing that can be asked for.
#[derive(Debug)]
pub struct Entry {
    /// Its name, with the names of the tables that it stands in.
    pub name: String,
    /// What it is.
    pub holds: String,
    /// How it is used, in an expression.
    pub example: String,
    /// What it means.
    pub doc: &'static str,
}

/// Every thing that a script may be given.
pub fn sections() -> Vec<Section> {
    let given = GIVEN.into_iter().filter(|name| *name != "limit").map(|name| Section {
        heading: name.to_owned(),
        judges: None,
        variable: name,
        entries: entries(name, &Sort::Given(name), |_| true),
    });
    let beside = [
        ("state", "road state", "state"),
        ("tight reading", "tight reading", "tight"),
        ("figure", "space/headroom", "figure"),
    ];
    let beside =
        beside.into_iter().map(|(heading, judges, variable)| of_subject(heading, judges, variable, |_| true));
    let rows = rows::ALL.iter().map(|rows| of_subject(rows.word, rows.word, rows.variable, |_| true));
    let shared = |name: &str| item_kinds().all(|kind| Sort::part(Some(kind)).ask(name, None).is_ok());
    let any = std::iter::once(of_subject("any part", "item", "item", shared));
    let kinds = item_kinds().map(|kind| {
        let variable = Judges::from_word(kind)
            .map_or("item", |judges| judges.variables().last().copied().unwrap_or("item"));
        of_subject(kind, kind, variable, |name| !shared(name))
    });
    given.chain(beside).chain(rows).chain(any).chain(kinds).collect()
}

fn of_subject(
    heading: &str,
    judges: &'static str,
    variable: &'static str,
    wanted: impl Fn(&str) -> bool,
) -> Section {
    let sort = Judges::from_word(judges).and_then(|judges| Sort::of_variable(judges, variable));
    Section {
        heading: heading.to_owned(),
        judges: Some(judges),
        variable,
        entries: sort.map(|sort| entries(variable, &sort, wanted)).unwrap_or_default(),
    }
}

/// Tables within tables that are followed.
const DEPTH: usize = 4;

fn entries(variable: &str, sort: &Sort, wanted: impl Fn(&str) -> bool) -> Vec<Entry> {
    let mut found: Vec<Entry> = Vec::new();
    for (properties, schema) in sort.tables() {
        for (name, doc) in names(properties, schema).into_iter().filter(|(name, _)| wanted(name)) {
            if found.iter().all(|held| held.name != name) {
                add(&mut found, (variable, name), sort, doc, DEPTH);
            }
        }
    }
    found
}

fn names(
    properties: &'static [Property],
    schema: Option<&'static Schema>,
) -> Vec<(&'static str, &'static str)> {
    let written = schema.into_iter().flat_map(Schema::all).map(|field| (field.key, field.doc));
    properties.iter().map(|property| (property.name, property.doc)).chain(written).collect()
}

fn add(found: &mut Vec<Entry>, (of, name): (&str, &str), sort: &Sort, doc: &'static str, depth: usize) {
    let last = name.rsplit('.').next().unwrap_or(name);
    let Ok(known) = sort.ask(last, None) else { return };
    // A word that the language keeps for itself is asked for by index.
    let asked = if KEPT.contains(&last) {
        format!("{}[\"{last}\"]", of_table(of, name))
    } else {
        format!("{of}.{name}")
    };
    let Some((holds, example)) = described(&known, &asked) else { return };
    found.push(Entry { name: name.to_owned(), holds, example, doc });
    let (inner, name) = match known {
        Type::Thing(inner @ Sort::Table(..)) => (inner, name.to_owned()),
        Type::List(entry) => match *entry {
            // Lists whose entries can be judged have a section of their own.
            Type::Thing(Sort::Table(key, _)) if rows::ALL.iter().any(|rows| rows.field.key == key) => return,
            Type::Thing(inner @ Sort::Table(..)) => (inner, format!("{name}[0]")),
            _ => return,
        },
        _ => return,
    };
    if depth == 0 {
        return;
    }
    for (properties, schema) in inner.tables() {
        for (field, doc) in names(properties, schema) {
            add(found, (of, &format!("{name}.{field}")), &inner, doc, depth - 1);
        }
    }
}

/// Words that the script language keeps for itself.
const KEPT: &[&str] = &["use", "module"];

/// What stands before the last point of a name.
fn of_table(of: &str, name: &str) -> String {
    name.rsplit_once('.').map_or_else(|| of.to_owned(), |(table, _)| format!("{of}.{table}"))
}

/// What a value is, and an expression that uses it; none for what a script cannot use.
fn described(known: &Type, asked: &str) -> Option<(String, String)> {
    let listed = |words: &[&str]| words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    Some(match known {
        Type::Quantity(Some(dimension)) => {
            let example = match dimension.example() {
                "" => format!("{asked} == {asked}"),
                example => format!("{asked} > quantity(\"{example}\")"),
            };
            (dimension.noun(), example)
        }
        Type::Quantity(None) => ("a quantity".to_owned(), format!("{asked} == {asked}")),
        Type::Flag => ("a yes or no".to_owned(), asked.to_owned()),
        Type::Count => ("a whole number".to_owned(), format!("{asked} >= 1")),
        Type::Text(None) => ("a text".to_owned(), format!("{asked} != \"\"")),
        Type::Text(Some(words)) => {
            let first = words.first()?;
            (format!("one of {}", listed(words)), format!("{asked} == \"{first}\""))
        }
        Type::List(entry) => match &**entry {
            Type::Text(Some(words)) => {
                let first = words.first()?;
                (format!("a list of {}", listed(words)), format!("contains({asked}, \"{first}\")"))
            }
            Type::Text(None) => ("a list of texts".to_owned(), format!("count({asked}) > 0")),
            _ => ("a list of things".to_owned(), format!("count({asked}) > 0")),
        },
        Type::Thing(Sort::Part(kinds)) if kinds.len() == 1 => {
            let kind = kinds.first()?;
            (with_article(kind), format!("{asked}.called != \"\""))
        }
        Type::Thing(Sort::Part(_)) => ("a part".to_owned(), format!("{asked}.called != \"\"")),
        Type::Thing(Sort::State) => ("a state".to_owned(), format!("{asked}.name != \"\"")),
        Type::Thing(_) => {
            let (of, name) = asked.rsplit_once('.')?;
            ("a thing".to_owned(), format!("has({of}, \"{name}\")"))
        }
        _ => return None,
    })
}

/// What a figure of a topic comes to, in words.
pub fn comes_to(sort: &topics::Sort) -> String {
    match sort.gives {
        topics::Gives::Figure(unit) => {
            let noun = sort.gives.dimension().map_or_else(String::new, pintle_quantity::Dimension::noun);
            format!("{noun}, such as in {unit}")
        }
        topics::Gives::Share => "a share, in %".to_owned(),
        topics::Gives::Number => "a number; a limit on it is written in %, `300 %` for 3".to_owned(),
        topics::Gives::Flag => "a yes or no".to_owned(),
        topics::Gives::Text => "a text".to_owned(),
        topics::Gives::Texts => "a list of texts".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Around;
    use crate::engine::Engine;

    /// Each example is sound, and each name is heard.
    #[test]
    fn every_example_of_every_entry_is_sound() {
        let engine = Engine::new();
        let mut tried = 0;
        for section in sections() {
            let judges = Judges::from_word(section.judges.unwrap_or("build")).unwrap();
            assert!(!section.entries.is_empty(), "{}", section.heading);
            for entry in &section.entries {
                let text = format!("let used = {};\nrequire(used, \"it is so\");", entry.example);
                let source = pintle_source::Sources::new().add("rule.rhai", &text);
                let around = Around { limits: &[], own_fields: None };
                let (_, wrong) = engine.check(&text, source, judges, &around);
                assert_eq!(wrong, [], "{}: {text}", section.heading);
                assert!(
                    !entry.doc.is_empty() && !entry.holds.is_empty(),
                    "{}.{}",
                    section.heading,
                    entry.name
                );
                tried += 1;
            }
        }
        assert!(tried > 500, "{tried}");
    }
}
