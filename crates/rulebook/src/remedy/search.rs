//! Trying changes for one finding: first what is declared and what the lever rule gives, one at a time; then, where no
//! single change does it, two together.

use std::collections::BTreeMap;
use std::rc::Rc;

use pintle_finding::{Change, Cost, Reading, Sought, Verdict};
use pintle_source::Sources;
use pintle_spec::Stock;

use super::aim::Aim;
use super::compare::{is_gone, successor, worse};
use super::declared;
use super::levers::{Draft, Ground, Lever, levers};
use super::world::World;
use crate::judge::Judge;
use crate::rulebook::Rulebook;

/// So many changes are tried one at a time for a finding, and as many two together.
pub(super) const MOST_TRIALS: usize = 24;
/// So many single changes that are not enough are each tried with a second one.
const MOST_HALVES: usize = 4;
/// Of a first half, so many second ones are tried.
const MOST_SECONDS: usize = MOST_TRIALS / MOST_HALVES;
/// Two amounts that differ by less than this share are not tried both.
const ALIKE: f64 = 0.01;

/// What came of a trial.
#[derive(Debug, Clone)]
pub(super) enum Trial {
    /// Nothing is worse than before; what the rules say then.
    Sound(Rc<World>),
    /// A finding is new or worse.
    Worse,
    /// A part meets another or a wall, or the spec cannot be read.
    NoRoom,
}

/// A change that clears the finding it was sought for.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) steps: Vec<Draft>,
    pub(super) world: Rc<World>,
}

impl Found {
    /// What all its steps take.
    pub(super) fn cost(&self) -> Cost {
        self.steps.iter().fold(Cost::default(), |cost, step| cost.and(step.cost))
    }
}

/// What is needed to try changes of one spec. What has been tried is kept: findings have changes in common.
pub(super) struct Bench<'a> {
    pub(super) judge: &'a Judge<'a>,
    pub(super) rulebook: &'a Rulebook,
    pub(super) stock: &'a Stock,
    pub(super) sources: &'a Sources,
    pub(super) start: &'a World,
    pub(super) tried: BTreeMap<String, Trial>,
}

/// One thing to try.
pub(super) enum Candidate<'a> {
    /// An amount of something, by closed form.
    Lever(Lever<'a>),
    /// Drafts in the order in which they are to be tried, until one is enough.
    Row(Vec<Draft>),
}

