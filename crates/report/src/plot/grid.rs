//! The ruled ground of a drawing: a line and a figure at every mark of both axes, and what they measure.

use svg::node::element::{Group, Line};

use super::axis::Axis;
use super::lettering::written_at;
use super::window::Frame;
use super::{Point, RULED, line};

/// The ground of an area. The words of the upright axis stand so far left of it.
pub(super) fn ruled_with(
    (across, upright): (&Axis, &Axis),
    area: &Frame,
    [below, beside]: [&str; 2],
    far: f64,
) -> Group {
    let (bottom, right) = (area.bottom(), area.right());
    let mut grid = Group::new();
    for (value, shown) in across.marks() {
        let x = across.place(value);
        let text = written_at(x, bottom + 18.0, &shown).set("text-anchor", "middle");
        let tick = Group::new().set("class", "tick across");
        grid = grid.add(tick.add(ruled((x, area.top), (x, bottom))).add(text));
    }
    for (value, shown) in upright.marks() {
        let y = upright.place(value);
        let text = written_at(area.left - 8.0, y + 4.0, &shown).set("text-anchor", "end");
        let tick = Group::new().set("class", "tick upright");
        grid = grid.add(tick.add(ruled((area.left, y), (right, y))).add(text));
    }
    let (left, half) = (area.left - far, area.top + area.height / 2.0);
    let words = written_at(area.left + area.width / 2.0, bottom + 40.0, below);
    let upwards = written_at(left, half, beside);
    grid.add(words.set("text-anchor", "middle"))
        .add(upwards.set("text-anchor", "middle").set("transform", format!("rotate(-90 {left} {half})")))
}

fn ruled(from: Point, to: Point) -> Line {
    line(from, to).set("stroke", RULED)
}
