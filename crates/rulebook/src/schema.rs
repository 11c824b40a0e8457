//! The fields of rule files and of `pintle.toml`.

/// A rule file.
pub(crate) mod rule {
    use pintle_spec::field::Kind::{Flag, Named, Tables, Text, Texts, Word};

    pintle_spec::schema! {
        /// A rule file.
        "the rule";
        TITLE = "title": Text, required; "the fault, in a few words"
        WAS = "was": Texts; "ids that it had before, `pack/rule`: whoever names one means this rule"
        WHY = "why": Text, required; "why it matters, in a sentence or two"
        JUDGES = "judges": Text, required; "what it judges, one at a time"
        GRADE = "grade": Word(&["advice", "minor", "major", "critical"]), required; "how grave the fault is"
        FROM = "from": Word(&["quote", "design", "build", "delivery", "service"]), required; "the stage from which it is judged"
        WAIVABLE = "waivable": Flag; "whether a shop may accept the fault; yes when not given"
        LIMITS = "limit": Named(&super::limit::SCHEMA); "the rule's own limits, by name"
        SOURCES = "source": Tables(&super::source::SCHEMA), required; "what the rule rests on"
        MENDS = "mend": Tables(&super::mend::SCHEMA); "what can be tried to put the fault right"
        TRIALS = "trial": Tables(&super::trial::SCHEMA), required; "changes to a base spec, and what the rule must say of them"
    }
}

/// `pack.toml`.
pub(crate) mod pack {
    use pintle_spec::field::Kind::{Named, Text};

    pintle_spec::schema! {
        /// `pack.toml`, which a pack may have beside its rules.
        "the pack";
        TITLE = "title": Text; "what the pack is about"
        SUBJECTS = "subject": Named(&super::pack_subject::SCHEMA); "subjects of its own, by name"
        FIELDS = "field": Named(&super::pack_field::SCHEMA); "fields of the shop's own that its scripts read off parts, by name"
    }
}

/// One subject of a pack's own.
pub(crate) mod pack_subject {
    use pintle_spec::field::Kind::Text;

    pintle_spec::schema! {
        /// A subject of a pack's own.
        "a subject";
        OF = "of": Text, required; "what it is picked from: what a rule may judge"
        WHERE = "where": Text, required; "the condition that it is picked by: an expression that is true or false"
        DOC = "doc": Text, required; "what it is, in a few words"
    }
}

/// One field of a shop's own.
pub(crate) mod pack_field {
    use pintle_spec::field::Kind::Text;

    pintle_spec::schema! {
        /// A field of the shop's own.
        "a field";
        IS = "is": Text, required; "what it holds: `text`, `flag`, `count`, or what a quantity measures, such as `mass`"
        DOC = "doc": Text, required; "what it means"
    }
}

/// One limit of a rule.
pub(crate) mod limit {
    use pintle_spec::field::Kind::{AnyQuantity, Text, Word};

    pintle_spec::schema! {
        /// A limit.
        "a limit";
        VALUE = "value": AnyQuantity, required; "the limit, with its unit"
        BASIS = "basis": Word(&["published", "common practice", "shop", "memory"]), required; "where the figure comes from"
        STRICTER = "stricter": Word(&["lower", "higher"]); "which way it is stricter, where the script does not simply compare with it"
        NOTE = "note": Text; "what a reader should know of it"
    }
}

/// One thing a rule rests on.
pub(crate) mod source {
    use pintle_spec::field::Kind::{Text, Word};

    pintle_spec::schema! {
        /// A source.
        "a source";
        BASIS = "basis": Word(&["published", "common practice", "shop", "memory"]), required; "what kind of ground it is"
        TEXT = "text": Text; "the text and its section"
        SAYS = "says": Text, required; "what it says, in our words"
        GUIDELINE = "guideline": Text; "whom the text binds, when that is somebody else"
    }
}

/// One way to put a fault right.
pub(crate) mod mend {
    use pintle_spec::field::Kind::{Raw, Text, Word};

    pintle_spec::schema! {
        /// A mend: values of a field, or parts of stock in place of others, or a move.
        "a mend";
        FIELD = "field": Text; "the path of the value to change; `{subject}` stands for what is judged"
        TO = "to": Raw; "the values to try, in this order"
        DO = "do": Text; "what to do, in words; `{to}` stands for the value"
        BASIS = "basis": Word(&["published", "common practice", "shop", "memory"]); "where the values come from"
        SAYS = "says": Text; "what they are, in our words"
        EXCHANGE = "exchange": Text; "the kind of part to exchange for another of the stock list"
        BY = "by": Text; "the field of such a part by which the nearest is tried first"
        MOVE = "move": Word(&["fore and aft", "across", "toward the axle", "axle"]); "what is judged is moved in a direction; or what can be left at home is moved toward the axle; or the axle is"
    }
}

