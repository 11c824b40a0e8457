//! Gross weight against tongue weight: all that a build can reach on the road, and what its ratings allow.

use pintle_quantity::Quantity;
use pintle_spec::field::Field;
use pintle_spec::schema::tow;
use pintle_spec::schema::trailer::{self, coupler};
use pintle_spec::{Build, Known, Missing};

use super::held::{Held, MOST_WORK, Spent};
use super::ratio::Goal;
use super::search::Search;
use super::sums::{Aim, Amount, Sums};
use super::{Arrangements, End, Extremum, Family, hull};
use crate::figure::Figure;
use crate::ratings::gawr_sum;
use crate::space::given;

/// Units that may be looked at in the search for one hull.
const MOST_PROBES: usize = 16 * MOST_WORK;

/// A gross weight and a tongue weight, in kilograms.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Point {
    /// Total weight.
    pub gross: f64,
    /// Weight on the ball.
    pub tongue: f64,
}

/// One end of a figure's range, and where it lies.
#[derive(Debug, Clone, PartialEq)]
pub struct ExtremePoint {
    /// Whose end it is.
    pub what: Extremum,
    /// Which end.
    pub end: End,
    /// The arrangement.
    pub name: String,
    /// Its weights.
    pub point: Point,
}

/// Gross and tongue weights of all road arrangements.
#[derive(Debug, Clone, PartialEq)]
pub struct Envelope {
    /// How many corner arrangements there are; see [`Arrangements::count`].
    pub count: f64,
    /// Each corner arrangement; nothing where they are more than [`MOST_CORNERS`](super::MOST_CORNERS).
    pub points: Option<Vec<Point>>,
    /// The convex hull of all that can be reached, anticlockwise from its lightest corner.
    pub hull: Vec<Point>,
    /// Arrangements that a builder thinks of; see [`Arrangements::named`].
    pub named: Vec<(String, Point)>,
    /// Where gross weight, tongue weight and its share are least and most.
    pub extremes: Vec<ExtremePoint>,
}

/// What a rating bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bounded {
    /// Gross weight.
    Gross,
    /// Tongue weight.
    Tongue,
    /// Gross weight less tongue weight.
    Axles,
}

/// Gross and tongue weights that ratings and limits of the share allow.
#[derive(Debug, Clone)]
pub struct Allowed {
    /// The region, anticlockwise; empty where nothing is allowed.
    pub region: Vec<Point>,
    /// The ratings that are given.
    pub ratings: Vec<(Bounded, Figure)>,
    /// The ratings that are not given: the region is too large by what they would cut off.
    pub not_given: Vec<Missing>,
    /// Whether the region was cut off at the frame, because no rating bounds it there.
    pub framed: bool,
}

impl Arrangements<'_> {
    /// Gross and tongue weights of all road arrangements.
    ///
    /// # Errors
    /// What [`Arrangements::extreme`] needs for the tongue weight, and what [`Arrangements::named`] needs.
    pub fn envelope(&self) -> Known<Envelope> {
        let mut extremes = Vec::new();
        for what in [Extremum::Gross, Extremum::Tongue, Extremum::TongueShare] {
            for end in [End::Least, End::Most] {
                let best = self.best(what, end)?;
                let point = self.point(best.family, &best.choice)?;
                extremes.push(ExtremePoint { what, end, name: self.state(&best).name.value, point });
            }
        }
        let points = self.corner_choices()?.map(|choices| {
            choices.iter().map(|(family, choice)| self.point(*family, choice)).collect::<Known<Vec<Point>>>()
        });
        let mut hulls = Vec::new();
        for family in &self.families {
            hulls.extend(self.hull(family)?);
        }
        let named = self.named_choices()?;
        let named = named
            .iter()
            .map(|best| Ok((self.state(best).name.value, self.point(best.family, &best.choice)?)));
        Ok(Envelope {
            count: self.count()?,
            points: points.transpose()?,
            hull: hull::convex(hulls),
            named: named.collect::<Known<Vec<_>>>()?,
            extremes,
        })
    }

    fn tongue(&self) -> Known<Sums> {
        match self.goal(Extremum::Tongue)? {
            Goal::Sum(tongue) => Ok(tongue),
            Goal::Ratio(..) => Err(self.contradicted()),
        }
    }

    fn point(&self, family: usize, choice: &super::Choice) -> Known<Point> {
        let tongue = self.tongue()?;
        let family = self.families.get(family).ok_or_else(|| self.contradicted())?;
        Ok(point_of(self.sums(family, choice), tongue))
    }

    /// The hull of a family: the Minkowski sum of the hulls of all that varies by itself.
    fn hull(&self, family: &Family) -> Known<Vec<Point>> {
        let tongue = self.tongue()?;
        let root = self.root(family)?;
        let mut fixed = family.base.sums;
        let mut hulls = Vec::new();
        let at = |sums: Sums| point_of(sums, tongue);
        for (unit, settled) in self.plan.units.iter().zip(&family.settled) {
            if *settled == Some(true) {
                fixed = fixed.plus(unit.sums);
                if let Some(amount) = unit.amount.filter(|_| !unit.in_order) {
                    let ends = [amount.from, amount.to];
                    hulls.push(hull::convex(ends.map(|end| at(amount.sums(end))).to_vec()));
                }
            }
        }
        hulls.push(vec![at(fixed)]);
        if root.is_ordered() {
            hulls.push(hull::convex(one_after_another(&mut root.clone(), tongue)));
        }
        let mut search = Search::new(root.allowing(MOST_PROBES));
        for piece in &family.pieces {
            hulls.push(hull::probed(|way| self.farthest(&mut search, piece, way, tongue))?);
        }
        Ok(hull::sum_of(&hulls))
    }

    /// The weights of a piece farthest in a direction.
    fn farthest(&self, search: &mut Search<'_>, piece: &[usize], way: Point, tongue: Sums) -> Known<Point> {
        let of = Sums { mass: way.gross, ..Sums::default() }.plus(tongue.times(way.tongue));
        let units = piece.iter().filter_map(|at| self.plan.units.get(*at));
        let size: f64 = units.map(|unit| unit.size(of)).sum();
        let aim = Aim { of, slack: 1e-14 * size, fullest: true };
        let aboard = search.best_of(piece, aim).map_err(|Spent| self.tangled())?;
        let mut sums = Sums::default();
        for (at, amount) in aboard.ok_or_else(|| self.contradicted())? {
            let Some(unit) = self.plan.units.get(at) else { continue };
            // Tanks in order that are always aboard hang on the piece by their water only.
            let own = if piece.contains(&at) { unit.sums } else { Sums::default() };
            let varied = unit.amount.map(|varied| varied.sums(amount)).unwrap_or_default();
            sums = sums.plus(own).plus(varied);
        }
        Ok(point_of(sums, tongue))
    }
}

