//! Places with a law of the road of their own: a state, a country, a union. What each asks is data with a source and the
//! year of the text; a place that lies within another has that one's figures where it has none of its own.

use std::collections::BTreeMap;
use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_spec::field::Field;
use pintle_spec::schema::build::head;
use pintle_spec::{Build, Footing, Known, Missing, Named, Spanned};

use crate::figure::Figure;
use crate::origin::Origin;

/// The figures that a place may have.
pub mod figures {
    use pintle_quantity::Dimension;
    use pintle_spec::field::Kind::Quantity;
    use pintle_spec::field::Range::{Positive, Share};

    pintle_spec::schema! {
        /// The figures that a place may have.
        "the figures of a place";
        MOST_WIDTH = "most_width": Quantity(Dimension::LENGTH, Positive); "greatest outside width"
        MOST_HEIGHT = "most_height": Quantity(Dimension::LENGTH, Positive); "greatest height"
        MOST_LENGTH = "most_length": Quantity(Dimension::LENGTH, Positive); "greatest length"
        MOST_OVERHANG = "most_overhang": Quantity(Dimension::LENGTH, Positive); "greatest overhang behind the axle"
        UNMARKED_BEHIND = "unmarked_behind": Quantity(Dimension::LENGTH, Positive); "what a load may reach behind the body without marks of its own"
        UNMARKED_ASIDE = "unmarked_aside": Quantity(Dimension::LENGTH, Positive); "what a load may reach beyond a side without marks of its own"
        LEAST_TONGUE_SHARE = "least_tongue_share": Quantity(Dimension::NONE, Share); "least share of the weight on the tongue"
        LEAST_TONGUE = "least_tongue": Quantity(Dimension::MASS, Positive); "least weight on the tongue"
        MOST_AXLE_SHARE = "most_axle_share": Quantity(Dimension::NONE, Share); "greatest axle load without brakes, as a share of the tow vehicle's axle loads"
        BREAKAWAY_HOLD = "breakaway_hold": Quantity(Dimension::TIME, Positive); "how long a breakaway must hold"
        MOST_SPEED = "most_speed": Quantity(Dimension::SPEED, Positive); "greatest speed with a trailer"
    }
}

/// Where what a place asks comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ground {
    /// How well it is vouched for, and the text; with its year, and whom it binds.
    pub origin: Origin,
    /// The date or year of the text, or when it was seen.
    pub seen: String,
    /// Whether to look it up again before anybody relies on it.
    pub verify: bool,
    /// Whom the text binds, where that is somebody else.
    pub guideline: Option<String>,
    /// What a reader should know of it.
    pub note: String,
    /// The place that states it: the place itself, or one that it lies within.
    pub stated_by: String,
}

/// A figure of a place.
#[derive(Debug, Clone)]
pub struct PlaceFigure {
    /// The value, and where it is written.
    pub value: Spanned<Quantity>,
    /// Where it comes from.
    pub ground: Ground,
}

/// What a trailer is registered as, where a place tells two sorts apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// One that people live in: a camp trailer, a trailer coach, a caravan.
    Camp,
    /// Any other.
    Other,
}

impl Sort {
    /// The word for it in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Camp => "camp trailer",
            Self::Other => "other trailer",
        }
    }

    /// The sort that a word means.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Camp, Self::Other].into_iter().find(|sort| sort.word() == word)
    }
}

/// On which side of its threshold a place asks for brakes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum From {
    /// From the threshold on.
    AtLeast,
    /// Above the threshold only.
    MoreThan,
}

/// Which weight a place compares with its threshold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// What the trailer weighs, loaded as it is on the road.
    Gross,
    /// What it may weigh: its rating.
    Rating,
    /// What its axles carry.
    Axles,
}

