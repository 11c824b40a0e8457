//! What is aboard in a state, body by body.

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_spec::record::Record;
use pintle_spec::schema::trailer::{self, axle, cg};
use pintle_spec::schema::{build as build_fields, item, kinds};
use pintle_spec::{
    Build, Coordinate, Extent, Footing, Item, Known, Missing, Named, Reach, Span, Spanned, State, Table,
};

use crate::figure::Figure;

/// Weight of fresh water, in pounds per US gallon. IAPWS-97 gives 8.345 at 4 °C and 8.330 at 20 °C; grey and black
/// water are reckoned alike. The label figure of 49 CFR 571.110 S9.3.5(d), 8.3, is for labels only.
pub const WATER_POUNDS_PER_GALLON: f64 = 8.34;

/// What sort of body it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BodyKind {
    /// The empty trailer.
    Trailer,
    /// A fitted part.
    Fitted,
    /// Water in a tank.
    Water,
    /// A load of the state's.
    Load,
    /// People in a berth.
    People,
}

impl BodyKind {
    /// Whether it belongs to the unloaded trailer.
    pub const fn is_fitted(self) -> bool {
        matches!(self, Self::Trailer | Self::Fitted)
    }

    /// The word for it in tables.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Trailer => "trailer",
            Self::Fitted => "fitted",
            Self::Water => "water",
            Self::Load => "load",
            Self::People => "people",
        }
    }
}

/// One thing aboard.
#[derive(Debug, Clone)]
pub struct Body {
    /// What it is called, such as "item `galley`".
    pub name: String,
    /// What sort it is.
    pub kind: BodyKind,
    /// Where it stands in the files.
    pub span: Option<Span>,
    /// Its mass in kilograms.
    pub kilograms: f64,
    /// What the mass was worked out from: it is the product of them all, and of the times.
    pub inputs: Vec<Named>,
    /// How many of them it is: the number of people, or the density of water; one for a plain mass.
    pub(super) times: f64,
    /// Its centre of gravity behind the ball.
    pub x: Known<Coordinate>,
    /// Its centre of gravity right of the centreline.
    pub y: Known<Coordinate>,
    /// Its centre of gravity above the ground.
    pub z: Known<Coordinate>,
}

impl Body {
    /// Its mass with what it was worked out from.
    pub(crate) fn mass(&self) -> Figure {
        let one = Figure::constant(Quantity::share(self.times));
        let product =
            self.inputs.iter().fold(one, |product, input| product.times(&Figure::given(input.clone())));
        let plain = Quantity::from_si(self.kilograms, Dimension::MASS);
        let shown = self.inputs.first().map_or(plain, |input| plain.with_unit_of(input.value.value));
        Figure::traced(shown, product.trace)
    }

    /// By how much the mass rises with each of its inputs: the product of the others.
    pub(super) fn mass_slopes(&self) -> impl Iterator<Item = f64> {
        let values = || self.inputs.iter().map(|input| input.value.value.si()).enumerate();
        values().map(move |(at, _)| {
            values().filter(|(other, _)| *other != at).fold(self.times, |product, (_, value)| product * value)
        })
    }
}

