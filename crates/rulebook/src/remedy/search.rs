//! Trying changes for one finding: first what is declared and what the lever rule gives, one at a time; then, where no
//! single change does it, two together.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::rc::Rc;

use pintle_finding::{But, Change, Cost, Grade, Reading, Sought};
use pintle_quantity::{Quantity, Units};
use pintle_source::Sources;
use pintle_spec::Stock;

use super::aim::{Aim, Depth, target};
use super::compare::{is_gone, successor, worse};
use super::declared;
use super::levers::{Draft, Ground, Lever, levers};
use super::world::World;
use crate::judge::Judge;
use crate::rulebook::Rulebook;

/// So many single changes are tried for a finding at each depth.
const MOST_TRIALS: usize = 24;
/// So many single changes that are not enough are each tried with a second one.
const MOST_HALVES: usize = 3;
/// With each of them, so many second ones are tried at each depth.
const MOST_SECONDS: usize = 6;
/// Two amounts that differ by less than this share are not tried both.
const ALIKE: f64 = 0.01;

/// What came of a trial.
#[derive(Debug, Clone)]
pub(super) enum Trial {
    /// Nothing is worse than before; what the rules say then.
    Sound(Rc<World>),
    /// A finding is new or worse: what the rules say then, and which.
    Worse(Rc<World>, Box<Reading>),
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

/// The search for one finding.
struct Hunt<'f> {
    finding: &'f Reading,
    depth: Depth,
    sought: Sought,
    found: Vec<Found>,
    /// Single changes that make good some of what is lacking: how much, which, and what the rules say then.
    halves: Vec<(f64, Draft, Rc<World>)>,
    /// Single changes that clear it and do harm elsewhere.
    harmful: Vec<Harmful>,
    /// The least harmful change that clears it and makes something else worse.
    but: Option<((Grade, Cost), But)>,
    /// What was tried for it, by its changes.
    seen: BTreeSet<String>,
}

/// A change that clears a finding and does harm elsewhere.
#[derive(Debug, Clone)]
struct Harmful {
    /// How grave the harm is, and what the change takes.
    harm: (Grade, Cost),
    draft: Draft,
    world: Rc<World>,
    /// The gravest of what is new or worse.
    worse: Reading,
}

/// What one trial came to.
#[derive(Debug, Clone, Copy)]
struct Tried {
    clears: bool,
    value: Option<f64>,
}

