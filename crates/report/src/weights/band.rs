//! The band of tongue shares in force. Which rules set it is handed in: this crate knows none.

use pintle_calc::Known;
use pintle_quantity::{Quantity, Units};
use serde::Serialize;

use super::shown::{Maybe, Shown};

/// The least and the greatest share of the weight that may rest on the ball.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// The lower limit.
    pub least: Limit,
    /// The upper limit.
    pub most: Limit,
}

/// A limit, and the rule that it is of.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The rule, such as `towing/light-tongue`.
    pub rule: String,
    /// The limit in force: a share.
    pub share: Quantity,
}

/// The band as written.
#[derive(Debug, Serialize)]
pub(super) struct Written {
    /// The lower limit.
    pub(super) least: End,
    /// The upper limit.
    pub(super) most: End,
}

/// One end of it.
#[derive(Debug, Serialize)]
pub(super) struct End {
    /// The limit.
    pub(super) share: Shown,
    /// The rule that it is of.
    pub(super) rule: String,
}

impl Written {
    /// The band, or why there is none.
    pub(super) fn of(band: &Known<Band>, units: Units) -> Maybe<Self> {
        let end = |limit: &Limit| End { share: Shown::of(limit.share, units), rule: limit.rule.clone() };
        Maybe::of(band.as_ref().map_err(Clone::clone), |band| Self {
            least: end(&band.least),
            most: end(&band.most),
        })
    }
}
