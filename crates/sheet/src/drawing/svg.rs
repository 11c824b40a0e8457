//! A drawing written as SVG: one unit of it is one millimetre of the trailer, told to a tenth.

use maud::{Markup, PreEscaped, html};

use super::canvas::{Arrow, Canvas, Drawn};
use super::form::{Bounds, Form, Point, View};
use super::layout::{
    ARROW, BADGE, Bar, Label, LaidDimension, LaidMark, Layout, badge_width, mark_radius, number_width,
};
use super::scene::Scene;
use crate::about::Findings;
use crate::markup::name;

/// A number as the page holds it: to a tenth, without a sign before nought.
pub(super) fn n(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    // What is too far away for a number is no place on paper; nothing that is drawn is.
    let plain = if tenths.abs() < 0.05 || !tenths.is_finite() { 0.0 } else { tenths };
    plain.to_string()
}

fn pair((x, y): Point) -> String {
    format!("{} {}", n(x), n(y))
}

fn list(points: &[Point]) -> String {
    points.iter().map(|(x, y)| format!("{},{}", n(*x), n(*y))).collect::<Vec<_>>().join(" ")
}

/// The drawing.
pub(super) fn svg(
    scene: &Scene<'_>,
    canvas: &Canvas,
    layout: &Layout,
    found: &Findings<'_>,
    called: &str,
) -> Markup {
    let Bounds { low, .. } = layout.paper;
    let view_box = format!("{} {} {}", pair(low), n(layout.paper.width()), n(layout.paper.height()));
    html! {
        svg .drawing.(if canvas.view == View::Behind { "narrow" } else { "wide" }) viewBox=(view_box)
            role="group" aria-label=(called) data-view=(canvas.name) data-seen=(seen(canvas.view))
            font-size=(n(layout.letter))
        {
            @for dimension in &layout.dimensions { (extension(dimension)) }
            @for drawn in &canvas.base { (form(drawn, canvas.name, layout.letter)) }
            @for (part, drawn) in by_size(canvas) { (part_of(scene, canvas, layout, found, part, drawn)) }
            @for drawn in &canvas.over { (form(drawn, canvas.name, layout.letter)) }
            @for arrow in &canvas.arrows { (load(arrow, layout.letter)) }
            @for label in &layout.labels { (leader(label)) }
            @for label in &layout.labels { (label_of(label, layout.letter)) }
            @for mark in &layout.marks { (cross(mark, layout.letter)) }
            @for dimension in &layout.dimensions { (measure(dimension, layout.letter)) }
            (scale(&layout.bar, layout.letter))
        }
    }
}

/// From where a view is taken, in words.
pub(super) const fn seen(view: View) -> &'static str {
    match view {
        View::FromLeft => "from the left",
        View::FromRight => "from the right",
        View::Above => "from above",
        View::Behind => "from behind",
    }
}

/// The parts, the largest first, so that none hides another.
fn by_size(canvas: &Canvas) -> Vec<(usize, &Vec<Drawn>)> {
    let mut all: Vec<(usize, &Vec<Drawn>)> =
        canvas.parts.iter().map(|(part, drawn)| (*part, drawn)).collect();
    let area = |drawn: &[Drawn]| {
        let bounds = drawn.first().and_then(|drawn| drawn.form.bounds());
        bounds.map_or(0.0, |bounds| bounds.width() * bounds.height())
    };
    all.sort_by(|one, other| area(other.1).total_cmp(&area(one.1)).then(one.0.cmp(&other.0)));
    all
}

fn part_of(
    scene: &Scene<'_>,
    canvas: &Canvas,
    layout: &Layout,
    found: &Findings<'_>,
    part: usize,
    drawn: &[Drawn],
) -> Markup {
    let called = scene.build.items.get(part).map(|item| describe(part, &item.called(), found.about(part)));
    let called = called.unwrap_or_default();
    html! {
        g .part data-part=(part) data-view=(canvas.name) tabindex="0" role="img" aria-label=(called) {
            title { (called) }
            @for drawn in drawn { (form(drawn, canvas.name, layout.letter)) }
        }
    }
}

