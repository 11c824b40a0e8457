//! Lengths and weights as a shop measures and writes them.

use pintle_finding::Written;
use pintle_quantity::{Quantity, Unit, Units};

/// How near a written length or weight is to what was reckoned, in SI, to be taken for it. A hundredth of a millimetre,
/// or of a gram: finer than any tape or scale.
const AS_GOOD_AS: f64 = 1e-5;
/// Dust of reckoning, in steps: a distance that is so little over a whole step is that step.
const DUST: f64 = 1e-6;
/// The most decimals that are written.
const MOST_DECIMALS: usize = 6;

/// A unit system to measure in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tape {
    /// Inches and pounds.
    Us,
    /// Millimetres and kilograms.
    Metric,
}

impl Tape {
    /// The one that an author measured with.
    pub(super) fn of(written: Quantity) -> Self {
        match written.unit().map(Unit::name) {
            Some("mm" | "cm" | "m" | "km" | "kg" | "g" | "t") => Self::Metric,
            _ => Self::Us,
        }
    }

    const fn length(self) -> &'static str {
        match self {
            Self::Us => "in",
            Self::Metric => "mm",
        }
    }

    const fn mass(self) -> &'static str {
        match self {
            Self::Us => "lb",
            Self::Metric => "kg",
        }
    }

    /// So many metres to what a shop measures, away from nothing: inches, or quarters of one below six; 10 mm, or 5 mm
    /// below 150.
    pub(super) fn away(self, metres: f64) -> f64 {
        rounded(metres, self.step_of_length(metres), f64::ceil)
    }

    /// So many metres to the finest that a shop measures, towards nothing.
    pub(super) fn towards(self, metres: f64) -> f64 {
        rounded(metres, self.step_of_length(0.0), f64::floor)
    }

    fn step_of_length(self, metres: f64) -> f64 {
        match self {
            Self::Us if metres.abs() < 6.0 * 0.0254 => 0.25 * 0.0254,
            Self::Us => 0.0254,
            Self::Metric if metres.abs() < 0.15 => 0.005,
            Self::Metric => 0.01,
        }
    }

    /// So many kilograms to whole pounds or kilograms, upwards.
    pub(super) fn more(self, kilograms: f64) -> f64 {
        rounded(kilograms, self.step_of_mass(), f64::ceil)
    }

    /// So many kilograms to whole pounds or kilograms, downwards.
    pub(super) fn less(self, kilograms: f64) -> f64 {
        rounded(kilograms, self.step_of_mass(), f64::floor)
    }

    fn step_of_mass(self) -> f64 {
        Unit::find(self.mass()).map_or(1.0, |unit| unit.to_si(1.0))
    }

    /// So many metres as this tape shows them: inches with fractions, or millimetres.
    pub(super) fn metres(self, metres: f64) -> String {
        let like = Quantity::parse(match self {
            Self::Us => "1/4 in",
            Self::Metric => "1 mm",
        });
        like.map_or_else(|_| of_unit(metres, self.length()).show(Units::AsWritten), |like| text(metres, like))
    }

    /// So many kilograms as a quantity of this scale.
    pub(super) fn kilograms(self, kilograms: f64) -> Quantity {
        of_unit(kilograms, self.mass())
    }
}

fn of_unit(si: f64, name: &str) -> Quantity {
    Unit::find(name).map_or_else(
        || Quantity::from_si(si, pintle_quantity::Dimension::NONE),
        |unit| Quantity::of(unit.from_si(si), unit),
    )
}

/// A size to whole steps: `by` says which way.
fn rounded(size: f64, step: f64, by: fn(f64) -> f64) -> f64 {
    let steps = size.abs() / step;
    let whole = steps.round();
    let steps = if (steps - whole).abs() < DUST { whole } else { by(steps) };
    (steps * step).copysign(size)
}

/// A quantity as its author would write it: in the unit and manner of `like`, so that reading it gives the same value.
pub(super) fn text(si: f64, like: Quantity) -> String {
    shown_as(si, Quantity::from_si(si, like.dimension()).with_unit_of(like), like)
}

