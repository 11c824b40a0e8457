//! Exact extremes over every road arrangement of a build.
//!
//! An arrangement is any combination of removable parts in or out, optional loads, and tanks empty to full. What stands
//! on a part leaves with it; what a part needs rides with it; of an either-or group one member rides. The trailer, the
//! parts that cannot be taken out, and the own loads of a road state are always aboard.

mod corners;
mod envelope;
mod held;
mod hull;
mod name;
mod plan;
mod ratio;
mod search;
mod sums;
mod window;

use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Known, Load, Missing, State, Use};

pub use envelope::{Allowed, Bounded, Envelope, ExtremePoint, Point, allowed};
pub use window::Window;

use crate::weights::{gathered, no_axle};
use held::{Held, Spent};
use plan::{Plan, Unit, Unknown, always_aboard, host_of};
use ratio::Goal;
use search::Choice;
use sums::{Aim, Sums};

/// A figure that has a least and a most over all arrangements.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Extremum {
    /// Total weight.
    Gross,
    /// Weight without water and loads.
    Unloaded,
    /// Weight on the ball.
    Tongue,
    /// Weight on the ball as a share of the total.
    TongueShare,
    /// Weight on the axles.
    Axles,
    /// Weight on the left wheels.
    Left,
    /// Weight on the right wheels.
    Right,
    /// Right wheels less left wheels; negative when the left side is heavier.
    Side,
    /// The same as a share of the axle load.
    SideShare,
    /// Centre of gravity behind the ball.
    CentreX,
    /// Centre of gravity right of the centreline.
    CentreY,
    /// Centre of gravity above the ground.
    CentreZ,
}

impl Extremum {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        Self::Gross,
        Self::Unloaded,
        Self::Tongue,
        Self::TongueShare,
        Self::Axles,
        Self::Left,
        Self::Right,
        Self::Side,
        Self::SideShare,
        Self::CentreX,
        Self::CentreY,
        Self::CentreZ,
    ];

    /// Whether it needs places fore and aft, across, and upright.
    const fn needs(self) -> [bool; 3] {
        match self {
            Self::Gross | Self::Unloaded => [false; 3],
            Self::Tongue | Self::TongueShare | Self::Axles | Self::CentreX => [true, false, false],
            Self::Left | Self::Right | Self::SideShare => [true, true, false],
            Self::Side | Self::CentreY => [false, true, false],
            Self::CentreZ => [false, false, true],
        }
    }
}

/// The lower end of a range, or the upper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// The least.
    Least,
    /// The most.
    Most,
}

/// More corner arrangements than these are not listed one by one.
pub const MOST_CORNERS: f64 = 4096.0;

/// Of more road states with loads of their own than these, no extremes are looked for.
const MOST_FAMILIES: usize = 64;

/// All road arrangements of a build.
///
/// ```
/// use pintle_calc::arrange::{Arrangements, End, Extremum};
/// use pintle_calc::weights::Weights;
/// use pintle_spec::{Stock, read_build};
///
/// let mut sources = pintle_source::Sources::new();
/// let spec = sources.add("trailer.toml", r#"
/// [build]
/// number = "T-1"
/// title = "an invented trailer"
/// stage = "design"
/// [trailer]
/// mass = "1000 lb"
/// ball_to_box = "30 in"
/// cg = { ball = "70 in" }
/// axle = { ball = "78 in" }
/// wall = "0 in"
/// nose = { shape = "flat" }
/// [[item]]
/// tag = "galley"
/// kind = "module"
/// removable = true
/// mass = "200 lb"
/// length = "20 in"
/// at = { front = "75 in", left = "0 in" }
/// [[state]]
/// name = "road"
/// use = "road"
/// "#);
/// let build = read_build(&sources, spec, &Stock::default(), &mut Vec::new()).unwrap();
/// let arrangements = Arrangements::of(&build)?;
/// let least = arrangements.extreme(Extremum::TongueShare, End::Least)?;
/// assert_eq!(least.name.value, "departure: everything aboard");
/// // 1,000 lb at 70 in and 200 lb at 115 in, of 78 in.
/// let share = Weights::of(&build, &least).tongue_share()?;
/// assert!((share.quantity.si() - (1.0 - 77.5 / 78.0)).abs() < 1e-9);
/// let most = arrangements.extreme(Extremum::TongueShare, End::Most)?;
/// assert_eq!(most.name.value, "galley out");
/// # Ok::<(), pintle_spec::Missing>(())
/// ```
#[derive(Debug)]
pub struct Arrangements<'b> {
    build: &'b Build,
    plan: Plan,
    families: Vec<Family>,
}

