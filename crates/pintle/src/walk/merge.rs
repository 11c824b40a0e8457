//! Two versions of a record laid together: what only one side changed is taken from that side; what both changed
//! differently is a conflict, for a person to settle.

use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::schema::record;
use serde_json::{Value, json};

use super::tree::{Held, Row, Tree};

/// Lists of which the reader of specs takes only one entry for each part.
static ONE_EACH: &[&Field] = &[&record::ALARM_TESTS, &record::TORQUES, &record::SERIALS];

/// What came of it.
#[derive(Debug, Default)]
pub(super) struct Merged {
    /// Both versions in one; where they conflict, mine.
    pub(super) tree: Tree,
    pub(super) conflicts: Vec<Conflict>,
}

/// A field, or an entry of a list, that both sides changed; none of a side that took it away.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Conflict {
    /// Where it stands in the merged tree, such as `ticket.0.gross`.
    pub(super) path: String,
    pub(super) begun: Option<Held>,
    pub(super) mine: Option<Held>,
    pub(super) theirs: Option<Held>,
}

impl Conflict {
    pub(super) fn to_json(&self) -> Value {
        let told = |held: &Option<Held>| held.as_ref().map(Held::to_json);
        json!({
            "path": self.path,
            "begun": told(&self.begun),
            "mine": told(&self.mine),
            "theirs": told(&self.theirs),
        })
    }
}

/// Lays `mine` over `theirs`, both of which come from `begun`. Rows of `mine` say which of `begun` they were; rows of the
/// result say which of `theirs` they are.
pub(super) fn merge(schema: &'static Schema, begun: &Tree, mine: &Tree, theirs: &Tree) -> Merged {
    let mut conflicts = Vec::new();
    let tree = tables(schema, "", [begun, mine, theirs], &mut conflicts);
    Merged { tree, conflicts }
}

fn tables(
    schema: &'static Schema,
    path: &str,
    [begun, mine, theirs]: [&Tree; 3],
    conflicts: &mut Vec<Conflict>,
) -> Tree {
    let mut tree = Tree::default();
    for field in schema.all() {
        let of = [begun, mine, theirs].map(|tree| tree.get(field));
        let path = format!("{path}{}", field.key);
        if let Some(held) = values(field, path, of, conflicts) {
            tree.0.insert(field.key, held);
        }
    }
    tree
}

fn values(
    field: &'static Field,
    path: String,
    of: [Option<&Held>; 3],
    conflicts: &mut Vec<Conflict>,
) -> Option<Held> {
    let [begun, mine, theirs] = of;
    match field.kind {
        Kind::Table(schema) => {
            let empty = Tree::default();
            let of = of.map(|held| if let Some(Held::Table(tree)) = held { tree } else { &empty });
            let tree = tables(schema, &format!("{path}."), of, conflicts);
            return Some(tree).filter(|tree| !tree.is_empty()).map(Held::Table);
        }
        Kind::Tables(schema) => {
            let of = of.map(|held| if let Some(Held::Rows(rows)) = held { rows.as_slice() } else { &[] });
            let rows = rows(field, schema, &path, of, conflicts);
            return Some(rows).filter(|rows| !rows.is_empty()).map(Held::Rows);
        }
        _ => {}
    }
    if mine == theirs || theirs == begun {
        return mine.cloned();
    }
    if mine == begun {
        return theirs.cloned();
    }
    if matches!(field.kind, Kind::Words(_) | Kind::Texts) {
        return lists(field, of);
    }
    conflicts.push(Conflict { path, begun: begun.cloned(), mine: mine.cloned(), theirs: theirs.cloned() });
    mine.cloned()
}

/// Words and texts: what either side took away is gone, what either added is there.
fn lists(field: &Field, of: [Option<&Held>; 3]) -> Option<Held> {
    let [begun, mine, theirs] =
        of.map(|held| if let Some(Held::List(list)) = held { list.as_slice() } else { &[] });
    let stays = |word: &String| {
        (mine.contains(word) && theirs.contains(word))
            || (!begun.contains(word) && (mine.contains(word) || theirs.contains(word)))
    };
    let mut list: Vec<String> = theirs.iter().filter(|word| stays(word)).cloned().collect();
    list.extend(mine.iter().filter(|word| stays(word) && !theirs.contains(word)).cloned());
    if let Kind::Words(words) = field.kind {
        list.sort_by_key(|word| words.iter().position(|known| known == word));
    }
    Some(list).filter(|list| !list.is_empty()).map(Held::List)
}