fn shown_as(si: f64, quantity: Quantity, like: Quantity) -> String {
    let shown = quantity.show(Units::AsWritten);
    if says(&shown, si) {
        return shown;
    }
    let Some(unit) = like.unit() else { return shown };
    let value = unit.from_si(si);
    let tolerance = shown.split_once(" ± ").map_or_else(String::new, |(_, half)| format!(" ± {half}"));
    let exact = (0..=MOST_DECIMALS).map(|places| format!("{value:.places$} {}{tolerance}", unit.name()));
    exact.into_iter().find(|text| says(text, si)).unwrap_or(shown)
}

/// The same as a value to write, with the tolerance of `like`.
pub(super) fn written(si: f64, like: Quantity) -> Written {
    let plain = Quantity::from_si(si, like.dimension()).with_unit_of(like);
    let toleranced = like.tolerance().map_or(plain, |half| plain.with_tolerance(half.si()));
    Written::Text(shown_as(si, toleranced, like))
}

fn says(text: &str, si: f64) -> bool {
    Quantity::parse(text).is_ok_and(|read| (read.si() - si).abs() <= AS_GOOD_AS)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Quantity {
        Quantity::parse(text).unwrap()
    }

    #[test]
    fn lengths_are_what_a_tape_shows() {
        let inch = 0.0254;
        let rows = [
            (Tape::Us, 13.01 * inch, 14.0 * inch),
            (Tape::Us, 13.0 * inch, 13.0 * inch),
            (Tape::Us, -13.2 * inch, -14.0 * inch),
            (Tape::Us, 2.01 * inch, 2.25 * inch),
            (Tape::Metric, 0.3004, 0.31),
            (Tape::Metric, 0.0301, 0.035),
        ];
        for (tape, metres, expected) in rows {
            assert!((tape.away(metres) - expected).abs() < 1e-9, "{tape:?} {metres}: {}", tape.away(metres));
        }
        assert!((Tape::Us.towards(13.9 * inch) - 13.75 * inch).abs() < 1e-9);
        assert!((Tape::Us.towards(-0.2 * inch)).abs() < 1e-9);
        assert!((Tape::Us.more(0.4536) - 2.0 * 0.453_592_37).abs() < 1e-9, "a hair over a pound is two");
        assert!((Tape::Us.more(0.453_592_37) - 0.453_592_37).abs() < 1e-9);
        assert!((Tape::Metric.less(7.9) - 7.0).abs() < 1e-9);
    }

    #[test]
    fn a_tape_shows_fractions_of_an_inch() {
        let shown = |inches: f64| Tape::Us.metres(inches * 0.0254);
        assert_eq!(
            [shown(0.75), shown(14.0), shown(-3.25), shown(0.0)],
            ["3/4 in", "14 in", "-3 1/4 in", "0 in"]
        );
        assert_eq!(Tape::Metric.metres(0.355), "355 mm");
    }

    #[test]
    fn what_is_written_reads_as_the_value_and_looks_like_its_author() {
        // (author's text, value, what is written)
        let rows = [
            ("0 in", 0.3556, "14 in"),
            ("3 in", -0.0254 * 14.25, "-14.25 in"),
            ("3 ft 4 in", 0.0254 * 86.25, "7 ft 2 1/4 in"),
            ("3 1/8 in", 0.0254 * 17.125, "17 1/8 in"),
            ("3.125 in", 0.0254 * 17.125, "17.125 in"),
            ("120 mm", 0.355, "355 mm"),
            ("27 in ± 1 in", 0.0254 * 13.0, "13 in ± 1 in"),
            ("1,310 lb", 0.453_592_37 * 1205.0, "1,205 lb"),
            ("105 lb", 0.453_592_37 * 148.75, "148.75 lb"),
            ("105 lb ± 5 lb", 0.453_592_37 * 148.75, "148.75 lb ± 5 lb"),
        ];
        for (author, value, expected) in rows {
            let Written::Text(found) = written(value, read(author)) else { panic!("{author}") };
            assert_eq!(found, expected, "like {author}");
            assert_eq!(text(value, read(author)), expected.split(" ±").next().unwrap());
            assert!((read(&found).si() - value).abs() < 1e-5);
        }
    }
}
