//! What can be moved, added or taken away for a weight finding, and how far at a first guess.
//!
//! Each guess is a closed form of statics, worked out for the state that the finding is about; whether it holds is for
//! the trial to say. A lever gives amounts; an amount gives a draft of a remedy.

mod across;
pub(super) mod arranged;
pub(super) mod axle;
mod ballast;
mod lengthways;
mod less;

use pintle_calc::space::room::{Along, Stretches};
use pintle_finding::{Change, Cost};
use pintle_spec::node::Node;
use pintle_spec::{Build, Missing};

use super::aim::Aim;
use super::group::Group;

/// A remedy that is yet to be tried.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Draft {
    /// What to do, in words.
    pub(super) words: String,
    /// The same as changes of the spec.
    pub(super) changes: Vec<Change>,
    /// What it takes.
    pub(super) cost: Cost,
}

/// Something that can be done more or less of.
pub(super) struct Lever<'a> {
    /// Amounts that can be had, in SI, from and to, rising and above nothing.
    pub(super) range: Stretches,
    /// The amount that the closed form asks for.
    pub(super) guess: f64,
    /// An amount to what a shop measures, upwards.
    pub(super) up: Box<dyn Fn(f64) -> f64 + 'a>,
    /// An amount to what a shop measures, downwards.
    pub(super) down: Box<dyn Fn(f64) -> f64 + 'a>,
    /// What an amount comes to; none where it cannot be written.
    pub(super) draft: Box<dyn Fn(f64) -> Option<Draft> + 'a>,
}

/// Dust of reckoning at the ends of a range, in SI.
const DUST: f64 = 1e-6;

impl<'a> Lever<'a> {
    /// Something that can only be done or left.
    fn whole(draft: impl Fn() -> Option<Draft> + 'a) -> Self {
        Self {
            range: vec![(1.0, 1.0)],
            guess: 1.0,
            up: Box::new(|amount| amount),
            down: Box::new(|amount| amount),
            draft: Box::new(move |_| draft()),
        }
    }

    /// The amounts to try first: what the closed form asks for; where that cannot be had, the next more that can, and
    /// then the most that can.
    pub(super) fn first(&self) -> Vec<f64> {
        self.near(self.guess)
    }

    /// The amounts to be had nearest to one that is asked for.
    pub(super) fn near(&self, asked: f64) -> Vec<f64> {
        let wanted = (self.up)(asked);
        let holds = |amount: f64| {
            self.range
                .iter()
                .any(|(from, to)| *from - DUST <= amount && amount <= *to + DUST && amount > DUST)
        };
        if holds(wanted) {
            return vec![wanted];
        }
        let more =
            self.range.iter().map(|(from, _)| *from).find(|from| *from > asked).map(|from| (self.up)(from));
        let most =
            self.range.iter().rev().map(|(_, to)| *to).find(|to| *to < wanted).map(|to| (self.down)(to));
        more.into_iter().chain(most).filter(|amount| holds(*amount)).collect()
    }

    /// Whether the closed form can be had as it is, so that it is worth trying before others.
    pub(super) fn reaches(&self) -> bool {
        matches!(self.first().as_slice(), [only] if *only >= self.guess - DUST)
    }
}

/// What is there to work with.
#[derive(Clone, Copy)]
pub(super) struct Ground<'a> {
    pub(super) build: &'a Build,
    pub(super) root: &'a Node,
    pub(super) aim: &'a Aim,
}

/// Levers, and how many more there would be that are less likely to do it.
pub(super) type Best<'a> = (Vec<Lever<'a>>, usize);

/// All levers for a weight finding, those first that a shop would try first, and how many were left out. What keeps some
/// from being worked out is said in `notes`.
pub(super) fn levers<'a>(ground: Ground<'a>, notes: &mut Vec<String>) -> Best<'a> {
    let (mut all, mut left) = (arranged::levers(ground), 0);
    let mut add = |(some, more): Best<'a>| {
        all.extend(some);
        left += more;
    };
    add(lengthways::levers(ground, notes));
    add(across::levers(ground, notes));
    add((axle::lever(ground).into_iter().collect(), 0));
    add(less::levers(ground));
    add((ballast::levers(ground, notes), 0));
    (all, left)
}

/// The first of some levers in their order, and how many more there are.
fn best<R>(ranked: Vec<(R, Lever<'_>)>, most: usize) -> Best<'_> {
    let left = ranked.len().saturating_sub(most);
    (ranked.into_iter().take(most).map(|(_, lever)| lever).collect(), left)
}

/// Moving a group some way, aft or to the right where `shift` is positive; none where its place is not stated in that
/// direction.
pub(super) fn shift_lever<'a>(
    build: &'a Build,
    root: &'a Node,
    group: &Group,
    along: Along,
    shift: f64,
    mass: f64,
    range: Stretches,
) -> Option<Lever<'a>> {
    let tape = group.tape(build, root, along)?;
    let direction = match (along, shift < 0.0) {
        (Along::Length, true) => "forward",
        (Along::Length, false) => "aft",
        (Along::Width, true) => "to the left",
        (Along::Width, false) => "to the right",
    };
    let group = group.clone();
    Some(Lever {
        range,
        guess: shift.abs(),
        up: Box::new(move |amount| tape.away(amount)),
        down: Box::new(move |amount| tape.towards(amount)),
        draft: Box::new(move |amount| {
            let shown = tape.metres(amount);
            Some(Draft {
                words: format!("move {} {shown} {direction}", group.called(build)),
                changes: group.shifted(build, root, along, amount.copysign(shift))?,
                cost: Cost { moved: mass * amount, changed: 0.0 },
            })
        }),
    })
}

/// The part of some stretches of shifts that lies in one direction, as amounts.
pub(super) fn towards(stretches: &Stretches, sign: f64) -> Stretches {
    let mut range: Stretches = stretches
        .iter()
        .map(|(from, to)| if sign < 0.0 { (-to, -from) } else { (*from, *to) })
        .filter(|(_, to)| *to > DUST)
        .map(|(from, to)| (from.max(0.0), to))
        .collect();
    range.sort_by(|one, other| one.0.total_cmp(&other.0));
    range
}

/// What is said of a move that could not be thought of for want of a place.
pub(super) fn unplaced(missing: &Missing) -> String {
    format!("no move was tried with part of the places unknown: {}", missing.what)
}

/// Says once what kept changes from being thought of.
pub(super) fn note(notes: &mut Vec<String>, text: String) {
    if !notes.contains(&text) {
        notes.push(text);
    }
}