fn rows(
    field: &'static Field,
    schema: &'static Schema,
    path: &str,
    [begun, mine, theirs]: [&[Row]; 3],
    conflicts: &mut Vec<Conflict>,
) -> Vec<Row> {
    let from = aligned(schema, begun, theirs);
    let mut fresh: Vec<&Row> = mine.iter().filter(|row| row.was.is_none()).collect();
    let mut merged: Vec<Row> = Vec::new();
    let whole = |row: &Row| Some(Held::Table(row.tree.clone()));
    for (at, (their, from)) in theirs.iter().zip(&from).enumerate() {
        let here = format!("{path}.{}", merged.len());
        let begun_row = from.and_then(|from| begun.get(from));
        let my = from.and_then(|from| mine.iter().find(|row| row.was == Some(from)));
        let tree = match (begun_row, my) {
            (Some(was), Some(my)) => {
                tables(schema, &format!("{here}."), [&was.tree, &my.tree, &their.tree], conflicts)
            }
            (Some(was), None) if was.tree == their.tree => continue,
            (Some(was), None) => {
                conflicts.push(Conflict { path: here, begun: whole(was), mine: None, theirs: whole(their) });
                their.tree.clone()
            }
            (None, _) => both_added(field, schema, &here, &mut fresh, their, conflicts),
        };
        merged.push(Row { was: Some(at), tree });
    }
    for my in mine {
        let Some(was) = my.was else { continue };
        let Some(begun_row) = begun.get(was).filter(|_| !from.contains(&Some(was))) else { continue };
        // They took it away. What was changed here since is not thrown away unasked.
        if my.tree != begun_row.tree {
            let path = format!("{path}.{}", merged.len());
            conflicts.push(Conflict { path, begun: whole(begun_row), mine: whole(my), theirs: None });
            merged.push(Row { was: None, tree: my.tree.clone() });
        }
    }
    merged.extend(fresh.into_iter().cloned());
    merged
}

/// An entry that they added, and perhaps we as well.
fn both_added(
    field: &'static Field,
    schema: &'static Schema,
    here: &str,
    fresh: &mut Vec<&Row>,
    their: &Row,
    conflicts: &mut Vec<Conflict>,
) -> Tree {
    let Some(at) = fresh.iter().position(|row| name(schema, &row.tree) == name(schema, &their.tree)) else {
        return their.tree.clone();
    };
    let Some(my) = fresh.get(at).copied() else { return their.tree.clone() };
    let mut found = Vec::new();
    let tree = tables(schema, &format!("{here}."), [&Tree::default(), &my.tree, &their.tree], &mut found);
    // Two tickets of one state may both be true; two serial numbers of one part may not.
    if !found.is_empty() && !ONE_EACH.iter().any(|one| std::ptr::eq(*one, field)) {
        return their.tree.clone();
    }
    fresh.remove(at);
    conflicts.append(&mut found);
    tree
}

/// What an entry is told by: the fields that it cannot be without.
fn name<'t>(schema: &'static Schema, tree: &'t Tree) -> Vec<Option<&'t Held>> {
    schema.all().filter(|field| field.required).map(|field| tree.get(field)).collect()
}

/// Whether an entry as it was, at its place, is one as it is.
type Alike<'a> = dyn Fn(usize, &Row, usize, &Row) -> bool + 'a;

/// For each of their rows, which of the rows begun from it comes from: one that is the same, else one of the same name,
/// or of the same beginning of a name, else the one in its place.
fn aligned(schema: &'static Schema, begun: &[Row], theirs: &[Row]) -> Vec<Option<usize>> {
    let mut from: Vec<Option<usize>> = vec![None; theirs.len()];
    let first = |row: &Row| name(schema, &row.tree).first().copied().flatten().cloned();
    let alike: [&Alike<'_>; 4] = [
        &|_, was, _, is| was.tree == is.tree,
        &|_, was, _, is| name(schema, &was.tree) == name(schema, &is.tree),
        &|_, was, _, is| first(was) == first(is),
        &|was_at, _, is_at, _| was_at == is_at && begun.len() == theirs.len(),
    ];
    for alike in alike {
        for (is_at, is) in theirs.iter().enumerate() {
            if from.get(is_at).is_none_or(Option::is_some) {
                continue;
            }
            let mut free = begun.iter().enumerate().filter(|(at, _)| !from.contains(&Some(*at)));
            let found = free.find(|(was_at, was)| alike(*was_at, was, is_at, is)).map(|(at, _)| at);
            if let Some(place) = from.get_mut(is_at) {
                *place = found;
            }
        }
    }
    from
}

#[cfg(test)]
mod tests;
