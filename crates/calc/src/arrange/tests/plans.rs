//! Plans without a build: units that bring, follow and exclude each other at random.

use super::random::Random;
use crate::arrange::corners;
use crate::arrange::held::Held;
use crate::arrange::plan::{Group, Plan, Unit};
use crate::arrange::ratio::{Goal, greatest};
use crate::arrange::search::{Choice, best};
use crate::arrange::sums::{Aim, Amount, Sums};

fn random_unit(random: &mut Random) -> Unit {
    let mass = random.between(0.0, 50.0);
    let at = |random: &mut Random, far: f64| mass * random.between(-far, far);
    let sums = Sums {
        mass,
        x: at(random, 4.0),
        y: at(random, 1.0),
        z: mass * random.between(0.3, 2.5),
        fitted: mass,
    };
    let amount = random.once_in(3).then(|| {
        let from = if random.once_in(2) { 0.0 } else { random.between(0.0, 0.6) };
        Amount {
            from,
            to: if random.once_in(5) { from } else { random.between(from, 1.0) },
            mass: random.between(5.0, 90.0),
            x: random.between(-4.0, 4.0),
            y: random.between(-1.0, 1.0),
            z: random.between(0.3, 1.0),
            rise: if random.once_in(2) { 0.0 } else { random.between(0.1, 1.5) },
        }
    });
    Unit { sums, amount, always: random.once_in(12), ..Unit::default() }
}

/// A plan of some units; the more ties the more hang on each other.
fn random_plan(random: &mut Random, units: usize, ties: usize) -> Plan {
    let mut plan = Plan { units: (0..units).map(|_| random_unit(random)).collect(), ..Plan::default() };
    for _ in 0..random.below(ties + 1) {
        let (from, to) = (random.below(units), random.below(units));
        if from != to {
            plan.link(from, to);
        }
    }
    for unit in &mut plan.units {
        unit.follows = !unit.brings.is_empty() && random.once_in(3);
    }
    for _ in 0..random.below(3) {
        let mut of: Vec<usize> = (0..=random.below(4)).map(|_| random.below(units)).collect();
        of.sort_unstable();
        of.dedup();
        plan.groups.push(Group { of, none: random.once_in(2) });
    }
    if random.once_in(2) {
        for at in 0..units {
            let unit = &mut plan.units[at];
            if unit.amount.is_some() && random.once_in(2) {
                unit.in_order = true;
                plan.order.push(at);
            }
        }
    }
    plan.join();
    plan
}

/// Whether so much may be aboard: the rules themselves, one by one.
fn allowed(plan: &Plan, aboard: &[bool]) -> bool {
    let all = |units: &[usize]| units.iter().all(|at| aboard[*at]);
    let units = plan.units.iter().zip(aboard).all(|(unit, here)| {
        (*here || !unit.always)
            && (!*here || all(&unit.brings))
            && (*here || !(unit.follows && all(&unit.brings)))
    });
    units
        && plan.groups.iter().all(|group| {
            let members = group.of.iter().filter(|at| aboard[**at]).count();
            members == 1 || (members == 0 && group.none)
        })
}

/// Every arrangement, with each amount at its ends and, where steps are asked for, between them.
fn every(plan: &Plan, steps: u32) -> Vec<Choice> {
    let mut found = Vec::new();
    for mask in 0..1_usize << plan.units.len() {
        let aboard: Vec<bool> = (0..plan.units.len()).map(|at| mask >> at & 1 == 1).collect();
        if !allowed(plan, &aboard) {
            continue;
        }
        let between = |amount: Amount| -> Vec<f64> {
            let share = |step: u32| f64::from(step) / f64::from(steps);
            (0..=steps).map(|step| amount.from + (amount.to - amount.from) * share(step)).collect()
        };
        let mut choices = vec![Choice { amounts: vec![0.0; aboard.len()], aboard: aboard.clone() }];
        for (at, unit) in plan.units.iter().enumerate() {
            let Some(amount) = unit.amount.filter(|_| aboard[at]) else { continue };
            let fills = if amount.varies() { between(amount) } else { vec![amount.to] };
            choices = choices
                .iter()
                .flat_map(|choice| {
                    fills.iter().map(|fill| {
                        let mut choice = choice.clone();
                        choice.amounts[at] = *fill;
                        choice
                    })
                })
                .collect();
        }
        // A tank is below its most only when all before it are at their least.
        choices.retain(|choice| {
            let order: Vec<(Amount, f64)> = plan
                .order
                .iter()
                .filter(|at| aboard[**at])
                .map(|at| (plan.units[*at].amount.unwrap(), choice.amounts[*at]))
                .collect();
            order.iter().enumerate().all(|(at, (amount, fill))| {
                *fill >= amount.to || order[..at].iter().all(|(before, fill)| *fill <= before.from)
            })
        });
        found.extend(choices);
    }
    found
}

