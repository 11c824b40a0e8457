//! What was worked out of a build, with how each figure came about: for people, one line each, and as JSON.

use pintle_calc::topics;
use pintle_calc::uncertainty::{self, Tolerances};
use pintle_calc::{Figure, Origin, Outcome, Working};
use pintle_quantity::{Dimension, Quantity};
use pintle_source::{Sources, Span};
use pintle_spec::Build;
use serde::Serialize;

use crate::wrap::wrapped;
use crate::{Look, documents, safe};

/// The name of the JSON format.
const FORMAT: &str = "pintle-figures";
/// Its version.
const VERSION: u32 = 1;

/// The figures of one spec.
#[derive(Debug, Serialize)]
pub struct Document {
    spec: String,
    number: String,
    title: String,
    figures: Vec<Entry>,
}

/// One figure, in the order of the topics.
#[derive(Debug, Serialize)]
struct Entry {
    topic: &'static str,
    figure: &'static str,
    of: String,
    says: &'static str,
    #[serde(flatten)]
    outcome: Told,
    #[serde(skip_serializing_if = "str::is_empty")]
    caution: &'static str,
    steps: Vec<Line>,
}

/// What a figure came to.
#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Told {
    Figure {
        si: f64,
        shown: String,
        #[serde(skip_serializing_if = "Option::is_none")]
        uncertainty: Option<f64>,
    },
    Flag {
        flag: bool,
    },
    Text {
        text: String,
    },
    Texts {
        texts: Vec<String>,
    },
    None {
        none: String,
    },
    Missing {
        missing: String,
        #[serde(skip_serializing_if = "Option::is_none")]
        at: Option<String>,
        help: String,
    },
}

#[derive(Debug, Serialize)]
struct Line {
    symbol: &'static str,
    what: String,
    #[serde(skip_serializing_if = "str::is_empty")]
    formula: &'static str,
    si: f64,
    shown: String,
    standing: &'static str,
    #[serde(skip_serializing_if = "String::is_empty")]
    source: String,
    /// Where it is written, of a value that was taken as it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<String>,
}

/// Puts what was worked out into words.
pub fn document(
    build: &Build,
    spec: &str,
    workings: Vec<Working>,
    sources: &Sources,
    tolerances: &Tolerances,
    look: Look,
) -> Document {
    let entry = |working: Working| Entry {
        topic: working.topic,
        figure: working.key,
        says: working.says,
        outcome: told(&working, sources, tolerances, look),
        caution: working.caution,
        steps: working.steps.iter().map(|step| line(step, sources, look)).collect(),
        of: working.of,
    };
    Document {
        spec: spec.to_owned(),
        number: build.number.value.clone(),
        title: build.title.value.clone(),
        figures: workings.into_iter().map(entry).collect(),
    }
}

fn place(span: Span, sources: &Sources) -> String {
    format!("{}:{}", sources.name(span.source), sources.locate(span).line)
}

/// As a reader is shown it. A ratio that nobody wrote is a share, but one that is a whole number is a count.
pub fn shown(quantity: Quantity, look: Look) -> String {
    let plain = quantity.dimension() == Dimension::NONE && quantity.unit().is_none();
    let whole = quantity.si() >= 1.0 && (quantity.si() - quantity.si().round()).abs() < 1e-9;
    let quantity = if plain && whole { quantity.with_unit_of(Quantity::number(1.0)) } else { quantity };
    quantity.show(look.units)
}

fn told(working: &Working, sources: &Sources, tolerances: &Tolerances, look: Look) -> Told {
    match &working.outcome {
        Ok(Outcome::Figure(figure)) => {
            // Of a constant it is nothing, without a sign.
            let found = uncertainty::of(&figure.trace, tolerances).map(|found| found.expanded.abs());
            let quantity = match found.filter(|width| *width > 0.0) {
                Some(width) => figure.quantity.with_tolerance(width),
                None => figure.quantity,
            };
            Told::Figure { si: figure.quantity.si(), shown: shown(quantity, look), uncertainty: found }
        }
        Ok(Outcome::Flag(flag)) => Told::Flag { flag: *flag },
        Ok(Outcome::Text(text)) => Told::Text { text: text.clone() },
        Ok(Outcome::Texts(texts)) => Told::Texts { texts: texts.clone() },
        Ok(Outcome::None(why)) => Told::None { none: why.clone() },
        Err(missing) => Told::Missing {
            missing: missing.what.clone(),
            at: missing.span.map(|span| place(span, sources)),
            help: missing.help.clone(),
        },
    }
}

