//! Which parts have to be held, what each weighs with all that is kept in it, and where that weight lies.

use std::collections::BTreeMap;
use std::rc::Rc;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::field::Field;
use pintle_spec::schema::kinds::{tank, tent};
use pintle_spec::schema::{anchors, item};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Reach, Record, Table, Zone};

use super::G;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, between_kin, constant, given, sum};
use crate::weights::WATER_POUNDS_PER_GALLON;
use crate::working::Work;

/// Kinds of parts that have to be held whether or not their spec says how.
const KINDS: &[&str] =
    &["module", "equipment", "cylinder", "appliance", "battery", "tank", "locker", "load", "ladder"];

/// Parts that are kept one in another so many times over are said to be a loop.
const DEEPEST: usize = 16;

/// What is kept in each part, by the tag of that part.
type Kept<'b> = BTreeMap<&'b str, Vec<&'b Item>>;

/// A part that has to be held.
#[derive(Debug, Clone)]
pub struct Held<'b> {
    /// Its build.
    pub build: &'b Build,
    /// The part.
    pub body: &'b Item,
    /// Gathered once for all parts of the build.
    kept: Rc<Kept<'b>>,
}

/// Something with a weight and the middle of it.
pub(super) struct Weight {
    what: String,
    mass: Figure,
    at: [Known<Coordinate>; 3],
}

/// The parts that have to be held: of every kind that could come loose, and whatever else states `anchors`.
pub fn held_parts(build: &Build) -> impl Iterator<Item = Held<'_>> {
    let wanted = |body: &&Item| KINDS.contains(&body.kind) || body.record.table(&item::ANCHORS).is_some();
    let mut kept = Kept::new();
    for body in &build.items {
        if let Some(keeper) = keeper_of(body) {
            kept.entry(keeper).or_default().push(body);
        }
    }
    let kept = Rc::new(kept);
    build.items.iter().filter(wanted).map(move |body| Held { build, body, kept: Rc::clone(&kept) })
}

/// The part that another is kept in.
fn keeper_of(body: &Item) -> Option<&str> {
    let anchors = body.record.table(&item::ANCHORS)?;
    anchors.text(&anchors::HELD_BY).map(|tag| tag.value)
}

