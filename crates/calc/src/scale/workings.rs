//! Every figure of the topic, with how it came about.

mod sought;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::record::{self, ticket};
use pintle_spec::{Known, Missing, State, Use, days_between};

use super::drift::worked_out;
use super::reading::{Of, Ticket, tickets};
use super::weighed::{self, Weighed};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, constant};
use crate::uncertainty;
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

const CAUTION: &str = "a ticket is as good as the scale, and as the way the trailer stood on it: level, chocked, tongue held \
     at the height of the ball, and loaded as the state says";

const ROUNDING: Origin =
    Origin::memory("JCGM 100:2008 (GUM), F.2.2.1: step / √12 for a display of steps, shown as twice that");

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    // A build that records nothing yet has not come so far.
    if case.build.record.is_none() {
        return Vec::new();
    }
    let tickets = tickets(case.build);
    let mut all: Vec<Working> = ticketed(case, &tickets);
    for ticket in &tickets {
        all.extend(residuals(case, ticket));
        all.extend(balances(ticket));
        all.extend(as_weighed(case, ticket));
        all.extend(age(case, ticket));
    }
    if !tickets.is_empty() {
        all.extend(sought::workings(case));
    }
    all.into_iter().map(|working| working.warned(CAUTION)).collect()
}

/// Whether each road state was on the scale.
fn ticketed(case: &Case<'_>, tickets: &[Ticket<'_>]) -> Vec<Working> {
    let states = case.build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road);
    let working = |(at, state): (usize, &State)| {
        let of = format!("state `{}`", state.name.value);
        let was = tickets.iter().any(|ticket| ticket.state == at);
        Working::of("scale", "has_ticket", of, "a scale ticket is recorded of it", |_| Ok(was))
    };
    states.map(working).collect()
}

