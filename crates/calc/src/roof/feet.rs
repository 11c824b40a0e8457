//! Where a rack's feet stand, and what each carries.
//!
//! The rack is two rails, each a beam that runs over its row of feet and is stiff alike throughout; the feet do not give way. Each
//! thing on the rack lies evenly on both rails between its front and its rear, less of it where its centre of gravity is not
//! in its middle, and is parted between left and right by the lever of its centre of gravity.

use pintle_quantity::Dimension;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::rack as fields;
use pintle_spec::schema::kinds::rack::feet_at;
use pintle_spec::{Build, Coordinate, Extent, Known, Missing, Record, Zone};

use super::beam::{Patch, reactions};
use super::loads::{Laid, laid_moving, laid_parked, the_rack};
use super::slopes::by;
use crate::figure::Figure;
use crate::space::given;

/// A row of feet: one left, one right.
#[derive(Debug, Clone)]
pub struct Row {
    /// How far behind the ball.
    pub x: Coordinate,
    /// Where the left foot stands, right of the centreline.
    pub left: Coordinate,
    /// Where the right foot stands, right of the centreline.
    pub right: Coordinate,
}

/// What the two feet of a row carry, in kg; negative where the rack pulls up.
#[derive(Debug, Clone)]
pub struct OnRow {
    /// The left foot.
    pub left: Figure,
    /// The right foot.
    pub right: Figure,
}

/// The rows of a rack's feet, from the front. `rack` is an index of [`Build::items`].
///
/// # Errors
/// Where the feet stand, or the rack does, where that is not given; or `feet` that do not agree with it.
pub fn rows(build: &Build, rack: usize) -> Known<Vec<Row>> {
    let body = the_rack(build, rack)?;
    let (left, right) = (body.extent.y.near.clone()?, body.extent.y.far.clone()?);
    let middle = left.mean(&right);
    let gauge = match Coordinate::of(&body.record, &fields::FOOT_GAUGE) {
        Ok(gauge) => gauge,
        Err(_) => Coordinate::of(&body.record, &item::WIDTH)?,
    };
    let front = body.extent.x.near.clone()?;
    let row = |behind: &Coordinate| Row {
        x: front.plus(1.0, behind),
        left: middle.plus(-0.5, &gauge),
        right: middle.plus(0.5, &gauge),
    };
    let mut rows: Vec<Row> = offsets(&body.record)?.iter().map(row).collect();
    rows.sort_by(|one, other| one.x.metres.total_cmp(&other.x.metres));
    Ok(rows)
}

/// More rows of feet than any rack has.
const MANY: usize = 50;

/// How far behind the rack's front edge each row of its feet is.
fn offsets(rack: &Record) -> Known<Vec<Coordinate>> {
    let listed = rack.tables(&fields::FEET_AT);
    let even = rack.quantity(&fields::FOOT_FIRST).or_else(|| rack.quantity(&fields::FOOT_SPACING));
    if let (Some(even), false) = (even, listed.is_empty()) {
        return Err(Missing::new(
            format!("one way to say where the feet of {} stand", rack.what),
            Some(even.span),
            "keep `feet_at`, or `foot_first` and `foot_spacing`",
        ));
    }
    let feet = rack.count(&fields::FEET);
    let so_many = feet.map_or(0, |feet| usize::try_from(feet.value / 2).unwrap_or(usize::MAX));
    if listed.len().max(so_many) > MANY {
        let span = feet.map_or(rack.span, |feet| feet.span);
        let what = format!("no more than {MANY} rows of feet under {}", rack.what);
        return Err(Missing::new(what, Some(span), "correct `feet` or `feet_at`"));
    }
    if listed.is_empty() {
        let (first, spacing) =
            (Coordinate::of(rack, &fields::FOOT_FIRST)?, Coordinate::of(rack, &fields::FOOT_SPACING)?);
        let feet = rack.need_count(&fields::FEET)?;
        if feet.value < 4 || feet.value % 2 != 0 {
            return Err(Missing::new(
                format!("the rows of the {} feet of {}", feet.value, rack.what),
                Some(feet.span),
                "feet stand in rows of two, and a rack stands on two rows or more: correct `feet`",
            ));
        }
        return Ok((0..feet.value / 2).map(|row| first.plus(f64::from(row), &spacing)).collect());
    }
    if let Some(feet) = feet.filter(|feet| usize::try_from(feet.value) != Ok(2 * listed.len())) {
        return Err(Missing::new(
            format!("`feet` and `feet_at` of {} that agree", rack.what),
            Some(feet.span),
            format!("there are {} rows of two in `feet_at`, and `feet` says {}", listed.len(), feet.value),
        ));
    }
    listed.iter().map(|row| Coordinate::of(row, &feet_at::FRONT)).collect()
}

/// What each foot of a rack carries, row by row from the front: the rack's own weight and all that rests on it, on the road or
/// parked.
///
/// # Errors
/// What [`rows`] needs and what [`super::moving_load`] or [`super::parked_load`] does, and the place of each thing on the rack.
pub fn on_feet(build: &Build, rack: usize, parked: bool) -> Known<Vec<OnRow>> {
    let body = the_rack(build, rack)?;
    let rows = rows(build, rack)?;
    let Some(row) = rows.first() else { return Ok(Vec::new()) };
    let zone = Zone::Rack(rack);
    let mut laid = vec![Laid { mass: given(&body.record, &item::MASS)?, extent: &body.extent }];
    laid.extend(if parked { laid_parked(build, zone)? } else { laid_moving(build, zone)? });
    let mut inputs = Vec::with_capacity(EACH * laid.len() + 2 + rows.len());
    for Laid { mass, extent: Extent { x, y, .. } } in &laid {
        let places = [x.near.clone()?, x.cg.clone()?, x.far.clone()?, y.cg.clone()?];
        inputs.push(mass.clone());
        inputs.extend(places.iter().map(Figure::coordinate));
    }
    inputs.extend([&row.left, &row.right].map(Figure::coordinate));
    inputs.extend(rows.iter().map(|row| Figure::coordinate(&row.x)));
    let missing = || {
        let span = body.record.value(fields::FEET_AT.key).map_or(body.tag.span, |rows| rows.span);
        let what = format!("two rows of feet or more, one behind the other, under {}", body.called());
        Missing::new(what, Some(span), "correct where its feet stand")
    };
    let side = |left: bool| by(Dimension::MASS, &inputs, |values| carried(values, laid.len(), left));
    let (left, right) = (side(true).ok_or_else(missing)?, side(false).ok_or_else(missing)?);
    Ok(left.into_iter().zip(right).map(|(left, right)| OnRow { left, right }).collect())
}

/// How many numbers stand for each thing on a rack: mass, front, centre of gravity, rear, and centre of gravity across.
const EACH: usize = 5;

/// What the feet of one side carry. The values are those of each thing, then where left and right feet stand across, then
/// where each row does.
fn carried(values: &[f64], things: usize, left: bool) -> Option<Vec<f64>> {
    let (things, feet) = values.split_at_checked(EACH * things)?;
    let (&[left_feet, right_feet], supports) = feet.split_first_chunk()?;
    let mut patches = Vec::new();
    for thing in things.chunks_exact(EACH) {
        let &[mass, near, cg, far, y] = thing else { return None };
        let to_right = (y - left_feet) / (right_feet - left_feet);
        // The longest stretch within it that has its centre of gravity in the middle.
        let half = (cg - near).min(far - cg).max(0.0);
        let load = mass * if left { 1.0 - to_right } else { to_right };
        patches.push(Patch { from: cg - half, to: cg + half, load });
    }
    reactions(supports, &patches)
}
