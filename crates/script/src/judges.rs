//! What a rule judges, one at a time.

use pintle_calc::topics;
use pintle_finding::Subject;
use pintle_spec::{Item, Table, Use};

use crate::run::Run;
use crate::thing::What;
use crate::{rows, worked};

/// The kind of a subject that the spec does not name: a way the trailer can be arranged on the road.
pub const ARRANGEMENT: &str = "arrangement";

/// What a rule judges, one at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Judges(&'static str);

/// The kind of a subject that is a reading: one that passes with least to spare.
pub const TIGHT: &str = "tight reading";

/// What a rule may judge besides one kind of part.
const BESIDE_KINDS: &[&str] = &["build", "state", "road state", "camp state", "item", "removable", TIGHT];

impl Judges {
    /// Reads the word of a rule file.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::words().chain(Self::figures()).find(|known| *known == word).map(Self)
    }

    /// All words but the names of figures, for messages.
    pub fn words() -> impl Iterator<Item = &'static str> + Clone {
        let rows = rows::ALL.iter().map(|rows| rows.word);
        BESIDE_KINDS.iter().copied().chain(rows).chain(pintle_spec::item_kinds())
    }

    /// The names of the figures that a rule may judge wherever they are worked out, such as `gas/burn_time`.
    pub fn figures() -> impl Iterator<Item = &'static str> + Clone {
        topics::sorts().map(|sort| sort.name)
    }

    fn rows(self) -> Option<(usize, &'static rows::Rows)> {
        rows::ALL.iter().enumerate().find(|(_, rows)| rows.word == self.0)
    }

    /// Whether its subjects are figures of a topic.
    pub fn takes_figures(self) -> bool {
        self.0.contains('/')
    }

    /// The word of a rule file.
    pub const fn word(self) -> &'static str {
        self.0
    }

    /// What messages call such a subject.
    pub fn noun(self) -> &'static str {
        topics::find_sort(self.0).map_or(self.0, |sort| sort.says)
    }

    /// The names under which a script finds the subject.
    pub(crate) fn variables(self) -> Vec<&'static str> {
        if let Some((_, rows)) = self.rows() {
            return vec![rows.variable];
        }
        match self.0 {
            _ if self.takes_figures() => vec!["figure"],
            "build" => vec![],
            TIGHT => vec!["tight"],
            "state" | "road state" | "camp state" => vec!["state"],
            // `module` is a word that the script language keeps for itself: a module is found as `item` only.
            "item" | "removable" | "module" => vec!["item"],
            kind => vec!["item", kind],
        }
    }

    /// Whether a build without such a subject cannot be judged, rather than being none of the rule's business.
    /// A trailer always has road states; a spec without any leaves them out.
    pub fn must_exist(self) -> bool {
        matches!(self.0, "build" | "state" | "road state")
    }

    /// Whether road states are among its subjects, so that it is judged on the trailer's arrangements as well.
    pub fn takes_road_states(self) -> bool {
        matches!(self.0, "state" | "road state")
    }

    /// Whether its subjects are readings of other rules, so that it is run when those have been.
    pub fn takes_readings(self) -> bool {
        self.0 == TIGHT
    }

    /// The subjects on a build under inspection.
    pub fn subjects(self, run: &Run) -> Vec<What> {
        let build = &run.build;
        let states = |wanted: &dyn Fn(Use) -> bool| -> Vec<What> {
            let all = build.states.iter().enumerate();
            all.filter(|(_, state)| wanted(state.used)).map(|(at, _)| What::State(at)).collect()
        };
        let items = |wanted: &dyn Fn(&Item) -> bool| -> Vec<What> {
            let all = build.items.iter().enumerate();
            all.filter(|(_, item)| wanted(item)).map(|(at, _)| What::Item(at)).collect()
        };
        if let Some((at, rows)) = self.rows() {
            return (0..rows.count(run)).map(|entry| What::Row(at, entry)).collect();
        }
        match self.0 {
            name if self.takes_figures() => run.figures_named(name).into_iter().map(What::Figure).collect(),
            "build" => vec![What::Build],
            TIGHT => (0..run.tight_count()).map(What::Reading).collect(),
            "state" => states(&|_| true),
            "road state" => states(&|used| used == Use::Road),
            "camp state" => states(&|used| used == Use::Camp),
            "item" => items(&|item| item.table == Table::Item),
            "removable" => items(&|item| item.removable),
            kind => items(&|item| item.kind == kind),
        }
    }

    /// How readings name a subject.
    pub fn subject(self, run: &Run, what: What) -> Subject {
        let build = &run.build;
        if let What::Figure(at) = what {
            return worked::subject(run, at);
        }
        let (name, span) = match what {
            What::Row(at, entry) => {
                let rows = rows::ALL.get(at);
                let name = rows.and_then(|rows| rows.called(run, entry)).unwrap_or_default();
                (name, rows.and_then(|rows| rows.entries(run).get(entry)).map(|record| record.span))
            }
            What::State(at) => run
                .state(at)
                .map_or((String::new(), None), |state| (state.name.value.clone(), Some(state.name.span))),
            What::Item(at) => build
                .items
                .get(at)
                .map_or((String::new(), None), |item| (item.tag.value.clone(), Some(item.tag.span))),
            What::Reading(at) => run.tight(at).map_or((String::new(), None), |reading| {
                (format!("{}, by {}", reading.what, reading.rule), reading.span)
            }),
            _ => (String::new(), Some(build.number.span)),
        };
        let kind = match what {
            What::State(at) if run.is_arrangement(at) => ARRANGEMENT,
            _ => self.0,
        };
        Subject { kind, name, span }
    }
}
