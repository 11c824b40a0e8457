//! A spec as it is, or as it would be after a change: its tree, its build, and what the rules say of it.

use std::collections::BTreeSet;

use pintle_calc::space::room;
use pintle_finding::{Change, Problem, Reading, Written};
use pintle_source::{Sources, Span};
use pintle_spec::node::{Entry, Node, NodeValue};
use pintle_spec::{Build, Stock, patch, read_build_node};

use crate::judge::{Detail, Judge};

/// A spec, read and judged.
#[derive(Debug, Clone)]
pub(super) struct World {
    pub(super) root: Node,
    pub(super) build: Build,
    pub(super) readings: Vec<Reading>,
    /// Parts that meet others or walls, by tag.
    pub(super) meetings: BTreeSet<(String, String)>,
}

impl World {
    /// A spec that has been read and judged already.
    pub(super) fn new(root: Node, build: Build, readings: Vec<Reading>) -> Self {
        let meetings = meetings(&build);
        Self { root, build, readings, meetings }
    }

    /// The spec with changes made to it, read and judged again as a whole; none where it cannot be read.
    pub(super) fn with(
        &self,
        changes: &[Change],
        judge: &Judge<'_>,
        stock: &Stock,
        sources: &Sources,
    ) -> Option<Self> {
        let mut root = self.root.clone();
        for (change, at) in changes.iter().zip(0..) {
            // Each at a place of its own: what was written at one place is taken for one measurement.
            apply(&mut root, change, Span::new(self.build.source, at, at + 1)).ok()?;
        }
        let mut problems = Vec::new();
        let build = read_build_node(&root, self.build.source, stock, &mut problems)?;
        let readings = judge.inspect(build.clone(), sources, Detail::Findings).readings;
        Some(Self::new(root, build, readings))
    }
}

fn meetings(build: &Build) -> BTreeSet<(String, String)> {
    let tag = |at: usize| build.items.get(at).map_or_else(String::new, |item| item.tag.value.clone());
    let pairs = room::meetings(build).into_iter();
    pairs.map(|(one, other)| (tag(one), other.map_or_else(String::new, tag))).collect()
}

/// Makes a change in a spec's tree. New values stand at `span`.
fn apply(root: &mut Node, change: &Change, span: Span) -> Result<(), Problem> {
    let steps: Vec<&str> = change.at.iter().map(String::as_str).collect();
    match &change.to {
        Some(written) => patch::set_at(root, &steps, span, &as_node(written, span)),
        None => patch::remove_at(root, &steps, span),
    }
}

fn as_node(written: &Written, span: Span) -> Node {
    let value = match written {
        Written::Text(text) => NodeValue::Text { text: text.clone(), verbatim: false },
        Written::Count(count) => NodeValue::Integer(Some(*count)),
        Written::Flag(flag) => NodeValue::Flag(*flag),
        Written::List(list) => NodeValue::Array(list.iter().map(|one| as_node(one, span)).collect()),
        Written::Table(entries) => {
            let entry = |(key, value): &(String, Written)| Entry {
                key: key.clone(),
                key_span: span,
                node: as_node(value, span),
            };
            NodeValue::Table(entries.iter().map(entry).collect())
        }
    };
    Node { span, value }
}
