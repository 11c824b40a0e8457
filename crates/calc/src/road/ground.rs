//! How near the ground the trailer comes, and how steep a ramp it can leave.

use pintle_quantity::Dimension;
use pintle_spec::schema::trailer::{self, axle, tire};
use pintle_spec::{Build, Item, Known, Missing, Table, Zone};

use crate::figure::Figure;
use crate::space::{alike, between, given, least};

/// Angle between the ground and a plane that touches the tire behind and a point of the trailer, in radians: the
/// departure angle of that point (as ISO 612 words it, from memory). The point stands `d` behind the middle of the
/// wheel and `z` above the ground, the wheel's middle `r` above the ground.
///
/// The plane rises from the ground by θ and touches the circle of radius r; with t = tan(θ/2), its distance from the
/// middle gives z = (d − r·t)·tan θ, so t = z / (d + √(d² + z·(z − 2r))) (geometry). Without a wheel (r = 0) it is
/// atan(z/d).
///
/// ```
/// use pintle_calc::{Figure, road::ground::departure};
/// use pintle_quantity::Quantity;
///
/// let of = |inches| Figure::constant(Quantity::inches(inches));
/// let flat = departure(&of(60.0), &of(20.0), &of(0.0));
/// assert!((flat.quantity.si() - (20.0_f64 / 60.0).atan()).abs() < 1e-12);
/// assert!(departure(&of(60.0), &of(20.0), &of(13.0)).quantity.si() > flat.quantity.si());
/// ```
#[must_use]
pub fn departure(d: &Figure, z: &Figure, r: &Figure) -> Figure {
    Figure::by(Dimension::ANGLE, [d, z, r], |[d, z, r]| {
        2.0 * (z / (d + (d * d + z * (z - 2.0 * r)).sqrt())).atan()
    })
    .shown_in("°")
}

/// Whether a point stands out behind the tire, seen from the side: one ahead of the wheel's middle or within the tire
/// touches no ramp that the tire does not touch first.
fn stands_out(d: f64, z: f64, r: f64) -> bool {
    d > 0.0 && d * d + z * (z - 2.0 * r) > 0.0
}

/// Parts that hang low: below the floor, through it, on the tongue, or on the rear door.
fn low_parts(build: &Build) -> impl Iterator<Item = &Item> {
    let hangs = |zone| matches!(zone, Zone::Underside | Zone::Floor | Zone::RearDoor | Zone::Tongue);
    let flush = |table| matches!(table, Table::Vent | Table::Opening | Table::Berth | Table::Bulkhead);
    build.items.iter().filter(move |body| hangs(body.zone) && !flush(body.table))
}

/// Height of the lowest of the trailer above the ground, wheels left out, in m: as it came, and of all that hangs low.
///
/// # Errors
/// `ground_clearance` of the trailer, or the height of a part that hangs low.
pub fn ground_clearance(build: &Build) -> Known<Figure> {
    let own = given(&build.trailer, &trailer::GROUND_CLEARANCE)?;
    let mut all = vec![own.clone()];
    for body in low_parts(build) {
        all.push(Figure::coordinate(&body.extent.z.near.clone()?));
    }
    Ok(least(all).unwrap_or(own))
}

/// The least departure angle, in radians: of the rear end as it came, and of every part that hangs low behind the
/// rearmost axle. Of a group the rearmost axle stands half its spread behind the middle.
///
/// # Errors
/// `rear_clearance` of the trailer, `radius` of the tires, where axle and rear are, `spread` of two axles, or the place
/// of a part that hangs low; or a rear end, where nothing stands out behind the tires.
pub fn departure_angle(build: &Build) -> Known<Figure> {
    let wheel = build.surfaces.axle.clone()?;
    let group = build.trailer.need_table(&trailer::AXLE)?;
    let count = group.need_count(&axle::COUNT)?.value;
    let r = given(build.trailer.need_table(&trailer::TIRE)?, &tire::RADIUS)?;
    let behind = if count > 1 {
        Some(given(group, &axle::SPREAD)?.scaled(0.5 * (f64::from(count) - 1.0)))
    } else {
        None
    };
    let from_wheel = |place: &pintle_spec::Coordinate| -> Known<Figure> {
        let d = between(&wheel, place);
        match &behind {
            Some(behind) => alike(d.minus(behind)),
            None => Ok(d),
        }
    };
    let d = from_wheel(&build.surfaces.rear_outside.clone()?)?;
    let mut points = vec![(d, given(&build.trailer, &trailer::REAR_CLEARANCE)?)];
    for body in low_parts(build) {
        let d = from_wheel(&body.extent.x.far.clone()?)?;
        points.push((d, Figure::coordinate(&body.extent.z.near.clone()?)));
    }
    points.retain(|(d, z)| stands_out(d.quantity.si(), z.quantity.si(), r.quantity.si()));
    least(points.iter().map(|(d, z)| departure(d, z, &r))).ok_or_else(|| {
        Missing::new(
            "a rear end behind the wheels",
            Some(build.number.span),
            "correct the places of axle and box: nothing stands out behind the tires",
        )
    })
}