fn random_aim(random: &mut Random) -> Sums {
    let mut of = || random.between(-1.0, 1.0);
    Sums { mass: of(), x: of(), y: of(), z: 0.0, fitted: of() }
}

struct Solved<'p> {
    plan: &'p Plan,
    root: Held<'p>,
    pieces: Vec<Vec<usize>>,
}

impl<'p> Solved<'p> {
    fn of(plan: &'p Plan) -> Option<Self> {
        let mut root = Held::root(plan, &[])?;
        let open = root.undecided(0..plan.units.len());
        let pieces = root.pieces(&open);
        Some(Self { plan, root, pieces })
    }

    fn best(&self, of: Sums, fullest: bool) -> Option<Choice> {
        best(&self.root, &self.pieces, Aim { of, slack: 1e-12, fullest }).unwrap()
    }
}

fn most(choices: &[Choice], plan: &Plan, goal: impl Fn(Sums) -> f64) -> f64 {
    choices.iter().map(|choice| goal(choice.sums(plan))).fold(f64::NEG_INFINITY, f64::max)
}

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

#[test]
fn a_linear_aim_is_served_as_well_as_by_any_arrangement() {
    let (mut allowed_some, mut contradicted) = (0, 0);
    for seed in 0..3000 {
        let mut random = Random::new(seed);
        let units = 1 + random.below(8);
        let plan = random_plan(&mut random, units, 8);
        let choices = every(&plan, 1);
        let solved = Solved::of(&plan);
        let Some(solved) = solved.filter(|solved| solved.best(Sums::default(), true).is_some()) else {
            assert!(choices.is_empty(), "seed {seed}");
            contradicted += 1;
            continue;
        };
        allowed_some += 1;
        for _ in 0..3 {
            let aim = random_aim(&mut random);
            let choice = solved.best(aim, true).unwrap();
            assert!(allowed(&plan, &choice.aboard), "seed {seed}");
            assert!(choices.contains(&choice), "seed {seed}: {choice:?}");
            close(choice.sums(&plan).dot(aim), most(&choices, &plan, |sums| sums.dot(aim)));
        }
    }
    assert!(allowed_some > 1500 && contradicted > 100, "{allowed_some} allowed, {contradicted} contradicted");
}

#[test]
fn the_fullest_and_the_emptiest_have_most_and_fewest_units() {
    for seed in 0..1500 {
        let mut random = Random::new(seed + 50_000);
        let units = 1 + random.below(9);
        let plan = random_plan(&mut random, units, 8);
        let choices = every(&plan, 1);
        let Some(solved) = Solved::of(&plan) else { continue };
        let number = |choice: &Choice| choice.aboard.iter().filter(|here| **here).count();
        let full = solved.best(Sums::default(), true).map(|choice| number(&choice));
        assert_eq!(full, choices.iter().map(number).max(), "seed {seed}");
        let empty = solved.best(Sums::default(), false).map(|choice| number(&choice));
        assert_eq!(empty, choices.iter().map(number).min(), "seed {seed}");
    }
}