/// What is said of a part where it cannot be seen.
fn describe(part: usize, called: &str, findings: &[usize]) -> String {
    let about = match findings {
        [] => "no finding".to_owned(),
        [one] => format!("finding {one}"),
        many => format!("findings {}", many.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")),
    };
    format!("{}: {}; {about}", part + 1, name(called))
}

/// A form. Only its own measures are written: how it looks is the style's.
fn form(drawn: &Drawn, view: &str, letter: f64) -> Markup {
    let (class, what) = (drawn.class, drawn.what);
    let line = drawn.line.map(n);
    match &drawn.form {
        Form::Rect(bounds) => html! {
            rect class=(class) data-shape=(what) data-view=(view) x=(n(bounds.low.0)) y=(n(bounds.low.1))
                width=(n(bounds.width())) height=(n(bounds.height())) {}
        },
        Form::Ring(corners) => html! {
            polygon class=(class) data-shape=(what) data-view=(view) points=(list(corners)) {}
        },
        Form::Line(corners) => html! {
            polyline class=(class) data-shape=(what) data-view=(view) points=(list(corners)) stroke-width=[line] {}
        },
        Form::Circle((x, y), radius) => html! {
            circle class=(class) data-shape=(what) data-view=(view) cx=(n(*x)) cy=(n(*y)) r=(n(*radius)) {}
        },
        Form::Spot((x, y)) => html! {
            circle class={ (class) " spot" } data-shape=(what) data-view=(view) cx=(n(*x)) cy=(n(*y)) r=(n(letter * 0.3)) {}
        },
        curved => html! {
            path class=(class) data-shape=(what) data-view=(view) d=(path(curved)) fill-rule="evenodd" {}
        },
    }
}

fn path(form: &Form) -> String {
    match form {
        Form::Rings(rings) => {
            let ring = |ring: &Vec<Point>| {
                format!("M {} Z", ring.iter().map(|point| pair(*point)).collect::<Vec<_>>().join(" L "))
            };
            rings.iter().map(ring).collect::<Vec<_>>().join(" ")
        }
        Form::Quarter { hinge, from, to, radius } => {
            let turn = (from.0 - hinge.0) * (to.1 - hinge.1) - (from.1 - hinge.1) * (to.0 - hinge.0);
            let sweep = u8::from(turn > 0.0);
            let radius = n(*radius);
            format!("M {} L {} A {radius} {radius} 0 0 {sweep} {} Z", pair(*hinge), pair(*from), pair(*to))
        }
        Form::Nose { from, to, depth, half, rear: [one, other] } => {
            // Round the front: against the clock where the nose is on the left and the line runs up.
            let sweep = u8::from((to.1 < from.1) == (from.0 < one.0));
            format!(
                "M {} A {} {} 0 0 {sweep} {} L {} L {} Z",
                pair(*from),
                n(*depth),
                n(*half),
                pair(*to),
                pair(*one),
                pair(*other)
            )
        }
        _ => String::new(),
    }
}

fn leader(label: &Label) -> Markup {
    html! {
        @if let Some((from, to)) = label.placed.leader {
            line .leader x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
        }
    }
}

/// A part's number, and the numbers of its findings in a badge behind it.
fn label_of(label: &Label, letter: f64) -> Markup {
    let Bounds { low, .. } = label.placed.bounds;
    let height = label.placed.bounds.height();
    let wide = number_width(&label.number, letter);
    let base = low.1 + height * 0.5 + letter * 0.36;
    let after = low.0 + wide + 0.15 * letter;
    html! {
        g .label data-part=(label.part) aria-hidden="true" {
            rect .plate x=(n(low.0)) y=(n(low.1)) width=(n(wide)) height=(n(height)) rx=(n(letter * 0.2)) {}
            text x=(n(low.0 + wide / 2.0)) y=(n(base)) text-anchor="middle" { (label.number) }
            @if let Some(badge) = &label.badge {
                @let wide = badge_width(badge, letter);
                rect .flag x=(n(after)) y=(n(low.1)) width=(n(wide)) height=(n(height)) rx=(n(letter * 0.5)) {}
                text .flagged x=(n(after + wide / 2.0)) y=(n(base - letter * 0.06)) text-anchor="middle"
                    font-size=(n(letter * BADGE)) { (badge) }
            }
        }
    }
}

/// The mark of a centre of gravity: a circle with two of its quarters filled.
fn cross(mark: &LaidMark, letter: f64) -> Markup {
    let (x, y) = mark.at;
    let radius = mark_radius(letter);
    let quarter = |to_x: f64, to_y: f64| {
        format!(
            "M {} L {} A {r} {r} 0 0 1 {} Z",
            pair((x, y)),
            pair((x, y + to_y * radius)),
            pair((x + to_x * radius, y)),
            r = n(radius)
        )
    };
    let Bounds { low, .. } = mark.placed.bounds;
    let middle = mark.placed.bounds.middle();
    html! {
        g .gravity data-state=(mark.state) {
            @if let Some((from, to)) = mark.placed.leader {
                line .leader x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
            }
            circle data-shape="centre of gravity" cx=(n(x)) cy=(n(y)) r=(n(radius)) {}
            path .filled d=(quarter(1.0, -1.0)) {}
            path .filled d=(quarter(-1.0, 1.0)) {}
            rect .plate x=(n(low.0)) y=(n(low.1)) width=(n(mark.placed.bounds.width()))
                height=(n(mark.placed.bounds.height())) rx=(n(letter * 0.2)) {}
            text x=(n(middle.0)) y=(n(middle.1 + letter * 0.36)) text-anchor="middle" { (mark.text) }
        }
    }
}

/// A load on the ground; the ground's answer where it pulls up.
fn load(arrow: &Arrow, letter: f64) -> Markup {
    let (x, y) = arrow.at;
    let long = ARROW * letter;
    let (tail, head) = if arrow.up { (y + long, y) } else { (y, y + long) };
    let back = head + if arrow.up { letter * 0.7 } else { -letter * 0.7 };
    let tip = list(&[(x, head), (x - letter * 0.32, back), (x + letter * 0.32, back)]);
    html! {
        g .load data-shape=(arrow.what) {
            line x1=(n(x)) y1=(n(tail)) x2=(n(x)) y2=(n(back)) {}
            polygon .filled points=(tip) {}
            text x=(n(x + letter * 0.6)) y=(n(y + long * 0.75)) { (arrow.text) }
        }
    }
}

fn extension(dimension: &LaidDimension) -> Markup {
    html! {
        @for [from, to] in &dimension.extensions {
            line .extension x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
        }
    }
}

/// A dimension line with a stroke across each end.
fn measure(dimension: &LaidDimension, letter: f64) -> Markup {
    let [from, to] = dimension.line;
    let tick = letter * 0.25;
    let (x, y) = dimension.at;
    let turned = dimension.upright.then(|| format!("rotate(-90 {} {})", n(x), n(y)));
    html! {
        g .dimension {
            line x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
            @for end in [from, to] {
                line .tick x1=(n(end.0 - tick)) y1=(n(end.1 + tick)) x2=(n(end.0 + tick)) y2=(n(end.1 - tick)) {}
            }
            text x=(n(x)) y=(n(y)) text-anchor="middle" transform=[turned] { (dimension.text) }
        }
    }
}

/// The scale bar, its parts black and white by turns.
fn scale(bar: &Bar, letter: f64) -> Markup {
    let (x, y) = bar.at;
    let high = letter * 0.35;
    let mut from = 0.0;
    let mut parts = Vec::new();
    for (step, at) in bar.steps.iter().enumerate() {
        parts.push((from, *at, step % 2 == 0));
        from = *at;
    }
    html! {
        g .scale data-shape="scale" {
            @for (from, to, filled) in parts {
                rect .(if filled { "filled" } else { "hollow" }) x=(n(x + from)) y=(n(y - high)) width=(n(to - from)) height=(n(high)) {}
            }
            text x=(n(x + from + letter * 0.4)) y=(n(y)) { (bar.text) }
        }
    }
}

/// What all drawings refer to: the hatch of a part that is lit.
pub(super) fn patterns() -> Markup {
    html! {
        svg .patterns width="0" height="0" aria-hidden="true" {
            defs {
                (PreEscaped(PATTERNS))
            }
        }
    }
}

/// Hatches, in mm of the trailer.
const PATTERNS: &str = concat!(
    r#"<pattern id="hatch-lit" width="60" height="60" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">"#,
    r#"<rect width="60" height="60" class="hatch-ground"/><rect width="22" height="60" class="hatch-line"/></pattern>"#,
    r#"<pattern id="hatch-berth" width="90" height="90" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">"#,
    r#"<rect width="90" height="90" class="berth-ground"/><rect width="8" height="90" class="berth-line"/></pattern>"#,
);
