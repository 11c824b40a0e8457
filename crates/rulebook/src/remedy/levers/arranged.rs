//! What may be arranged otherwise: which tank is emptied first, and which parts can be left at home.

use pintle_finding::{Change, Cost, Written};
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Build, Item, Table};

use super::{Draft, Ground, Lever};

/// No more orders than this are tried for tanks of one water.
const MOST_ORDERS: usize = 6;
/// No more parts than this are tried to be fixed.
const MOST_FIXED: usize = 4;

/// For an arrangement: other orders of emptying tanks, and parts that can no longer be left at home.
pub(super) fn levers(ground: Ground<'_>) -> Vec<Lever<'_>> {
    if !ground.aim.arranged {
        return Vec::new();
    }
    let mut levers = orders(ground);
    levers.extend(fixed(ground.build));
    levers
}

/// Removable parts that are fixed for good, the heaviest first: fewer arrangements are left. A part that a state leaves at
/// home cannot be.
pub(in crate::remedy) fn fixed<'a>(build: &Build) -> Vec<Lever<'a>> {
    let stays = |at: usize| {
        build.states.iter().all(|state| !state.out.contains(&at))
            && build.eithers.iter().all(|either| !either.of.contains(&at))
    };
    let parts = build.items.iter().enumerate();
    let mut parts: Vec<(usize, &Item)> =
        parts.filter(|(at, item)| item.removable && item.table != Table::Load && stays(*at)).collect();
    let mass = |item: &Item| item.record.quantity(&item::MASS).map_or(0.0, |mass| mass.value.si());
    parts.sort_by(|(_, one), (_, other)| mass(other).total_cmp(&mass(one)));
    parts.into_iter().take(MOST_FIXED).map(|(at, item)| fix(build, at, item)).collect()
}

fn fix<'a>(build: &Build, at: usize, item: &Item) -> Lever<'a> {
    let removable = [item.table.key(), &item.tag.value, "removable"];
    let mut changes = vec![Change::set(&removable, Written::Flag(false))];
    // What is always aboard is needed by nothing.
    for other in build.items.iter().filter(|other| other.needs.contains(&at)) {
        let needs = [other.table.key(), &other.tag.value, "needs"];
        let left =
            other.needs.iter().filter(|needed| **needed != at).filter_map(|needed| build.items.get(*needed));
        let left: Vec<Written> = left.map(|needed| Written::Text(needed.tag.value.clone())).collect();
        changes.push(if left.is_empty() {
            Change::remove(&needs)
        } else {
            Change::set(&needs, Written::List(left))
        });
    }
    let draft = Draft {
        words: format!("fix {} for good, so that it is never left at home", item.called()),
        changes,
        cost: Cost { moved: 0.0, changed: 1.0 },
    };
    Lever::whole(move || Some(draft.clone()))
}

/// Of a trailer with several tanks of one water, other orders of emptying them.
fn orders(ground: Ground<'_>) -> Vec<Lever<'_>> {
    let present: Vec<&str> = ground
        .build
        .use_order
        .iter()
        .filter_map(|at| ground.build.items.get(*at))
        .map(|item| item.tag.value.as_str())
        .collect();
    let mut orders = Vec::new();
    for water in ["fresh", "grey", "black"] {
        let holds = |item: &&Item| item.record.word(&tank::HOLDS).is_some_and(|held| held.value == water);
        let tanks: Vec<&str> = ground
            .build
            .of_table(Table::Tank)
            .map(|(_, item)| item)
            .filter(holds)
            .map(|item| item.tag.value.as_str())
            .collect();
        if tanks.len() < 2 {
            continue;
        }
        // Tanks of other waters keep their places in the order.
        let others: Vec<&str> = present.iter().copied().filter(|tag| !tanks.contains(tag)).collect();
        let ways = permutations(&tanks).into_iter().map(|way| [others.clone(), way].concat());
        orders.extend(ways.filter(|order| *order != present).take(MOST_ORDERS));
    }
    orders.into_iter().map(|order| lever(&order)).collect()
}

fn lever<'a>(order: &[&str]) -> Lever<'a> {
    let order: Vec<String> = order.iter().map(|tag| (*tag).to_owned()).collect();
    Lever::whole(move || {
        let named: Vec<String> = order.iter().map(|tag| format!("`{tag}`")).collect();
        let list = order.iter().cloned().map(Written::Text).collect();
        Some(Draft {
            words: format!("empty the tanks one after another, in the order {}", named.join(", ")),
            changes: vec![Change::set(&["water", "use_order"], Written::List(list))],
            cost: Cost::default(),
        })
    })
}

/// Every order of some names, as many as are ever tried.
fn permutations<'t>(names: &[&'t str]) -> Vec<Vec<&'t str>> {
    let Some((last, rest)) = names.split_last() else { return vec![Vec::new()] };
    let mut all = Vec::new();
    for shorter in permutations(rest) {
        for at in 0..=shorter.len() {
            let mut longer = shorter.clone();
            longer.insert(at, *last);
            all.push(longer);
        }
        if all.len() > MOST_ORDERS {
            break;
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_order_of_a_few_tanks_once() {
        let mut all = permutations(&["a", "b", "c"]);
        all.sort();
        all.dedup();
        assert_eq!(all.len(), 6);
        assert_eq!(permutations(&["a", "b"]), [["b", "a"], ["a", "b"]]);
        assert!(permutations(&["a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l"]).len() < 100);
    }
}