fn line(step: &pintle_calc::Step, sources: &Sources, look: Look) -> Line {
    let Origin { standing, text } = &step.origin;
    Line {
        symbol: step.symbol,
        what: step.what.clone(),
        formula: step.formula,
        si: step.value.quantity.si(),
        shown: shown(step.value.quantity, look),
        standing: standing.word(),
        source: text.to_string(),
        at: written_at(step.formula, &step.value).map(|span| place(span, sources)),
    }
}

/// Where a value that was taken as it is stands; none for a step, and for what rests on several values.
fn written_at(formula: &str, value: &Figure) -> Option<Span> {
    let inputs = value.trace.inputs();
    match inputs.as_slice() {
        [only] if formula.is_empty() => Some(only.value.span),
        _ => None,
    }
}

impl Told {
    fn words(&self) -> String {
        match self {
            Self::Figure { shown, .. } => shown.clone(),
            Self::Flag { flag: true } => "yes".to_owned(),
            Self::Flag { flag: false } => "no".to_owned(),
            Self::Text { text } => text.clone(),
            Self::Texts { texts } if texts.is_empty() => "none".to_owned(),
            Self::Texts { texts } => texts.join(", "),
            Self::None { none } => format!("none: {none}"),
            Self::Missing { missing, .. } => format!("not known: {missing} is missing"),
        }
    }
}

/// How much is told of each figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// What it came to.
    Values,
    /// What it came to, and every step on the way.
    Steps,
}

/// Figures for people, by topic and by whose they are.
pub fn text(document: &Document, depth: Depth, look: Look) -> String {
    let mut text = Text { text: String::new(), width: look.columns() };
    text.put(0, &format!("{}: {}, {}", document.spec, document.number, document.title));
    let (mut topic, mut of) = ("", "");
    for entry in &document.figures {
        if entry.topic != topic {
            (topic, of) = (entry.topic, "");
            let title = topics::find(topic).map_or("", |topic| topic.title);
            text.put(0, "");
            text.put(0, &format!("{topic}: {title}"));
        }
        match depth {
            Depth::Values => {
                if entry.of != of {
                    of = &entry.of;
                    text.put(2, of);
                }
                text.put(4, &format!("{}: {}  [{}]", entry.says, entry.outcome.words(), entry.figure));
            }
            Depth::Steps => steps(entry, &mut text),
        }
    }
    text.put(0, "");
    if depth == Depth::Values {
        text.put(
            0,
            "how a figure came about: `--of TOPIC`, or `--of TOPIC/FIGURE` with the name in brackets",
        );
    }
    text.put(
        0,
        "figures are computed, not measured: weigh the real trailer; gas and mains by qualified people",
    );
    text.text
}

fn steps(entry: &Entry, text: &mut Text) {
    text.put(0, "");
    text.put(2, &format!("{}, {}: {}", entry.of, entry.says, entry.outcome.words()));
    if let Told::Missing { at, help, .. } = &entry.outcome {
        let at = at.as_ref().map(|at| format!("{at}: ")).unwrap_or_default();
        text.put(4, &format!("{at}{help}"));
    }
    for line in &entry.steps {
        let formula = if line.formula.is_empty() { String::new() } else { format!("{} = ", line.formula) };
        let at = line.at.as_deref().unwrap_or_default();
        let source = [line.standing, &line.source, at];
        let source: Vec<&str> =
            source.into_iter().filter(|part| !part.is_empty() && *part != "written").collect();
        let source = if source.is_empty() { String::new() } else { format!("  [{}]", source.join(", ")) };
        text.put(4, &format!("{} = {formula}{}, {}{source}", line.symbol, line.shown, line.what));
    }
    if !entry.caution.is_empty() {
        text.put(4, entry.caution);
    }
}

/// One line a figure.
pub fn plain(document: &Document) -> String {
    let lines = document.figures.iter().map(|entry| {
        let name = format!("{}/{}", entry.topic, entry.figure);
        let says = format!("{}: {name}: {}: {}: ", document.spec, entry.of, entry.says);
        format!("{}\n", safe::line(&(says + &entry.outcome.words())))
    });
    lines.collect()
}

/// Documents as one JSON text.
pub fn json(documents: &[Document]) -> String {
    documents::json(FORMAT, VERSION, documents)
}

/// Lines of text, made harmless one by one.
struct Text {
    text: String,
    width: usize,
}

impl Text {
    /// Words so many spaces in, which go on two spaces further in.
    fn put(&mut self, indent: usize, words: &str) {
        for (number, line) in wrapped(words, self.width.saturating_sub(indent + 2)).iter().enumerate() {
            let further = if number == 0 { 0 } else { 2 };
            let indent = " ".repeat(indent + further);
            self.text.push_str(safe::line(&format!("{indent}{line}")).trim_end());
            self.text.push('\n');
        }
    }
}
