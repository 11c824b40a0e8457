//! Convex polygons: hulls, sums of hulls, and clipping. Corners run anticlockwise.

use super::envelope::Point;

/// What lies no farther from an edge than this share of the largest weight lies on it.
const ON_EDGE: f64 = 1e-12;

impl Point {
    pub(super) fn plus(self, times: f64, other: Self) -> Self {
        Self { gross: self.gross + times * other.gross, tongue: self.tongue + times * other.tongue }
    }

    fn size(self) -> f64 {
        self.gross.hypot(self.tongue)
    }

    /// By gross weight, then by tongue weight.
    fn order(self, other: Self) -> std::cmp::Ordering {
        self.gross.total_cmp(&other.gross).then(self.tongue.total_cmp(&other.tongue))
    }
}

/// Whether the way by three points turns to the left at the second, by more than rounding.
fn turns_left(from: Point, by: Point, to: Point) -> bool {
    let (there, whole) = (by.plus(-1.0, from), to.plus(-1.0, from));
    let cross = there.gross * whole.tongue - there.tongue * whole.gross;
    let largest = from.size().max(by.size()).max(to.size());
    cross > ON_EDGE * largest * whole.size()
}

/// The convex hull, from its lightest corner; corners on a straight edge are left out. A. M. Andrew's monotone chain
/// (Information Processing Letters 9, 1979; from memory).
pub(super) fn convex(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.order(*b));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., a, b] = chain.as_slice() {
                if turns_left(*a, *b, point) {
                    break;
                }
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut points.iter().copied());
    hull.extend(half(&mut points.iter().rev().copied()));
    hull
}

/// An angle's stand-in that grows with it, from 0 for the direction of gross weight to 4, without trigonometry.
fn bearing(edge: Point) -> f64 {
    let slope = edge.tongue / (edge.gross.abs() + edge.tongue.abs());
    match (edge.gross < 0.0, edge.tongue < 0.0) {
        (true, _) => 2.0 - slope,
        (false, true) => 4.0 + slope,
        (false, false) => slope,
    }
}

/// All sums of one point from each of several convex hulls: their Minkowski sum. Its edges are those of all hulls, by
/// their direction.
pub(super) fn sum_of(hulls: &[Vec<Point>]) -> Vec<Point> {
    let mut corner = Point::default();
    let mut edges: Vec<Point> = Vec::new();
    for hull in hulls {
        let lowest = hull
            .iter()
            .copied()
            .min_by(|a, b| a.tongue.total_cmp(&b.tongue).then(a.gross.total_cmp(&b.gross)));
        corner = corner.plus(1.0, lowest.unwrap_or_default());
        let next = hull.iter().cycle().skip(1);
        let ways = hull.iter().zip(next).map(|(here, next)| next.plus(-1.0, *here));
        edges.extend(ways.filter(|way| way.size() > 0.0));
    }
    edges.sort_by(|a, b| bearing(*a).total_cmp(&bearing(*b)));
    let mut corners = vec![corner];
    for edge in edges {
        corner = corner.plus(1.0, edge);
        corners.push(corner);
    }
    convex(corners)
}

/// The hull of points of which only the farthest in a direction can be asked for.
pub(super) fn probed<E>(mut farthest: impl FnMut(Point) -> Result<Point, E>) -> Result<Vec<Point>, E> {
    let ways = [(-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0)];
    let ways = ways.map(|(gross, tongue)| Point { gross, tongue });
    let mut known = ways.into_iter().map(&mut farthest).collect::<Result<Vec<_>, E>>()?;
    known = convex(known);
    let ends = known.iter().copied().zip(known.iter().copied().cycle().skip(1));
    let mut open: Vec<(Point, Point)> = ends.filter(|(a, b)| a != b).collect();
    while let Some((a, b)) = open.pop() {
        let along = b.plus(-1.0, a);
        let beyond = farthest(Point { gross: along.tongue, tongue: -along.gross })?;
        // To the right of an edge lies the outside.
        if turns_left(a, beyond, b) {
            known.push(beyond);
            open.extend([(a, beyond), (beyond, b)]);
        }
    }
    Ok(convex(known))
}

/// What of a convex polygon lies where `gross`·gross + `tongue`·tongue ≤ `most`. I. E. Sutherland and G. W. Hodgman,
/// "Reentrant polygon clipping", Communications of the ACM 17 (1974), from memory.
pub(super) fn clipped(polygon: &[Point], limit: Point, most: f64) -> Vec<Point> {
    let over = |point: Point| point.gross * limit.gross + point.tongue * limit.tongue - most;
    let mut kept = Vec::new();
    for (here, next) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (a, b) = (over(*here), over(*next));
        if a <= 0.0 {
            kept.push(*here);
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            kept.push(here.plus(a / (a - b), next.plus(-1.0, *here)));
        }
    }
    kept
}
