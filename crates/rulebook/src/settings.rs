//! `pintle.toml`: which packs a shop uses, and which limits and grades it sets.

use pintle_finding::{Grade, Problem};
use pintle_quantity::Quantity;
use pintle_source::{SourceId, Sources, Spanned};
use pintle_spec::node;
use pintle_spec::read::{read, require};

use crate::assumed::{self, AssumptionOverride};
use crate::schema::{grade_override, limit_override, settings};
use crate::tolerances::{ToleranceOverride, read_override};

/// A shop's settings.
#[derive(Debug, Clone, Default)]
pub struct Settings {
    /// The shop's name.
    pub shop: Option<String>,
    /// The grade at or above which a build is stopped.
    pub hold: Option<Grade>,
    /// Folders of the stock list; none stated means the default.
    pub stock: Option<Vec<Spanned<String>>>,
    /// Packs in use; none stated means all built-in ones.
    pub packs: Option<Vec<Spanned<String>>>,
    /// Limits of the shop's own.
    pub(crate) limits: Vec<LimitOverride>,
    /// Grades of the shop's own.
    pub(crate) grades: Vec<GradeOverride>,
    /// Tolerances of the shop's own.
    pub(crate) tolerances: Vec<ToleranceOverride>,
    /// Places that the shop reckons with where a build names none.
    pub(crate) places: Vec<Spanned<String>>,
    /// Assumptions of the shop's own.
    pub(crate) assumptions: Vec<AssumptionOverride>,
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

/// Reads a rulebook file; what is wrong with it is in `problems`.
pub fn read_settings(sources: &Sources, file: SourceId, problems: &mut Vec<Problem>) -> Settings {
    let root = node::parse(sources, file, problems);
    let record = read(&root, &settings::SCHEMA, "the rulebook", problems);
    require(&record, &settings::SCHEMA, problems);
    let given = |field: &'static pintle_spec::field::Field| {
        record.value(field.key).is_some().then(|| record.texts(field).to_vec())
    };
    let limits = record.tables(&settings::LIMITS).iter().filter_map(|table| {
        Some(LimitOverride {
            rule: table.text(&limit_override::RULE)?.map(str::to_owned),
            limit: table.text(&limit_override::LIMIT)?.map(str::to_owned),
            value: table.quantity(&limit_override::VALUE)?,
            reason: table.text(&limit_override::REASON)?.value.to_owned(),
        })
    });
    let grades = record.tables(&settings::GRADES).iter().filter_map(|table| {
        let grade = table.word(&grade_override::GRADE)?;
        Some(GradeOverride {
            rule: table.text(&grade_override::RULE)?.map(str::to_owned),
            grade: Spanned::new(Grade::from_word(grade.value)?, grade.span),
            reason: table.text(&grade_override::REASON)?.value.to_owned(),
        })
    });
    Settings {
        shop: record.text(&settings::SHOP).map(|shop| shop.value.to_owned()),
        hold: record.word(&settings::HOLD).and_then(|word| Grade::from_word(word.value)),
        stock: given(&settings::STOCK),
        packs: given(&settings::PACKS),
        places: record.texts(&settings::PLACES).to_vec(),
        limits: limits.collect(),
        grades: grades.collect(),
        tolerances: record.tables(&settings::TOLERANCES).iter().filter_map(read_override).collect(),
        assumptions: record
            .tables(&settings::ASSUMPTIONS)
            .iter()
            .filter_map(assumed::read_override)
            .collect(),
    }
}
