//! Every function that a script can call, with what it takes and gives: one table for the engine, for the check of
//! scripts, for nearest names and for the reference.

/// What a function takes or gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A quantity.
    Quantity,
    /// Yes or no.
    Flag,
    /// A whole number.
    Count,
    /// A number.
    Number,
    /// A text.
    Text,
    /// A list of anything.
    List,
    /// Something of the build.
    Thing,
    /// A reading.
    Reading,
    /// A range of whole numbers.
    Range,
    /// No value.
    Nothing,
}

impl Kind {
    /// What the reference calls it.
    pub const fn noun(self) -> &'static str {
        match self {
            Self::Quantity => "a quantity",
            Self::Flag => "a yes or no",
            Self::Count => "a whole number",
            Self::Number => "a number",
            Self::Text => "a text",
            Self::List => "a list",
            Self::Thing => "a thing",
            Self::Reading => "a reading",
            Self::Range => "a range",
            Self::Nothing => "nothing",
        }
    }
}

/// One way to call a function.
#[derive(Debug)]
pub struct Form {
    /// What it takes, in order. What stands before a point, as in `reading.at_least(limit)`, comes first.
    pub takes: &'static [Kind],
    /// What it gives.
    pub gives: Kind,
}

/// A function.
#[derive(Debug)]
pub struct Function {
    /// Its name.
    pub name: &'static str,
    /// The ways to call it.
    pub forms: &'static [Form],
    /// What it does.
    pub doc: &'static str,
    /// A use of it, in a rule that judges road states and has a limit `most`, a mass.
    pub example: &'static str,
}

