//! The names of lines and marks, each where it covers as little as can be of the others.

use svg::node::element::Group;

use super::Curves;
use crate::plot::Point;
use crate::plot::axis::Axis;
use crate::plot::labels::{Covered, haloed};
use crate::plot::lettering::{LINE, SIZE, lines, words_width, written_at};
use crate::plot::window::Frame;

/// Places along the area that are tried for a name.
const PLACES: u8 = 32;
/// How far the middle of a name stands from its line, for so many rows of letters.
const AWAY: f64 = 5.0;

/// Lines that are so far apart are told apart with ease.
const FAR: f64 = 24.0;

/// Names beside lines and marks.
pub(super) fn beside(curves: &Curves, across: &Axis, upright: &Axis, area: &Frame) -> Group {
    let drawn: Vec<Vec<Point>> = curves
        .lines
        .iter()
        .map(|line| line.points.iter().map(|(x, y)| (across.place(*x), upright.place(*y))).collect())
        .collect();
    let levels: Vec<Vec<Point>> = curves
        .marks
        .iter()
        .map(|mark| {
            let y = upright.place(mark.at);
            vec![(area.left, y), (area.right(), y)]
        })
        .collect();
    let all: Vec<&[Point]> = drawn.iter().chain(&levels).map(Vec::as_slice).collect();
    let names =
        curves.lines.iter().map(|line| &line.words).chain(curves.marks.iter().map(|mark| &mark.words));
    let mut taken: Vec<Covered> = Vec::new();
    let mut written = Group::new();
    // The longest first: a short one finds room more easily.
    let mut with_names: Vec<(&&[Point], &String)> = all.iter().zip(names).collect();
    with_names.sort_by(|one, other| words_width(other.1).total_cmp(&words_width(one.1)));
    for (own, words) in with_names {
        let rows = lines(words, SIZE, 0.7 * area.width);
        let Some(label) = placed(own, &rows, &all, &taken, area) else { continue };
        let first = label.middle.1 - label.half.1 + 11.0;
        for (row, y) in rows.iter().zip(std::iter::successors(Some(first), |y| Some(y + LINE))) {
            written = written.add(
                haloed(written_at(label.middle.0, y, row)).set("font-weight", "normal").set("class", "name"),
            );
        }
        taken.push(label);
    }
    written
}

/// Where a name may stand: just above or below its line, off all lines and names that it can keep off.
fn placed(
    own: &[Point],
    rows: &[String],
    all: &[&[Point]],
    taken: &[Covered],
    area: &Frame,
) -> Option<Covered> {
    let wide = rows.iter().map(|row| words_width(row)).fold(0.0, f64::max);
    let high = rows.iter().fold(0.0, |high, _| high + LINE);
    let half = (wide / 2.0 + 2.0, high / 2.0);
    let seen = seen(own, area);
    let mut best: Option<(f64, Covered)> = None;
    for place in 0..=PLACES {
        let room = area.width - 2.0 * half.0;
        if room < 0.0 {
            continue;
        }
        let x = area.left + half.0 + room * f64::from(place) / f64::from(PLACES);
        // Where its own line runs behind its middle, and how far up and down it runs over the name's whole width.
        let (Some(middle), Some(top), Some(bottom)) =
            (at(own, x), reach(own, x, half.0, f64::min), reach(own, x, half.0, f64::max))
        else {
            continue;
        };
        // What leaves the area is named at its edge, near where it leaves.
        let [middle, top, bottom] = [middle, top, bottom].map(|y| y.clamp(area.top, area.bottom()));
        let far = seen.iter().map(|seen| (seen - x).abs()).fold(area.width, f64::min);
        let far = (far - half.0).max(0.0);
        let away = half.1 + AWAY;
        for (side, y) in [middle - away, top - away, middle + away, bottom + away].into_iter().enumerate() {
            let label = Covered { middle: (x, y), half };
            if y - half.1 < area.top || y + half.1 > area.bottom() {
                continue;
            }
            let crossed = all.iter().filter(|line| crosses(line, label)).count();
            let covered: f64 = taken.iter().map(|other| label.shares(*other)).sum();
            let crossed = f64::from(u8::try_from(crossed).unwrap_or(u8::MAX));
            // Where another line runs along with its own, nobody could tell whose name it is.
            let others = all.iter().filter(|line| !std::ptr::eq(**line, own));
            let alone = others.map(|line| apart(own, line, x, half.0)).fold(FAR, f64::min);
            // Along the axis every line that is at nothing looks alike.
            let level = if area.bottom() - middle < 2.0 { 1.0 } else { 0.0 };
            // Above its line, near its end, where lines are farthest apart, and near what it names.
            let late = 1.0 - f64::from(place) / f64::from(PLACES);
            let below = if side < 2 { 0.0 } else { 1.0 };
            let cost = 40.0 * crossed
                + covered
                + 3.0 * below
                + 2.0 * late
                + 0.3 * ((y - middle).abs() - away + far)
                + 30.0 * (1.0 - alone / FAR)
                + 30.0 * level;
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, label));
            }
        }
    }
    best.map(|(_, label)| label)
}

/// Places along the area at which a line can be seen in it.
fn seen(line: &[Point], area: &Frame) -> Vec<f64> {
    let places = (0..=100_u8).map(|place| area.left + area.width * f64::from(place) / 100.0);
    let within = |x: &f64| at(line, *x).is_some_and(|y| (area.top..=area.bottom()).contains(&y));
    places.filter(within).collect()
}

/// The highest or the lowest place of a line within a width; none where it does not run there.
fn reach(line: &[Point], x: f64, half: f64, which: fn(f64, f64) -> f64) -> Option<f64> {
    samples(x, half).filter_map(|x| at(line, x)).reduce(which)
}

/// How far another line runs from a line within a width, on average; no farther than [`FAR`].
fn apart(own: &[Point], other: &[Point], x: f64, half: f64) -> f64 {
    let both = samples(x, half).filter_map(|x| Some((at(own, x)?, at(other, x)?)));
    let (sum, count) =
        both.fold((0.0, 0.0), |(sum, count), (one, other)| (sum + (one - other).abs().min(FAR), count + 1.0));
    if count > 0.0 { sum / count } else { FAR }
}

/// Whether a line runs through a name; also one so steep that it is above it at one place and below it at the next.
fn crosses(line: &[Point], label: Covered) -> bool {
    let heights: Vec<f64> = samples(label.middle.0, label.half.0).filter_map(|x| at(line, x)).collect();
    let (top, bottom) = (label.middle.1 - label.half.1, label.middle.1 + label.half.1);
    let through = |one: f64, other: f64| one.min(other) < bottom && one.max(other) > top;
    match heights.as_slice() {
        [] => false,
        [only] => through(*only, *only),
        several => several.windows(2).any(|pair| matches!(pair, [one, other] if through(*one, *other))),
    }
}

fn samples(x: f64, half: f64) -> impl Iterator<Item = f64> {
    (0..=16_u8).map(move |step| x - half + 2.0 * half * f64::from(step) / 16.0)
}

/// How high a line runs at a place; none beyond its ends.
fn at(line: &[Point], x: f64) -> Option<f64> {
    line.windows(2).find_map(|pair| {
        let [from, to] = pair else { return None };
        let within = from.0 <= x && x <= to.0;
        let along = if to.0 > from.0 { (x - from.0) / (to.0 - from.0) } else { 0.0 };
        within.then_some(from.1 + along * (to.1 - from.1))
    })
}
