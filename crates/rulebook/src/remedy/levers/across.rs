//! Moving parts across: some way, to the other wall, or two of them past each other.

use pintle_calc::space::room::{self, Along};
use pintle_finding::Cost;

use super::{Best, Draft, Ground, Lever, best, note, shift_lever, towards, unplaced};
use crate::remedy::group::Group;

/// No more parts than this are tried each way.
const MOST_PARTS: usize = 4;

/// A part that can be moved, what it weighs and where its centre of gravity is right of the centreline.
struct Mover {
    group: Group,
    mass: f64,
    y: f64,
}

/// Parts to move across, those first that can do it alone, the shortest way first.
pub(super) fn levers<'a>(ground: Ground<'a>, notes: &mut Vec<String>) -> Best<'a> {
    let (Some(change), Some(track)) = (ground.aim.side_change(), ground.aim.track) else {
        return Best::default();
    };
    let mut movers = Vec::new();
    for index in 0..ground.build.items.len() {
        match Group::of(ground.build, index) {
            Ok(Some(group)) => {
                if let Some((mass, _, y)) = group.weight(ground.build, ground.aim) {
                    movers.push(Mover { group, mass, y });
                }
            }
            Ok(None) => {}
            Err(missing) => {
                note(notes, unplaced(&missing));
            }
        }
    }
    let ways = [
        some_way(ground, &movers, change, track),
        to_the_other_wall(ground, &movers, change, track),
        past_each_other(ground, &movers, change, track),
    ];
    let left = ways.iter().map(|(_, left)| left).sum();
    (ways.into_iter().flat_map(|(levers, _)| levers).collect(), left)
}

/// What moving a mass to the right by so much puts on the right wheels beyond the left ones: 2·w·Δy / track.
fn effect(mass: f64, by: f64, track: f64) -> f64 {
    2.0 * mass * by / track
}

fn some_way<'a>(ground: Ground<'a>, movers: &[Mover], change: f64, track: f64) -> Best<'a> {
    let mut found = Vec::new();
    for mover in movers {
        let shift = change * track / (2.0 * mover.mass);
        let Ok(free) = room::shifts(ground.build, &mover.group.items, Along::Width) else { continue };
        let (group, range) = (&mover.group, towards(&free, shift));
        let lever = shift_lever(ground.build, ground.root, group, Along::Width, shift, mover.mass, range);
        let Some(lever) = lever.filter(|lever| !lever.first().is_empty()) else { continue };
        found.push(((!lever.reaches(), mover.group.items.len(), -mover.mass), lever));
    }
    found.sort_by(|(one, _), (other, _)| {
        one.0.cmp(&other.0).then(one.1.cmp(&other.1)).then(one.2.total_cmp(&other.2))
    });
    best(found, MOST_PARTS)
}

fn to_the_other_wall<'a>(ground: Ground<'a>, movers: &[Mover], change: f64, track: f64) -> Best<'a> {
    let mut found = Vec::new();
    for mover in movers {
        let gained = effect(mover.mass, -2.0 * mover.y, track) / change;
        if gained > 0.1 {
            let (group, mass, y) = (mover.group.clone(), mover.mass, mover.y);
            let lever = Lever::whole(move || {
                let wall = if y > 0.0 { "left" } else { "right" };
                Some(Draft {
                    words: format!("move {} to the {wall} wall", group.called(ground.build)),
                    changes: group.mirrored(ground.build, ground.root)?,
                    cost: Cost { moved: mass * 2.0 * y.abs(), changed: 0.0 },
                })
            });
            found.push((gained, lever));
        }
    }
    by_gain(found)
}

fn past_each_other<'a>(ground: Ground<'a>, movers: &[Mover], change: f64, track: f64) -> Best<'a> {
    let mut found = Vec::new();
    for (at, left) in movers.iter().enumerate() {
        for right in movers.iter().skip(at + 1) {
            let opposite = left.y * right.y < 0.0;
            let apart = left.group.items.iter().all(|item| !right.group.items.contains(item));
            let gained = (effect(left.mass, -2.0 * left.y, track)
                + effect(right.mass, -2.0 * right.y, track))
                / change;
            if opposite && apart && gained > 0.1 {
                let groups = [left.group.clone(), right.group.clone()];
                let moved = 2.0 * (left.mass * left.y.abs() + right.mass * right.y.abs());
                let lever = Lever::whole(move || {
                    let [one, other] = &groups;
                    let mut changes = one.mirrored(ground.build, ground.root)?;
                    changes.extend(other.mirrored(ground.build, ground.root)?);
                    Some(Draft {
                        words: format!(
                            "swap sides: {} and {}, each to the other wall",
                            one.called(ground.build),
                            other.called(ground.build)
                        ),
                        changes,
                        cost: Cost { moved, changed: 0.0 },
                    })
                });
                found.push((gained, lever));
            }
        }
    }
    by_gain(found)
}

/// Those that do it alone with the least to spare, then those that do the most towards it.
fn by_gain(mut found: Vec<(f64, Lever<'_>)>) -> Best<'_> {
    let rank = |gained: f64| if gained >= 1.0 { gained } else { 1e6 - gained };
    found.sort_by(|(one, _), (other, _)| rank(*one).total_cmp(&rank(*other)));
    best(found, MOST_PARTS)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A pound moved from wheel to wheel takes a pound off one side and puts it on the other.
    #[test]
    fn a_weight_moved_over_the_track_counts_twice_its_weight() {
        assert!((effect(10.0, 2.0, 2.0) - 20.0).abs() < 1e-12);
        assert!((effect(10.0, -1.0, 2.0) + 10.0).abs() < 1e-12);
    }
}
