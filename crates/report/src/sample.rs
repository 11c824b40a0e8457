//! An invented shop for the tests: a spec, a stock list, a rulebook file and readings made by hand. No trailer, part
//! or figure here is a real one.

use std::sync::Arc;

use pintle_finding::{
    Basis, Bound, Citation, Contribution, Grade, Input, Inspection, Label, Problem, Reading, Role, Rule,
    SetBy, Setting, Stage, Subject, Verdict,
};
use pintle_quantity::Quantity;
use pintle_source::{SourceId, Sources, Span};

const SPEC: &str = r#"# invented for the tests
[build]
number = "LR-118"
title = "6x12 with a galley"

[trailer]
part = "box-6x12"

[[item]]
part = "galley-72"
tag = "galley"
at = { rear = "0 in", left = "0 in", floor = "0 in" }

[[item]]
part = "fridge-45"
tag = "fridge"
at = { rear = "6 in", left = "8 in", floor = "2 in" }

[[state]]
name = "homeward"
use = "road"
fill = { fresh = "0 %", grey = "100 %" }
"#;

const STOCK: &str = r#"# invented for the tests
[[box]]
name = "box-6x12"
gvwr = "2990 lb"

[[module]]
name = "galley-72"
mass = "212 lb"
"#;

const RULEBOOK: &str = r#"# invented for the tests
[limit."towing/light-tongue"]
least = "11 %"
reason = "the two long wheelbases were light at ten"
"#;

/// The files and what was found.
pub(crate) struct Shop {
    pub(crate) sources: Sources,
    pub(crate) spec: SourceId,
    pub(crate) stock: SourceId,
    pub(crate) rulebook: SourceId,
    pub(crate) inspection: Inspection,
}

impl Shop {
    pub(crate) fn new() -> Self {
        let mut sources = Sources::new();
        let spec = sources.add("specs/lr-118.toml", SPEC);
        let stock = sources.add("stock/parts.toml", STOCK);
        let rulebook = sources.add("pintle.toml", RULEBOOK);
        let mut shop = Self { sources, spec, stock, rulebook, inspection: Inspection::default() };
        shop.inspection = Inspection {
            spec: "specs/lr-118.toml".to_owned(),
            number: "LR-118".to_owned(),
            title: "6x12 with a galley".to_owned(),
            stage: Some(Stage::Design),
            readings: vec![
                shop.light_tongue(),
                shop.over_gvwr(),
                shop.thin_margin(),
                shop.roof(),
                shop.chains(),
                shop.broken(),
            ],
            later: vec![("record/no-ticket".to_owned(), Stage::Delivery)],
            ..Inspection::default()
        };
        shop
    }

    /// Where a text first stands in a file.
    pub(crate) fn span(&self, file: SourceId, text: &str) -> Span {
        let start = self.sources.text(file).find(text).unwrap();
        let at = |offset: usize| u32::try_from(offset).unwrap();
        Span::new(file, at(start), at(start + text.len()))
    }

    /// A fault with labels in three files and a limit that the shop set.
    pub(crate) fn light_tongue(&self) -> Reading {
        let homeward = self.span(self.spec, "\"homeward\"");
        let galley = self.span(self.spec, "{ rear = \"0 in\", left = \"0 in\", floor = \"0 in\" }");
        let fridge = self.span(self.spec, "rear = \"6 in\"");
        let mass = self.span(self.stock, "\"212 lb\"");
        let least = self.span(self.rulebook, "\"11 %\"");
        let rule = Rule {
            id: "towing/light-tongue".to_owned(),
            title: "Too little weight on the tongue".to_owned(),
            why: "A trailer that is light on the ball snakes".to_owned(),
            judges: "road state".to_owned(),
            grade: Grade::Critical,
            grade_set_by: None,
            from: Stage::Design,
            from_set_by: None,
            citations: vec![
                Citation {
                    basis: Basis::CommonPractice,
                    text: String::new(),
                    says: "10 to 15 % of loaded weight is the usual band".to_owned(),
                    guideline: None,
                },
                Citation {
                    basis: Basis::Published,
                    text: "49 CFR 571.3(b)".to_owned(),
                    says: "defines the gross vehicle weight rating".to_owned(),
                    guideline: Some("makers".to_owned()),
                },
            ],
            kept: false,
        };
        Reading {
            rule: Arc::new(rule),
            subject: Subject { kind: "road state", name: "homeward".to_owned(), span: Some(homeward) },
            path: "state.homeward".to_owned(),
            what: "tongue share".to_owned(),
            value: Some(Quantity::share(0.081)),
            bound: Bound::AtLeast(Quantity::share(0.11)),
            limit_name: "least".to_owned(),
            limit_basis: Some(Basis::Shop),
            limit_set_by: Some(SetBy {
                file: "pintle.toml".to_owned(),
                reason: "the two long wheelbases were light at ten".to_owned(),
                was: "10 %".to_owned(),
                span: Some(least),
                chain: Self::chain(least),
            }),
            verdict: Verdict::Fault,
            accepted: None,
            reason: None,
            remedy: Some("move weight ahead of the axle, or carry less behind it".to_owned()),
            labels: vec![
                Label::new(galley, Role::Contributor, "`galley` takes 64 lb off the tongue"),
                Label::new(mass, Role::Input, "the galley's weight"),
                Label::new(homeward, Role::Subject, "light in this state"),
                Label::new(fridge, Role::Contributor, "`fridge` takes 11 lb off the tongue"),
                Label::new(least, Role::Limit, "the least share is set here"),
            ],
            inputs: vec![Input {
                name: "mass of `galley`".to_owned(),
                value: Quantity::pounds(212.0),
                span: Some(mass),
            }],
            contributions: vec![
                Contribution {
                    name: "`galley`".to_owned(),
                    amount: Quantity::pounds(-64.0),
                    span: Some(galley),
                },
                Contribution {
                    name: "`fridge`".to_owned(),
                    amount: Quantity::pounds(-11.0),
                    span: Some(fridge),
                },
            ],
            sum: Some("tongue weight"),
        }
    }

