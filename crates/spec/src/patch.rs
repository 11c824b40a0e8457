//! Changing a parsed spec without touching its file: what a rule's trial does to its base.
//!
//! A path names a table or a value: `trailer.gvwr`, `item.galley.at`, `state.homeward.fill.fresh`. In the lists
//! of tables the second step is a tag or a name. New values keep the place where the change is written.

use pintle_finding::{Label, Problem, Role};
use pintle_source::Span;

use crate::node::{Entry, Node, NodeValue};
use crate::say::{near, shown};

/// Tables that stand in lists, with the key that tells them apart.
const LISTS: &[(&str, &str)] = &[
    ("item", "tag"),
    ("tank", "tag"),
    ("locker", "tag"),
    ("bulkhead", "tag"),
    ("berth", "tag"),
    ("vent", "tag"),
    ("load", "tag"),
    ("either", "name"),
    ("state", "name"),
];

/// Puts a value at a path, in place of what is there. A tag or name that does not exist yet is added.
pub fn set(root: &mut Node, path: &str, path_span: Span, value: &Node) -> Result<(), Problem> {
    let steps: Vec<&str> = path.split('.').collect();
    if steps.contains(&"") {
        return Err(no_path(path, path_span));
    }
    match steps.as_slice() {
        [list, tag, rest @ ..] if is_list(list) => {
            let place = element(root, list, tag, path_span, true)?;
            if rest.is_empty() {
                replace_table(place, value);
            } else {
                set_in(place, rest, path, path_span, value)?;
            }
        }
        steps => set_in(root, steps, path, path_span, value)?,
    }
    Ok(())
}

/// Takes away what stands at a path; that nothing does is a problem.
pub fn remove(root: &mut Node, path: &str, path_span: Span) -> Result<(), Problem> {
    let steps: Vec<&str> = path.split('.').collect();
    match steps.as_slice() {
        [list, tag] if is_list(list) => {
            let key = tell_apart(list);
            element(root, list, tag, path_span, false)?;
            if let Some(NodeValue::Array(nodes)) = child_mut(root, list).map(|node| &mut node.value) {
                nodes.retain(|node| node.child(key).and_then(Node::text) != Some(*tag));
            }
            Ok(())
        }
        [list, tag, rest @ ..] if is_list(list) => {
            let place = element(root, list, tag, path_span, false)?;
            remove_in(place, rest, path, path_span)
        }
        steps => remove_in(root, steps, path, path_span),
    }
}

/// The place of the table or value at a path, for checking that a label stands in it.
pub fn find<'n>(root: &'n Node, path: &str) -> Option<&'n Node> {
    let steps: Vec<&str> = path.split('.').collect();
    let (mut at, rest) = match steps.as_slice() {
        [list, tag, rest @ ..] if is_list(list) => {
            let NodeValue::Array(nodes) = &root.child(list)?.value else { return None };
            let key = tell_apart(list);
            (nodes.iter().find(|node| node.child(key).and_then(Node::text) == Some(*tag))?, rest)
        }
        steps => (root, steps),
    };
    for step in rest {
        at = at.child(step)?;
    }
    Some(at)
}

fn is_list(name: &str) -> bool {
    LISTS.iter().any(|(list, _)| *list == name)
}

fn tell_apart(list: &str) -> &'static str {
    LISTS.iter().find(|(name, _)| *name == list).map_or("tag", |(_, key)| key)
}

fn no_path(path: &str, span: Span) -> Problem {
    Problem::new("unknown-path", format!("`{}` leads nowhere in the base spec", shown(path)))
        .at(Label::new(span, Role::Subject, "no such place"))
        .help("a path is such as `trailer.gvwr`, `item.galley.at` or `state.homeward.fill.fresh`")
}

fn child_mut<'n>(node: &'n mut Node, key: &str) -> Option<&'n mut Node> {
    match &mut node.value {
        NodeValue::Table(entries) => {
            entries.iter_mut().find(|entry| entry.key == key).map(|entry| &mut entry.node)
        }
        _ => None,
    }
}

