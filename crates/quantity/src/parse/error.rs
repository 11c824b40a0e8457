//! What can be wrong with a text, where, and what to write instead.

use std::ops::Range;

use thiserror::Error;

use crate::unit::Unit;

/// Why a text is not a quantity: what is wrong, which bytes to underline, and what to change.
///
/// ```
/// use pintle_quantity::Quantity;
///
/// let mistake = Quantity::parse("150 lbz").unwrap_err();
/// assert_eq!(mistake.to_string(), "`lbz` is not a known unit");
/// assert_eq!(mistake.help().as_deref(), Some("did you mean `lb`?"));
/// assert_eq!(mistake.range(), 4..7);
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{problem}")]
pub struct ParseError {
    problem: Problem,
    range: Range<usize>,
}

impl ParseError {
    /// The bytes of the text given that are at fault: what to underline.
    pub fn range(&self) -> Range<usize> {
        self.range.clone()
    }

    /// What to write instead.
    pub fn help(&self) -> Option<String> {
        Some(self.problem.help())
    }

    /// A number of tolerance without a unit is best given the unit of the value.
    pub(super) fn in_tolerance(self, of: &'static Unit) -> Self {
        let problem = match self.problem {
            Problem::NoUnit { number, unit: None } => Problem::NoUnit { number, unit: Some(of.name()) },
            other => other,
        };
        Self { problem, ..self }
    }
}

/// Each kind of mistake. Texts are the user's, already fit to print.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub(super) enum Problem {
    #[error("a quantity is missing")]
    Empty,
    #[error("a text of {bytes} bytes is too long for a quantity, which has at most {} bytes", super::LONGEST)]
    TooLong { bytes: usize },
    #[error("`{text}` is not a number")]
    NoNumber { text: String },
    #[error("`{text}` is not a number")]
    BadNumber { text: String },
    #[error("`{text}` is a number to a power of ten")]
    PowerOfTen { text: String },
    #[error("the comma in `{text}` does not group thousands")]
    DecimalComma { text: String, point: String },
    #[error("the commas in `{text}` do not group thousands")]
    BadGroups { text: String },
    #[error("`{text}` has both decimals and a fraction")]
    DecimalAndFraction { text: String },
    #[error("`{text}` has nothing but zero below the line")]
    ZeroDenominator { text: String },
    #[error("`{fraction}` in `{text}` is one or more, where less than one is left to add")]
    Improper { text: String, fraction: String },
    #[error("`{number}` has no unit")]
    NoUnit { number: String, unit: Option<&'static str> },
    #[error("`{first}` and `{second}` are two numbers with no unit between them")]
    TwoNumbers { first: String, second: String },
    #[error("`{text}` is not a known unit")]
    UnknownUnit { text: String, nearest: Option<String> },
    #[error("`{text}` is not a wire gauge, which runs from 4/0 AWG to 40 AWG")]
    NotAGauge { text: String },
    #[error("`{before}` is {before_noun}, but `{text}` is {noun}")]
    MixedDimensions { before: String, before_noun: String, text: String, noun: String },
    #[error("`{text}` cannot be one of several parts of a value")]
    NotInParts { text: String },
    #[error("`{text}` comes after `{before}`, but is not in a smaller unit")]
    NotFalling { before: String, text: String, same: bool },
    #[error("`{before}` is not a whole number, but `{text}` follows it")]
    FractionNotLast { before: String, text: String },
    #[error("a value of more than {most} parts is not read")]
    TooManyParts { most: usize },
    #[error("`{text}` has a sign inside a value")]
    SignInside { text: String },
    #[error("`{text}` is left over after the quantity")]
    Trailing { text: String },
    #[error("the tolerance is missing")]
    NoTolerance,
    #[error("`{text}` is a tolerance with a sign")]
    SignedTolerance { text: String },
    #[error("`{text}` is not a tolerance for `{value}`, which is {noun}")]
    OtherTolerance { text: String, value: String, noun: String, gauge: bool },
    #[error("`{text}` is too large to be real")]
    TooLarge { text: String },
    #[error("`{text}` is colder than absolute zero, -459.67 °F")]
    TooCold { text: String },
}

