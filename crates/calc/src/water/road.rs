//! Tanks on the road: what a part-full one does to the tongue when it runs, and a full one when it is emptied.

use std::rc::Rc;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::kinds::tank as fields;
use pintle_spec::schema::{item, trailer};
use pintle_spec::{Build, Footing, Item, Known, Missing, Named, Spanned, State, Table};

use super::slosh::shift;
use crate::figure::Figure;
use crate::space::{alike, constant, given, sum};
use crate::weights::{WATER_POUNDS_PER_GALLON, Weights};

/// A tank as a state has it.
#[derive(Debug, Clone)]
pub struct Tank<'a> {
    /// Its index in [`Build::items`].
    pub item: usize,
    /// The tank.
    pub body: &'a Item,
    /// How full it is, a share.
    pub fill: Figure,
}

impl Tank<'_> {
    /// Whether it is neither empty nor full.
    pub fn is_part_full(&self) -> bool {
        let fill = self.fill.quantity.si();
        fill > 0.0 && fill < 1.0
    }

    /// Weight of the water in it, in kg: capacity × fill × 8.34 lb/gal.
    ///
    /// # Errors
    /// What it holds, where that is not given.
    pub fn water(&self) -> Known<Figure> {
        water_at(self.body, &self.fill)
    }

    /// How far its water moves fore or aft, and up, in m, on a surface with a slope. Baffles part it into shorter tanks that
    /// are filled alike.
    ///
    /// # Errors
    /// Its length or height, where that is not given.
    pub fn shift(&self, slope: &Figure) -> Known<(Figure, Figure)> {
        shift_at(self.body, &self.fill, slope)
    }
}

/// Weight of water in a tank at a fill.
pub(super) fn water_at(body: &Item, fill: &Figure) -> Known<Figure> {
    let density = constant(WATER_POUNDS_PER_GALLON, "lb/gal")?;
    let water = given(&body.record, &fields::CAPACITY)?.times(fill).times(&density);
    Ok(water.shown_in(if is_metric(body) { "kg" } else { "lb" }))
}

/// Whether a tank's capacity is written in litres.
pub(super) fn is_metric(body: &Item) -> bool {
    let capacity = body.record.quantity(&fields::CAPACITY);
    let unit = capacity.and_then(|capacity| capacity.value.unit());
    unit.is_some_and(|unit| unit.system() == pintle_quantity::System::Metric)
}

fn shift_at(body: &Item, fill: &Figure, slope: &Figure) -> Known<(Figure, Figure)> {
    let (length, height) = (given(&body.record, &item::LENGTH)?, given(&body.record, &item::HEIGHT)?);
    let parts = f64::from(body.record.count(&fields::BAFFLES).map_or(0, |baffles| baffles.value)) + 1.0;
    let inputs = [&length, &height, fill, slope];
    let moved = |[l, h, f, s]: [f64; 4]| shift(l / parts, h, f * h, s);
    let unit = length.quantity.unit().map_or("in", pintle_quantity::Unit::name);
    Ok((
        Figure::by(Dimension::LENGTH, inputs, |given| moved(given).along).shown_in(unit),
        Figure::by(Dimension::LENGTH, inputs, |given| moved(given).up).shown_in(unit),
    ))
}

/// The tanks that are aboard in a state.
///
/// # Errors
/// How full a tank is, where the state does not say.
pub fn tanks_of<'a>(build: &'a Build, state: &State) -> Vec<Known<Tank<'a>>> {
    let aboard = build.of_table(Table::Tank).filter(|(at, _)| !state.out.contains(at));
    let tank = |(item, body): (usize, &'a Item)| {
        let fill = state.fill.iter().find(|(at, _)| *at == item).map(|(_, fill)| *fill);
        let missing = || {
            Missing::new(
                format!("how full {} is in state `{}`", body.called(), state.name.value),
                Some(state.name.span),
                format!(
                    "add it to the state's `fill`, such as `fill = {{ {} = \"100 %\" }}`",
                    body.tag.value
                ),
            )
        };
        let value = fill.ok_or_else(missing)?;
        let owner = format!("{} in state `{}`", body.called(), state.name.value);
        let named = Named { key: "fill", owner: owner.as_str().into(), value, footing: Footing::Fill };
        Ok(Tank { item, body, fill: Figure::given(named) })
    };
    aboard.map(tank).collect()
}

