//! Rules that had another id before: an id is never given to a second rule, and an old one leads to the rule that had it.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_source::{Span, Spanned};

use crate::kept::Kept;
use crate::rule_file::RuleFile;
use crate::rulebook::set_twice;
use crate::settings::Layer;

/// Ids that rules had before.
#[derive(Debug, Clone, Default)]
pub struct Renamed {
    /// By the old id: the one it has now.
    now: BTreeMap<String, String>,
}

impl Renamed {
    /// What rules say of their old ids. An id that is wrong leads nowhere.
    pub(crate) fn of(rules: &[RuleFile], kept: &[Kept], problems: &mut Vec<Problem>) -> Self {
        let is_taken =
            |id: &str| rules.iter().any(|file| file.id == id) || kept.iter().any(|kept| kept.rule.id == id);
        let mut first: BTreeMap<&str, (&str, Span)> = BTreeMap::new();
        for (file, was) in rules.iter().flat_map(|file| file.was.iter().map(move |was| (file, was))) {
            let wrong = if !is_id(&was.value) {
                Some(no_id(was))
            } else if was.value == file.id {
                Some(its_own(was))
            } else if is_taken(&was.value) {
                Some(taken(was, &file.id))
            } else {
                match first.get(was.value.as_str()) {
                    Some((heir, span)) if *heir == file.id => {
                        Some(set_twice(&format!("the old id `{}`", was.value), was.span, Some(*span)))
                    }
                    Some((heir, span)) => Some(two_heirs(was, (heir, *span), &file.id)),
                    None => None,
                }
            };
            match wrong {
                Some(problem) => problems.push(problem),
                None => {
                    first.insert(&was.value, (&file.id, was.span));
                }
            }
        }
        let now = first.into_iter().map(|(was, (now, _))| (was.to_owned(), now.to_owned()));
        Self { now: now.collect() }
    }

    /// The id that a rule has now which had this one before; none where no rule had.
    pub fn now(&self, was: &str) -> Option<&str> {
        self.now.get(was).map(String::as_str)
    }

    /// The old ids, each with the one of now.
    pub fn all(&self) -> impl Iterator<Item = (&str, &str)> + Clone {
        self.now.iter().map(|(was, now)| (was.as_str(), now.as_str()))
    }

    /// What whoever names an old id is told; nothing of any other.
    pub fn warning(&self, was: &str) -> Option<Problem> {
        let now = self.now(was)?;
        Some(
            Problem::warning("renamed-rule", format!("`{was}` is `{now}` now"))
                .help(format!("write `{now}`; the old id is taken for it")),
        )
    }

    /// Puts the id of now in place of an old one, and says so at its place.
    pub(crate) fn settle(&self, rule: &mut Spanned<String>, problems: &mut Vec<Problem>) {
        if let (Some(warning), Some(now)) = (self.warning(&rule.value), self.now(&rule.value)) {
            problems.push(warning.at(Label::new(rule.span, Role::Subject, "an old id")));
            now.clone_into(&mut rule.value);
        }
    }

    /// A layer with the ids of now.
    pub(crate) fn in_layer(&self, layer: &Layer, problems: &mut Vec<Problem>) -> Layer {
        let mut layer = layer.clone();
        for rule in layer.rules_mut() {
            self.settle(rule, problems);
        }
        layer
    }
}

/// Whether a text is a pack and a rule.
fn is_id(text: &str) -> bool {
    text.split_once('/')
        .is_some_and(|(pack, rule)| !pack.is_empty() && !rule.is_empty() && !rule.contains('/'))
}

fn no_id(was: &Spanned<String>) -> Problem {
    Problem::new("bad-id", format!("`{}` is no id of a rule", was.value))
        .at(Label::new(was.span, Role::Subject, "must be `pack/rule`"))
        .help("write the old id with the pack that it was in, such as `gas/unvented-locker`")
}

fn its_own(was: &Spanned<String>) -> Problem {
    Problem::new("taken-id", format!("rule `{}` names itself as what it was before", was.value))
        .at(Label::new(was.span, Role::Subject, "the id that it has"))
        .help("name an id that it no longer has, or take this one out")
}

fn taken(was: &Spanned<String>, heir: &str) -> Problem {
    let message = format!("`{heir}` is said to have been `{}`, and there is such a rule", was.value);
    Problem::new("taken-id", message)
        .at(Label::new(was.span, Role::Subject, "the id of another rule"))
        .help("an id is never used again: give the other rule an id of its own, or take this one out")
}

fn two_heirs(was: &Spanned<String>, (first, span): (&str, Span), second: &str) -> Problem {
    let message = format!("both `{first}` and `{second}` are said to have been `{}`", was.value);
    Problem::new("taken-id", message)
        .at(Label::new(was.span, Role::Subject, "said again here"))
        .at(Label::new(span, Role::Subject, "said here"))
        .help("leave it with the one that whoever wrote the old id means")
}
