//! `pack.toml`, which a pack may have beside its rules: subjects that it picks by a filter, and fields of the shop's own
//! that its scripts read off parts.

use std::sync::Arc;

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_script::{Engine, Judges, Script};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::node;
use pintle_spec::read::{list, read, require};
use pintle_spec::record::Record;
use pintle_spec::{OwnField, OwnKind};

use crate::schema::{pack, pack_field, pack_subject};
use crate::set_twice;

/// A subject of a pack's own: those of a built-in sort for which a condition holds.
#[derive(Debug)]
pub struct Picked {
    /// What rules call it.
    pub name: Spanned<String>,
    /// The built-in sort that it is picked from.
    pub of: Judges,
    /// The condition, an expression of the script language.
    pub condition: Spanned<String>,
    /// What it is, in a few words.
    pub doc: String,
}

impl Picked {
    /// Its condition, compiled for one thread.
    pub(crate) fn compiled(&self, engine: &Engine) -> Option<Script> {
        engine.compile_condition(&self.condition.value, self.condition.span.source, self.of).ok()
    }
}

/// What the `pack.toml` of all packs in use declare.
#[derive(Debug, Default)]
pub(crate) struct Declared {
    pub(crate) subjects: Vec<Arc<Picked>>,
    pub(crate) fields: Vec<(OwnField, Span)>,
}

impl Declared {
    /// Reads one more.
    pub(crate) fn add(
        &mut self,
        file: SourceId,
        engine: &Engine,
        sources: &Sources,
        problems: &mut Vec<Problem>,
    ) {
        let root = node::parse(sources, file, problems);
        let record = read(&root, &pack::SCHEMA, "the pack", problems);
        require(&record, &pack::SCHEMA, problems);
        for (name, table) in record.named(&pack::SUBJECTS) {
            if let Some(picked) = read_subject(name, table, engine, problems) {
                self.keep(picked, problems);
            }
        }
        for (name, table) in record.named(&pack::FIELDS) {
            self.fields.extend(self.read_field(name, table, problems));
        }
    }

    fn keep(&mut self, picked: Picked, problems: &mut Vec<Problem>) {
        match self.subjects.iter().find(|held| held.name.value == picked.name.value) {
            Some(twice) => problems.push(set_twice(
                &format!("the subject `{}`", picked.name.value),
                picked.name.span,
                Some(twice.name.span),
            )),
            None => self.subjects.push(Arc::new(picked)),
        }
    }

    fn read_field(
        &self,
        name: &Spanned<String>,
        table: &Record,
        problems: &mut Vec<Problem>,
    ) -> Option<(OwnField, Span)> {
        let is = table.text(&pack_field::IS)?;
        let doc = table.text(&pack_field::DOC)?.value;
        let Some(kind) = OwnKind::from_word(is.value) else {
            let help = match nearest(is.value, OwnKind::words()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("a field is one of {}", list(OwnKind::words())),
            };
            problems.push(
                Problem::new("unknown-word", format!("a field cannot be a `{}`", is.value))
                    .at(Label::new(is.span, Role::Subject, "not something that a field can hold"))
                    .help(help),
            );
            return None;
        };
        if !name.value.starts_with(char::is_alphabetic)
            || !name.value.chars().all(|letter| letter.is_alphanumeric() || letter == '_')
        {
            problems.push(
                Problem::new("bad-name", format!("a script cannot read a field called `{}`", name.value))
                    .at(Label::new(name.span, Role::Subject, "not a name"))
                    .help("use letters, digits and underscores, as in `hinge_rating`"),
            );
            return None;
        }
        let twice = self.fields.iter().find(|(held, _)| held.key == name.value && held.kind != kind);
        if let Some((_, first)) = twice {
            problems.push(set_twice(&format!("the field `{}`", name.value), name.span, Some(*first)));
            return None;
        }
        Some((OwnField::new(&name.value, kind, doc), name.span))
    }
}

fn read_subject(
    name: &Spanned<String>,
    table: &Record,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<Picked> {
    let of = table.text(&pack_subject::OF)?;
    let condition = table.text(&pack_subject::WHERE)?.map(str::to_owned);
    let doc = table.text(&pack_subject::DOC)?.value.to_owned();
    if Judges::from_word(&name.value).is_some() || name.value.contains('/') {
        problems.push(
            Problem::new("taken-name", format!("`{}` is a built-in subject already", name.value))
                .at(Label::new(name.span, Role::Subject, "call it something else"))
                .help("a subject of the pack's own needs a name of its own, without a slash"),
        );
        return None;
    }
    let Some(judges) = Judges::from_word(of.value) else {
        problems.push(unknown_subject(&format!("subject `{}`", name.value), "picks from", &of, &[]));
        return None;
    };
    if let Err(error) = engine.compile_condition(&condition.value, condition.span.source, judges) {
        problems.push(
            Problem::new(
                "bad-script",
                format!("the condition of subject `{}`: {}", name.value, error.message),
            )
            .at(Label::new(condition.span, Role::Script, "in this"))
            .help(error.help.unwrap_or_else(|| {
                "write one expression that is true or false, such as `has(item, \"input\")`".to_owned()
            })),
        );
        return None;
    }
    Some(Picked { name: name.clone(), of: judges, condition, doc })
}

/// There is no such subject; the nearest is offered.
pub(crate) fn unknown_subject<'a>(what: &str, does: &str, word: &Spanned<&str>, own: &[&'a str]) -> Problem {
    let words = || Judges::words().map(|word| -> &'a str { word }).chain(own.iter().copied());
    let figures = Judges::figures().map(|word| -> &'a str { word });
    let help = match nearest(word.value, words().chain(figures)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("use a figure, such as `gas/burn_time`, or one of {}", list(words())),
    };
    Problem::new("unknown-word", format!("{what} {does} `{}`, and there is no such thing", word.value))
        .at(Label::new(word.span, Role::Subject, "not something that can be judged"))
        .help(help)
}
