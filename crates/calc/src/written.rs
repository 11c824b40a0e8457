//! What a spec itself is worth: how much of it was guessed, what in it is never used, and which of its figures look like
//! a slip of units.

mod range;

use pintle_quantity::Quantity;
use pintle_spec::schema::kinds::load;
use pintle_spec::{Build, Footing, Item, Known, Missing, State, Table, Use};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::sum;
use crate::weights::{Body, BodyKind, Weights};
use crate::working::{Outcome, Work, Working};

/// So many of the heaviest guesses are named.
const NAMED: usize = 5;

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let on_road: Vec<(usize, &State)> =
        build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road).collect();
    let names = on_road.iter().map(|(_, state)| state.name.value.clone()).collect();
    let mut all = vec![Working::of("spec", "road_states", "the build", "states on the road", |_| {
        Ok(Outcome::Texts(names))
    })];
    for (at, state) in &on_road {
        let weights = Weights::of_state(build, *at);
        let mut guesses: Vec<&Body> = weights.bodies.iter().filter(|body| is_guessed(body)).collect();
        guesses.sort_by(|one, other| other.kilograms.total_cmp(&one.kilograms));
        let of = format!("state `{}`", state.name.value);
        all.push(Working::of(
            "spec",
            "guessed_share",
            &of,
            "share of the gross weight that was guessed",
            |work| guessed_share(work, &guesses, &weights),
        ));
        all.push(Working::of("spec", "guessed_parts", &of, "what was guessed, the heaviest first", |_| {
            let told = |body: &&Body| {
                let mass = body.mass().quantity.show(pintle_quantity::Units::AsWritten);
                format!("{} {mass}", body.name)
            };
            Ok(Outcome::Texts(guesses.iter().take(NAMED).map(told).collect()))
        }));
    }
    all.extend(build.items.iter().enumerate().filter(|(_, item)| may_be_unused(item)).map(|(at, item)| {
        let says = "whether any state has it aboard, filled or slept in";
        Working::of("spec", "used", item.called(), says, |_| used(build, at, item))
    }));
    all.extend(range::workings(build));
    all
}

/// Whether a body's mass was guessed, or nobody says how it is known.
fn is_guessed(body: &Body) -> bool {
    matches!(body.kind, BodyKind::Trailer | BodyKind::Fitted | BodyKind::Load)
        && body.kilograms > 0.0
        && body.inputs.iter().any(|input| matches!(input.footing, Footing::Guessed | Footing::Unstated))
}

fn guessed_share(work: &mut Work, guesses: &[&Body], weights: &std::rc::Rc<Weights>) -> Known<Figure> {
    let gross = work.step("W", "gross weight", "Σ m", weights.gross(), Origin::derived("sum"))?;
    if guesses.is_empty() {
        return Ok(Figure::constant(Quantity::share(0.0)));
    }
    let part = sum(pintle_quantity::Dimension::MASS, guesses.iter().map(|body| body.mass()));
    let part = work.step("g", "of it guessed", "Σ m", part, Origin::derived("sum"))?;
    work.step("", "share", "g / W", Ok(part.over(&gross).as_share()), Origin::derived("definition"))
}

/// Whether it is for some state to say that a part is used at all.
fn may_be_unused(item: &Item) -> bool {
    item.removable || matches!(item.table, Table::Load | Table::Tank | Table::Berth)
}

fn used(build: &Build, at: usize, item: &Item) -> Known<Outcome> {
    if build.states.is_empty() {
        return Err(Missing::new(
            "a state",
            Some(build.number.span),
            "add a `[[state]]` for each way it is used",
        ));
    }
    let some = |amount: Quantity| amount.si() > 0.0;
    // A load of which some must ride along is always aboard.
    let rides =
        item.table == Table::Load && item.record.quantity(&load::LEAST).is_none_or(|least| some(least.value));
    let in_state = |state: &State| match item.table {
        Table::Load => state.carry.iter().any(|(load, amount)| *load == at && some(amount.value)),
        Table::Tank => {
            !state.out.contains(&at) && state.fill.iter().any(|(tank, fill)| *tank == at && some(fill.value))
        }
        Table::Berth => state.people.iter().any(|(berth, count)| *berth == at && count.value > 0),
        _ => !state.out.contains(&at),
    };
    Ok(Outcome::Flag(rides || build.states.iter().any(in_state)))
}

#[cfg(test)]
mod tests;