/// One trial.
pub(crate) mod trial {
    use pintle_spec::field::Kind::{Raw, Text, Texts, Word};

    pintle_spec::schema! {
        /// A trial.
        "a trial";
        NAME = "name": Text, required; "what is tried"
        BASE = "base": Text, required; "the sound spec that is changed"
        WITH = "with": Raw; "values to put in, by path"
        WITHOUT = "without": Texts; "paths to take away"
        EXPECT = "expect": Word(&["pass", "fault", "not applicable", "cannot judge"]), required; "what the rule must say"
        ALSO = "also": Texts; "other rules that find a fault in it as well, by the nature of the change; it fails when any but these does"
        MARKS = "marks": Text; "the path of what the finding must point at"
    }
}

/// `pintle.toml`.
pub(crate) mod settings {
    use pintle_spec::field::Kind::{Tables, Text, Texts, Word};

    pintle_spec::schema! {
        /// `pintle.toml`.
        "the rulebook";
        FROM = "from": Texts; "rulebook files that this one stands on, from here; each over those before it, and this one over all"
        SHOP = "shop": Text; "the shop's name"
        HOLD = "hold": Word(&["advice", "minor", "major", "critical"]); "the grade at or above which a build is stopped; major when not given"
        STOCK = "stock": Texts; "folders of the stock list, from here; `stock` when not given"
        PACKS = "packs": Texts; "packs in use: built-in ones by name or all of them as `built-in`, the shop's own as a folder such as `./rules/ours`; all built-in ones when not given"
        PLACES = "places": Texts; "where its trailers are registered and towed, for builds that do not say"
        LIMITS = "limit": Tables(&super::limit_override::SCHEMA); "limits of the shop's own"
        GRADES = "grade": Tables(&super::grade_override::SCHEMA); "grades of the shop's own"
        STAGES = "stage": Tables(&super::stage_override::SCHEMA); "stages of the shop's own, from which rules are judged"
        TOLERANCES = "tolerance": Tables(&super::tolerance_override::SCHEMA); "how sure values are in this shop that state no ± of their own"
        ASSUMPTIONS = "assumption": Tables(&super::assumption_override::SCHEMA); "what this shop assumes otherwise than the built-in tables"
        WAIVERS = "waiver": Tables(&super::waiver::SCHEMA); "faults that are accepted, by whom and until when"
        BY_EYE = "by_eye": Tables(&super::by_eye::SCHEMA); "checks of the shop's own that only eyes can make, for the inspection sheet"
        BACKLOG = "backlog": Text; "the file of known findings of specs that were taken in, from here; written by `pintle backlog`"
    }
}

/// The built-in list of checks that only eyes can make.
pub(crate) mod by_eye_list {
    use pintle_spec::field::Kind::Tables;

    pintle_spec::schema! {
        /// The list of checks by eye.
        "the list of checks by eye";
        BY_EYE = "by_eye": Tables(&super::by_eye::SCHEMA), required; "checks that only eyes can make"
    }
}

/// A check that only eyes can make.
pub(crate) mod by_eye {
    use pintle_spec::field::Kind::{Text, Word, Words};

    /// The stations of the walk, in its order.
    pub(crate) const STATIONS: &[&str] = &[
        "road gear",
        "weights",
        "body",
        "openings",
        "beds",
        "modules",
        "roof",
        "gas",
        "12 V",
        "mains",
        "water",
        "alarms",
        "papers",
    ];

    pintle_spec::schema! {
        /// A check that only eyes can make.
        "a check by eye";
        STATION = "station": Word(STATIONS), required; "where on the walk round the trailer"
        FROM = "from": Word(&["quote", "design", "build", "delivery", "service"]), required; "the stage from which it is asked"
        LOOK = "look": Text, required; "what to look at: what is so when all is well"
        HOW = "how": Text, required; "how to look"
        OF = "of": Words(pintle_finding::ASKED_OF); "what a build has that it is asked of, any of these; of every build when not given"
        BASIS = "basis": Word(&["published", "common practice", "shop", "memory"]), required; "what kind of ground it is"
        SOURCE = "source": Text; "the text and its section, where it is published or remembered"
        SAYS = "says": Text; "what that text says, in our words"
    }
}

/// The built-in table of tolerances.
pub(crate) mod tolerances {
    use pintle_spec::field::Kind::Tables;

