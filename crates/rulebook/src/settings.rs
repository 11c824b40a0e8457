//! `pintle.toml`: which packs a shop uses, and which limits, grades and stages it sets; and the layers of it.
//!
//! A rulebook file may stand on others. Each file read is a layer; a later one wins, key by key, and who set what is
//! kept. One build may have a layer of its own above all.

use pintle_finding::{Grade, Label, Problem, Role, Stage};
use pintle_quantity::Quantity;
use pintle_source::{SourceId, Sources, Spanned};
use pintle_spec::field::Field;
use pintle_spec::node;
use pintle_spec::read::{read, require};
use pintle_spec::record::Record;

use crate::assumed::{self, AssumptionOverride};
use crate::by_eye::{self, Written};
use crate::schema::{grade_override, limit_override, settings, stage_override};
use crate::tolerances::{ToleranceOverride, read_override};
use crate::waiver::{self, WaiverEntry};

/// What one rulebook file sets.
#[derive(Debug, Clone)]
pub struct Layer {
    /// The file.
    pub file: SourceId,
    /// Rulebook files that it stands on, each over those before it; from where it stands itself.
    pub from: Vec<Spanned<String>>,
    /// The shop's name.
    pub shop: Option<String>,
    /// The grade at or above which a build is stopped.
    pub hold: Option<Grade>,
    /// Folders of the stock list.
    pub stock: Option<Vec<Spanned<String>>>,
    /// Packs in use.
    pub packs: Option<Vec<Spanned<String>>>,
    /// The file of known findings.
    pub backlog: Option<Spanned<String>>,
    /// Places that the shop reckons with where a build names none.
    pub(crate) places: Option<Vec<Spanned<String>>>,
    pub(crate) limits: Vec<LimitOverride>,
    pub(crate) grades: Vec<GradeOverride>,
    pub(crate) stages: Vec<StageOverride>,
    pub(crate) tolerances: Vec<ToleranceOverride>,
    pub(crate) assumptions: Vec<AssumptionOverride>,
    pub(crate) waivers: Vec<WaiverEntry>,
    pub(crate) by_eye: Vec<Written>,
}

/// A shop's settings: its layers, each over those before it.
#[derive(Debug, Clone, Default)]
pub struct Settings {
    /// The layers, the last of which wins.
    pub layers: Vec<Layer>,
}

#[derive(Debug, Clone)]
pub(crate) struct LimitOverride {
    pub(crate) rule: Spanned<String>,
    pub(crate) limit: Spanned<String>,
    pub(crate) value: Spanned<Quantity>,
    pub(crate) reason: String,
}

#[derive(Debug, Clone)]
pub(crate) struct GradeOverride {
    pub(crate) rule: Spanned<String>,
    pub(crate) grade: Spanned<Grade>,
    pub(crate) reason: String,
}

#[derive(Debug, Clone)]
pub(crate) struct StageOverride {
    pub(crate) rule: Spanned<String>,
    pub(crate) from: Spanned<Stage>,
    pub(crate) reason: String,
}

impl Layer {
    /// Every place where it names a rule.
    pub(crate) fn rules_mut(&mut self) -> impl Iterator<Item = &mut Spanned<String>> {
        let limits = self.limits.iter_mut().map(|given| &mut given.rule);
        let grades = self.grades.iter_mut().map(|given| &mut given.rule);
        let stages = self.stages.iter_mut().map(|given| &mut given.rule);
        let waivers = self.waivers.iter_mut().map(|given| &mut given.rule);
        limits.chain(grades).chain(stages).chain(waivers)
    }
}

impl Settings {
    /// The last value that a layer gives to a key.
    fn last<'s, T>(&'s self, key: impl Fn(&'s Layer) -> Option<T>) -> Option<T> {
        self.layers.iter().rev().find_map(key)
    }

    /// The shop's name.
    pub fn shop(&self) -> Option<&str> {
        self.last(|layer| layer.shop.as_deref())
    }

    /// The grade at or above which a build is stopped.
    pub fn hold(&self) -> Option<Grade> {
        self.last(|layer| layer.hold)
    }

    /// Folders of the stock list, from where the file stands that names them; none stated means the default.
    pub fn stock(&self) -> Option<&[Spanned<String>]> {
        self.last(|layer| layer.stock.as_deref())
    }

    /// Packs in use; none stated means all built-in ones. A folder counts from where the file stands that names it.
    pub fn packs(&self) -> Option<&[Spanned<String>]> {
        self.last(|layer| layer.packs.as_deref())
    }

    /// The file of known findings, from where the file stands that names it.
    pub fn backlog(&self) -> Option<&Spanned<String>> {
        self.last(|layer| layer.backlog.as_ref())
    }