/// The gross and tongue weights that a build's ratings allow, with a share of tongue weight between two limits; no
/// gross weight above `frame`, in kilograms, is looked at.
///
/// Gross weight: no more than the trailer's GVWR and the ratings of coupler and tow vehicle. Tongue weight: no more than
/// the tongue ratings of coupler and tow vehicle. Gross less tongue weight: no more than the axles' ratings together.
/// Where one of these is not given, what the others allow is told, and which is not given.
pub fn allowed(build: &Build, least: Quantity, most: Quantity, frame: f64) -> Allowed {
    let of_coupler =
        |field| build.trailer.need_table(&trailer::COUPLER).and_then(|record| given(record, field));
    let of_tow = |field: &'static Field| match &build.tow {
        Some(record) => given(record, field),
        None => Err(Missing::new(
            format!("`{}` of the tow vehicle", field.key),
            Some(build.trailer.span),
            "add `[tow]` with what the tow vehicle's maker allows",
        )),
    };
    let all = [
        (Bounded::Gross, given(&build.trailer, &trailer::GVWR)),
        (Bounded::Gross, of_coupler(&coupler::RATING)),
        (Bounded::Gross, of_tow(&tow::RATING)),
        (Bounded::Tongue, of_coupler(&coupler::TONGUE_RATING)),
        (Bounded::Tongue, of_tow(&tow::TONGUE_RATING)),
        (Bounded::Axles, gawr_sum(build)),
    ];
    let at = |gross: f64, tongue: f64| Point { gross, tongue };
    let corners = [(0.0, -frame), (frame, -frame), (frame, frame), (0.0, frame)];
    let mut region: Vec<Point> = corners.into_iter().map(|(gross, tongue)| at(gross, tongue)).collect();
    region = hull::clipped(&region, at(least.si(), -1.0), 0.0);
    region = hull::clipped(&region, at(-most.si(), 1.0), 0.0);
    let mut allowed = Allowed { region, ratings: Vec::new(), not_given: Vec::new(), framed: false };
    for (bounded, rating) in all {
        match rating {
            Ok(rating) => {
                let limit = match bounded {
                    Bounded::Gross => at(1.0, 0.0),
                    Bounded::Tongue => at(0.0, 1.0),
                    Bounded::Axles => at(1.0, -1.0),
                };
                allowed.region = hull::clipped(&allowed.region, limit, rating.quantity.si());
                allowed.ratings.push((bounded, rating));
            }
            Err(missing) => allowed.not_given.push(missing),
        }
    }
    allowed.framed = allowed.region.iter().any(|point| point.gross >= frame || point.tongue.abs() >= frame);
    allowed
}

/// Weights of the water in tanks in order, as they are emptied.
fn one_after_another(root: &mut Held<'_>, tongue: Sums) -> Vec<Point> {
    let tanks = root.tanks_in_order();
    let at = |tank: Amount, fill: f64| point_of(tank.sums(fill), tongue);
    let full = tanks.iter().fold(Point::default(), |sum, (_, tank)| sum.plus(1.0, at(*tank, tank.to)));
    let mut points = vec![full];
    let mut here = full;
    for (_, tank) in tanks {
        here = here.plus(-1.0, at(tank, tank.to)).plus(1.0, at(tank, tank.from));
        points.push(here);
    }
    points
}

/// The weights of sums.
fn point_of(sums: Sums, tongue: Sums) -> Point {
    Point { gross: sums.mass, tongue: sums.dot(tongue) }
}