    /// Who set the least tongue share, one after the other.
    fn chain(least: Span) -> Arc<[Setting]> {
        let setting = |file: &str, value: &str, reason: &str, span| Setting {
            file: file.to_owned(),
            value: value.to_owned(),
            quantity: None,
            reason: Some(reason.to_owned()),
            span,
        };
        let reason = "the two long wheelbases were light at ten";
        Arc::new([
            setting("rules/towing/light-tongue.toml", "10 %", "the usual band", None),
            setting("pintle.toml", "11 %", reason, Some(least)),
        ])
    }

    /// A pass with a thin margin.
    pub(crate) fn over_gvwr(&self) -> Reading {
        Reading {
            subject: Subject {
                kind: "road state",
                name: "homeward".to_owned(),
                span: Some(self.span(self.spec, "\"homeward\"")),
            },
            what: "gross weight".to_owned(),
            value: Some(Quantity::pounds(2951.0)),
            bound: Bound::AtMost(Quantity::pounds(2990.0)),
            limit_name: "gvwr".to_owned(),
            ..self.bare("towing/over-gvwr", "Heavier than its rating", Verdict::Pass, Grade::Critical)
        }
    }

    /// A minor fault with no labels of its own.
    fn thin_margin(&self) -> Reading {
        Reading {
            what: "margin below the rating".to_owned(),
            value: Some(Quantity::share(0.013)),
            bound: Bound::AtLeast(Quantity::share(0.10)),
            ..self.bare("towing/thin-margin", "Little left below the rating", Verdict::Fault, Grade::Minor)
        }
    }

    fn roof(&self) -> Reading {
        Reading {
            reason: Some("nothing stands on the roof".to_owned()),
            ..self.bare(
                "roof/no-rating",
                "Roof load without a rating",
                Verdict::NotApplicable,
                Grade::Critical,
            )
        }
    }

    /// What is missing has no place of its own but the end of a table.
    fn chains(&self) -> Reading {
        let trailer = self.span(self.spec, "\"box-6x12\"");
        let after = Span::new(self.spec, trailer.end, trailer.end);
        Reading {
            what: "break strength".to_owned(),
            reason: Some("`chain.strength` is not given".to_owned()),
            labels: vec![
                Label::new(trailer, Role::Subject, "this trailer"),
                Label::new(after, Role::Missing, "`chain.strength` would stand here"),
            ],
            remedy: Some("write the chains' break strength into the spec".to_owned()),
            ..self.bare("towing/weak-chains", "Safety chains too weak", Verdict::CannotJudge, Grade::Major)
        }
    }

    fn broken(&self) -> Reading {
        Reading {
            reason: Some("a length and a mass cannot be added".to_owned()),
            ..self.bare("house/ladder", "Ladder too short", Verdict::Broken, Grade::Advice)
        }
    }

    fn bare(&self, id: &str, title: &str, verdict: Verdict, grade: Grade) -> Reading {
        let span = Some(self.span(self.spec, "[build]"));
        Reading {
            subject: Subject { kind: "build", name: String::new(), span },
            ..named(id, title, verdict, grade)
        }
    }

    /// Two problems: one with two places, one with none.
    pub(crate) fn problems(&self) -> Vec<Problem> {
        let part = Label::new(self.span(self.spec, "\"fridge-45\""), Role::Subject, "no part of this name");
        let near =
            Label::new(self.span(self.stock, "\"galley-72\""), Role::Input, "the only module there is");
        let unknown = Problem::new("unknown-part", "`fridge-45` is not in the stock list");
        vec![
            unknown.at(part).at(near).help("add it to the stock list, or use `galley-72`"),
            Problem::new("unreadable", "`stock/tents.toml` could not be opened"),
        ]
    }
}

/// A reading with nothing but a verdict and a grade.
pub(crate) fn reading(verdict: Verdict, grade: Grade) -> Reading {
    named("house/sample", "Sample", verdict, grade)
}

fn named(id: &str, title: &str, verdict: Verdict, grade: Grade) -> Reading {
    let rule = Rule {
        id: id.to_owned(),
        title: title.to_owned(),
        why: String::new(),
        judges: "build".to_owned(),
        grade,
        grade_set_by: None,
        from: Stage::Quote,
        from_set_by: None,
        citations: Vec::new(),
        kept: false,
    };
    Reading {
        rule: Arc::new(rule),
        subject: Subject { kind: "build", name: String::new(), span: None },
        path: "build".to_owned(),
        what: String::new(),
        value: None,
        bound: Bound::None,
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict,
        accepted: None,
        reason: None,
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
        sum: None,
    }
}