    /// The places that the shop reckons with.
    pub(crate) fn places(&self) -> &[Spanned<String>] {
        self.last(|layer| layer.places.as_deref()).unwrap_or_default()
    }
}

/// What a layer for one build must leave to others, and where that is set.
static NOT_OF_A_BUILD: [(&Field, &str); 8] = [
    (&settings::FROM, "it stands on its shop's rulebook already"),
    (&settings::SHOP, "set it in the shop's pintle.toml"),
    (&settings::HOLD, "set it in the shop's pintle.toml, or for one run with `--hold`"),
    (&settings::STOCK, "set it in the shop's pintle.toml"),
    (&settings::PACKS, "set it in the shop's pintle.toml"),
    (&settings::BACKLOG, "set it in the shop's pintle.toml"),
    (&settings::PLACES, "a build says so itself: `places` of its `[build]`"),
    (&settings::ASSUMPTIONS, "a build says so itself: its `[assume]`"),
];

/// Reads a rulebook file; what is wrong with it is in `problems`.
pub fn read_layer(sources: &Sources, file: SourceId, problems: &mut Vec<Problem>) -> Layer {
    layer(sources, file, false, problems)
}

/// Reads the rulebook file of one build, which may set limits, grades, stages, tolerances and waivers.
pub fn read_build_layer(sources: &Sources, file: SourceId, problems: &mut Vec<Problem>) -> Layer {
    layer(sources, file, true, problems)
}

fn layer(sources: &Sources, file: SourceId, of_build: bool, problems: &mut Vec<Problem>) -> Layer {
    let root = node::parse(sources, file, problems);
    let record = read(&root, &settings::SCHEMA, "the rulebook", problems);
    require(&record, &settings::SCHEMA, problems);
    if of_build {
        for (field, help) in NOT_OF_A_BUILD {
            if let Some(held) = record.value(field.key) {
                problems.push(
                    Problem::new("not-of-a-build", format!("`{}` cannot be set for one build", field.key))
                        .at(Label::new(held.span, Role::Subject, "not in the rulebook of one build"))
                        .help(help),
                );
            }
        }
    }
    let given =
        |field: &'static Field| record.value(field.key).is_some().then(|| record.texts(field).to_vec());
    Layer {
        file,
        from: record.texts(&settings::FROM).to_vec(),
        shop: record.text(&settings::SHOP).map(|shop| shop.value.to_owned()),
        hold: record.word(&settings::HOLD).and_then(|word| Grade::from_word(word.value)),
        stock: given(&settings::STOCK),
        packs: given(&settings::PACKS),
        backlog: record.text(&settings::BACKLOG).map(|text| text.map(str::to_owned)),
        places: given(&settings::PLACES),
        limits: each(&record, &settings::LIMITS, read_limit),
        grades: each(&record, &settings::GRADES, read_grade),
        stages: each(&record, &settings::STAGES, read_stage),
        tolerances: each(&record, &settings::TOLERANCES, read_override),
        assumptions: each(&record, &settings::ASSUMPTIONS, assumed::read_override),
        waivers: waiver::read_all(record.tables(&settings::WAIVERS), of_build, problems),
        by_eye: by_eye::read_all(record.tables(&settings::BY_EYE), problems),
    }
}

fn each<T>(record: &Record, field: &'static Field, read: impl Fn(&Record) -> Option<T>) -> Vec<T> {
    record.tables(field).iter().filter_map(read).collect()
}

fn read_limit(table: &Record) -> Option<LimitOverride> {
    Some(LimitOverride {
        rule: table.text(&limit_override::RULE)?.map(str::to_owned),
        limit: table.text(&limit_override::LIMIT)?.map(str::to_owned),
        value: table.quantity(&limit_override::VALUE)?,
        reason: table.text(&limit_override::REASON)?.value.to_owned(),
    })
}

fn read_grade(table: &Record) -> Option<GradeOverride> {
    let grade = table.word(&grade_override::GRADE)?;
    Some(GradeOverride {
        rule: table.text(&grade_override::RULE)?.map(str::to_owned),
        grade: Spanned::new(Grade::from_word(grade.value)?, grade.span),
        reason: table.text(&grade_override::REASON)?.value.to_owned(),
    })
}

fn read_stage(table: &Record) -> Option<StageOverride> {
    let from = table.word(&stage_override::FROM)?;
    Some(StageOverride {
        rule: table.text(&stage_override::RULE)?.map(str::to_owned),
        from: Spanned::new(Stage::from_word(from.value)?, from.span),
        reason: table.text(&stage_override::REASON)?.value.to_owned(),
    })
}