    pintle_spec::schema! {
        /// The table of tolerances.
        "the table of tolerances";
        TOLERANCES = "tolerance": Tables(&super::tolerance::SCHEMA), required; "how sure values are that state no ± of their own"
    }
}

/// One tolerance of the built-in table.
pub(crate) mod tolerance {
    use pintle_spec::field::Kind::{AnyQuantity, Text, Word};

    pintle_spec::schema! {
        /// A tolerance.
        "a tolerance";
        OF = "of": Text, required; "what the values stand on"
        VALUE = "value": AnyQuantity, required; "how far they may be off to either side"
        LEAST = "least": AnyQuantity; "the least of it, where it is a share"
        BASIS = "basis": Word(&["published", "common practice", "shop", "memory"]), required; "where the figure comes from"
        NOTE = "note": Text; "what a reader should know of it"
    }
}

/// A tolerance of the shop's own.
pub(crate) mod tolerance_override {
    use pintle_spec::field::Kind::{AnyQuantity, Text};

    pintle_spec::schema! {
        /// A tolerance of the shop's own.
        "a tolerance of the shop's";
        OF = "of": Text, required; "what the values stand on, such as `guessed`"
        VALUE = "value": AnyQuantity, required; "how far they may be off to either side"
        LEAST = "least": AnyQuantity; "the least of it, where it is a share; none when not given"
        REASON = "reason": Text, required; "why the shop sets it"
    }
}

/// A built-in table of assumptions.
pub(crate) mod assumptions {
    use pintle_spec::field::Kind::Tables;

    pintle_spec::schema! {
        /// A table of assumptions.
        "the table of assumptions";
        ASSUMPTIONS = "assumption": Tables(&super::assumption::SCHEMA), required; "what is assumed where a build does not say"
    }
}

/// One assumption of a built-in table.
pub(crate) mod assumption {
    use pintle_spec::field::Kind::{AnyQuantity, Text, Word};

    pintle_spec::schema! {
        /// An assumption.
        "an assumption";
        OF = "of": Text, required; "what is assumed, such as `coldest`"
        VALUE = "value": AnyQuantity, required; "the value"
        BASIS = "basis": Word(&["published", "derived", "common practice", "shop", "memory"]), required; "where the figure comes from"
        SOURCE = "source": Text; "the text and its section, where it is published or remembered"
        NOTE = "note": Text; "what a reader should know of it"
    }
}

/// An assumption of the shop's own.
pub(crate) mod assumption_override {
    use pintle_spec::field::Kind::{AnyQuantity, Text};

    pintle_spec::schema! {
        /// An assumption of the shop's own.
        "an assumption of the shop's";
        OF = "of": Text, required; "what is assumed, with its topic, such as `air.coldest`"
        VALUE = "value": AnyQuantity, required; "the value"
        REASON = "reason": Text, required; "why the shop sets it"
    }
}

/// A place's file.
pub(crate) mod place {
    use pintle_spec::field::Kind::{Named, Table, Tables, Text};

    pintle_spec::schema! {
        /// A place.
        "a place";
        TITLE = "title": Text, required; "what it is called"
        WITHIN = "within": Text; "the place that it lies within, whose figures it has where it has none of its own"
        FIGURES = "figure": Named(&super::place_figure::SCHEMA); "its figures, by name"
        BRAKES = "brakes": Tables(&super::place_brakes::SCHEMA); "from which weight it asks for brakes"
        LAMPS = "lamps": Table(&super::place_lamps::SCHEMA); "which table of lamps is in force"
    }
}

/// Where what a place asks comes from.
pub(crate) mod ground {
    use pintle_spec::field::Kind::{Flag, Text, Word};

    pintle_spec::schema! {
        /// Where what a place asks comes from.
        "a figure of a place";
        BASIS = "basis": Word(&["published", "derived", "common practice", "memory"]), required; "where it comes from"
        SOURCE = "source": Text, required; "the text and its section"
        SEEN = "seen": Text, required; "the date or year of the text"
        VERIFY = "verify": Flag, required; "whether to look it up again before anybody relies on it"
        GUIDELINE = "guideline": Text; "whom the text binds, where that is somebody else"
        NOTE = "note": Text; "what a reader should know of it"
    }
}

/// One figure of a place.
pub(crate) mod place_figure {
    use pintle_spec::field::Kind::AnyQuantity;

    pintle_spec::schema! {
        /// A figure of a place.
        "a figure of a place" with super::ground::SCHEMA;
        VALUE = "value": AnyQuantity, required; "the value"
    }
}

