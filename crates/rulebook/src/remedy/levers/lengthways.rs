//! Moving a part fore or aft.

use pintle_calc::balance::Sum;
use pintle_calc::space::room::{self, Along};

use super::{Best, Ground, best, note, shift_lever, towards, unplaced};
use crate::remedy::group::Group;

/// No more parts than this are tried.
const MOST_PARTS: usize = 5;

/// Parts to move, those first that need not be forced: the fewest things to move, then the heaviest. Of all only the
/// best few.
pub(super) fn levers<'a>(ground: Ground<'a>, notes: &mut Vec<String>) -> Best<'a> {
    let Some(centre) = ground.aim.tongue_change().and_then(|_| ground.aim.centre()) else {
        return Best::default();
    };
    let mut found = Vec::new();
    for index in 0..ground.build.items.len() {
        let group = match Group::of(ground.build, index) {
            Ok(Some(group)) => group,
            Ok(None) => continue,
            Err(missing) => {
                note(notes, unplaced(&missing));
                continue;
            }
        };
        let Some((mass, x, _)) = group.weight(ground.build, ground.aim) else { continue };
        // What stays on the axle's line whatever it weighs, no formula moves.
        let Some(shift) = distance(ground.aim.along, mass, centre) else { continue };
        let free = match room::shifts(ground.build, &group.items, Along::Length) {
            Ok(free) => free,
            Err(missing) => {
                note(notes, unplaced(&missing));
                continue;
            }
        };
        let many = group.items.len();
        let range = towards(&free, shift);
        let lever = shift_lever(ground.build, ground.root, &group, Along::Length, shift, mass, range);
        if let Some(lever) = lever.filter(|lever| !lever.first().is_empty()) {
            found.push(((!lever.reaches(), many, mass, x), lever));
        }
    }
    found.sort_by(|(one, _), (other, _)| {
        let forced = one.0.cmp(&other.0).then(one.1.cmp(&other.1));
        forced.then(other.2.total_cmp(&one.2)).then(one.3.total_cmp(&other.3))
    });
    best(found, MOST_PARTS)
}

/// How far a weight has to be moved, aft positive, for the centre of gravity to come to `centre`: −ΔT·L/w for a tongue
/// that has to become ΔT heavier.
fn distance(along: Sum, mass: f64, centre: f64) -> Option<f64> {
    along.distance_to_move(mass, centre).filter(|shift| shift.abs() > super::DUST)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::remedy::levers::Lever;

    /// Worked examples of moving weight, through the guess that remedies start from: how far a weight has to go for the
    /// centre that the source gives.
    #[test]
    fn handbook_examples_of_moving_weight() {
        // weight, its centre, weight moved, wanted centre, distance it has to go, tolerance, source
        let rows = [
            (
                8000.0,
                77.0,
                100.0,
                78.5,
                120.0,
                1e-9,
                "FAA-H-8083-25, weight shifting (M1): station 30 to 150",
            ),
            (
                7800.0,
                81.5,
                65.0,
                80.5,
                -120.0,
                1e-9,
                "FAA-H-8083-25, weight shifting (M2): station 150 to 30",
            ),
            (
                3200.0,
                0.0,
                192.0,
                -1.5,
                -25.0,
                1e-9,
                "humbleaviation.com, weight shift (M13): station 167 to 142",
            ),
            (2450.0, 96.0, 100.0, 93.96, -50.0, 0.1, "runup.ca, weight shift (M14): station 123 to 73"),
            // The weights are from memory, and so is the figure's number.
            (500.0, 72.0, 200.0, 50.0, -55.0, 1e-9, "FAA-H-8083-1, ch. 2 (M9): weight B from 80 to 25"),
        ];
        for (weight, from, moved, wanted, expected, tolerance, source) in rows {
            let found = distance(Sum::of([(weight, from)]), moved, wanted).unwrap();
            assert!((found - expected).abs() <= tolerance, "{source}: {found}");
        }
    }

    /// M14 again: the limit is 93.0, and the weight can go no farther than station 73. What it would take lies beyond, so
    /// the move to the end is all that is tried, and it falls short by the 0.96 that the source gives.
    #[test]
    fn a_move_that_cannot_be_enough_is_only_tried_to_its_end() {
        let sum = Sum::of([(2450.0, 96.0)]);
        let asked = distance(sum, 100.0, 93.0).unwrap();
        assert!((asked + 73.5).abs() < 1e-9, "{asked}");
        let lever = Lever {
            range: towards(&vec![(-50.0, 20.0)], asked),
            guess: asked.abs(),
            up: Box::new(f64::ceil),
            down: Box::new(f64::floor),
            draft: Box::new(|_| None),
        };
        assert_eq!(lever.first(), [50.0]);
        assert!(!lever.reaches());
        let short = sum.moved(100.0, 123.0, 73.0).centre().unwrap() - 93.0;
        assert!((short - 0.96).abs() < 0.005, "{short}");
    }

    #[test]
    fn an_amount_in_the_way_of_another_part_goes_past_it_or_stops_before_it() {
        let lever = |guess| Lever {
            range: vec![(0.0, 10.0), (30.0, 40.4)],
            guess,
            up: Box::new(f64::ceil),
            down: Box::new(f64::floor),
            draft: Box::new(|_| None),
        };
        assert_eq!(lever(8.2).first(), [9.0]);
        assert_eq!(lever(12.0).first(), [30.0, 10.0]);
        assert_eq!(lever(50.0).first(), [40.0]);
        assert_eq!(lever(40.2).first(), [40.0], "41 would be too much");
    }
}