/// The arrangements with the own loads of one road state.
#[derive(Debug)]
struct Family {
    /// The first state with these loads; counts [`Build::states`].
    state: usize,
    /// The trailer and the own loads.
    base: Unit,
    /// Hosts of the own loads.
    pinned: Vec<usize>,
    /// Whether each unit is aboard, where that is never otherwise.
    settled: Vec<Option<bool>>,
    /// The others, as pieces that have nothing to do with each other.
    pieces: Vec<Vec<usize>>,
    /// The arrangement with the most aboard.
    fullest: Choice,
}

/// An arrangement that serves a goal best.
#[derive(Debug, Clone)]
pub(crate) struct Best {
    family: usize,
    choice: Choice,
    /// What the figure comes to, in SI.
    pub(crate) value: f64,
}

impl<'b> Arrangements<'b> {
    /// All road arrangements of a build.
    ///
    /// Road states that differ only in what is taken out, filled or carried have the same arrangements; each set of own
    /// loads makes a family.
    ///
    /// # Errors
    /// A road state, where there is none; an arrangement at all, where zones, `needs` and either-or groups allow none;
    /// or too much to look at: parts that hang on each other, road states with loads of their own.
    pub fn of(build: &'b Build) -> Known<Self> {
        let plan = Plan::of(build);
        let mut families: Vec<Family> = Vec::new();
        for (at, state) in build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road) {
            let known = families.iter().filter_map(|family| build.states.get(family.state));
            if !known.into_iter().any(|known| same_loads(&known.loads, &state.loads)) {
                if families.len() >= MOST_FAMILIES {
                    return Err(Missing::new(
                        format!(
                            "the extremes over more than {MOST_FAMILIES} road states with loads of their own"
                        ),
                        Some(state.name.span),
                        "write what may ride along as a `[[load]]` rather than in states of its own",
                    ));
                }
                families.push(Family::of(build, &plan, at, state)?);
            }
        }
        if families.is_empty() {
            return Err(Missing::new(
                "a state for the road",
                Some(build.number.span),
                "add a `[[state]]` with `use = \"road\"`: its loads ride in every arrangement",
            ));
        }
        Ok(Self { build, plan, families })
    }

    /// The arrangement in which a figure is least or most, as a state that [`Weights::of`](crate::weights::Weights::of)
    /// weighs. Of several alike the one with the most aboard, then the first in the order of the spec.
    ///
    /// # Errors
    /// The masses and places that the figure needs and that are not given; or that too many parts hang on each other to
    /// look at every arrangement.
    pub fn extreme(&self, what: Extremum, end: End) -> Known<State> {
        self.best(what, end).map(|best| self.state(&best))
    }

    /// How many arrangements there are with each tank at its least or most and each load at its least or most; tanks
    /// that are emptied one after another have one more than there are tanks. A load that may stay at home, and that is
    /// in an either-or group or is needed by another, counts as aboard also when there is none of it. Infinite where a
    /// double cannot hold the number.
    ///
    /// # Errors
    /// The same as [`Arrangements::extreme`] for parts that hang on each other.
    pub fn count(&self) -> Known<f64> {
        let mut number = 0.0;
        for family in &self.families {
            number += corners::count(&self.root(family)?, &family.pieces).map_err(|_| self.tangled())?;
        }
        Ok(number)
    }

    /// All arrangements that [`Arrangements::count`] counts; nothing where they are more than [`MOST_CORNERS`].
    ///
    /// # Errors
    /// The same as [`Arrangements::count`].
    pub fn corners(&self) -> Known<Option<impl Iterator<Item = State>>> {
        let choices = self.corner_choices()?;
        Ok(choices.map(|choices| {
            let states = choices.into_iter();
            states.map(|(family, choice)| self.state(&Best { family, choice, value: 0.0 }))
        }))
    }

    fn corner_choices(&self) -> Known<Option<Vec<(usize, Choice)>>> {
        if self.count()? > MOST_CORNERS {
            return Ok(None);
        }
        let mut choices = Vec::new();
        for (at, family) in self.families.iter().enumerate() {
            let found = corners::all(&self.root(family)?).map_err(|_| self.tangled())?;
            choices.extend(found.into_iter().map(|choice| (at, choice)));
        }
        Ok(Some(choices))
    }

    /// The figure's least or most, and where.
    pub(crate) fn best(&self, what: Extremum, end: End) -> Known<Best> {
        for family in &self.families {
            self.all_known(family, what.needs())?;
        }
        let goal = self.goal(what)?;
        let sign = if end == End::Most { 1.0 } else { -1.0 };
        let wanted = if end == End::Most { goal } else { goal.reversed() };
        let mut best: Option<Best> = None;
        for (family, own) in self.families.iter().enumerate() {
            let choice = self.serve(own, wanted)?;
            let value = sign * wanted.of(self.sums(own, &choice));
            let slack = 1e-12 * value.abs().max(1.0);
            if best.as_ref().is_none_or(|best| sign * (value - best.value) > slack) {
                best = Some(Best { family, choice, value });
            }
        }
        best.ok_or_else(|| self.contradicted())
    }

    /// The choice of a family that serves a goal best.
    fn serve(&self, family: &Family, goal: Goal) -> Known<Choice> {
        let root = self.root(family)?;
        let linear = |of: Sums| -> Known<(Choice, Sums)> {
            let aim = Aim { of, slack: 1e-14 * self.size(family, of), fullest: true };
            let choice = self.search(&root, &family.pieces, aim)?;
            let sums = self.sums(family, &choice);
            Ok((choice, sums))
        };
        match goal {
            Goal::Sum(of) => Ok(linear(of)?.0),
            Goal::Ratio(over, under) => {
                let least = linear(under.times(-1.0))?.1.dot(under);
                if least <= 0.0 {
                    return Err(Missing::new(
                        "a share of a load that is positive in every arrangement",
                        Some(self.build.number.span),
                        "correct the masses and places: in some arrangement nothing rests there",
                    ));
                }
                let start = self.sums(family, &family.fullest);
                ratio::greatest(over, under, start, linear)?.ok_or_else(|| self.tangled())
            }
        }
    }

    fn search(&self, root: &Held<'_>, pieces: &[Vec<usize>], aim: Aim) -> Known<Choice> {
        let found = search::best(root, pieces, aim).map_err(|Spent| self.tangled())?;
        found.ok_or_else(|| self.contradicted())
    }

    fn root(&self, family: &Family) -> Known<Held<'_>> {
        Held::root(&self.plan, &family.pinned).ok_or_else(|| self.contradicted())
    }

    fn sums(&self, family: &Family, choice: &Choice) -> Sums {
        family.base.sums.plus(choice.sums(&self.plan))
    }

    /// The size of the terms that an aim may add up, by which rounding goes.
    fn size(&self, family: &Family, of: Sums) -> f64 {
        let units: f64 = self.plan.units.iter().map(|unit| unit.size(of)).sum();
        family.base.sums.size(of) + units
    }

    /// What a figure is made of.
    fn goal(&self, what: Extremum) -> Known<Goal> {
        let group = || self.build.trailer.need_table(&trailer::AXLE);
        // One kilogram-metre about the ball puts so many kilograms on the axles.
        let lever = || -> Known<f64> {
            let axle = Coordinate::of(group()?, &axle::BALL)?;
            if axle.metres.abs() < f64::EPSILON { Err(no_axle(&axle)) } else { Ok(1.0 / axle.metres) }
        };
        let swing = || -> Known<f64> { Ok(2.0 / Coordinate::of(group()?, &axle::TRACK)?.metres) };
        let mass = Sums { mass: 1.0, ..Sums::default() };
        let axles = || -> Known<Sums> { Ok(Sums { x: lever()?, ..Sums::default() }) };
        let side = || -> Known<Sums> { Ok(Sums { y: swing()?, ..Sums::default() }) };
        let tongue = || -> Known<Sums> { Ok(mass.plus(axles()?.times(-1.0))) };
        Ok(match what {
            Extremum::Gross => Goal::Sum(mass),
            Extremum::Unloaded => Goal::Sum(Sums { fitted: 1.0, ..Sums::default() }),
            Extremum::Tongue => Goal::Sum(tongue()?),
            Extremum::TongueShare => Goal::Ratio(tongue()?, mass),
            Extremum::Axles => Goal::Sum(axles()?),
            Extremum::Left => Goal::Sum(axles()?.plus(side()?.times(-1.0)).times(0.5)),
            Extremum::Right => Goal::Sum(axles()?.plus(side()?).times(0.5)),
            Extremum::Side => Goal::Sum(side()?),
            Extremum::SideShare => Goal::Ratio(side()?, axles()?),
            Extremum::CentreX => Goal::Ratio(Sums { x: 1.0, ..Sums::default() }, mass),
            Extremum::CentreY => Goal::Ratio(Sums { y: 1.0, ..Sums::default() }, mass),
            Extremum::CentreZ => Goal::Ratio(Sums { z: 1.0, ..Sums::default() }, mass),
        })
    }

    /// Whether all masses are known that may be aboard, and all places along the axes asked for.
    fn all_known(&self, family: &Family, axes: [bool; 3]) -> Known<()> {
        let units = self.plan.units.iter().zip(&family.settled);
        let aboard = units.filter(|(_, settled)| **settled != Some(false)).map(|(unit, _)| unit);
        let units: Vec<&Unit> = std::iter::once(&family.base).chain(aboard).collect();
        let places: [fn(&Unknown) -> &[Missing]; 3] =
            [|unknown| &unknown.x, |unknown| &unknown.y, |unknown| &unknown.z];
        let masses: fn(&Unknown) -> &[Missing] = |unknown| &unknown.masses;
        let asked = places.into_iter().zip(axes).filter(|(_, asked)| *asked).map(|(list, _)| list);
        for list in std::iter::once(masses).chain(asked) {
            let missing: Vec<Missing> = units.iter().flat_map(|unit| list(&unit.unknown)).cloned().collect();
            gathered(&missing).map_or(Ok(()), Err)?;
        }
        Ok(())
    }

    fn tangled(&self) -> Missing {
        tangled(self.build)
    }

    fn contradicted(&self) -> Missing {
        contradicted(self.build)
    }
}