impl Bench<'_> {
    /// Tries changes for a fault.
    pub(super) fn seek(&mut self, number: usize, finding: &Reading) -> (Sought, Vec<Found>) {
        let mut sought = Sought { reading: number, ..Sought::default() };
        let mut found = Vec::new();
        let mut halves: Vec<(f64, Draft, Rc<World>)> = Vec::new();
        let start = self.start;
        let aim = Aim::of(&start.build, finding);
        let candidates = self.candidates(start, aim.as_ref(), finding, &mut sought);
        let mut left = candidates.len();
        for candidate in candidates {
            if sought.tried >= MOST_TRIALS {
                sought.untried += left;
                break;
            }
            left -= 1;
            let limit = MOST_TRIALS;
            self.work(candidate, &[], finding, limit, &mut sought, &mut found, &mut halves);
        }
        if found.is_empty() {
            self.pairs(finding, halves, &mut sought, &mut found);
        }
        (sought, found)
    }

    /// What there is to try on a spec for a fault.
    fn candidates<'w>(
        &self,
        world: &'w World,
        aim: Option<&'w Aim>,
        finding: &Reading,
        sought: &mut Sought,
    ) -> Vec<Candidate<'w>> {
        let mut candidates =
            declared::candidates(self.rulebook, self.stock, world, finding, &mut sought.notes);
        if let Some(aim) = aim {
            let ground = Ground { build: &world.build, root: &world.root, aim };
            let (levers, left) = levers(ground, &mut sought.notes);
            candidates.extend(levers.into_iter().map(Candidate::Lever));
            sought.untried += left;
        }
        candidates
    }

    /// Tries one candidate, after some steps that are taken already.
    #[expect(clippy::too_many_arguments, reason = "what is sought, what is found, and what was not enough")]
    fn work(
        &mut self,
        candidate: Candidate<'_>,
        before: &[Draft],
        finding: &Reading,
        limit: usize,
        sought: &mut Sought,
        found: &mut Vec<Found>,
        halves: &mut Vec<(f64, Draft, Rc<World>)>,
    ) {
        match candidate {
            Candidate::Row(drafts) => {
                let mut left = drafts.len();
                for draft in drafts {
                    if sought.tried >= limit {
                        sought.untried += left;
                        return;
                    }
                    left -= 1;
                    let steps = [before, &[draft]].concat();
                    if self.trial(steps, finding, sought, found, halves).is_some_and(|tried| tried.clears) {
                        return;
                    }
                }
            }
            Candidate::Lever(lever) => {
                let before_it = found.len();
                for amount in lever.first() {
                    if sought.tried >= limit {
                        sought.untried += 1;
                        return;
                    }
                    let Some(draft) = (lever.draft)(amount) else { continue };
                    let steps = [before, &[draft]].concat();
                    let Some(tried) = self.trial(steps, finding, sought, found, halves) else { continue };
                    // The reading falls or rises in proportion: from two points the amount that is needed is known.
                    let better = tried.value.and_then(|value| refined(finding, amount, value));
                    let closer = better.into_iter().flat_map(|better| lever.near(better)).next();
                    if let Some(closer) = closer.filter(|closer| (closer - amount).abs() > ALIKE * amount)
                        && sought.tried < limit
                        && let Some(draft) = (lever.draft)(closer)
                    {
                        let steps = [before, &[draft]].concat();
                        self.trial(steps, finding, sought, found, halves);
                    }
                    if found.len() > before_it {
                        break;
                    }
                }
                // Of one lever the least amount that does it.
                let least = found.drain(before_it..).min_by(|one, other| one.cost().compare(&other.cost()));
                found.extend(least);
            }
        }
    }

    /// Changes that each are not enough, with a second one.
    fn pairs(
        &mut self,
        finding: &Reading,
        mut halves: Vec<(f64, Draft, Rc<World>)>,
        sought: &mut Sought,
        found: &mut Vec<Found>,
    ) {
        halves.sort_by(|one, other| other.0.total_cmp(&one.0));
        sought.untried += halves.len().saturating_sub(MOST_HALVES);
        for (_, draft, world) in halves.into_iter().take(MOST_HALVES) {
            let Some(still) = successor(finding, &world.readings).cloned() else { continue };
            let aim = Aim::of(&world.build, &still);
            let candidates = self.candidates(&world, aim.as_ref(), &still, sought);
            let limit = sought.tried + MOST_SECONDS;
            let mut left = candidates.len();
            for candidate in candidates {
                if sought.tried >= limit {
                    sought.untried += left;
                    break;
                }
                left -= 1;
                let first = std::slice::from_ref(&draft);
                self.work(candidate, first, finding, limit, sought, found, &mut Vec::new());
            }
        }
    }

    /// One trial for a finding; none where the same change was tried for it before.
    fn trial(
        &mut self,
        steps: Vec<Draft>,
        finding: &Reading,
        sought: &mut Sought,
        found: &mut Vec<Found>,
        halves: &mut Vec<(f64, Draft, Rc<World>)>,
    ) -> Option<Tried> {
        if found.iter().any(|held| held.steps == steps) {
            return None;
        }
        sought.tried += 1;
        let changes: Vec<Change> = steps.iter().flat_map(|step| step.changes.clone()).collect();
        let world = match self.tried(&changes) {
            Trial::Sound(world) => world,
            Trial::Worse => {
                sought.new_fault += 1;
                return Some(Tried { clears: false, value: None });
            }
            Trial::NoRoom => {
                sought.no_room += 1;
                return Some(Tried { clears: false, value: None });
            }
        };
        let after = successor(finding, &world.readings);
        let value = after.and_then(|reading| reading.value).map(pintle_quantity::Quantity::si);
        let clears = is_gone(finding, &world.readings);
        if clears {
            found.push(Found { steps, world });
        } else {
            sought.not_enough += 1;
            let gained = after.map_or(0.0, |after| gained(finding, after));
            if let ([only], true) = (steps.as_slice(), gained > 0.0) {
                halves.push((gained, only.clone(), world));
            }
        }
        Some(Tried { clears, value })
    }

    fn tried(&mut self, changes: &[Change]) -> Trial {
        let key = format!("{changes:?}");
        if let Some(known) = self.tried.get(&key) {
            return known.clone();
        }
        let outcome = match self.start.with(changes, self.judge, self.stock, self.sources) {
            None => Trial::NoRoom,
            Some(world) if !world.meetings.is_subset(&self.start.meetings) => Trial::NoRoom,
            Some(world) if worse(&self.start.readings, &world.readings).is_some() => Trial::Worse,
            Some(world) => Trial::Sound(Rc::new(world)),
        };
        self.tried.insert(key, outcome.clone());
        outcome
    }
}

/// What one trial came to.
#[derive(Debug, Clone, Copy)]
struct Tried {
    clears: bool,
    value: Option<f64>,
}

/// How much of what is lacking a change makes good, as a share; one would be all of it.
fn gained(before: &Reading, after: &Reading) -> f64 {
    let margin = |reading: &Reading| reading.margin().map(|margin| margin.amount.si());
    match (margin(before), margin(after)) {
        (Some(before), Some(after)) if before < 0.0 && after.is_finite() => (after - before) / -before,
        _ => 0.0,
    }
}

/// The amount at which a reading comes to its aim, when it moves in proportion to the amount.
fn refined(finding: &Reading, amount: f64, value: f64) -> Option<f64> {
    debug_assert!(finding.verdict == Verdict::Fault);
    let before = finding.value?.si();
    let target = super::aim::target(finding)?;
    let better = amount * (target - before) / (value - before);
    (better.is_finite() && better > 0.0).then_some(better)
}