/// For each reading, its names: the difference, and the difference over its ±.
const fn names(of: Of) -> [[&'static str; 2]; 2] {
    match of {
        Of::Gross => [
            ["gross_residual", "gross weight on the scale less the sum of the parts"],
            ["gross_residual_over_spread", "that difference over its ±"],
        ],
        Of::Tongue => [
            ["tongue_residual", "tongue weight on the scale less what was worked out"],
            ["tongue_residual_over_spread", "that difference over its ±"],
        ],
        Of::Axles => [
            ["axles_residual", "axle load on the scale less what was worked out"],
            ["axles_residual_over_spread", "that difference over its ±"],
        ],
        Of::Left => [
            ["left_residual", "load of the left wheels on the scale less what was worked out"],
            ["left_residual_over_spread", "that difference over its ±"],
        ],
        Of::Right => [
            ["right_residual", "load of the right wheels on the scale less what was worked out"],
            ["right_residual_over_spread", "that difference over its ±"],
        ],
    }
}

fn residuals(case: &Case<'_>, ticket: &Ticket<'_>) -> Vec<Working> {
    let weights = Weights::of_state(case.build, ticket.state);
    let written = Of::ALL.into_iter().filter(|of| match &ticket.readings {
        Ok(readings) => readings.iter().any(|reading| reading.of == *of),
        // How sure they are is missing; each that is written says so.
        Err(_) => ticket.record.quantity(of.field()).is_some(),
    });
    let residual = |work: &mut Work, of: Of| -> Known<Figure> {
        let read = ticket.read(of)?.ok_or_else(|| ticket.lacks("the reading", "report this"))?;
        let r = work.step("r", "on the scale", "", Ok(read.figure.clone()), ROUNDING)?;
        let c =
            work.step("c", of.measure().word(), "", worked_out(&weights, of), Origin::derived("weights"))?;
        work.step("d", "difference", "r − c", alike(r.minus(&c)), Origin::derived("difference"))
    };
    written
        .flat_map(|of| {
            let [[key, says], [over_key, over_says]] = names(of);
            let difference = Working::of("scale", key, &ticket.name, says, |work| residual(work, of));
            let over = Working::of("scale", over_key, &ticket.name, over_says, |work| {
                let d = residual(work, of)?;
                let width = uncertainty::expanded(&d.trace, case.assumptions.tolerances());
                let width = width.filter(|width| *width > 0.0).ok_or_else(|| {
                    ticket.lacks("the ± of the difference", "give each mass and place that it rests on a ±")
                })?;
                let t = Figure::constant(Quantity::from_si(width, Dimension::MASS).with_unit_of(d.quantity));
                work.know(
                    "t",
                    "± of the difference",
                    t,
                    Origin::derived("JCGM 100:2008 (GUM), 5.1.2, twice"),
                );
                let over = Figure::constant(Quantity::share(d.quantity.si().abs() / width));
                work.step("", "difference over its ±", "|d| / t", Ok(over), Origin::derived("definition"))
            });
            [difference, over]
        })
        .collect()
}

/// The most that several readings can be off together.
fn most(of: &[&Weighed]) -> Figure {
    let most: f64 = of.iter().map(|weighed| weighed.most).sum();
    let plain = Quantity::from_si(most, Dimension::MASS);
    let unit = of.first().map(|weighed| weighed.figure.quantity);
    Figure::constant(unit.map_or(plain, |unit| plain.with_unit_of(unit)))
}

const HALF_STEPS: Origin =
    Origin::derived("half a step each, or the ± that is stated; the worst case adds them up");

fn balances(ticket: &Ticket<'_>) -> Vec<Working> {
    let read = |of: Of| -> Known<Option<Weighed>> {
        let read = ticket.read(of)?;
        Ok(read.map(|read| Weighed { figure: read.figure.clone(), most: read.most, formula: "" }))
    };
    let by_difference = ticket.record.word(&ticket::TONGUE_BY).is_some_and(|by| by.value == "difference");
    let out = |work: &mut Work, parts: [Of; 2], whole: Of| -> Known<Option<[Figure; 2]>> {
        let [one, other] = parts;
        let (Some(one), Some(other), Some(whole)) = (read(one)?, read(other)?, read(whole)?) else {
            return Ok(None);
        };
        let a = work.step("a", parts[0].measure().word(), "", Ok(one.figure.clone()), ROUNDING)?;
        let b = work.step("b", parts[1].measure().word(), "", Ok(other.figure.clone()), ROUNDING)?;
        let w = work.step("w", "the two together", "", Ok(whole.figure.clone()), ROUNDING)?;
        let sum = alike(a.plus(&b))?;
        let out =
            work.step("d", "out of balance", "a + b − w", alike(sum.minus(&w)), Origin::derived("sum"))?;
        let slack = work.know("t", "what the scale may be off", most(&[&one, &other, &whole]), HALF_STEPS);
        Ok(Some([out, slack]))
    };
    let pair = |keys: [[&'static str; 2]; 2], parts: [Of; 2], whole: Of, trivial: bool, lacking: &str| {
        let none = || Outcome::None(lacking.to_owned());
        let same = || Outcome::None("the tongue weight is the difference of the two others".to_owned());
        let [[key, says], [flag, holds]] = keys;
        let amount = Working::of("scale", key, &ticket.name, says, |work| {
            if trivial {
                return Ok(same());
            }
            Ok(out(work, parts, whole)?.map_or_else(none, |[out, _]| out.into()))
        });
        let balanced = Working::of("scale", flag, &ticket.name, holds, |work| {
            if trivial {
                return Ok(same());
            }
            let Some([out, slack]) = out(work, parts, whole)? else { return Ok(none()) };
            Ok(Outcome::Flag(alike(out.quantity.abs().at_most(slack.quantity))?))
        });
        [amount, balanced]
    };
    let tongue = pair(
        [
            ["out_of_balance", "tongue and axles on the scale less the gross weight"],
            ["in_balance", "tongue and axles agree with the gross weight, to what the scale can tell"],
        ],
        [Of::Tongue, Of::Axles],
        Of::Gross,
        by_difference,
        "tongue, axles and gross weight were not all read",
    );
    let sides = pair(
        [
            ["sides_out_of_balance", "left and right wheels on the scale less the axle load"],
            ["sides_in_balance", "left and right agree with the axle load, to what the scale can tell"],
        ],
        [Of::Left, Of::Right],
        Of::Axles,
        false,
        "left, right and axle load were not all read",
    );
    tongue.into_iter().chain(sides).collect()
}

const READ: Origin = Origin::derived("as the scale has it");

fn note(work: &mut Work, symbol: &'static str, what: &str, weighed: &Weighed) -> Known<Figure> {
    work.step(symbol, what, weighed.formula, Ok(weighed.figure.clone()), READ)
}

type Take = fn(&Ticket<'_>) -> Known<Weighed>;

fn as_weighed(case: &Case<'_>, ticket: &Ticket<'_>) -> Vec<Working> {
    let of = ticket.name.as_str();
    let weights = Weights::of_state(case.build, ticket.state);
    let weight = |key, says, take: Take| {
        Working::of("scale", key, of, says, |work| note(work, "W", says, &take(ticket)?))
    };
    let side = |key, says, side: Of| {
        Working::of("scale", key, of, says, |work| {
            let Some(found) = weighed::side(ticket, side)? else {
                return Ok(Outcome::None("the sides were not weighed".to_owned()));
            };
            Ok(note(work, "W", says, &found)?.into())
        })
    };
    let share = |work: &mut Work| -> Known<Figure> {
        let t = note(work, "T", "tongue weight", &weighed::tongue(ticket)?)?;
        let w = note(work, "W", "gross weight", &weighed::gross(ticket)?)?;
        work.step(
            "s",
            "share on the tongue",
            "T / W",
            Ok(t.over(&w).as_share()),
            Origin::derived("definition"),
        )
    };
    vec![
        weight("weighed_gross", "gross weight as weighed", weighed::gross),
        weight("weighed_tongue", "tongue weight as weighed", weighed::tongue),
        weight("weighed_axles", "axle load as weighed", weighed::axles),
        side("weighed_left", "load of the left wheels as weighed", Of::Left),
        side("weighed_right", "load of the right wheels as weighed", Of::Right),
        Working::of("scale", "weighed_tongue_share", of, "tongue share as weighed", share),
        Working::of("scale", "weighed_side_share", of, "side imbalance as weighed", |work| {
            let sides = (weighed::side(ticket, Of::Left)?, weighed::side(ticket, Of::Right)?);
            let (Some(left), Some(right)) = sides else {
                return Ok(Outcome::None("the sides were not weighed".to_owned()));
            };
            let l = note(work, "l", "left wheels", &left)?;
            let r = note(work, "r", "right wheels", &right)?;
            let uneven = alike(r.minus(&l))?.abs().over(&alike(r.plus(&l))?).as_share();
            let step =
                work.step("", "imbalance", "|r − l| / (r + l)", Ok(uneven), Origin::derived("definition"))?;
            Ok(step.into())
        }),
        Working::of("scale", "tongue_spread", of, "how far the tongue weight can be off at most", |work| {
            let tongue = weighed::tongue(ticket)?;
            note(work, "T", "tongue weight", &tongue)?;
            Ok(work.know("t", "half steps together", most(&[&tongue]), HALF_STEPS))
        }),
        Working::of(
            "scale",
            "tongue_share_spread",
            of,
            "how far the tongue share can be off by that",
            |work| {
                let tongue = weighed::tongue(ticket)?;
                let t = work.know("t", "how far the tongue weight can be off", most(&[&tongue]), HALF_STEPS);
                let w = note(work, "W", "gross weight", &weighed::gross(ticket)?)?;
                let spread = Ok(t.over(&w).as_share());
                work.step("", "points of tongue share", "t / W", spread, Origin::derived("first order in T"))
            },
        ),
        Working::of(
            "scale",
            "weight_drift",
            of,
            "gross weight as weighed less the sum of the parts",
            |work| {
                let w = note(work, "W", "gross weight", &weighed::gross(ticket)?)?;
                let c = work.step("c", "sum of the parts", "Σ m", weights.gross(), Origin::derived("sum"))?;
                work.step(
                    "d",
                    "weight that nobody accounts for",
                    "W − c",
                    alike(w.minus(&c)),
                    Origin::derived("difference"),
                )
            },
        ),
        Working::of(
            "scale",
            "tongue_share_drift",
            of,
            "tongue share as weighed less what was worked out",
            |work| {
                let s = share(work)?;
                let c =
                    work.step("c", "worked out", "", weights.tongue_share(), Origin::derived("weights"))?;
                let drift = alike(s.minus(&c))?.as_share();
                work.step("d", "points of tongue share", "s − c", Ok(drift), Origin::derived("difference"))
            },
        ),
    ]
}

/// How old a ticket is on the day of delivery; no figure where the record names no such day.
fn age(case: &Case<'_>, ticket: &Ticket<'_>) -> Option<Working> {
    let delivered = case.build.record.as_ref()?.text(&record::DELIVERED)?;
    Some(Working::of("scale", "ticket_age", &ticket.name, "age of the ticket at delivery", |_| {
        let lacks = || ticket.lacks("the day", "give `date`, the day it was weighed, such as `2026-05-02`");
        let weighed = ticket.record.text(&ticket::DATE).ok_or_else(lacks)?;
        let days = days_between(weighed.value, delivered.value)
            .ok_or_else(|| Missing::new("a day of the calendar", Some(weighed.span), "report this"))?;
        constant(f64::from(days), "d")
    }))
}
