//! A figure with how it came about: every value taken, every step with its formula and the formula's source.

#[cfg(test)]
pub(crate) mod trial;

use pintle_spec::field::Field;
use pintle_spec::{Known, Missing};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;

/// What was worked out.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// A figure.
    Figure(Figure),
    /// Yes or no.
    Flag(bool),
    /// A word or a sentence.
    Text(String),
    /// Several.
    Texts(Vec<String>),
    /// Nothing, and that is known, with why: there is no such thing in this build.
    None(String),
}

impl From<Figure> for Outcome {
    fn from(figure: Figure) -> Self {
        Self::Figure(figure)
    }
}

impl From<bool> for Outcome {
    fn from(flag: bool) -> Self {
        Self::Flag(flag)
    }
}

impl From<String> for Outcome {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<Vec<String>> for Outcome {
    fn from(texts: Vec<String>) -> Self {
        Self::Texts(texts)
    }
}

/// One line of a calculation.
#[derive(Debug, Clone)]
pub struct Step {
    /// The symbol, as the source has it.
    pub symbol: &'static str,
    /// What it stands for.
    pub what: String,
    /// The formula, in the symbols of the lines above; empty for what was taken as it is.
    pub formula: &'static str,
    /// Its value.
    pub value: Figure,
    /// Where the formula or the value comes from.
    pub origin: Origin,
}

/// A calculation under way.
#[derive(Debug, Default)]
pub struct Work {
    steps: Vec<Step>,
}

impl Work {
    /// Takes a value that the spec or the stock list states.
    ///
    /// # Errors
    /// The value, where it is missing.
    pub fn take(
        &mut self,
        symbol: &'static str,
        what: impl Into<String>,
        figure: Known<Figure>,
    ) -> Known<Figure> {
        Ok(self.note(symbol, what, "", figure?, Origin::WRITTEN))
    }

    /// Takes a constant or a table's value.
    pub fn know(
        &mut self,
        symbol: &'static str,
        what: impl Into<String>,
        figure: Figure,
        origin: Origin,
    ) -> Figure {
        self.note(symbol, what, "", figure, origin)
    }

    /// Takes an assumption.
    ///
    /// # Errors
    /// The assumption, where neither the build nor the rulebook states it.
    pub fn assume(
        &mut self,
        symbol: &'static str,
        case: &Case<'_>,
        topic: &'static Field,
        field: &'static Field,
    ) -> Known<Figure> {
        let (figure, origin) = case.assumed(topic, field)?;
        Ok(self.note(symbol, field.doc, "", figure, origin))
    }

    /// Notes a step of the calculation: the formula in the symbols of its source.
    ///
    /// # Errors
    /// What was missing to work it out.
    pub fn step(
        &mut self,
        symbol: &'static str,
        what: impl Into<String>,
        formula: &'static str,
        figure: Known<Figure>,
        origin: Origin,
    ) -> Known<Figure> {
        Ok(self.note(symbol, what, formula, figure?, origin))
    }

    fn note(
        &mut self,
        symbol: &'static str,
        what: impl Into<String>,
        formula: &'static str,
        value: Figure,
        origin: Origin,
    ) -> Figure {
        let handed = value.clone();
        self.steps.push(Step { symbol, what: what.into(), formula, value, origin });
        handed
    }
}

/// A figure of one topic with how it came about.
#[derive(Debug, Clone)]
pub struct Working {
    /// The topic, such as `gas`.
    pub topic: &'static str,
    /// Its name within the topic, such as `burn_time`.
    pub key: &'static str,
    /// What it is of: "the build", or a part as messages call it.
    pub of: String,
    /// What it is, in a few words.
    pub says: &'static str,
    /// How it came about, as far as it did.
    pub steps: Vec<Step>,
    /// What it came to, or what is missing to know it.
    pub outcome: Result<Outcome, Missing>,
    /// What a reader must know before he relies on it; empty where there is nothing.
    pub caution: &'static str,
}

impl Working {
    /// Works something out and keeps how. What had been worked out before a value was found missing is kept too.
    pub fn of<O: Into<Outcome>>(
        topic: &'static str,
        key: &'static str,
        of: impl Into<String>,
        says: &'static str,
        work: impl FnOnce(&mut Work) -> Known<O>,
    ) -> Self {
        let mut under_way = Work::default();
        let outcome = work(&mut under_way).map(Into::into);
        Self { topic, key, of: of.into(), says, steps: under_way.steps, outcome, caution: "" }
    }

    /// The same with what a reader must know before he relies on it.
    #[must_use]
    pub fn warned(self, caution: &'static str) -> Self {
        Self { caution, ..self }
    }

    /// The same with plain ratios, its own and those of its steps, as numbers rather than shares.
    #[must_use]
    pub fn in_numbers(mut self) -> Self {
        let number = |figure: &Figure| {
            if figure.quantity.unit().is_none() { figure.as_number() } else { figure.clone() }
        };
        for step in &mut self.steps {
            step.value = number(&step.value);
        }
        if let Ok(Outcome::Figure(figure)) = &self.outcome {
            self.outcome = Ok(Outcome::Figure(figure.as_number()));
        }
        self
    }

    /// The figure it came to.
    ///
    /// # Errors
    /// What was missing; or that it came to something other than a figure.
    pub fn figure(&self) -> Known<&Figure> {
        match &self.outcome {
            Ok(Outcome::Figure(figure)) => Ok(figure),
            Err(missing) => Err(missing.clone()),
            Ok(_) => Err(Missing::new(format!("a figure for {}", self.says), None, "report this")),
        }
    }
}