#[test]
fn corners_are_counted_and_listed() {
    let mut most = 0;
    for seed in 0..3000 {
        let mut random = Random::new(seed + 100_000);
        let units = 1 + random.below(8);
        let plan = random_plan(&mut random, units, 8);
        let choices = every(&plan, 1);
        let Some(solved) = Solved::of(&plan) else {
            assert!(choices.is_empty(), "seed {seed}");
            continue;
        };
        let listed = corners::all(&solved.root).unwrap();
        let number = f64::from(u32::try_from(choices.len()).unwrap());
        close(corners::count(&solved.root, &solved.pieces).unwrap(), number);
        assert_eq!(listed.len(), choices.len(), "seed {seed}");
        assert!(choices.iter().all(|choice| listed.contains(choice)), "seed {seed}");
        most = most.max(choices.len());
    }
    assert!(most > 500, "the largest plan has {most} arrangements");
}

#[test]
fn a_ratio_is_as_great_as_in_any_arrangement() {
    for seed in 0..2000 {
        let mut random = Random::new(seed + 200_000);
        let units = 1 + random.below(8);
        let plan = random_plan(&mut random, units, 6);
        let Some(solved) = Solved::of(&plan) else { continue };
        let Some(start) = solved.best(Sums::default(), true) else { continue };
        let choices = every(&plan, 1);
        let base = Sums { mass: 400.0, x: 900.0, y: 10.0, z: 300.0, fitted: 400.0 };
        let under = Sums { mass: 1.0, ..Sums::default() };
        for over in [Sums { x: 1.0, ..Sums::default() }, Sums { y: 1.0, mass: 0.3, ..Sums::default() }] {
            for goal in [Goal::Ratio(over, under), Goal::Ratio(over, under).reversed()] {
                let Goal::Ratio(over, under) = goal else { panic!("not a ratio") };
                let served = |of: Sums| -> Result<_, ()> {
                    let choice = solved.best(of, true).unwrap();
                    let sums = base.plus(choice.sums(solved.plan));
                    Ok((choice, sums))
                };
                let found = greatest(over, under, base.plus(start.sums(&plan)), served).unwrap().unwrap();
                let expected = most(&choices, &plan, |sums| goal.of(base.plus(sums)));
                close(goal.of(base.plus(found.sums(&plan))), expected);
            }
        }
    }
}

/// Between a fine grid and the truth lies no more than the curvature allows: for each amount |f″|·h²/8.
#[test]
fn the_best_fill_between_the_ends_is_found() {
    const STEPS: u32 = 12;
    let mut between = 0;
    for seed in 0..1500 {
        let mut random = Random::new(seed + 400_000);
        let units = 1 + random.below(5);
        let plan = random_plan(&mut random, units, 3);
        let choices = every(&plan, STEPS);
        let Some(solved) = Solved::of(&plan) else { continue };
        // The best of mass × (λ − z), as for the least height: water below λ helps, above it does not.
        let aim = Sums { mass: random.between(0.4, 1.5), z: -1.0, ..Sums::default() };
        let Some(choice) = solved.best(aim, true) else { continue };
        let (found, grid) = (choice.sums(&plan).dot(aim), most(&choices, &plan, |sums| sums.dot(aim)));
        let slack: f64 = plan
            .units
            .iter()
            .filter_map(|unit| unit.amount)
            .map(|amount| {
                amount.mass * amount.rise * ((amount.to - amount.from) / f64::from(STEPS)).powi(2) / 8.0
            })
            .sum();
        assert!(found >= grid - 1e-9, "seed {seed}: {found} found, {grid} in the grid");
        assert!(
            found <= grid + slack + 1e-9,
            "seed {seed}: {found} found, {grid} in the grid, {slack} apart"
        );
        let inside = |(at, unit): (usize, &Unit)| {
            unit.amount.is_some_and(|amount| {
                choice.has(at) && amount.from < choice.amount(at) && choice.amount(at) < amount.to
            })
        };
        between += usize::from(plan.units.iter().enumerate().any(inside));
    }
    assert!(between > 50, "{between} with a tank partly full");
}