impl Function {
    /// What it works on, in words.
    pub fn taken(&self) -> String {
        let forms = self.forms.iter().map(|form| {
            let nouns: Vec<&str> = form.takes.iter().map(|kind| kind.noun()).collect();
            match nouns.as_slice() {
                [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
                nouns => nouns.concat(),
            }
        });
        forms.collect::<Vec<_>>().join(", or ")
    }
}

const fn form(takes: &'static [Kind], gives: Kind) -> Form {
    Form { takes, gives }
}

use Kind::{Count, Flag, List, Nothing, Number, Quantity, Range, Reading, Text, Thing};

/// All of them, by name.
pub const ALL: &[Function] = &[
    Function {
        name: "abs",
        forms: &[form(&[Quantity], Quantity), form(&[Count], Count), form(&[Number], Number)],
        doc: "the same without its sign",
        example: "reading(abs(state.cg_right)).named(\"off the centreline\").at_most(quantity(\"6 in\"));",
    },
    Function {
        name: "at_least",
        forms: &[form(&[Reading, Quantity], Reading)],
        doc: "compares a reading: at least the limit",
        example: "reading(trailer.gvwr).at_least(state.gross);",
    },
    Function {
        name: "at_most",
        forms: &[form(&[Reading, Quantity], Reading)],
        doc: "compares a reading: at most the limit",
        example: "reading(state.gross).at_most(limit.most);",
    },
    Function {
        name: "between",
        forms: &[form(&[Reading, Quantity, Quantity], Reading)],
        doc: "compares a reading: between two limits, both included",
        example: "reading(state.tongue_share).between(quantity(\"10 %\"), quantity(\"15 %\"));",
    },
    Function {
        name: "cannot_judge",
        forms: &[form(&[Text], Nothing)],
        doc: "ends the script: what is missing, where the tool cannot know it; the report adds \"is not given\"",
        example: "if !has(trailer, \"gvwr\") { cannot_judge(\"what the trailer may weigh\"); }",
    },
    Function {
        name: "contains",
        forms: &[form(&[List, Text], Flag), form(&[Range, Count], Flag)],
        doc: "whether a list of texts holds one, or a range a whole number; also written `\"…\" in list`",
        example: "require(!contains(build.missing_lamps, \"stop lamp\"), \"it has stop lamps\");",
    },
    Function {
        name: "count",
        forms: &[form(&[List], Count)],
        doc: "how many entries a list has",
        example: "require(count(build.cylinders) <= 2, \"no more than two cylinders are aboard\");",
    },
    Function {
        name: "days",
        forms: &[form(&[Text, Text], Quantity)],
        doc: "the time from one day to another, both written as in 2026-05-04; negative where the second comes first",
        example: "reading(days(\"2026-05-04\", \"2026-05-14\")).named(\"time between\").at_most(quantity(\"30 d\"));",
    },
    Function {
        name: "equals",
        forms: &[form(&[Reading, Quantity], Reading)],
        doc: "compares a reading: equal to what is wanted",
        example: "reading(state.gross).equals(state.gross);",
    },
    Function {
        name: "greater",
        forms: &[form(&[Quantity, Quantity], Quantity)],
        doc: "the greater of two quantities",
        example: "reading(greater(state.left, state.right)).named(\"heavier side\").at_most(limit.most);",
    },
    Function {
        name: "has",
        forms: &[form(&[Thing, Text], Flag)],
        doc: "whether a field is written, or a property or figure has a value; where that cannot be known, because a value is missing, the script ends with *cannot judge*",
        example: "if has(trailer, \"roof_rating\") { require(true, \"the maker states what the roof may carry\"); }",
    },
    Function {
        name: "lesser",
        forms: &[form(&[Quantity, Quantity], Quantity)],
        doc: "the lesser of two quantities",
        example: "reading(state.gross).at_most(lesser(limit.most, trailer.gvwr));",
    },
    Function {
        name: "listed",
        forms: &[form(&[List], Text)],
        doc: "a list of texts as words, each in backticks if it has none, with commas",
        example: "require(count(build.missing_lamps) < 99, `missing: ${listed(build.missing_lamps)}`);",
    },
    Function {
        name: "marks",
        forms: &[form(&[Reading, Thing, Text], Reading)],
        doc: "points at a part, the trailer or a table, with words; shown with a fault only",
        example: "reading(state.gross).at_most(limit.most).marks(trailer, \"made for less\");",
    },
    Function {
        name: "named",
        forms: &[form(&[Reading, Text], Reading)],
        doc: "says what was read; needed for formulas, which are otherwise called \"the figure read\"",
        example: "reading(state.gross - state.tongue).named(\"weight on the wheels\").at_most(limit.most);",
    },
    Function {
        name: "not_applicable",
        forms: &[form(&[Text], Nothing)],
        doc: "ends the script: the rule does not bear on this subject, and why; an error once a reading was taken",
        example: "if !state.on_road { not_applicable(\"it is parked\"); }",
    },
    Function {
        name: "push",
        forms: &[form(&[List, Thing], Nothing)],
        doc: "adds a thing to a list",
        example: "let heavy = []; for part in build.items { heavy.push(part); }",
    },
    Function {
        name: "quantity",
        forms: &[form(&[Text], Quantity)],
        doc: "a quantity that is part of a formula; a limit belongs into the data file",
        example: "require(state.tongue > quantity(\"0 lb\"), \"the tongue presses on the ball\");",
    },
    Function {
        name: "range",
        forms: &[
            form(&[Count, Count], Range),
            form(&[Count, Count, Count], Range),
            form(&[Range, Count], Range),
            form(&[Number, Number, Number], Range),
        ],
        doc: "numbers to go through with `for`: from the first, up to but without the second, in steps of the third",
        example: "for n in range(0, 4, 2) { require(n < 4, \"it is 0, then 2\"); }",
    },
    Function {
        name: "reading",
        forms: &[form(&[Quantity], Reading)],
        doc: "begins a reading of a quantity; it must be compared once",
        example: "reading(state.gross).at_most(trailer.gvwr);",
    },
    Function {
        name: "remedy",
        forms: &[form(&[Reading, Text], Reading)],
        doc: "says what would put it right; shown with a fault only",
        example: "reading(state.gross).at_most(limit.most).remedy(\"carry less\");",
    },
    Function {
        name: "require",
        forms: &[form(&[Flag, Text], Reading)],
        doc: "a reading without a number; the words say what holds when all is well",
        example: "require(trailer.axle.count == 1, \"the trailer has one axle\");",
    },
    Function {
        name: "to_string",
        forms: &[form(&[Quantity], Text)],
        doc: "a quantity as it is shown; a text in backticks does so by itself",
        example: "require(state.gross.to_string() != \"\", `it weighs ${state.gross}`);",
    },
];

/// Every name.
pub(crate) fn names() -> impl Iterator<Item = &'static str> + Clone {
    ALL.iter().map(|function| function.name)
}

/// Whether a name is that of a function, or of a sign, or of what the language itself asks for.
pub(crate) fn is_known(name: &str) -> bool {
    find(name).is_some() || !name.starts_with(char::is_alphabetic) || name == "to_debug"
}

/// The function with a name.
pub(crate) fn find(name: &str) -> Option<&'static Function> {
    ALL.iter().find(|function| function.name == name)
}

/// What a function is called here that is called otherwise elsewhere.
pub(crate) fn instead(name: &str) -> Option<&'static str> {
    match name {
        "max" => Some("greater"),
        "min" => Some("lesser"),
        "len" => Some("count"),
        _ => None,
    }
}