/// Weight that comes onto the tongue, in kg, when the water of tanks runs ahead at a slope: Σ m Δx / L, with the axle L behind the
/// ball. It goes off the tongue when the water runs aft.
///
/// # Errors
/// A measure of a tank, or the place of the axle, that is not given.
pub fn tongue_by_slosh(build: &Build, tanks: &[Tank<'_>], slope: &Figure) -> Known<Figure> {
    let axle = Figure::coordinate(&build.surfaces.axle.clone()?);
    let mut moments = Vec::new();
    for tank in tanks.iter().filter(|tank| tank.is_part_full()) {
        moments.push(tank.water()?.times(&tank.shift(slope)?.0));
    }
    let moment = sum(Dimension::MOMENT, moments)?;
    Ok(moment.over(&axle).shown_in(unit_of_masses(build)))
}

/// The unit in which the trailer's mass is written.
fn unit_of_masses(build: &Build) -> &'static str {
    let mass = build.trailer.quantity(&trailer::MASS);
    mass.and_then(|mass| mass.value.unit()).map_or("lb", pintle_quantity::Unit::name)
}

/// The greatest change of a state's tongue share when every tank aboard, each at its [`worst_fill`], runs ahead or aft.
///
/// # Errors
/// A measure of a tank, the place of the axle, or what the weights of the state need.
pub fn worst_change(build: &Build, state: &State, slope: &Figure) -> Known<Figure> {
    let axle = Figure::coordinate(&build.surfaces.axle.clone()?);
    let mut moments = Vec::new();
    let mut fills = Vec::new();
    for (at, body) in build.of_table(Table::Tank).filter(|(at, _)| !state.out.contains(at)) {
        moments.push(most_slosh(body, slope)?);
        fills.push((at, worst_fill(body)?.quantity.si()));
    }
    let gross = filled(build, state, |at| fills.iter().find(|(tank, _)| *tank == at).map(|(_, fill)| *fill));
    Ok(sum(Dimension::MOMENT, moments)?.over(&axle).over(&gross.gross()?).as_share())
}

/// The fill of a tank at which its water's shift has the greatest moment, of those that the road may find it at: the one nearest to
/// one half.
///
/// # Errors
/// None that a spec which loads can give.
pub fn worst_fill(body: &Item) -> Known<Figure> {
    let bound = |field, otherwise| match body.record.table(&fields::ON_ROAD) {
        Some(limits) => given(limits, field),
        None => Ok(Figure::constant(Quantity::share(otherwise))),
    };
    let least = bound(&fields::on_road::LEAST, 0.0)?;
    let most = bound(&fields::on_road::MOST, 1.0)?;
    let half = Figure::constant(Quantity::share(0.5));
    alike(alike(half.greater(&least))?.lesser(&most))
}

/// The greatest moment of the water's shift in a tank, in kg·m, over every fill that the road may find it at: that of
/// [`worst_fill`].
///
/// # Errors
/// What the tank holds, or its length or height, where that is not given.
pub fn most_slosh(body: &Item, slope: &Figure) -> Known<Figure> {
    let worst = worst_fill(body)?;
    Ok(water_at(body, &worst)?.times(&shift_at(body, &worst, slope)?.0))
}

/// Tongue share of a state with one of its tanks filled to a share.
///
/// # Errors
/// What the weights of the state need.
pub fn share_with(build: &Build, state: &State, tank: usize, share: f64) -> Known<Figure> {
    filled(build, state, |at| (at == tank).then_some(share)).tongue_share()
}

/// The weights of a state with tanks filled otherwise: `fills` tells to what, for each by its index, or none for as it is.
pub(super) fn filled(build: &Build, state: &State, fills: impl Fn(usize) -> Option<f64>) -> Rc<Weights> {
    let mut changed = state.clone();
    for (at, body) in build.of_table(Table::Tank).filter(|(at, _)| !state.out.contains(at)) {
        let Some(share) = fills(at) else { continue };
        let span =
            state.fill.iter().find(|(held, _)| *held == at).map_or(body.tag.span, |(_, fill)| fill.span);
        changed.fill.retain(|(held, _)| *held != at);
        changed.fill.push((at, Spanned::new(Quantity::share(share), span)));
    }
    Weights::of(build, &changed)
}