impl Problem {
    pub(super) fn at(self, range: Range<usize>) -> ParseError {
        ParseError { problem: self, range }
    }

    pub(super) fn trailing(text: &str) -> Self {
        Self::Trailing { text: quoted(text.trim_end()) }
    }

    fn help(&self) -> String {
        match self {
            Self::DecimalComma { point, .. } => {
                format!("write `{point}` for a decimal, or three digits after the comma, as in `1,500`")
            }
            Self::NoUnit { number, unit: None } => {
                format!("add the unit, such as `{number} lb` for a mass or `{number} in` for a length")
            }
            Self::NoUnit { number, unit: Some(unit) } => format!("add the unit: `± {number} {unit}`"),
            Self::UnknownUnit { nearest: Some(nearest), .. } => format!("did you mean `{nearest}`?"),
            Self::MixedDimensions { before, text, .. } => {
                format!("keep `{before}` or `{text}`, and give the other a line of its own")
            }
            Self::NotFalling { before, text, same: false } => {
                format!("write the larger unit first: `{text} {before}`")
            }
            Self::OtherTolerance { noun, gauge: false, .. } => format!("write the tolerance as {noun} too"),
            other => other.fixed_help().to_owned(),
        }
    }

    /// Help that needs none of the user's text.
    fn fixed_help(&self) -> &'static str {
        match self {
            Self::BadNumber { .. } => "write a number such as `7`, `7.5` or `1,500`",
            Self::PowerOfTen { .. } => "write the number out, such as `1,500`",
            Self::ZeroDenominator { .. } => {
                "write a fraction such as `3/8`; a wire gauge is written `2/0 AWG`"
            }
            Self::BadGroups { .. } => "put a comma before every third digit, as in `1,500`, or none",
            Self::DecimalAndFraction { .. } => "write a decimal such as `7.5` or a fraction such as `7 1/2`",
            Self::Improper { .. } => "write the whole number and a fraction less than one, such as `22 3/8`",
            Self::TwoNumbers { .. } => {
                "write one number and its unit, such as `7 ft 2 in`, or a range as a tolerance, `11 in ± 1 in`"
            }
            Self::UnknownUnit { .. } => "use a unit such as `in`, `lb`, `gal`, `kg`, `mm`, `W` or `%`",
            Self::NotAGauge { .. } => {
                "write a gauge such as `10 AWG` or `2/0 AWG`, or an area such as `6 mm²`"
            }
            Self::NotInParts { .. } => "write the value in one unit",
            Self::NotFalling { .. } => "write the unit once, or add the two",
            Self::FractionNotLast { .. } => {
                "keep decimals and fractions to the last part, as in `7 ft 2 1/4 in`"
            }
            Self::TooManyParts { .. } => "use fewer units, as in `7 ft 2 1/4 in`",
            Self::SignInside { .. } => {
                "put the sign in front of the whole value; a tolerance is written `± 5 lb`"
            }
            Self::Trailing { .. } => "keep only the number and its unit; remarks belong in a comment",
            Self::NoTolerance => "write how much after `±`, such as `± 5 lb` or `± 3 %`",
            Self::SignedTolerance { .. } => "leave out the sign: `±` already means both ways",
            Self::OtherTolerance { .. } => "leave out the tolerance, or write the wire's area in `mm²`",
            Self::TooLarge { .. } => "check the number and its unit",
            Self::TooCold { .. } => "check the number and the sign",
            _ => "write a number and its unit, such as `22 3/8 in` or `150 lb`",
        }
    }
}

/// The user's text on one line: control characters would break a message.
pub(super) fn quoted(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}
