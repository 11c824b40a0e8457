//! Every road arrangement in the documents: how many, what each figure comes to at the least and at the most, those
//! that a builder thinks of, and where the axle may stand.

use std::rc::Rc;

use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::Quantity;
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, State};
use serde::Serialize;

use super::Terms;
use super::band::Written;
use super::envelope::Envelope;
use super::shown::{Maybe, Shown};
use super::way::Way;

/// Every road arrangement of a build.
#[derive(Debug, Serialize)]
pub struct Arranged {
    /// How many there are, with all that varies at its ends.
    pub count: Maybe<Count>,
    /// Each figure.
    pub extremes: Vec<Range>,
    /// Those that a builder thinks of.
    pub named: Maybe<Vec<Named>>,
    /// Where the axle may stand.
    pub axle_window: Maybe<Window>,
    /// Gross and tongue weights.
    envelope: Maybe<Envelope>,
}

/// A number of arrangements: exact, as long as a double holds it.
#[derive(Debug, Clone, Copy, Serialize)]
#[serde(untagged)]
pub enum Count {
    /// Counted exactly.
    Whole(u64),
    /// More than that.
    About(f64),
    /// More than a double holds.
    Beyond(&'static str),
}

/// What a figure comes to over all arrangements.
#[derive(Debug, Serialize)]
pub struct Range {
    /// The figure, as keys of a state are called.
    figure: &'static str,
    /// The same in words.
    #[serde(skip)]
    pub words: &'static str,
    /// The least.
    pub least: Maybe<Extreme>,
    /// The most.
    pub most: Maybe<Extreme>,
}

/// One end of a figure's range.
#[derive(Debug, Serialize)]
pub struct Extreme {
    /// What the figure comes to.
    pub value: Shown,
    /// Where.
    #[serde(flatten)]
    pub way: Way,
}

/// An arrangement that a builder thinks of.
#[derive(Debug, Serialize)]
pub struct Named {
    /// Which.
    #[serde(flatten)]
    pub way: Way,
    /// Its weight.
    pub gross: Shown,
    /// Its weight on the ball.
    pub tongue: Shown,
    /// The same as a share.
    pub tongue_share: Shown,
}

/// Where the axle may stand.
#[derive(Debug, Serialize)]
pub struct Window {
    /// The shares that are kept.
    band: Maybe<Written>,
    /// The foremost place, and the arrangement that is too light on the ball further ahead.
    pub foremost: Place,
    /// The rearmost place, and the arrangement that is too heavy on the ball further back.
    pub rearmost: Place,
    /// The rearmost less the foremost; negative where there is no place.
    pub length: Shown,
    /// Where the axle is.
    pub axle: Shown,
    /// How that lies to the window.
    pub stands: Option<Stands>,
    /// How far outside it is, or the nearer end.
    #[serde(skip)]
    pub off: Option<String>,
}

/// One end of the window.
#[derive(Debug, Serialize)]
pub struct Place {
    /// Behind the ball.
    pub behind_ball: Shown,
    /// The arrangement that sets it.
    #[serde(flatten)]
    pub way: Way,
}

/// How the axle lies to its window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Stands {
    /// Within it.
    #[serde(rename = "within")]
    Within,
    /// Ahead of the foremost place.
    #[serde(rename = "too far ahead")]
    TooFarAhead,
    /// Behind the rearmost place.
    #[serde(rename = "too far back")]
    TooFarBack,
    /// No place serves every arrangement.
    #[serde(rename = "no window")]
    NoWindow,
}

impl Arranged {
    /// Every road arrangement of a build, if it has any.
    pub fn of(build: &Build, terms: Terms<'_>) -> Maybe<Self> {
        Maybe::of(Arrangements::of(build), |all| Self {
            count: Maybe::of(all.count(), Count::of),
            extremes: FIGURES.iter().map(|figure| range(build, &all, *figure, terms)).collect(),
            named: Maybe::of(all.named(), |named| {
                named.iter().map(|state| named_one(build, state, terms)).collect()
            }),
            axle_window: window(build, &all, terms),
            envelope: Envelope::of(build, &all, terms),
        })
    }
}

impl Count {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number in range")]
    /// A number that was counted in doubles.
    pub(super) fn of(number: f64) -> Self {
        // Up to 2^53 a double is exact.
        match number {
            number if number < 9_007_199_254_740_992.0 => Self::Whole(number as u64),
            number if number.is_finite() => Self::About(number),
            _ => Self::Beyond("more than 1e308"),
        }
    }

    /// The number as a reader is shown it.
    pub fn in_words(self) -> String {
        match self {
            Self::Whole(number) => grouped(number),
            Self::About(number) => format!("about {number:.3e}"),
            Self::Beyond(words) => words.to_owned(),
        }
    }
}

