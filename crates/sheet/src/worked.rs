//! Figures of a topic, as a sheet takes them over: known, known to be none, or missing; never guessed.

use std::cell::OnceCell;

use pintle_calc::uncertainty;
use pintle_calc::{Figure, Outcome, Working, topics};
use pintle_quantity::{Quantity, System, Units};
use pintle_report::Look;
use pintle_report::figures::shown;
use pintle_spec::Build;
use pintle_spec::schema::trailer;

use crate::Sheet;

/// What a figure comes to, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Told {
    /// It is known.
    Known(String),
    /// There is no such thing here, and why.
    None(String),
    /// What is missing to know it.
    Missing(String),
}

impl Told {
    /// In words whatever it is.
    pub(crate) fn words(&self) -> String {
        match self {
            Self::Known(words) => words.clone(),
            Self::None(why) => format!("none: {why}"),
            Self::Missing(what) => format!("not known: {what} is missing"),
        }
    }

    pub(crate) fn known(self) -> Option<String> {
        match self {
            Self::Known(words) => Some(words),
            Self::None(_) | Self::Missing(_) => None,
        }
    }
}

/// The figures of one topic, worked out when they are first asked for.
#[derive(Debug)]
pub(crate) struct Worked<'s> {
    sheet: Sheet<'s>,
    topic: &'static str,
    all: OnceCell<Vec<Working>>,
}

impl<'s> Worked<'s> {
    pub(crate) fn new(sheet: &Sheet<'s>, topic: &'static str) -> Self {
        Self { sheet: *sheet, topic, all: OnceCell::new() }
    }

    fn workings(&self) -> &[Working] {
        self.all.get_or_init(|| {
            let topic = topics::ALL.iter().find(|topic| topic.name == self.topic);
            topic.map(|topic| topic.figures(&self.sheet.case)).unwrap_or_default()
        })
    }

    /// All figures of a name, with what each is of.
    pub(crate) fn all(&self, key: &'static str) -> impl Iterator<Item = &Working> {
        self.workings().iter().filter(move |working| working.key == key)
    }

    /// The figure of a name of something.
    pub(crate) fn find(&self, key: &'static str, of: &str) -> Option<&Working> {
        self.all(key).find(|working| working.of == of)
    }

    /// The first figure of a name, in words; missing where there is no such figure for this build.
    pub(crate) fn told(&self, key: &'static str) -> Told {
        self.all(key).next().map_or_else(
            || Told::Missing(format!("`{}/{key}`", self.topic)),
            |found| told(&self.sheet, found),
        )
    }

    /// The same without its ±, where it is known.
    pub(crate) fn about(&self, key: &'static str) -> Option<String> {
        let found = self.all(key).find_map(|found| found.figure().ok());
        found.map(|figure| about(&self.sheet, figure))
    }

    /// The same as a plain quantity, without its ±.
    pub(crate) fn quantity(&self, key: &'static str) -> Option<Quantity> {
        self.all(key).next().and_then(|found| found.figure().ok()).map(|figure| figure.quantity)
    }
}

/// A working in words.
pub(crate) fn told(sheet: &Sheet<'_>, working: &Working) -> Told {
    match &working.outcome {
        Ok(Outcome::Figure(figure)) => Told::Known(figure_words(sheet, figure)),
        Ok(Outcome::Flag(flag)) => Told::Known(if *flag { "yes" } else { "no" }.to_owned()),
        Ok(Outcome::Text(text)) => Told::Known(text.clone()),
        Ok(Outcome::Texts(texts)) if texts.is_empty() => Told::Known("none".to_owned()),
        Ok(Outcome::Texts(texts)) => Told::Known(texts.join(", ")),
        Ok(Outcome::None(why)) => Told::None(why.clone()),
        Err(missing) => Told::Missing(missing.what.clone()),
    }
}

/// A figure as a quantity with its ±, where it has one.
fn with_tolerance(sheet: &Sheet<'_>, figure: &Figure) -> Quantity {
    let sure = uncertainty::of(&figure.trace, sheet.terms.tolerances).map(|found| found.expanded.abs());
    match sure.filter(|width| *width > 0.0) {
        Some(width) => figure.quantity.with_tolerance(width),
        None => figure.quantity,
    }
}

/// A figure with its ±.
pub(crate) fn figure_words(sheet: &Sheet<'_>, figure: &Figure) -> String {
    quantity_words(sheet, with_tolerance(sheet, figure))
}

/// A figure with its ±, in the one system of units in which boxes are printed: to be held against what is written there.
pub(crate) fn in_one_system(sheet: &Sheet<'_>, figure: &Figure) -> String {
    with_tolerance(sheet, figure).show(if is_metric(sheet) { Units::Metric } else { Units::Us })
}

/// The same without its ±, to as many digits as are sure: for whoever wants one number.
pub(crate) fn about(sheet: &Sheet<'_>, figure: &Figure) -> String {
    let words = in_one_system(sheet, figure);
    words.split_once(" ± ").map_or(words.clone(), |(value, _)| value.to_owned())
}

/// A quantity without its ±, in the one system of units in which the build's trailer is written.
pub(crate) fn plainly(sheet: &Sheet<'_>, quantity: Quantity) -> String {
    let words = quantity.show(if is_metric(sheet) { Units::Metric } else { Units::Us });
    words.split_once(" ± ").map_or(words.clone(), |(value, _)| value.to_owned())
}

/// A quantity as its author would write it: of one that nobody wrote, in the system of his other figures.
pub(crate) fn quantity_words(sheet: &Sheet<'_>, quantity: Quantity) -> String {
    let units = match sheet.terms.look.units {
        Units::AsWritten if quantity.unit().is_none() && is_metric(sheet) => Units::Metric,
        units => units,
    };
    shown(quantity, Look { units, ..sheet.terms.look })
}

/// Whether boxes are printed in metric units.
pub(crate) fn is_metric(sheet: &Sheet<'_>) -> bool {
    match sheet.terms.look.units {
        Units::Metric => true,
        Units::AsWritten => written_in_metric(sheet.build),
        Units::Us => false,
    }
}

fn written_in_metric(build: &Build) -> bool {
    // The label's unit comes first: that is what its user reads on the trailer.
    let mass = build.trailer.quantity(&trailer::GVWR).or_else(|| build.trailer.quantity(&trailer::MASS));
    mass.and_then(|mass| mass.value.unit()).is_some_and(|unit| unit.system() == System::Metric)
}
