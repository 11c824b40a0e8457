//! The topics that a shop has to work out, each with all its figures.
//!
//! Which figures there are stands in one table a topic; rules are written against those tables, and so is their
//! documentation. Debug builds hold every figure worked out against its line.

mod air;
mod anchor;
mod electric;
mod gas;
mod quote;
mod road;
mod roof;
mod scale;
mod space;
mod sway;
mod tow;
mod water;
mod written;

use pintle_quantity::{Dimension, Quantity};

use crate::case::Case;
use crate::working::{Outcome, Working};

/// What a figure comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gives {
    /// A quantity; a unit that a shop would write it in.
    Figure(&'static str),
    /// A ratio, shown in per cent.
    Share,
    /// A count, a class or a ratio, shown as a plain number.
    Number,
    /// Yes or no.
    Flag,
    /// A word or a sentence.
    Text,
    /// Several of them.
    Texts,
}

impl Gives {
    /// The dimension of what is a quantity.
    pub fn dimension(self) -> Option<Dimension> {
        match self {
            Self::Figure(unit) => Some(Quantity::parse(&format!("1 {unit}")).ok()?.dimension()),
            Self::Share | Self::Number => Some(Dimension::NONE),
            Self::Flag | Self::Text | Self::Texts => None,
        }
    }

    fn fits(self, outcome: &Outcome) -> bool {
        match outcome {
            Outcome::Figure(figure) => self.dimension() == Some(figure.quantity.dimension()),
            Outcome::Flag(_) => self == Self::Flag,
            Outcome::Text(_) => self == Self::Text,
            Outcome::Texts(_) => self == Self::Texts,
            Outcome::None(_) => true,
        }
    }
}

/// One sort of figure, worked out for as many parts as there are that have it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sort {
    /// `topic/figure`, such as `gas/burn_time`.
    pub name: &'static str,
    /// What it comes to.
    pub gives: Gives,
    /// What it is, in a few words.
    pub says: &'static str,
    /// Whether it is worked out for each place that a build or its shop names.
    pub by_place: bool,
}

impl Sort {
    /// The name of its topic.
    pub fn topic(&self) -> &'static str {
        self.name.split_once('/').map_or("", |(topic, _)| topic)
    }

    /// Its name within the topic.
    pub fn key(&self) -> &'static str {
        self.name.split_once('/').map_or("", |(_, key)| key)
    }
}

const fn sort(name: &'static str, gives: Gives, says: &'static str) -> Sort {
    Sort { name, gives, says, by_place: false }
}

/// One that goes by the place.
const fn placed(name: &'static str, gives: Gives, says: &'static str) -> Sort {
    Sort { name, gives, says, by_place: true }
}

/// A topic.
#[derive(Debug, Clone, Copy)]
pub struct Topic {
    /// Its name.
    pub name: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// The sorts of figures that it has.
    pub sorts: &'static [Sort],
    workings: fn(&Case<'_>) -> Vec<Working>,
}

impl Topic {
    /// Every figure of it for a build, in the order in which a reader wants them.
    pub fn figures(&self, case: &Case<'_>) -> Vec<Working> {
        let shown = |working: Working| {
            let sort = self.sort(working.key);
            debug_assert!(
                sort.is_some_and(|sort| agrees(sort, &working)),
                "no line of the table fits {working:?}"
            );
            match sort {
                Some(Sort { gives: Gives::Number, .. }) => working.in_numbers(),
                _ => working,
            }
        };
        (self.workings)(case).into_iter().map(shown).collect()
    }

    /// The sort of figure with a name within the topic.
    pub fn sort(&self, key: &str) -> Option<&'static Sort> {
        self.sorts.iter().find(|sort| sort.key() == key)
    }
}

fn agrees(sort: &Sort, working: &Working) -> bool {
    let outcome = working.outcome.as_ref();
    // Where no place is named, the build stands in for it.
    let placed = working.of.starts_with("place `");
    sort.says == working.says
        && (sort.by_place || !placed)
        && outcome.ok().is_none_or(|outcome| sort.gives.fits(outcome))
}

/// All topics, in the order of a walk round the trailer.
pub const ALL: &[Topic] = &[
    Topic {
        name: "space",
        title: "room inside, ways out, and ways in for modules",
        sorts: space::SORTS,
        workings: crate::space::workings,
    },
    Topic {
        name: "roof",
        title: "rack, roof bows and tent",
        sorts: roof::SORTS,
        workings: crate::roof::workings,
    },
    Topic {
        name: "anchor",
        title: "how parts are held in a stop",
        sorts: anchor::SORTS,
        workings: crate::anchor::workings,
    },
    Topic { name: "gas", title: "propane", sorts: gas::SORTS, workings: crate::gas::workings },
    Topic {
        name: "air",
        title: "breathing, fumes and damp",
        sorts: air::SORTS,
        workings: crate::air::workings,
    },
    Topic {
        name: "electric",
        title: "batteries, wires and the sun",
        sorts: electric::SORTS,
        workings: crate::electric::workings,
    },
    Topic {
        name: "water",
        title: "tanks and how long they last",
        sorts: water::SORTS,
        workings: crate::water::workings,
    },
    Topic {
        name: "road",
        title: "size, lamps, brakes and labels",
        sorts: road::SORTS,
        workings: crate::road::workings,
    },
    Topic {
        name: "tow",
        title: "coupler, hitch and tow vehicle",
        sorts: tow::SORTS,
        workings: crate::tow::workings,
    },
    Topic {
        name: "sway",
        title: "how it follows at speed",
        sorts: sway::SORTS,
        workings: crate::sway::workings,
    },
    Topic {
        name: "scale",
        title: "what the scale said",
        sorts: scale::SORTS,
        workings: crate::scale::workings,
    },
    Topic {
        name: "quote",
        title: "prices, and parts that do not go together",
        sorts: quote::SORTS,
        workings: crate::quote::workings,
    },
    Topic {
        name: "spec",
        title: "what the spec itself is worth",
        sorts: written::SORTS,
        workings: crate::written::workings,
    },
];

/// The topic with a name.
pub fn find(name: &str) -> Option<&'static Topic> {
    ALL.iter().find(|topic| topic.name == name)
}

/// Every sort of figure of every topic.
pub fn sorts() -> impl Iterator<Item = &'static Sort> + Clone {
    ALL.iter().flat_map(|topic| topic.sorts)
}

/// The sort of figure with a name such as `gas/burn_time`.
pub fn find_sort(name: &str) -> Option<&'static Sort> {
    let (topic, key) = name.split_once('/')?;
    find(topic)?.sort(key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_tables_is_whole() {
        for topic in ALL {
            let mut names: Vec<&str> = topic.sorts.iter().map(|sort| sort.name).collect();
            assert!(names.iter().all(|name| name.split_once('/').map(|(of, _)| of) == Some(topic.name)));
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), topic.sorts.len(), "a name stands twice in {}", topic.name);
            for sort in topic.sorts {
                let quantity = matches!(sort.gives, Gives::Figure(_) | Gives::Share | Gives::Number);
                assert_eq!(sort.gives.dimension().is_some(), quantity, "{}: no such unit", sort.name);
            }
        }
        assert_eq!(find_sort("gas/burn_time").map(Sort::key), Some("burn_time"));
        assert_eq!(find_sort("gas/speed"), None);
    }
}