impl Family {
    fn of(build: &Build, plan: &Plan, at: usize, state: &State) -> Known<Self> {
        let mut pinned: Vec<usize> = state.loads.iter().filter_map(|load| host_of(load.zone)).collect();
        pinned.sort_unstable();
        pinned.dedup();
        let mut root = Held::root(plan, &pinned).ok_or_else(|| contradicted(build))?;
        let units = 0..plan.units.len();
        let settled = units.clone().map(|at| root.of(at)).collect();
        let open = root.undecided(units);
        let pieces = root.pieces(&open);
        let aim = Aim { of: Sums::default(), slack: 0.0, fullest: true };
        let fullest = search::best(&root, &pieces, aim).map_err(|Spent| tangled(build))?;
        Ok(Self {
            state: at,
            base: always_aboard(build, &state.loads),
            pinned,
            settled,
            pieces,
            fullest: fullest.ok_or_else(|| contradicted(build))?,
        })
    }
}

fn tangled(build: &Build) -> Missing {
    Missing::new(
        "the extremes over all arrangements: too many parts hang on each other to look at every arrangement",
        Some(build.number.span),
        "mark fewer parts as `removable`, or let fewer of them hang together by zones, `needs` and either-or groups",
    )
}

fn contradicted(build: &Build) -> Missing {
    let group = build.eithers.first().map(|either| either.name.span);
    Missing::new(
        "an arrangement that zones, `needs` and either-or groups allow",
        Some(group.unwrap_or(build.number.span)),
        "let a group stay at home with `none = true`, or take a part out of `needs`",
    )
}

/// Whether two states have the same own loads, in whatever order.
fn same_loads(some: &[Load], others: &[Load]) -> bool {
    let alike = |a: &Load, b: &Load| {
        let place = |load: &Load| {
            [&load.extent.x, &load.extent.y, &load.extent.z]
                .map(|reach| reach.cg.as_ref().ok().map(|place| place.metres.to_bits()))
        };
        let mass = |load: &Load| load.mass.value.si().to_bits();
        (mass(a), a.zone, place(a)) == (mass(b), b.zone, place(b)) && a.what.value == b.what.value
    };
    let mut left: Vec<&Load> = others.iter().collect();
    some.len() == others.len()
        && some.iter().all(|load| match left.iter().position(|other| alike(load, other)) {
            Some(at) => {
                left.swap_remove(at);
                true
            }
            None => false,
        })
}

#[cfg(test)]
mod tests;
