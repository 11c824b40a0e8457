//! How far two boxes are apart.

use pintle_quantity::Dimension;
use pintle_spec::{Extent, Known, Reach};

use crate::figure::Figure;

/// The least distance between two boxes, in m; zero where they touch or overlap.
pub(super) fn apart(one: &Extent, other: &Extent) -> Known<Figure> {
    let along = |one: &Reach, other: &Reach| -> Known<[Figure; 4]> {
        let ends = [&one.near, &one.far, &other.near, &other.far];
        let [a, b, c, d] = ends.map(Clone::clone);
        Ok([a?, b?, c?, d?].map(|end| Figure::coordinate(&end)))
    };
    let gap = |one: &Reach, other: &Reach| -> Known<Figure> {
        let [a, b, c, d] = along(one, other)?;
        Ok(Figure::by(Dimension::LENGTH, [&a, &b, &c, &d], |[a, b, c, d]| (c - b).max(a - d).max(0.0)))
    };
    let gaps = [gap(&one.x, &other.x)?, gap(&one.y, &other.y)?, gap(&one.z, &other.z)?];
    let unit = one.x.near.clone()?.quantity();
    let [x, y, z] = &gaps;
    let distance = Figure::by(Dimension::LENGTH, [x, y, z], |[x, y, z]| (x * x + y * y + z * z).sqrt());
    Ok(unit.unit().map_or(distance.clone(), |unit| distance.shown_in(unit.name())))
}