fn element<'n>(
    root: &'n mut Node,
    list: &str,
    tag: &str,
    span: Span,
    add: bool,
) -> Result<&'n mut Node, Problem> {
    let key = tell_apart(list);
    let missing = |root: &Node| {
        let nodes = match root.child(list).map(|node| &node.value) {
            Some(NodeValue::Array(nodes)) => nodes.as_slice(),
            _ => &[],
        };
        let known = nodes.iter().filter_map(|node| node.child(key)?.text());
        let mut problem =
            Problem::new("unknown-path", format!("the base spec has no {list} `{}`", shown(tag)))
                .at(Label::new(span, Role::Subject, "no such place"));
        problem.help = Some(match near(tag, known, 0) {
            Some(near) => format!("did you mean `{}`?", shown(near)),
            None => format!("a path into a list of tables gives a {key}, such as `{list}.<{key}>`"),
        });
        problem
    };
    let index = match root.child(list).map(|node| &node.value) {
        Some(NodeValue::Array(nodes)) => {
            nodes.iter().position(|node| node.child(key).and_then(Node::text) == Some(tag))
        }
        _ => None,
    };
    if index.is_none() {
        if !add {
            return Err(missing(root));
        }
        let name = Node { span, value: NodeValue::Text { text: tag.to_owned(), verbatim: false } };
        let entry = Entry { key: key.to_owned(), key_span: span, node: name };
        let new = Node { span, value: NodeValue::Table(vec![entry]) };
        push(root, list, span, new);
    }
    let problem = missing(root);
    match child_mut(root, list).map(|node| &mut node.value) {
        Some(NodeValue::Array(nodes)) => {
            let at = index.unwrap_or(nodes.len().saturating_sub(1));
            nodes.get_mut(at).ok_or(problem)
        }
        _ => Err(problem),
    }
}

fn push(root: &mut Node, list: &str, span: Span, new: Node) {
    if let Some(NodeValue::Array(nodes)) = child_mut(root, list).map(|node| &mut node.value) {
        nodes.push(new);
        return;
    }
    if root.child(list).is_some() {
        return;
    }
    if let NodeValue::Table(entries) = &mut root.value {
        let node = Node { span, value: NodeValue::Array(vec![new]) };
        entries.push(Entry { key: list.to_owned(), key_span: span, node });
    }
}

/// Replaces a tagged table by another, keeping the tag where the new one does not give it.
fn replace_table(place: &mut Node, value: &Node) {
    let kept: Vec<Entry> = place
        .entries()
        .iter()
        .filter(|entry| matches!(entry.key.as_str(), "tag" | "name") && value.child(&entry.key).is_none())
        .cloned()
        .collect();
    let mut new = value.clone();
    if let NodeValue::Table(entries) = &mut new.value {
        entries.splice(0..0, kept);
    }
    *place = new;
}

fn set_in(root: &mut Node, steps: &[&str], path: &str, span: Span, value: &Node) -> Result<(), Problem> {
    let Some((last, way)) = steps.split_last() else { return Err(no_path(path, span)) };
    let mut at = root;
    for step in way {
        if at.child(step).is_none() {
            let NodeValue::Table(entries) = &mut at.value else { return Err(no_path(path, span)) };
            let node = Node { span, value: NodeValue::Table(Vec::new()) };
            entries.push(Entry { key: (*step).to_owned(), key_span: span, node });
        }
        at = child_mut(at, step).ok_or_else(|| no_path(path, span))?;
    }
    let NodeValue::Table(entries) = &mut at.value else { return Err(no_path(path, span)) };
    match entries.iter_mut().find(|entry| entry.key == *last) {
        Some(entry) => entry.node = value.clone(),
        None => entries.push(Entry { key: (*last).to_owned(), key_span: span, node: value.clone() }),
    }
    Ok(())
}

fn remove_in(root: &mut Node, steps: &[&str], path: &str, span: Span) -> Result<(), Problem> {
    let Some((last, way)) = steps.split_last() else { return Err(no_path(path, span)) };
    let mut at = root;
    for step in way {
        at = child_mut(at, step).ok_or_else(|| no_path(path, span))?;
    }
    let NodeValue::Table(entries) = &mut at.value else { return Err(no_path(path, span)) };
    let before = entries.len();
    entries.retain(|entry| entry.key != *last);
    if entries.len() == before { Err(no_path(path, span)) } else { Ok(()) }
}
