//! Where labels go: in the shape that they name, where there is room; else beside it with a line to it. Never on each other,
//! as long as there is another place.

use super::form::{Bounds, Point};

/// A label that wants a place.
#[derive(Debug, Clone)]
pub(super) struct Wanted {
    /// The shape that it names.
    pub(super) shape: Bounds,
    pub(super) width: f64,
    pub(super) height: f64,
}

/// A label in its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Placed {
    pub(super) bounds: Bounds,
    /// From the shape to the label, where it stands beside it.
    pub(super) leader: Option<(Point, Point)>,
}

/// Steps across a shape at which a label is tried, about its middle.
const ACROSS: [f64; 9] = [0.0, -0.25, 0.25, -0.5, 0.5, -0.75, 0.75, -1.0, 1.0];
/// How far beside a shape a label is tried, in heights of a letter.
const AWAY: [f64; 8] = [0.7, 1.4, 2.2, 3.2, 4.4, 6.0, 8.0, 10.0];
/// In so many directions.
const DIRECTIONS: u32 = 16;

/// More labels than these are set in the middle of their shapes without a look at each other.
const MOST: usize = 400;

/// Gives every label its place, the smallest shapes first. `taken` is where no label may stand, `letter` how high a letter is.
pub(super) fn place(wanted: &[Wanted], taken: &[Bounds], letter: f64) -> Vec<Placed> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    let area =
        |at: &usize| wanted.get(*at).map_or(0.0, |wanted| wanted.shape.width() * wanted.shape.height());
    order.sort_by(|one, other| area(one).total_cmp(&area(other)).then(one.cmp(other)));
    let mut taken = taken.to_vec();
    let mut placed: Vec<Option<Placed>> = vec![None; wanted.len()];
    for at in order {
        let Some(label) = wanted.get(at) else { continue };
        let found = if wanted.len() > MOST {
            Placed { bounds: Bounds::about(label.shape.middle(), label.width, label.height), leader: None }
        } else {
            let others: Vec<Bounds> = wanted
                .iter()
                .enumerate()
                .filter(|(other, _)| *other != at)
                .map(|(_, other)| other.shape)
                .collect();
            one(label, &taken, &others, letter)
        };
        taken.push(found.bounds);
        if let Some(slot) = placed.get_mut(at) {
            *slot = Some(found);
        }
    }
    placed.into_iter().flatten().collect()
}

fn one(label: &Wanted, taken: &[Bounds], others: &[Bounds], letter: f64) -> Placed {
    let free = |bounds: &Bounds| !taken.iter().any(|taken| taken.meets(bounds));
    let within = inside(label).into_iter().filter(&free);
    // Of the places inside, that which the fewest smaller shapes share.
    let crowd = |bounds: &Bounds| {
        let area = label.shape.width() * label.shape.height();
        let smaller = |other: &&Bounds| other.width() * other.height() <= area && other.meets(bounds);
        others.iter().filter(smaller).count()
    };
    if let Some(bounds) = within.min_by_key(&crowd) {
        return Placed { bounds, leader: None };
    }
    let mut best: Option<(f64, Placed)> = None;
    for away in AWAY {
        for bounds in beside(label, away * letter) {
            if !free(&bounds) {
                continue;
            }
            let met = others.iter().filter(|other| other.meets(&bounds)).count();
            #[expect(clippy::cast_precision_loss, reason = "a number of shapes")]
            let cost = away + 1.2 * met as f64;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                let from = label.shape.nearest(bounds.middle());
                best = Some((cost, Placed { bounds, leader: Some((from, bounds.nearest(from))) }));
            }
        }
    }
    best.map_or_else(
        || Placed { bounds: Bounds::about(label.shape.middle(), label.width, label.height), leader: None },
        |(_, placed)| placed,
    )
}

/// Places within the shape, from its middle outwards; none where it is too small.
fn inside(label: &Wanted) -> Vec<Bounds> {
    let (spare_x, spare_y) = (label.shape.width() - label.width, label.shape.height() - label.height);
    if spare_x < 0.0 || spare_y < 0.0 {
        return Vec::new();
    }
    let (x, y) = label.shape.middle();
    let at = |across: f64, down: f64| {
        Bounds::about((x + across * spare_x * 0.46, y + down * spare_y * 0.46), label.width, label.height)
    };
    ACROSS.iter().flat_map(|across| ACROSS.iter().map(move |down| at(*across, *down))).collect()
}

/// Places round the shape, so far from its edge.
fn beside(label: &Wanted, away: f64) -> Vec<Bounds> {
    let ring = label.shape.grown(away);
    let (x, y) = ring.middle();
    let (half_x, half_y) = (ring.width() / 2.0 + label.width / 2.0, ring.height() / 2.0 + label.height / 2.0);
    let turned = |step: u32| {
        let turn = std::f64::consts::TAU * (f64::from(step) / f64::from(DIRECTIONS) - 0.25);
        // On the edge of a rectangle, not on a circle: long shapes have their labels near.
        let reach = 1.0 / turn.cos().abs().max(turn.sin().abs());
        let place = (x + half_x * turn.cos() * reach, y + half_y * turn.sin() * reach);
        Bounds::about(place, label.width, label.height)
    };
    (0..DIRECTIONS).map(turned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wanted(low: Point, high: Point) -> Wanted {
        Wanted { shape: Bounds { low, high }, width: 20.0, height: 10.0 }
    }

    #[test]
    fn a_label_stands_in_its_shape_where_there_is_room_and_beside_a_small_one() {
        let all = [wanted((0.0, 0.0), (100.0, 100.0)), wanted((200.0, 0.0), (205.0, 5.0))];
        let placed = place(&all, &[], 10.0);
        assert_eq!(placed[0].bounds.middle(), (50.0, 50.0));
        assert_eq!(placed[0].leader, None);
        assert!(!placed[1].bounds.meets(&all[1].shape) && placed[1].leader.is_some());
    }

    #[test]
    fn labels_of_shapes_on_top_of_each_other_keep_apart() {
        let all = vec![wanted((0.0, 0.0), (30.0, 30.0)); 12];
        let placed = place(&all, &[Bounds { low: (0.0, 0.0), high: (30.0, 12.0) }], 10.0);
        for (at, one) in placed.iter().enumerate() {
            assert!(one.bounds.low.1 >= 12.0 || one.bounds.high.1 <= 0.0 || one.leader.is_some());
            for other in placed.iter().skip(at + 1) {
                assert!(!one.bounds.meets(&other.bounds), "{one:?} {other:?}");
            }
        }
    }
}