impl<'b> Held<'b> {
    /// Its `anchors`.
    ///
    /// # Errors
    /// The table, where the spec does not say how the part is held.
    pub fn anchors(&self) -> Known<&'b Record> {
        self.body.record.need_table(&item::ANCHORS)
    }

    /// The part that it is kept in.
    pub(super) fn keeper(&self) -> Option<&'b str> {
        keeper_of(self.body)
    }

    /// Whether its spec says that nothing holds it.
    pub(super) fn loose(&self) -> bool {
        let anchors = self.body.record.table(&item::ANCHORS);
        anchors.and_then(|anchors| anchors.flag(&anchors::LOOSE)).is_some_and(|loose| loose.value)
    }

    /// Whether a wall or another part keeps it from moving to a side.
    pub(super) fn blocked(&self, side: &str) -> bool {
        let anchors = self.body.record.table(&item::ANCHORS);
        let blocked = anchors.and_then(|anchors| anchors.words(&anchors::BLOCKED)).unwrap_or_default();
        blocked.iter().any(|word| word.value == side)
    }

    /// Whether the vehicle's structure holds it all round: it is in the box, or in a locker or tent that is.
    pub(super) fn contained(&self) -> bool {
        let mut zone = self.body.zone;
        for _ in 0..DEEPEST {
            match zone {
                Zone::Inside | Zone::Floor => return true,
                Zone::Locker(at) => match self.build.items.get(at) {
                    Some(host) => zone = host.zone,
                    None => return false,
                },
                _ => return false,
            }
        }
        false
    }

    /// Why it has no foot to tip over, if it has none.
    pub(super) fn footless(&self) -> Option<&'static str> {
        if self.is_point() {
            return Some("it is a load without a size: a point has no foot to tip over");
        }
        let hangs = matches!(
            self.body.zone,
            Zone::LeftWall | Zone::RightWall | Zone::FrontWall | Zone::RearDoor | Zone::Underside
        );
        let anchors = self.body.record.table(&item::ANCHORS);
        let hung = anchors.and_then(|anchors| anchors.flag(&anchors::HUNG)).is_some_and(|hung| hung.value);
        (hangs || hung).then_some("it hangs on a wall: it has no foot to tip over")
    }

    /// Whether it is a load that states no size at all, and so is a point.
    pub(super) fn is_point(&self) -> bool {
        let sizes = [&item::LENGTH, &item::WIDTH, &item::HEIGHT];
        self.body.table == Table::Load
            && sizes.into_iter().all(|field| self.body.record.value(field.key).is_none())
    }

    /// The part and all that is kept in it, tanks as full as they ride.
    pub(super) fn weights(&self) -> Known<Vec<Weight>> {
        let mut found = Vec::new();
        self.gather(&mut found, 0)?;
        Ok(found)
    }

    fn gather(&self, found: &mut Vec<Weight>, depth: usize) -> Known<()> {
        if depth > DEEPEST {
            return Err(Missing::new(
                format!("a part that in the end holds {}", self.body.called()),
                Some(self.body.tag.span),
                "let `held_by` name a part with anchors of its own",
            ));
        }
        let (body, extent) = (self.body, &self.body.extent);
        let cg = |extent: &Extent| [extent.x.cg.clone(), extent.y.cg.clone(), extent.z.cg.clone()];
        found.push(Weight { what: body.called(), mass: given(&body.record, &item::MASS)?, at: cg(extent) });
        if body.table == Table::Tank {
            let capacity = given(&body.record, &tank::CAPACITY)?;
            let most = match body.record.table(&tank::ON_ROAD) {
                Some(on_road) => given(on_road, &tank::on_road::MOST)?,
                None => Figure::constant(Quantity::share(1.0)),
            };
            let density = constant(WATER_POUNDS_PER_GALLON, "lb/gal")?;
            found.push(Weight {
                what: format!("water in {}", body.called()),
                mass: capacity.times(&most).times(&density).shown_in("lb"),
                at: [middle(&extent.x), middle(&extent.y), middle(&extent.z)],
            });
        }
        if body.kind == "tent" {
            let mass = given(&body.record, &tent::BEDDING)?;
            found.push(Weight { what: format!("bedding in {}", body.called()), mass, at: cg(extent) });
        }
        for inner in self.kept.get(body.tag.value.as_str()).into_iter().flatten() {
            Held { body: inner, ..self.clone() }.gather(found, depth + 1)?;
        }
        Ok(())
    }

    /// Notes what it weighs with all that is kept in it, as a mass.
    pub(super) fn mass(&self, work: &mut Work) -> Known<Figure> {
        let weights = self.weights()?;
        let alone = weights.len() == 1;
        let symbol = if alone { "m" } else { "mᵢ" };
        for weight in &weights {
            work.take(symbol, format!("weight of {}", weight.what), Ok(weight.mass.clone()))?;
        }
        if alone {
            return weights
                .into_iter()
                .next()
                .map(|weight| weight.mass)
                .ok_or_else(|| self.body.record.missing(&item::MASS));
        }
        let all = sum(Dimension::MASS, weights.into_iter().map(|weight| weight.mass))?.shown_in("lb");
        work.step("m", "all of it together", "Σ mᵢ", Ok(all), Origin::derived("sum"))
    }

    /// Notes the force of its weight.
    pub(super) fn weight(&self, work: &mut Work) -> Known<Figure> {
        let m = self.mass(work)?;
        let w = m.times(&gravity()).shown_in("lbf");
        work.step("W", "its weight as a force", "m · g", Ok(w), Origin::derived("g = 9.80665 m/s²"))
    }

    /// From a face of the part to the centre of gravity of it and of all that is kept in it, along an axis: 0 fore and aft, 1
    /// across, 2 upright. `far` measures from the rear, right or top face.
    pub(super) fn depth(&self, axis: usize, far: bool) -> Known<Figure> {
        let sized: [&'static Field; 3] = [&item::LENGTH, &item::WIDTH, &item::HEIGHT];
        for field in sized.into_iter().skip(axis).take(1) {
            self.body.record.need(field)?;
        }
        let extent = &self.body.extent;
        let reach = [&extent.x, &extent.y, &extent.z];
        let Some(reach) = reach.get(axis) else {
            return Err(Missing::new("an axis", None, "report this"));
        };
        let face = if far { reach.far.clone()? } else { reach.near.clone()? };
        let called = self.body.called();
        let apart = |place: &Coordinate| {
            if far { between_kin(place, &face, &called) } else { between_kin(&face, place, &called) }
        };
        let weights = self.weights()?;
        let mut moments = Vec::new();
        let mut masses = Vec::new();
        for weight in weights {
            let Some(place) = weight.at.into_iter().nth(axis) else { continue };
            let apart = apart(&place?);
            moments.push(weight.mass.times(&apart));
            masses.push(weight.mass);
            if moments.len() == 1 && self.is_plain()? {
                return Ok(apart);
            }
        }
        let moment = sum(Dimension::MOMENT, moments)?;
        let mass = sum(Dimension::MASS, masses)?;
        if mass.quantity.si() <= 0.0 {
            return Err(Missing::new(
                format!("any weight of {called}"),
                Some(self.body.tag.span),
                "give its `mass`",
            ));
        }
        Ok(moment.over(&mass))
    }

    /// Whether it holds nothing but itself.
    fn is_plain(&self) -> Known<bool> {
        Ok(self.weights()?.len() == 1)
    }
}

/// The lesser of two figures that the schema has made alike.
pub(super) fn lesser(one: &Figure, other: &Figure) -> Known<Figure> {
    alike(one.lesser(other))
}

/// Standard gravity.
pub(super) fn gravity() -> Figure {
    Figure::constant(Quantity::from_si(G, Dimension::ACCELERATION))
}

/// The middle of a part along one axis.
fn middle(reach: &Reach) -> Known<Coordinate> {
    let (near, far) = (reach.near.as_ref().map_err(Clone::clone)?, reach.far.as_ref().map_err(Clone::clone)?);
    Ok(near.mean(far))
}
