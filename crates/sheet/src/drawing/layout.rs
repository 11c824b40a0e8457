//! Everything of a drawing in its place: how large letters are, where labels, dimensions, arrows and the scale bar stand,
//! and how large the paper is.

use super::canvas::{Arrow, Canvas, Dimension, Edge};
use super::form::{Bounds, Point};
use super::labels::{Placed, Wanted, place};
use super::scene::Scene;
use crate::about::Findings;

/// How wide a letter is, of its height. Ours: the widest of the faces that the page asks for.
const LETTER: f64 = 0.58;
/// How much smaller a badge's letters are.
pub(super) const BADGE: f64 = 0.82;
/// How far dimension lines stand apart, in letters.
const ROW: f64 = 1.9;

/// A part's number, with the numbers of its findings.
#[derive(Debug, Clone)]
pub(super) struct Label {
    pub(super) part: usize,
    pub(super) number: String,
    pub(super) badge: Option<String>,
    pub(super) placed: Placed,
}

/// The mark of a centre of gravity with its label.
#[derive(Debug, Clone)]
pub(super) struct LaidMark {
    pub(super) state: usize,
    pub(super) text: String,
    pub(super) at: Point,
    pub(super) placed: Placed,
}

/// A dimension with its line.
#[derive(Debug, Clone)]
pub(super) struct LaidDimension {
    /// The two ends of the line.
    pub(super) line: [Point; 2],
    /// From what is measured to the line, at both ends.
    pub(super) extensions: [[Point; 2]; 2],
    pub(super) upright: bool,
    pub(super) at: Point,
    pub(super) text: String,
}

/// A scale bar.
#[derive(Debug, Clone)]
pub(super) struct Bar {
    pub(super) at: Point,
    /// Where its parts end, in mm from its beginning.
    pub(super) steps: Vec<f64>,
    pub(super) text: String,
}

/// A drawing in its place on paper.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) paper: Bounds,
    /// How high a letter is, in mm.
    pub(super) letter: f64,
    pub(super) labels: Vec<Label>,
    pub(super) marks: Vec<LaidMark>,
    pub(super) dimensions: Vec<LaidDimension>,
    pub(super) bar: Bar,
}

/// How wide a text is, at letters of a height.
pub(super) fn width(text: &str, letter: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a number of letters")]
    let letters = text.chars().count() as f64;
    letters * LETTER * letter
}

/// Puts a drawing in its place; none of one in which nothing is drawn.
pub(super) fn layout(scene: &Scene<'_>, canvas: &Canvas, found: &Findings<'_>) -> Option<Layout> {
    let bounds = canvas.bounds()?;
    let letter = (bounds.width() / canvas.letters).max(bounds.height() / (canvas.letters * 0.62)).max(1.0);
    let radius = mark_radius(letter);
    let crosses: Vec<Bounds> =
        canvas.marks.iter().map(|mark| Bounds::about(mark.at, 2.0 * radius, 2.0 * radius)).collect();
    let labels = labels(canvas, found, &crosses, letter);
    let mut taken = crosses;
    taken.extend(labels.iter().map(|label| label.placed.bounds));
    let marks = marks(scene, canvas, &taken, letter);
    let all =
        labels.iter().map(|label| label.placed.bounds).chain(marks.iter().map(|mark| mark.placed.bounds));
    let inner = all.fold(bounds, |one, other| one.and(&other));
    let inner = canvas
        .arrows
        .iter()
        .map(|arrow| arrow_bounds(arrow, letter))
        .fold(inner, |one, other| one.and(&other));
    let mut paper = inner;
    let dimensions = dimensions(&canvas.dimensions, &inner, letter, &mut paper);
    let bar = bar(scene, &paper, letter);
    paper = paper.and(&Bounds {
        low: (bar.at.0, bar.at.1 - 1.6 * letter),
        high: (
            bar.at.0 + bar.steps.last().copied().unwrap_or(0.0) + width(&bar.text, letter),
            bar.at.1 + 0.4 * letter,
        ),
    });
    Some(Layout { paper: paper.grown(letter), letter, labels, marks, dimensions, bar })
}

/// How large the mark of a centre of gravity is.
pub(super) fn mark_radius(letter: f64) -> f64 {
    0.5 * letter
}

fn labels(canvas: &Canvas, found: &Findings<'_>, taken: &[Bounds], letter: f64) -> Vec<Label> {
    let mut all = Vec::new();
    let mut wanted = Vec::new();
    for (part, drawn) in &canvas.parts {
        let Some(shape) = drawn.first().and_then(|drawn| drawn.form.bounds()) else { continue };
        let number = number(*part);
        let badge = badge(found.about(*part));
        let beside = badge.as_ref().map_or(0.0, |badge| badge_width(badge, letter) + 0.15 * letter);
        wanted.push(Wanted { shape, width: number_width(&number, letter) + beside, height: 1.15 * letter });
        all.push((*part, number, badge));
    }
    let placed = place(&wanted, taken, letter);
    let labels = all.into_iter().zip(placed);
    labels.map(|((part, number, badge), placed)| Label { part, number, badge, placed }).collect()
}

/// The number of a part in every drawing: that of its place in the spec.
pub(super) fn number(part: usize) -> String {
    (part + 1).to_string()
}