/// What a place asks of brakes.
pub(crate) mod place_brakes {
    use pintle_quantity::Dimension;
    use pintle_spec::field::Kind::{Flag, Quantity, Word};
    use pintle_spec::field::Range::Positive;

    pintle_spec::schema! {
        /// What a place asks of brakes.
        "brakes of a place" with super::ground::SCHEMA;
        SORT = "sort": Word(&["camp trailer", "other trailer"]); "the sort of trailer it is for; both when not given"
        BY = "by": Word(&["gross weight", "rating", "axle load", "stopping distance"]), required; "what it goes by"
        MORE_THAN = "more_than": Quantity(Dimension::MASS, Positive); "brakes are asked for above this"
        AT_LEAST = "at_least": Quantity(Dimension::MASS, Positive); "brakes are asked for from this on"
        WHEELS = "wheels": Word(&["all wheels", "two wheels", "one axle"]); "which wheels are to be braked, where the text says"
        BREAKAWAY = "breakaway": Flag; "whether a breakaway switch is asked for as well, where the text says"
    }
}

/// Which table of lamps is in force in a place.
pub(crate) mod place_lamps {
    use pintle_spec::field::Kind::Word;

    pintle_spec::schema! {
        /// The lamps of a place.
        "the lamps of a place" with super::ground::SCHEMA;
        TABLE = "table": Word(&["49 CFR 571.108 Table I-b"]), required; "the table in force"
    }
}

/// A limit of the shop's own.
pub(crate) mod limit_override {
    use pintle_spec::field::Kind::{AnyQuantity, Text};

    pintle_spec::schema! {
        /// A limit of the shop's own.
        "a limit of the shop's";
        RULE = "rule": Text, required; "the rule, `pack/rule`"
        LIMIT = "limit": Text, required; "the name of its limit"
        VALUE = "value": AnyQuantity, required; "the value in force"
        REASON = "reason": Text, required; "why the shop sets it"
    }
}

/// A grade of the shop's own.
pub(crate) mod grade_override {
    use pintle_spec::field::Kind::{Text, Word};

    pintle_spec::schema! {
        /// A grade of the shop's own.
        "a grade of the shop's";
        RULE = "rule": Text, required; "the rule, `pack/rule`"
        GRADE = "grade": Word(&["advice", "minor", "major", "critical"]), required; "the grade in force"
        REASON = "reason": Text, required; "why the shop sets it"
    }
}

/// A stage of the shop's own.
pub(crate) mod stage_override {
    use pintle_spec::field::Kind::{Text, Word};

    pintle_spec::schema! {
        /// A stage of the shop's own.
        "a stage of the shop's";
        RULE = "rule": Text, required; "the rule, `pack/rule`"
        FROM = "from": Word(&["quote", "design", "build", "delivery", "service"]), required; "the stage from which it is judged"
        REASON = "reason": Text, required; "why the shop sets it"
    }
}

/// A fault that is accepted.
pub(crate) mod waiver {
    use pintle_spec::field::Kind::{Text, Texts, Word};

    pintle_spec::schema! {
        /// A waiver.
        "a waiver";
        RULE = "rule": Text, required; "the rule, `pack/rule`"
        ITEM = "item": Text; "what it is waived on, such as `item.galley` or `state.homeward`; on all of a build when not given"
        BUILDS = "builds": Texts; "the numbers of the builds; all of the shop that have the item when not given"
        KIND = "kind": Word(&["deviation", "concession"]), required; "given before the build, or after"
        UNTIL = "until": Text, required; "the last day on which it is in force, such as 2026-12-31"
        WHO = "who": Text, required; "who accepts the fault"
        REASON = "reason": Text, required; "why the fault is accepted"
    }
}

/// The file of known findings.
pub(crate) mod backlog {
    use pintle_spec::field::Kind::Tables;

    pintle_spec::schema! {
        /// The backlog.
        "the backlog";
        KNOWN = "known": Tables(&super::known::SCHEMA); "known findings of one rule in one build"
    }
}

/// Known findings of one rule in one build.
pub(crate) mod known {
    use pintle_spec::field::Kind::{Text, Texts, Word};

    pintle_spec::schema! {
        /// Known findings.
        "a known finding";
        RULE = "rule": Text, required; "the rule, `pack/rule`"
        BUILD = "build": Text, required; "the build's number"
        FINDS = "finds": Word(&["fault", "cannot judge"]), required; "what it finds"
        ITEMS = "items": Texts, required; "what it finds that on, each as often as it does"
    }
}
