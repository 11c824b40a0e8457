//! A unit of the fixed vocabulary, and how a shop's spelling of it is found.

use std::collections::BTreeMap;
use std::f64::consts::PI;
use std::sync::LazyLock;

use crate::dimension::Dimension;
use crate::vocabulary::VOCABULARY;

/// Which system of units a unit belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum System {
    /// US customary.
    Us,
    /// Metric.
    Metric,
    /// Used the same by both, such as amperes, hours and per cent; never converted when printing.
    Both,
}

/// A unit of the vocabulary, always handled as `&'static Unit`.
///
/// ```
/// use pintle_quantity::Unit;
///
/// let inch = Unit::find("inches").unwrap();
/// assert_eq!(inch.name(), "in");
/// assert!((inch.to_si(10.0) - 0.254).abs() < 1e-15);
/// ```
#[derive(Debug)]
pub struct Unit {
    pub(crate) name: &'static str,
    /// Other spellings in which case counts (`mA` is not `MA`).
    pub(crate) symbols: &'static [&'static str],
    /// Other spellings in which case does not count (`Lbs`).
    pub(crate) words: &'static [&'static str],
    pub(crate) dimension: Dimension,
    pub(crate) kind: Kind,
    pub(crate) system: System,
}

/// How a unit turns into SI.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    /// SI = value · factor.
    Linear(f64),
    /// SI = (value + offset) · factor: the scales of temperature.
    Affine { factor: f64, offset: f64 },
    /// American wire gauge number to cross-section area.
    WireGauge,
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Eq for Unit {}

impl Unit {
    /// The unit a shop means by `text`, or `None` where the vocabulary has no such spelling.
    ///
    /// Symbols in which case carries meaning must match exactly; US units and words written out
    /// match in any case. Spaces, full stops, `^2` for `²` and `*` or `-` for `·` are forgiven.
    ///
    /// ```
    /// use pintle_quantity::Unit;
    ///
    /// assert_eq!(Unit::find("sq. in.").unwrap().name(), "in²");
    /// assert_eq!(Unit::find("LBS").unwrap().name(), "lb");
    /// assert!(Unit::find("MA").is_none());
    /// ```
    pub fn find(text: &str) -> Option<&'static Unit> {
        static EXACT: LazyLock<BTreeMap<&'static str, &'static Unit>> = LazyLock::new(|| {
            let named = VOCABULARY.iter().flat_map(|unit| {
                let symbols = unit.symbols.iter().copied();
                std::iter::once(unit.name).chain(symbols).map(move |symbol| (symbol, unit))
            });
            named.collect()
        });
        static ANY_CASE: LazyLock<BTreeMap<String, &'static Unit>> = LazyLock::new(|| {
            let worded = VOCABULARY.iter().flat_map(|unit| {
                let own = (unit.system == System::Us).then_some(unit.name);
                let words = unit.words.iter().copied().chain(own);
                words.map(move |word| (word.to_lowercase(), unit))
            });
            worded.collect()
        });
        let exact = |spelling: &str| EXACT.get(spelling).copied();
        exact(text).or_else(|| {
            let plain = plain_spelling(text);
            exact(&plain).or_else(|| ANY_CASE.get(plain.to_lowercase().as_str()).copied())
        })
    }

    /// The name it is printed by.
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        self.dimension
    }

    /// The system of units it belongs to.
    pub fn system(&self) -> System {
        self.system
    }

    /// Every unit of the vocabulary, in its written order.
    pub fn all() -> &'static [Unit] {
        VOCABULARY
    }

    /// A value in this unit, in SI. A wire gauge number gives the cross-section in m²; 1/0 is 0,
    /// 4/0 is −3.
    pub fn to_si(&self, v: f64) -> f64 {
        match self.kind {
            Kind::Linear(factor) => v * factor,
            Kind::Affine { factor, offset } => (v + offset) * factor,
            Kind::WireGauge => {
                let diameter = GAUGE_36 * GAUGE_RATIO.powf((36.0 - v) / GAUGE_STEPS);
                PI / 4.0 * diameter * diameter
            }
        }
    }

    /// A value in SI, in this unit. Not a number for a wire gauge of no area.
    pub fn from_si(&self, si: f64) -> f64 {
        match self.kind {
            Kind::Linear(factor) => si / factor,
            Kind::Affine { factor, offset } => si / factor - offset,
            Kind::WireGauge => {
                let diameter = (si * 4.0 / PI).sqrt();
                36.0 - GAUGE_STEPS * (diameter / GAUGE_36).ln() / GAUGE_RATIO.ln()
            }
        }
    }

    /// SI per unit of a *difference*, or `None` for a wire gauge, whose steps are not alike.
    pub(crate) fn step(&self) -> Option<f64> {
        match self.kind {
            Kind::Linear(factor) | Kind::Affine { factor, .. } => Some(factor),
            Kind::WireGauge => None,
        }
    }

    pub(crate) fn is_linear(&self) -> bool {
        matches!(self.kind, Kind::Linear(_))
    }

    pub(crate) fn is_affine(&self) -> bool {
        matches!(self.kind, Kind::Affine { .. })
    }

    pub(crate) fn is_wire_gauge(&self) -> bool {
        matches!(self.kind, Kind::WireGauge)
    }

    pub(crate) fn spellings(&self) -> impl Iterator<Item = &'static str> {
        let more = self.symbols.iter().chain(self.words).copied();
        std::iter::once(self.name).chain(more)
    }
}

// ASTM B258 defines the American wire gauge by d = 0.005 in · 92^((36 − n)/39), with n = 0, −1, −2,
// −3 for 1/0 to 4/0: the ratio and steps as quoted in liquisearch.com/american_wire_gauge/formula
// (seen); the standard itself was not opened.
const GAUGE_36: f64 = 0.005 * 0.0254;
const GAUGE_RATIO: f64 = 92.0;
const GAUGE_STEPS: f64 = 39.0;

/// One spelling for the many ways of typing the same unit: single spaces, `·` for every sign of
/// multiplication, `²` for `^2` and for a 2 after a letter, no full stops, no space round `/`.
fn plain_spelling(text: &str) -> String {
    let spaced = text.replace('.', " ").replace("^2", "²").replace("^3", "³");
    let words: Vec<&str> = spaced
        .split_whitespace()
        .map(|word| if word.eq_ignore_ascii_case("per") { "/" } else { word })
        .collect();
    let mut plain = String::new();
    let letters: Vec<char> = words.join(" ").chars().collect();
    for (place, &letter) in letters.iter().enumerate() {
        let before = plain.chars().next_back();
        let after = letters.get(place + 1).copied();
        let ends = matches!(after, None | Some('/' | '·' | ' ' | '*' | '-'));
        match letter {
            ' ' if matches!(after, Some('/' | '·' | '*' | '-')) => {}
            ' ' if matches!(before, Some('/' | '·' | '°')) => {}
            '*' | '⋅' | '∙' | '•' | '-' => plain.push('·'),
            'º' | '˚' => plain.push('°'),
            '\u{2126}' => plain.push('Ω'),
            'µ' => plain.push('μ'),
            '2' if ends && before.is_some_and(char::is_alphabetic) => plain.push('²'),
            '3' if ends && before.is_some_and(char::is_alphabetic) => plain.push('³'),
            other => plain.push(other),
        }
    }
    plain
}

#[cfg(test)]
mod tests;
