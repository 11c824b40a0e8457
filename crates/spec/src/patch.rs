//! Changing a parsed spec without touching its file: what a rule's trial does to its base.
//!
//! A path names a table or a value: `trailer.gvwr`, `item.galley.at`, `state.homeward.fill.fresh`,
//! `electric.circuit.lights.fuse`. In the lists of tables the step after the list is a tag or a name. New values keep the place where the change is written.

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
    ("opening", "tag"),
    ("load", "tag"),
    ("either", "name"),
    ("state", "name"),
];
/// The same within a state.
const LISTS_OF_STATE: &[(&str, &str)] = &[("load", "what"), ("people", "berth")];
/// The same within the tables of systems, and of what was measured.
const LISTS_OF_SYSTEMS: &[(&str, &str, &str)] = &[
    ("electric", "circuit", "name"),
    ("electric", "use", "what"),
    ("gas", "line", "name"),
    ("record", "ticket", "state"),
];

/// The key that tells the tables of a list apart, for the keys that lead to it; none for what is no list of tables.
pub fn told_apart_by(way: &[&str]) -> Option<&'static str> {
    let (lists, name) = match way {
        [name] => (LISTS, name),
        ["state", _, name] => (LISTS_OF_STATE, name),
        [system, name] => {
            let is_meant = |(of, list, _): &&(&str, &str, &str)| of == system && list == name;
            return LISTS_OF_SYSTEMS.iter().find(is_meant).map(|(_, _, key)| *key);
        }
        _ => return None,
    };
    lists.iter().find(|(list, _)| list == name).map(|(_, key)| *key)
}

/// Puts a value at a path, in place of what is there. A tag or name that does not exist yet is added.
pub fn set(root: &mut Node, path: &str, path_span: Span, value: &Node) -> Result<(), Problem> {
    set_at(root, &path.split('.').collect::<Vec<_>>(), path_span, value)
}

/// The same by keys, any of which may hold a point.
pub fn set_at(root: &mut Node, steps: &[&str], span: Span, value: &Node) -> Result<(), Problem> {
    let (last, place) = match walk(root, steps, span, true)? {
        (Last::Element, place) => {
            let list = steps.split_last().map(|(_, list)| list);
            replace_table(place, list.and_then(told_apart_by), value);
            return Ok(());
        }
        (Last::Key(last), place) => (last, place),
    };
    let NodeValue::Table(entries) = &mut place.value else { return Err(no_path(steps, span)) };
    match entries.iter_mut().find(|entry| entry.key == last) {
        Some(entry) => entry.node = value.clone(),
        None => entries.push(Entry { key: last.to_owned(), key_span: span, node: value.clone() }),
    }
    Ok(())
}

/// Takes away what stands at a path; that nothing does is a problem.
pub fn remove(root: &mut Node, path: &str, path_span: Span) -> Result<(), Problem> {
    remove_at(root, &path.split('.').collect::<Vec<_>>(), path_span)
}

/// The same by keys, any of which may hold a point.
pub fn remove_at(root: &mut Node, steps: &[&str], span: Span) -> Result<(), Problem> {
    if let [way @ .., list, tag] = steps
        && let Some(key) = told_apart_by(&[way, &[list]].concat())
    {
        walk(root, steps, span, false)?;
        let (_, holder) = walk(root, &[way, &[list]].concat(), span, false)?;
        if let Some(NodeValue::Array(nodes)) = child_mut(holder, list).map(|node| &mut node.value) {
            nodes.retain(|node| node.child(key).and_then(Node::text) != Some(*tag));
        }
        return Ok(());
    }
    let (Last::Key(last), place) = walk(root, steps, span, false)? else { return Err(no_path(steps, span)) };
    let NodeValue::Table(entries) = &mut place.value else { return Err(no_path(steps, span)) };
    let before = entries.len();
    entries.retain(|entry| entry.key != last);
    if entries.len() == before { Err(no_path(steps, span)) } else { Ok(()) }
}

/// The place of the table or value at a path, for checking that a label stands in it.
pub fn find<'n>(root: &'n Node, path: &str) -> Option<&'n Node> {
    find_at(root, &path.split('.').collect::<Vec<_>>())
}

/// The same by keys, any of which may hold a point.
pub fn find_at<'n>(root: &'n Node, steps: &[&str]) -> Option<&'n Node> {
    let mut at = root;
    let mut done = 0;
    while let Some(step) = steps.get(done) {
        let list = at.child(step)?;
        let tag = steps.get(done + 1).zip(told_apart_by(steps.get(..=done)?));
        at = match tag {
            Some((tag, key)) => {
                let NodeValue::Array(nodes) = &list.value else { return None };
                nodes.iter().find(|node| node.child(key).and_then(Node::text) == Some(*tag))?
            }
            None => list,
        };
        done += if tag.is_some() { 2 } else { 1 };
    }
    Some(at)
}

/// What the last step of a way names.
enum Last<'s> {
    /// A key of the table that the way leads to.
    Key(&'s str),
    /// A table of a list: the way leads to it.
    Element,
}

/// Follows the keys to the table that holds the last, or to the table of a list that the last names. What is not there
/// yet is added if wanted.
fn walk<'n, 's>(
    root: &'n mut Node,
    steps: &[&'s str],
    span: Span,
    add: bool,
) -> Result<(Last<'s>, &'n mut Node), Problem> {
    if steps.contains(&"") {
        return Err(no_path(steps, span));
    }
    let mut at = root;
    let mut done = 0;
    loop {
        let way = steps.get(..=done).ok_or_else(|| no_path(steps, span))?;
        let step = steps.get(done).ok_or_else(|| no_path(steps, span))?;
        match (steps.get(done + 1), told_apart_by(way)) {
            (None, _) => return Ok((Last::Key(step), at)),
            (Some(tag), Some(key)) => {
                at = element(at, step, key, tag, span, add)?;
                done += 2;
                if done == steps.len() {
                    return Ok((Last::Element, at));
                }
            }
            (Some(_), None) => {
                if at.child(step).is_none() {
                    let NodeValue::Table(entries) = &mut at.value else { return Err(no_path(steps, span)) };
                    if !add {
                        return Err(no_path(steps, span));
                    }
                    let node = Node { span, value: NodeValue::Table(Vec::new()) };
                    entries.push(Entry { key: (*step).to_owned(), key_span: span, node });
                }
                at = child_mut(at, step).ok_or_else(|| no_path(steps, span))?;
                done += 1;
            }
        }
    }
}

fn no_path(steps: &[&str], span: Span) -> Problem {
    Problem::new("unknown-path", format!("`{}` leads nowhere in the base spec", shown(&steps.join("."))))
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
    key: &str,
    tag: &str,
    span: Span,
    add: bool,
) -> Result<&'n mut Node, Problem> {
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

/// Replaces a table of a list by another, keeping its tag or name where the new one does not give it.
fn replace_table(place: &mut Node, told_apart_by: Option<&str>, value: &Node) {
    let kept: Vec<Entry> = place
        .entries()
        .iter()
        .filter(|entry| Some(entry.key.as_str()) == told_apart_by && value.child(&entry.key).is_none())
        .cloned()
        .collect();
    let mut new = value.clone();
    if let NodeValue::Table(entries) = &mut new.value {
        entries.splice(0..0, kept);
    }
    *place = new;
}