impl Bench<'_> {
    /// Tries changes for a fault: first single ones that would bring it as far inside its limit as it could be off, then
    /// single ones that bring it just inside, then two together.
    pub(super) fn seek(&mut self, number: usize, finding: &Reading) -> (Sought, Vec<Found>) {
        let mut hunt = Hunt {
            finding,
            depth: Depth::Sure,
            sought: Sought { reading: number, ..Sought::default() },
            found: Vec::new(),
            halves: Vec::new(),
            harmful: Vec::new(),
            but: None,
            seen: BTreeSet::new(),
        };
        for tries in [Self::singles, Self::pairs] {
            for depth in [Depth::Sure, Depth::Little] {
                hunt.depth = depth;
                if !hunt.found.iter().any(|found| self.makes_nothing_less_good(found)) {
                    tries(self, &mut hunt);
                }
            }
            if !hunt.found.is_empty() {
                break;
            }
        }
        if hunt.found.is_empty() {
            hunt.sought.but = hunt.but.map(|(_, but)| but);
        }
        (hunt.sought, hunt.found)
    }

    fn makes_nothing_less_good(&self, found: &Found) -> bool {
        worse(&self.start.readings, &found.world.readings).told.is_empty()
    }

    /// Changes one at a time.
    fn singles(&mut self, hunt: &mut Hunt<'_>) {
        let (start, finding) = (self.start, hunt.finding);
        let limit = hunt.sought.tried + MOST_TRIALS;
        self.all(start, finding, &[], limit, hunt);
    }

    /// Changes that each are not enough, with a second one; then changes that do harm elsewhere, with one that mends it.
    fn pairs(&mut self, hunt: &mut Hunt<'_>) {
        hunt.halves.sort_by(|(one, ..), (other, ..)| other.total_cmp(one));
        for (_, draft, world) in hunt.halves.iter().take(MOST_HALVES).cloned().collect::<Vec<_>>() {
            if let Some(still) = successor(hunt.finding, &world.readings) {
                let limit = hunt.sought.tried + MOST_SECONDS;
                self.all(&world, still, &[draft], limit, hunt);
            }
        }
        hunt.harmful.sort_by(|one, other| less_harm(one.harm, other.harm));
        for Harmful { draft, world, worse, .. } in
            hunt.harmful.iter().take(MOST_HALVES).cloned().collect::<Vec<_>>()
        {
            let limit = hunt.sought.tried + MOST_SECONDS;
            self.all(&world, &worse, &[draft], limit, hunt);
        }
    }

    /// Everything there is to try on a spec, after some steps that are taken already, until so many trials are made.
    fn all(&mut self, world: &World, finding: &Reading, taken: &[Draft], limit: usize, hunt: &mut Hunt<'_>) {
        let aim = Aim::of(&world.build, finding, hunt.depth);
        let sought = &mut hunt.sought;
        let mut candidates =
            declared::candidates(self.rulebook, self.stock, world, finding, hunt.depth, &mut sought.notes);
        if let Some(aim) = &aim {
            let ground = Ground { build: &world.build, root: &world.root, aim };
            let (levers, left) = levers(ground, &mut sought.notes);
            candidates.extend(levers.into_iter().map(Candidate::Lever));
            // Of second changes those that are left out are not counted: there is no end of pairs.
            if taken.is_empty() && hunt.depth == Depth::Sure {
                sought.untried += left;
            }
        }
        let mut left = candidates.len();
        for candidate in candidates {
            if hunt.sought.tried >= limit {
                if taken.is_empty() {
                    hunt.sought.untried += left;
                }
                break;
            }
            left -= 1;
            match candidate {
                Candidate::Row(drafts) => self.row(drafts, taken, limit, hunt),
                Candidate::Lever(lever) => self.lever(&lever, taken, limit, hunt),
            }
        }
    }

    /// One draft after another, until one is enough.
    fn row(&mut self, drafts: Vec<Draft>, taken: &[Draft], limit: usize, hunt: &mut Hunt<'_>) {
        let mut left = drafts.len();
        for draft in drafts {
            if hunt.sought.tried >= limit {
                hunt.sought.untried += if taken.is_empty() { left } else { 0 };
                return;
            }
            left -= 1;
            if self.trial([taken, &[draft]].concat(), hunt).is_some_and(|tried| tried.clears) {
                return;
            }
        }
    }

    /// The amount that the closed form asks for, and a better one where the reading shows it.
    fn lever(&mut self, lever: &Lever<'_>, taken: &[Draft], limit: usize, hunt: &mut Hunt<'_>) {
        let before = hunt.found.len();
        let mut amounts: VecDeque<(f64, bool)> =
            lever.first().into_iter().map(|amount| (amount, true)).collect();
        while let Some((amount, guessed)) = amounts.pop_front() {
            if hunt.sought.tried >= limit {
                hunt.sought.untried += usize::from(taken.is_empty());
                return;
            }
            let Some(draft) = (lever.draft)(amount) else { continue };
            let Some(tried) = self.trial([taken, &[draft]].concat(), hunt) else { continue };
            // The reading moves in proportion to the amount: from two points the amount that is needed is known.
            let better = tried.value.filter(|_| guessed && taken.is_empty());
            let better = better.and_then(|value| refined(hunt.finding, hunt.depth, amount, value));
            let closer = better.into_iter().flat_map(|better| lever.near(better)).next();
            match closer.filter(|closer| (closer - amount).abs() > ALIKE * amount) {
                Some(closer) => amounts.push_front((closer, false)),
                None if tried.clears => break,
                None => {}
            }
            if hunt.found.len() > before && !guessed {
                break;
            }
        }
        // Of one lever the least amount that does it.
        let least = hunt.found.drain(before..).min_by(|one, other| one.cost().compare(&other.cost()));
        hunt.found.extend(least);
    }

    /// One trial for a finding; none where the same change was tried for it before.
    fn trial(&mut self, steps: Vec<Draft>, hunt: &mut Hunt<'_>) -> Option<Tried> {
        let changes: Vec<Change> = steps.iter().flat_map(|step| step.changes.clone()).collect();
        let key = format!("{changes:?}");
        if !hunt.seen.insert(key.clone()) {
            return None;
        }
        hunt.sought.tried += 1;
        let (world, worse) = match self.tried(key, &changes) {
            Trial::Sound(world) => (world, None),
            Trial::Worse(world, worse) => (world, Some(worse)),
            Trial::NoRoom => {
                hunt.sought.no_room += 1;
                return Some(Tried { clears: false, value: None });
            }
        };
        let finding = hunt.finding;
        let after = successor(finding, &world.readings);
        let value = after.and_then(|reading| reading.value).map(Quantity::si);
        let gone = is_gone(finding, &self.start.readings, &world.readings);
        if let Some(worse) = worse {
            hunt.sought.new_fault += 1;
            if gone {
                hunt.note_harm(&steps, &world, &worse);
            }
            return Some(Tried { clears: false, value });
        }
        if gone {
            hunt.found.push(Found { steps, world });
            return Some(Tried { clears: true, value });
        }
        hunt.sought.not_enough += 1;
        let gained = after.map_or(0.0, |after| gained(finding, after));
        if let ([only], true) = (steps.as_slice(), gained > 0.0) {
            hunt.halves.push((gained, only.clone(), Rc::clone(&world)));
        }
        Some(Tried { clears: false, value })
    }

    fn tried(&mut self, key: String, changes: &[Change]) -> Trial {
        if let Some(known) = self.tried.get(&key) {
            return known.clone();
        }
        let outcome = match self.start.with(changes, self.judge, self.stock, self.sources) {
            None => Trial::NoRoom,
            Some(world) if !world.meetings.is_subset(&self.start.meetings) => Trial::NoRoom,
            Some(world) => match worse(&self.start.readings, &world.readings).harm.first() {
                Some(worse) => {
                    let worse = Box::new((*worse).clone());
                    Trial::Worse(Rc::new(world), worse)
                }
                None => Trial::Sound(Rc::new(world)),
            },
        };
        self.tried.insert(key, outcome.clone());
        outcome
    }
}