/// What a place asks of brakes, from a weight on.
#[derive(Debug, Clone)]
pub struct BrakeNeed {
    /// The sort of trailer it is for; both where none is stated.
    pub sort: Option<Sort>,
    /// The threshold; none where the place goes by stopping distance and not by weight.
    pub threshold: Option<Spanned<Quantity>>,
    /// On which side of it.
    pub from: From,
    /// Which weight.
    pub weighed: Weighed,
    /// Which wheels, `all wheels`, `two wheels` or `one axle`; none where the text at hand does not say.
    pub wheels: Option<&'static str>,
    /// Whether a breakaway switch is asked for as well; none where the text at hand does not say.
    pub breakaway: Option<bool>,
    /// Where it comes from.
    pub ground: Ground,
}

/// A place.
#[derive(Debug, Clone)]
pub struct Place {
    /// Its name in specs, such as `us-tx`.
    pub name: String,
    /// What it is called.
    pub title: String,
    /// The place that it lies within.
    pub within: Option<String>,
    /// Its figures, its own and those of the place it lies within.
    pub figures: Vec<(&'static Field, PlaceFigure)>,
    /// What it asks of brakes; its own list, or that of the place it lies within.
    pub brakes: Vec<BrakeNeed>,
    /// Whether its lamps are those of 49 CFR 571.108 Table I-b, and by what.
    pub lamps: Option<Ground>,
}

impl Place {
    /// How messages call it.
    pub fn called(&self) -> String {
        format!("place `{}`", self.name)
    }

    /// One of its figures, as a figure and with where it comes from. `field` is one of [`figures`].
    ///
    /// # Errors
    /// The figure, where none is held for this place.
    pub fn figure(&self, field: &'static Field) -> Known<(Figure, &Ground)> {
        let held = self.figures.iter().find(|(held, _)| held.key == field.key);
        let (_, held) = held.ok_or_else(|| {
            Missing::new(
                format!("the {} in {}", field.doc, self.called()),
                None,
                "no figure is held for it: ask the place's own authority, and note what it said",
            )
        })?;
        let owner = format!("place `{}`", held.ground.stated_by);
        let named = Named { key: field.key, owner: owner.into(), value: held.value, footing: Footing::Exact };
        Ok((Figure::given(named), &held.ground))
    }
}

/// The places there are, and those that a shop reckons with where a build names none. Cheap to clone.
///
/// ```
/// use pintle_calc::place::Places;
///
/// let none = Places::default();
/// assert!(none.get("us-tx").is_none());
/// ```
#[derive(Debug, Clone, Default)]
pub struct Places(Arc<Held>);

#[derive(Debug, Default)]
struct Held {
    by_name: BTreeMap<String, Place>,
    of_shop: Vec<Spanned<String>>,
}

impl Places {
    /// Places from a list, and the names of those that a shop reckons with.
    pub fn from_list(list: impl IntoIterator<Item = Place>, of_shop: Vec<Spanned<String>>) -> Self {
        let by_name = list.into_iter().map(|place| (place.name.clone(), place)).collect();
        Self(Arc::new(Held { by_name, of_shop }))
    }

    /// The place with a name.
    pub fn get(&self, name: &str) -> Option<&Place> {
        self.0.by_name.get(name)
    }

    /// All of them, by name.
    pub fn all(&self) -> impl Iterator<Item = &Place> {
        self.0.by_name.values()
    }

    /// The places that a build will be registered and towed in: its own, else those of the shop.
    ///
    /// # Errors
    /// A place, where neither names one, or one that is not held.
    pub fn of(&self, build: &Build) -> Known<Vec<&Place>> {
        let own = build.head.texts(&head::PLACES);
        let named = if own.is_empty() { &self.0.of_shop } else { own };
        if named.is_empty() {
            return Err(Missing::new(
                "a place where it will be registered or towed",
                Some(build.head.span),
                "state them in [build], such as `places = [\"us-tx\"]`, or for the whole shop in pintle.toml",
            ));
        }
        let find = |name: &Spanned<String>| {
            self.get(&name.value).ok_or_else(|| {
                Missing::new(
                    format!("anything about the place `{}`", name.value),
                    Some(name.span),
                    "name a place that the rulebook holds",
                )
            })
        };
        let mut places: Vec<&Place> = Vec::new();
        for name in named {
            let place = find(name)?;
            if !places.iter().any(|held| held.name == place.name) {
                places.push(place);
            }
        }
        Ok(places)
    }
}