/// A number with its thousands apart.
fn grouped(number: u64) -> String {
    let digits = number.to_string();
    let ahead = digits.len() % 3;
    let mut grouped = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && at % 3 == ahead {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    grouped
}

/// A figure: whose extremes, its key, its name in words, and how it is worked out of a state.
type Of = (Extremum, &'static str, &'static str, fn(&Rc<Weights>) -> Known<Figure>);

const FIGURES: &[Of] = &[
    (Extremum::Gross, "gross", "gross weight", Weights::gross),
    (Extremum::Unloaded, "unloaded", "unloaded weight", Weights::unloaded),
    (Extremum::Tongue, "tongue", "tongue weight", Weights::tongue),
    (Extremum::TongueShare, "tongue_share", "tongue share", Weights::tongue_share),
    (Extremum::Axles, "axles", "axle load", Weights::axles),
    (Extremum::Left, "left", "left wheels", Weights::left),
    (Extremum::Right, "right", "right wheels", Weights::right),
    (Extremum::Side, "side", "right wheels less left", Weights::side_difference),
    (Extremum::SideShare, "side_share", "the same of the axle load", side_share),
    (Extremum::CentreX, "cg_x", "centre of gravity behind the ball", Weights::centre_x),
    (Extremum::CentreY, "cg_y", "centre of gravity right of centre", Weights::centre_y),
    (Extremum::CentreZ, "cg_z", "centre of gravity above ground", Weights::centre_z),
];

/// The side difference with its sign, as a share of the axle load.
fn side_share(weights: &Rc<Weights>) -> Known<Figure> {
    Ok(weights.side_difference()?.over(&weights.axles()?).as_share())
}

fn range(build: &Build, all: &Arrangements<'_>, (what, key, words, of): Of, terms: Terms<'_>) -> Range {
    let end = |end: End| {
        Maybe::of(all.extreme(what, end), |state| Extreme {
            value: terms.shown(build, of(&Weights::of(build, &state))),
            way: Way::of(build, &state, terms.look.units),
        })
    };
    Range { figure: key, words, least: end(End::Least), most: end(End::Most) }
}

fn named_one(build: &Build, state: &State, terms: Terms<'_>) -> Named {
    let weights = Weights::of(build, state);
    Named {
        way: Way::of(build, state, terms.look.units),
        gross: terms.shown(build, weights.gross()),
        tongue: terms.shown(build, weights.tongue()),
        tongue_share: terms.shown(build, weights.tongue_share()),
    }
}

fn window(build: &Build, all: &Arrangements<'_>, terms: Terms<'_>) -> Maybe<Window> {
    let units = terms.look.units;
    let found = terms.band.as_ref().map_err(Clone::clone);
    let found = found.and_then(|band| all.axle_window(band.least.share, band.most.share));
    Maybe::of(found, |window| {
        let group = build.trailer.need_table(&trailer::AXLE);
        let axle = group.and_then(|group| Coordinate::of(group, &axle::BALL)).map(|axle| axle.quantity());
        let place = |at: Quantity, state: &State| Place {
            behind_ball: Shown::of(at, units),
            way: Way::of(build, state, units),
        };
        // Shown as the axle's place was written.
        let like = |length: Quantity| length.with_unit_of(window.least);
        let apart = |far: Quantity, near: Quantity| far.try_sub(near).map(like);
        let stands = axle.as_ref().ok().map(|axle| match () {
            () if window.is_empty() => Stands::NoWindow,
            () if axle.at_least(window.least) != Ok(true) => Stands::TooFarAhead,
            () if axle.at_most(window.most) != Ok(true) => Stands::TooFarBack,
            () => Stands::Within,
        });
        let off = axle.as_ref().ok().zip(stands).and_then(|(axle, stands)| {
            let show = |far, near| apart(far, near).ok().map(|apart| apart.show(units));
            match stands {
                Stands::NoWindow => None,
                Stands::TooFarAhead => show(window.least, *axle),
                Stands::TooFarBack => show(*axle, window.most),
                Stands::Within => {
                    let ends = (show(*axle, window.least)?, show(window.most, *axle)?);
                    Some(format!("{} behind the foremost place, {} ahead of the rearmost", ends.0, ends.1))
                }
            }
        });
        Window {
            band: Written::of(terms.band, units),
            foremost: place(window.least, &window.aft),
            rearmost: place(window.most, &window.fore),
            length: match apart(window.most, window.least) {
                Ok(length) => Shown::of(length, units),
                Err(error) => Shown::Missing { missing: error.to_string() },
            },
            axle: match axle {
                Ok(axle) => Shown::of(axle, units),
                Err(missing) => Shown::Missing { missing: missing.what },
            },
            stands,
            off,
        }
    })
}

#[cfg(test)]
mod tests;