impl Hunt<'_> {
    /// Keeps a change that does harm elsewhere: to mend that with another, or to tell of the one that does the least.
    fn note_harm(&mut self, steps: &[Draft], world: &Rc<World>, worse: &Reading) {
        let cost = steps.iter().fold(Cost::default(), |cost, step| cost.and(step.cost));
        let harm = (worse.grade(), cost);
        if let [only] = steps {
            let (draft, world) = (only.clone(), Rc::clone(world));
            self.harmful.push(Harmful { harm, draft, world, worse: worse.clone() });
        }
        if self.but.as_ref().is_none_or(|(held, _)| less_harm(harm, *held) == Ordering::Less) {
            let words: Vec<&str> = steps.iter().map(|step| step.words.as_str()).collect();
            let but = But {
                words: words.join("; and "),
                rule: worse.rule.id.clone(),
                finds: worse.sentence(Units::AsWritten),
            };
            self.but = Some((harm, but));
        }
    }
}

/// Which of two changes does less harm, or takes less.
fn less_harm(one: (Grade, Cost), other: (Grade, Cost)) -> Ordering {
    one.0.cmp(&other.0).then_with(|| one.1.compare(&other.1))
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
fn refined(finding: &Reading, depth: Depth, amount: f64, value: f64) -> Option<f64> {
    let before = finding.value?.si();
    let better = amount * (target(finding, depth)? - before) / (value - before);
    (better.is_finite() && better > 0.0).then_some(better)
}
