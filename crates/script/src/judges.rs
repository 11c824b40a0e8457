//! What a rule judges, one at a time.

use pintle_finding::Subject;
use pintle_spec::{Build, Item, Table, Use};

use crate::run::Run;
use crate::thing::What;

/// The kind of a subject that the spec does not name: a way the trailer can be arranged on the road.
pub const ARRANGEMENT: &str = "arrangement";

/// What a rule judges, one at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Judges(&'static str);

/// What a rule may judge besides one kind of part.
const BESIDE_KINDS: &[&str] = &["build", "state", "road state", "camp state", "item", "removable"];

impl Judges {
    /// Reads the word of a rule file.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::words().find(|known| *known == word).map(Self)
    }

    /// All words, for messages.
    pub fn words() -> impl Iterator<Item = &'static str> + Clone {
        BESIDE_KINDS.iter().copied().chain(pintle_spec::item_kinds())
    }

    /// The word of a rule file.
    pub const fn word(self) -> &'static str {
        self.0
    }

    /// The names under which a script finds the subject.
    pub(crate) fn variables(self) -> Vec<&'static str> {
        match self.0 {
            "build" => vec![],
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

    /// The subjects of a build.
    pub fn subjects(self, build: &Build) -> Vec<What> {
        let states = |wanted: &dyn Fn(Use) -> bool| -> Vec<What> {
            let all = build.states.iter().enumerate();
            all.filter(|(_, state)| wanted(state.used)).map(|(at, _)| What::State(at)).collect()
        };
        let items = |wanted: &dyn Fn(&Item) -> bool| -> Vec<What> {
            let all = build.items.iter().enumerate();
            all.filter(|(_, item)| wanted(item)).map(|(at, _)| What::Item(at)).collect()
        };
        match self.0 {
            "build" => vec![What::Build],
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
        let (name, span) = match what {
            What::State(at) => run
                .state(at)
                .map_or((String::new(), None), |state| (state.name.value.clone(), Some(state.name.span))),
            What::Item(at) => build
                .items
                .get(at)
                .map_or((String::new(), None), |item| (item.tag.value.clone(), Some(item.tag.span))),
            _ => (String::new(), Some(build.number.span)),
        };
        let kind = match what {
            What::State(at) if run.is_arrangement(at) => ARRANGEMENT,
            _ => self.0,
        };
        Subject { kind, name, span }
    }
}
