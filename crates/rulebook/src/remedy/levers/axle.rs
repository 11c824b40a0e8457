//! Moving the axle.

use pintle_calc::weights::{Measure, Weights};
use pintle_finding::{Change, Cost};
use pintle_quantity::{Quantity, Units};
use pintle_spec::Build;
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::schema::trailer::{self, axle};

use super::{Draft, Ground, Lever, towards};
use crate::remedy::measure::{self, Tape};

/// The axle, moved so far that the finding is met: x / (1 − share), with the centre of gravity where it is.
pub(super) fn lever(ground: Ground<'_>) -> Option<Lever<'_>> {
    let aim = ground.aim;
    let change = aim.tongue_change()?;
    let (tongue, _) = aim.along.reactions(0.0, aim.axle)?;
    let share = if aim.is_share && aim.measure == Measure::Tongue {
        aim.target
    } else {
        (tongue + change) / aim.along.weight
    };
    lever_for(ground.build, ground.root, aim.along.aft_support(share)? - aim.axle)
}

/// The axle, moved by so much, aft positive. The ball's weight of a trailer whose centre of gravity is known by its tongue
/// weight changes with it: it is restated, so that the centre of gravity stays where it was.
pub(in crate::remedy) fn lever_for<'a>(build: &'a Build, root: &'a Node, shift: f64) -> Option<Lever<'a>> {
    let record = &build.trailer;
    let written = record.table(&trailer::AXLE)?.quantity(&axle::BALL)?.value;
    let mass = record.quantity(&trailer::MASS)?.value;
    let surfaces = &build.surfaces;
    let now = surfaces.axle.as_ref().ok()?.metres;
    let (from, to) =
        (surfaces.square_outside.as_ref().ok()?.metres, surfaces.rear_outside.as_ref().ok()?.metres);
    let tape = Tape::of(written);
    let direction = if shift < 0.0 { "forward" } else { "aft" };
    let whole = Weights::as_built(build).gross().map_or(mass.si(), |gross| gross.quantity.si());
    Some(Lever {
        range: towards(&vec![(from - now, to - now)], shift),
        guess: shift.abs(),
        up: Box::new(move |amount| tape.away(amount)),
        down: Box::new(move |amount| tape.towards(amount)),
        draft: Box::new(move |amount| {
            let place = now + amount.copysign(shift);
            let shown = measure::text(place, written);
            let mut words =
                format!("move the axle {} {direction}, to {shown} behind the ball", tape.metres(amount));
            let mut changes =
                vec![Change::set(&["trailer", "axle", "ball"], measure::written(place, written))];
            if let Some(stated) = record.quantity(&trailer::TONGUE) {
                let restated = tongue_at(stated.value, mass, now, place);
                let shown = restated.show(Units::AsWritten);
                words = format!("{words}; the empty trailer's tongue then weighs {shown}");
                let to = measure::written(restated.si(), stated.value);
                changes.push(Change::set(&["trailer", "tongue"], to));
            }
            changes.extend(measured_from_it(root, amount.copysign(shift))?);
            Some(Draft { words, changes, cost: Cost { moved: whole * amount, changed: 0.0 } })
        }),
    })
}

/// What rests on the ball of the empty trailer when the axle is moved: W·(L′ − x)/L′, with its centre of gravity
/// x = L·(1 − T/W) where it was. To a tenth of its unit.
fn tongue_at(tongue: Quantity, mass: Quantity, axle: f64, moved_to: f64) -> Quantity {
    let centre = axle * (1.0 - tongue.si() / mass.si());
    let plain = Quantity::from_si(mass.si() * (moved_to - centre) / moved_to, mass.dimension());
    match tongue.unit() {
        Some(unit) => Quantity::of((unit.from_si(plain.si()) * 10.0).round() / 10.0, unit),
        None => plain,
    }
}

/// Parts whose place is measured from the axle stay where they are: their gaps are restated. None where one of them is a
/// load of a state, which has no name to be found by.
fn measured_from_it(root: &Node, shift: f64) -> Option<Vec<Change>> {
    let mut changes = Vec::new();
    for entry in root.entries() {
        let NodeValue::Array(tables) = &entry.node.value else { continue };
        for table in tables {
            let gap = table.child("at").and_then(|at| at.child("axle"));
            if let Some(written) = gap.and_then(|gap| Quantity::parse(gap.text()?).ok()) {
                let tag = table.child("tag")?.text()?;
                let to = measure::written(written.si() - shift, written);
                changes.push(Change::set(&[&entry.key, tag, "at", "axle"], to));
            }
            if let Some(NodeValue::Array(loads)) = table.child("load").map(|loads| &loads.value)
                && loads.iter().any(|load| load.child("at").is_some_and(|at| at.child("axle").is_some()))
            {
                return None;
            }
        }
    }
    Some(changes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2,006 lb with 340 lb on a nose wheel 78 in ahead of the main wheels (FAA-H-8083-1, calculator chapter, on
    /// flight-study.com, M10): the centre of gravity is 13.2 in ahead of them. Wheels 10 in farther aft carry
    /// 2,006 × 64.8 / 88 = 1,477 lb, and the nose 529 lb: own division.
    #[test]
    fn the_tongue_weight_follows_the_axle() {
        let pounds = Quantity::pounds;
        let inches = |inches: f64| inches * 0.0254;
        let same = tongue_at(pounds(340.0), pounds(2006.0), inches(78.0), inches(78.0));
        assert!((same.value() - 340.0).abs() < 0.05, "{same:?}");
        let aft = tongue_at(pounds(340.0), pounds(2006.0), inches(78.0), inches(88.0));
        assert!((aft.value() - 529.3).abs() < 0.05, "{aft:?}");
    }
}