/// Everything aboard in a state, and the masses that are missing.
pub(super) fn aboard(build: &Build, state: Option<&State>) -> (Vec<Body>, Vec<Missing>) {
    let mut bodies = Vec::new();
    let mut unknown = Vec::new();
    let mut take = |body: Known<Option<Body>>| match body {
        Ok(body) => bodies.extend(body),
        Err(missing) => unknown.push(missing),
    };
    take(bare_trailer(build).map(Some));
    for (at, item) in build.items.iter().enumerate() {
        if item.table != Table::Load && state.is_none_or(|state| !state.out.contains(&at)) {
            take(fitted(item));
            take(bedding(item));
        }
    }
    let Some(state) = state else { return (bodies, unknown) };
    for (at, tank) in build.of_table(Table::Tank) {
        if !state.out.contains(&at) {
            let fill = state.fill.iter().find(|(filled, _)| *filled == at).map(|(_, fill)| *fill);
            take(match fill {
                Some(fill) => water(tank, fill, &state.name.value),
                None => Err(Missing::new(
                    format!("how full {} is in state `{}`", tank.called(), state.name.value),
                    Some(state.name.span),
                    format!(
                        "add it to the state's `fill`, such as `fill = {{ {} = \"100 %\" }}`",
                        tank.tag.value
                    ),
                )),
            });
        }
    }
    for (at, mass) in &state.carry {
        if let Some(item) = build.items.get(*at) {
            let footing = Footing::of(&item.record, &item::MASS);
            let mass = mass.map(|mass| as_sure_as_its_load(item, mass));
            take(Ok(Some(load(item.called(), mass, footing, item.tag.span, &item.extent))));
        }
    }
    for aboard in &state.loads {
        let name = format!("load `{}`", aboard.what.value);
        take(Ok(Some(load(name, aboard.mass, aboard.footing, aboard.span, &aboard.extent))));
    }
    for (at, count) in &state.people {
        if let Some(berth) = build.items.get(*at) {
            take(people(build, berth, *count));
        }
    }
    (bodies, unknown)
}

/// So much of a load as a state carries: without a ± of its own it has that of the whole load, in proportion.
fn as_sure_as_its_load(item: &Item, carried: Quantity) -> Quantity {
    let whole = item.record.quantity(&item::MASS).map(|mass| mass.value);
    match whole.and_then(|whole| Some((whole.si(), whole.tolerance()?.si()))) {
        Some((whole, half_width)) if carried.tolerance().is_none() && whole > 0.0 => {
            carried.with_tolerance(half_width * carried.si() / whole)
        }
        _ => carried,
    }
}

pub(crate) fn load(
    name: String,
    mass: Spanned<Quantity>,
    footing: Footing,
    span: Span,
    extent: &Extent,
) -> Body {
    let input = Named { key: "mass", owner: name.as_str().into(), value: mass, footing };
    Body {
        name,
        kind: BodyKind::Load,
        span: Some(span),
        kilograms: mass.value.si(),
        inputs: vec![input],
        times: 1.0,
        x: extent.x.cg.clone(),
        y: extent.y.cg.clone(),
        z: extent.z.cg.clone(),
    }
}

pub(crate) fn bare_trailer(build: &Build) -> Known<Body> {
    let record = &build.trailer;
    let mass = Named::of(record, &trailer::MASS)?;
    let place = record.need_table(&trailer::CG);
    let of = |field| place.clone().and_then(|cg| Coordinate::of(cg, field));
    let x = match of(&cg::BALL) {
        Ok(stated) => Ok(stated),
        Err(unstated) => by_tongue(record, &mass, &unstated),
    };
    Ok(Body {
        name: "the empty trailer".to_owned(),
        kind: BodyKind::Trailer,
        span: Some(mass.value.span),
        kilograms: mass.value.value.si(),
        inputs: vec![mass],
        times: 1.0,
        x,
        y: of(&cg::CENTRE),
        z: of(&cg::GROUND),
    })
}

/// Where the empty trailer's centre of gravity lies, from its weight on the ball: x = L·(1 − T/W), and so
/// ∂x/∂L = 1 − T/W, ∂x/∂T = −L/W and ∂x/∂W = L·T/W².
fn by_tongue(record: &Record, mass: &Named, unstated: &Missing) -> Known<Coordinate> {
    let Ok(tongue) = Named::of(record, &trailer::TONGUE) else {
        return Err(Missing::new(
            "`tongue` of the trailer, or `ball` of its `cg`",
            unstated.span,
            "weigh the empty trailer's tongue and give it as `tongue`",
        ));
    };
    let axle = record.need_table(&trailer::AXLE).and_then(|group| Coordinate::of(group, &axle::BALL))?;
    let whole = mass.value.value.si();
    let share = tongue.value.value.si() / whole;
    let place = Coordinate::ORIGIN.plus(1.0 - share, &axle);
    let length = axle.metres;
    Ok(place.depending(&tongue, -length / whole).depending(mass, length * share / whole))
}

