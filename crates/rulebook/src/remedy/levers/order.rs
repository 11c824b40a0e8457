//! Which tank is emptied first.

use pintle_finding::{Change, Cost, Written};
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Item, Table};

use super::{Draft, Ground, Lever};

/// No more orders than this are tried for tanks of one water.
const MOST_ORDERS: usize = 6;

/// For an arrangement of a trailer with several tanks of one water: other orders of emptying them.
pub(super) fn levers<'a>(ground: Ground<'a>) -> Vec<Lever<'a>> {
    if !ground.aim.arranged {
        return Vec::new();
    }
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
