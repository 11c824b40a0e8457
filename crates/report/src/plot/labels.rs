//! Rings about marked arrangements with their numbers, and letters at limits, so that none covers another.

use svg::node::element::{Group, Text};

use super::lettering::written_at;
use super::lists::Marks;
use super::window::{Frame, Window, Within};
use super::{INK, Point, line, ring_at};

/// Radius of a ring.
pub(super) const RING: f64 = 6.0;
/// Distances from a ring at which its number may stand.
const DISTANCES: [f64; 6] = [14.0, 22.0, 32.0, 44.0, 58.0, 76.0];
/// Height of a number.
const HEIGHT: f64 = 12.0;
/// Width of one of its letters.
const LETTER: f64 = 8.0;

/// A rectangle that something covers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Covered {
    pub(super) middle: Point,
    pub(super) half: Point,
}

impl Covered {
    /// By how much two cover each other, as an area.
    pub(super) fn shares(self, other: Self) -> f64 {
        let along = |one: f64, half: f64, other: f64, other_half: f64| {
            let (from, to) = ((one - half).max(other - other_half), (one + half).min(other + other_half));
            (to - from).max(0.0)
        };
        along(self.middle.0, self.half.0, other.middle.0, other.half.0)
            * along(self.middle.1, self.half.1, other.middle.1, other.half.1)
    }

    fn holds(self, point: Point) -> bool {
        (point.0 - self.middle.0).abs() <= self.half.0 && (point.1 - self.middle.1).abs() <= self.half.1
    }
}

/// Rings, with one number or several at each.
pub(super) fn rings(marks: &Marks<'_>, window: &Window, points: &[Point], area: &Frame) -> Group {
    let mut rings: Vec<(Point, String)> = Vec::new();
    for (at, (_, point)) in marks.all.iter().enumerate() {
        let place = window.place(*point);
        let near = |other: &Point| (other.0 - place.0).hypot(other.1 - place.1) < 2.0;
        match rings.iter_mut().find(|(held, _)| near(held)) {
            Some((_, numbers)) => numbers.extend([", ".to_owned(), (at + 1).to_string()]),
            None => rings.push((place, (at + 1).to_string())),
        }
    }
    let dots: Vec<Point> = points.iter().map(|point| window.place(*point)).collect();
    let ring = |(place, _): &(Point, String)| Covered { middle: *place, half: (RING + 1.0, RING + 1.0) };
    let covered: Vec<Covered> = rings.iter().map(ring).collect();
    let mut taken = covered.clone();
    let mut drawn = Group::new();
    for (place, numbers) in &rings {
        let label = placed(*place, numbers, &taken, &dots, area);
        taken.push(label);
        let apart = (label.middle.0 - place.0).hypot(label.middle.1 - place.1);
        if apart > DISTANCES[1] - 1.0 {
            let towards = ((label.middle.0 - place.0) / apart, (label.middle.1 - place.1) / apart);
            let from = (place.0 + RING * towards.0, place.1 + RING * towards.1);
            let to = (label.middle.0 - 7.0 * towards.0, label.middle.1 - 7.0 * towards.1);
            drawn = drawn.add(line(from, to).set("stroke", INK).set("stroke-width", 0.7));
        }
        let words = haloed(written_at(label.middle.0, label.middle.1 + 4.0, numbers));
        drawn = drawn.add(ring_at(place.0, place.1)).add(words.set("class", "number"));
    }
    drawn
}

/// Where the numbers of a ring may stand: where they cover no ring and no other number, and as few dots as can be; near
/// the ring before far from it.
fn placed(ring: Point, numbers: &str, taken: &[Covered], dots: &[Point], area: &Frame) -> Covered {
    let letters = f64::from(u16::try_from(numbers.chars().count()).unwrap_or(u16::MAX));
    let half = (letters * LETTER / 2.0 + 1.0, HEIGHT / 2.0 + 1.0);
    let mut best: Option<(f64, Covered)> = None;
    for (far, distance) in DISTANCES.into_iter().enumerate() {
        for eighth in 0..16_u8 {
            // Up and to the right first.
            let turn = (f64::from(eighth) * 22.5 - 45.0).to_radians();
            let (x, y) = (ring.0 + (distance + half.0 - 5.0) * turn.cos(), ring.1 + distance * turn.sin());
            let label = Covered { middle: (x, y), half };
            let inside = x - half.0 >= area.left
                && x + half.0 <= area.right()
                && y - half.1 >= area.top
                && y + half.1 <= area.bottom();
            if !inside {
                continue;
            }
            let shared: f64 = taken.iter().map(|other| label.shares(*other)).sum();
            let over = dots.iter().take(5000).filter(|dot| label.holds(**dot)).count();
            let over = f64::from(u16::try_from(over).unwrap_or(u16::MAX));
            let far = f64::from(u8::try_from(far).unwrap_or(u8::MAX));
            let cost = 100.0 * shared + 3.0 * over.min(8.0) + 4.0 * far + 0.1 * f64::from(eighth);
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, label));
            }
        }
    }
    best.map_or(Covered { middle: (ring.0, ring.1 - 14.0), half }, |(_, label)| label)
}

/// Letters where the lines of limits leave the area: beside it, or above it.
pub(super) fn letters(window: &Window, area: &Frame, limits: &[Within<'_>]) -> Group {
    let mut beside: Vec<(f64, char)> = Vec::new();
    let mut above: Vec<(f64, char)> = Vec::new();
    for limit in limits {
        let (x, y) = window.place(limit.to);
        if x >= area.right() - 0.5 { beside.push((y, limit.letter)) } else { above.push((x, limit.letter)) }
    }
    let mut letters = Group::new();
    for (y, letter) in apart(beside, 13.0) {
        letters = letters.add(bold(written_at(area.right() + 5.0, y + 4.0, &letter.to_string())));
    }
    for (x, letter) in apart(above, 13.0) {
        let text = bold(written_at(x, area.top - 5.0, &letter.to_string()));
        letters = letters.add(text.set("text-anchor", "middle"));
    }
    letters
}

/// Places in order, each at least so far from the one before.
fn apart(mut places: Vec<(f64, char)>, distance: f64) -> Vec<(f64, char)> {
    places.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut last = f64::NEG_INFINITY;
    for (place, _) in &mut places {
        *place = place.max(last + distance);
        last = *place;
    }
    places
}

fn bold(text: Text) -> Text {
    text.set("font-weight", "bold").set("class", "letter")
}

/// Letters that can be read over lines and dots.
pub(super) fn haloed(text: Text) -> Text {
    text.set("text-anchor", "middle")
        .set("font-weight", "bold")
        .set("stroke", "#ffffff")
        .set("stroke-width", 3)
        .set("stroke-linejoin", "round")
        .set("paint-order", "stroke")
}