/// A fitted part. A vent or a berth may go without a mass: it is then part of what carries it.
pub(crate) fn fitted(item: &Item) -> Known<Option<Body>> {
    let mass = match Named::of(&item.record, &item::MASS) {
        Err(_) if matches!(item.table, Table::Vent | Table::Berth | Table::Opening) => return Ok(None),
        mass => mass?,
    };
    Ok(Some(Body {
        name: item.called(),
        kind: BodyKind::Fitted,
        span: Some(item.tag.span),
        kilograms: mass.value.value.si(),
        inputs: vec![mass],
        times: 1.0,
        x: item.extent.x.cg.clone(),
        y: item.extent.y.cg.clone(),
        z: item.extent.z.cg.clone(),
    }))
}

/// Bedding that is kept in a tent.
pub(crate) fn bedding(item: &Item) -> Known<Option<Body>> {
    if item.kind != "tent" {
        return Ok(None);
    }
    let mass = Named::of(&item.record, &kinds::tent::BEDDING)?;
    Ok(Some(Body {
        name: format!("bedding in {}", item.called()),
        kind: BodyKind::Fitted,
        span: Some(mass.value.span),
        kilograms: mass.value.value.si(),
        inputs: vec![mass],
        times: 1.0,
        x: item.extent.x.cg.clone(),
        y: item.extent.y.cg.clone(),
        z: item.extent.z.cg.clone(),
    }))
}

/// Water in a tank: capacity × fill × density, in the middle of the tank, half as high as it stands.
pub(crate) fn water(tank: &Item, fill: Spanned<Quantity>, state: &str) -> Known<Option<Body>> {
    let share = fill.value.si();
    // A tank that may not be quite empty is weighed as empty, and its ± counts.
    if share <= 0.0 && fill.value.tolerance().is_none() {
        return Ok(None);
    }
    let capacity = Named::of(&tank.record, &kinds::tank::CAPACITY)?;
    let density = Unit::find("lb/gal").map_or(0.0, |unit| unit.to_si(WATER_POUNDS_PER_GALLON));
    let kilograms = capacity.value.value.si() * share * density;
    let owner = format!("{} in state `{state}`", tank.called());
    let filled = Named { key: "fill", owner: owner.as_str().into(), value: fill, footing: Footing::Fill };
    let z = || -> Known<Coordinate> {
        let (bottom, top) = (tank.extent.z.near.clone()?, tank.extent.z.far.clone()?);
        let height = top.plus(-1.0, &bottom);
        Ok(bottom.plus(share / 2.0, &height).depending(&filled, height.metres / 2.0))
    };
    Ok(Some(Body {
        name: format!("water in {}", tank.called()),
        kind: BodyKind::Water,
        span: Some(fill.span),
        kilograms,
        x: middle(&tank.extent.x),
        y: middle(&tank.extent.y),
        z: z(),
        inputs: vec![capacity, filled],
        times: density,
    }))
}

/// The middle of a part along one axis, wherever its own centre of gravity lies.
fn middle(reach: &Reach) -> Known<Coordinate> {
    let (near, far) = (reach.near.as_ref().map_err(Clone::clone)?, reach.far.as_ref().map_err(Clone::clone)?);
    Ok(near.mean(far))
}

/// People lie in the middle of their berth, wherever its mattress's own centre of gravity is.
fn people(build: &Build, berth: &Item, count: Spanned<u32>) -> Known<Option<Body>> {
    if count.value == 0 {
        return Ok(None);
    }
    let Some(record) = &build.people else {
        return Err(Missing::new(
            "the weight of a person",
            Some(count.span),
            "add `[people]` with `mass`, the weight reckoned for each person",
        ));
    };
    let mass = Named::of(record, &build_fields::people::MASS)?;
    Ok(Some(Body {
        name: format!(
            "{} in {}",
            if count.value == 1 { "one person".to_owned() } else { format!("{} people", count.value) },
            berth.called()
        ),
        kind: BodyKind::People,
        span: Some(count.span),
        kilograms: mass.value.value.si() * f64::from(count.value),
        inputs: vec![mass],
        times: f64::from(count.value),
        x: middle(&berth.extent.x),
        y: middle(&berth.extent.y),
        z: middle(&berth.extent.z),
    }))
}