/// What stands in a part's badge: the numbers of its findings, the first few of many.
fn badge(findings: &[usize]) -> Option<String> {
    let shown: Vec<String> = findings.iter().take(3).map(ToString::to_string).collect();
    match findings.len() {
        0 => None,
        more if more > shown.len() => Some(format!("!{} +{}", shown.join(" "), more - shown.len())),
        _ => Some(format!("!{}", shown.join(" "))),
    }
}

pub(super) fn number_width(number: &str, letter: f64) -> f64 {
    width(number, letter) + 0.35 * letter
}

pub(super) fn badge_width(badge: &str, letter: f64) -> f64 {
    width(badge, letter * BADGE) + 0.4 * letter
}

fn marks(scene: &Scene<'_>, canvas: &Canvas, taken: &[Bounds], letter: f64) -> Vec<LaidMark> {
    let radius = mark_radius(letter);
    let mut wanted = Vec::new();
    let mut texts = Vec::new();
    for mark in &canvas.marks {
        let number =
            scene.road.iter().find(|weighed| weighed.state == mark.state).map_or(0, |weighed| weighed.number);
        let text = format!("G{number}");
        let shape = Bounds::about(mark.at, 2.0 * radius, 2.0 * radius);
        // Wider than the mark, so that it never stands in it.
        wanted.push(Wanted { shape, width: width(&text, letter).max(2.1 * radius), height: 1.15 * letter });
        texts.push(text);
    }
    let placed = place(&wanted, taken, letter);
    let all = canvas.marks.iter().zip(texts).zip(placed);
    all.map(|((mark, text), placed)| LaidMark { state: mark.state, text, at: mark.at, placed }).collect()
}

/// How long an arrow is, in letters.
pub(super) const ARROW: f64 = 2.6;

fn arrow_bounds(arrow: &Arrow, letter: f64) -> Bounds {
    let (x, y) = arrow.at;
    let far = x + 0.8 * letter + width(&arrow.text, letter);
    Bounds { low: (x - 0.5 * letter, y), high: (far, y + (ARROW + 0.3) * letter) }
}

fn dimensions(wanted: &[Dimension], inner: &Bounds, letter: f64, paper: &mut Bounds) -> Vec<LaidDimension> {
    let mut laid = Vec::new();
    for edge in [Edge::Below, Edge::Above, Edge::Left, Edge::Right] {
        let upright = matches!(edge, Edge::Left | Edge::Right);
        let along = |point: Point| if upright { point.1 } else { point.0 };
        let mut rows: Vec<Vec<(f64, f64)>> = Vec::new();
        let mut of_edge: Vec<&Dimension> = wanted.iter().filter(|wanted| wanted.edge == edge).collect();
        let length = |wanted: &Dimension| (along(wanted.to) - along(wanted.from)).abs();
        of_edge.sort_by(|one, other| length(one).total_cmp(&length(other)));
        for dimension in of_edge {
            let (from, to) = (along(dimension.from), along(dimension.to));
            let (low, high) = (from.min(to), from.max(to));
            let half = width(&dimension.text, letter) / 2.0 + 0.3 * letter;
            let middle = f64::midpoint(low, high);
            let takes = (low.min(middle - half), high.max(middle + half));
            let free = |row: &Vec<(f64, f64)>| {
                row.iter().all(|held| held.1 <= takes.0 + 1e-6 || held.0 >= takes.1 - 1e-6)
            };
            let row = rows.iter().position(free).unwrap_or(rows.len());
            match rows.get_mut(row) {
                Some(held) => held.push(takes),
                None => rows.push(vec![takes]),
            }
            #[expect(clippy::cast_precision_loss, reason = "a number of rows")]
            let off = (1.5 + ROW * row as f64) * letter;
            let (level, out) = match edge {
                Edge::Below => (inner.high.1 + off, 1.0),
                Edge::Above => (inner.low.1 - off, -1.0),
                Edge::Left => (inner.low.0 - off, -1.0),
                Edge::Right => (inner.high.0 + off, 1.0),
            };
            let on = |along: f64, level: f64| if upright { (level, along) } else { (along, level) };
            let beyond = level + out * 0.3 * letter;
            laid.push(LaidDimension {
                line: [on(from, level), on(to, level)],
                extensions: [[dimension.from, on(from, beyond)], [dimension.to, on(to, beyond)]],
                upright,
                at: on(middle, level - 0.42 * letter),
                text: dimension.text.clone(),
            });
            *paper = paper.and(&Bounds::round(on(takes.0, level - 1.2 * letter), on(takes.1, beyond)));
        }
    }
    laid
}

/// A scale bar below all: four feet, or a metre.
fn bar(scene: &Scene<'_>, paper: &Bounds, letter: f64) -> Bar {
    const FOOT: f64 = 304.8;
    let (steps, text) = if scene.is_metric() {
        (vec![250.0, 500.0, 1000.0], "1 m")
    } else {
        (vec![FOOT, 2.0 * FOOT, 4.0 * FOOT], "4 ft")
    };
    Bar { at: (paper.low.0, paper.high.1 + 2.0 * letter), steps, text: text.to_owned() }
}
