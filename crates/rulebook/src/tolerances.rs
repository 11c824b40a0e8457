//! How sure a value is that states no ± of its own: the built-in table, with a shop's own over it.

use pintle_calc::uncertainty::{Tolerance, Tolerances};
use pintle_finding::{Basis, Label, Problem, Role, SetBy, Setting, nearest};
use pintle_quantity::{Dimension, Quantity, Units};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::Footing;
use pintle_spec::node;
use pintle_spec::read::{list, read, require};
use pintle_spec::record::Record;

use crate::overrides::{once, setting};
use crate::pack::builtin_tolerances;
use crate::schema::{tolerance, tolerance_override, tolerances};
use crate::set_twice;

/// The ± of one footing, as it is in force.
#[derive(Debug, Clone)]
pub struct BoundTolerance {
    /// What it is the ± of.
    pub footing: Footing,
    /// The ±: a width, or a share of the value. Of a share, as a tank's fill is, in points.
    pub value: Quantity,
    /// The least ± beside a share.
    pub least: Option<Quantity>,
    /// Where the figure comes from.
    pub basis: Basis,
    /// What a reader should know of it.
    pub note: Option<String>,
    /// Where it is written.
    pub span: Span,
    /// Who set it, when that is not the built-in table.
    pub set_by: Option<SetBy>,
}

/// A ± as it stands in a file.
#[derive(Debug, Clone)]
pub(crate) struct Written {
    of: Spanned<String>,
    value: Spanned<Quantity>,
    least: Option<Spanned<Quantity>>,
}

/// A ± of the shop's own.
#[derive(Debug, Clone)]
pub(crate) struct ToleranceOverride {
    written: Written,
    reason: String,
}

impl BoundTolerance {
    /// As a reader is shown it: `25 %, at least 1 lb`.
    pub fn show(&self, units: Units) -> String {
        let value = self.value.show(units);
        match self.least {
            Some(least) => format!("{value}, at least {}", least.show(units)),
            None => value,
        }
    }
}

/// What a footing's ± may be: a share of the value as well as a width, and its own dimension.
fn sort_of(footing: Footing) -> (bool, Dimension) {
    match footing {
        Footing::Fill => (false, Dimension::NONE),
        Footing::Capacity => (true, Dimension::VOLUME),
        footing if footing.is_mass() => (true, Dimension::MASS),
        _ => (false, Dimension::LENGTH),
    }
}

fn names() -> impl Iterator<Item = &'static str> + Clone {
    Footing::NAMED.iter().filter_map(|footing| footing.name())
}

fn footing_of(of: &Spanned<String>, problems: &mut Vec<Problem>) -> Option<Footing> {
    let found = Footing::NAMED.iter().copied().find(|footing| footing.name() == Some(of.value.as_str()));
    if found.is_none() {
        problems.push(
            Problem::new("unknown-tolerance", format!("there is no tolerance of `{}`", of.value))
                .at(Label::new(of.span, Role::Subject, "nothing is called so"))
                .help(match nearest(&of.value, names()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("the tolerances are of {}", list(names())),
                }),
        );
    }
    found
}

impl Written {
    fn of(record: &Record, [of, value, least]: [&'static pintle_spec::field::Field; 3]) -> Option<Self> {
        Some(Self {
            of: record.text(of)?.map(str::to_owned),
            value: record.quantity(value)?,
            least: record.quantity(least),
        })
    }

    /// Says what is wrong with it, and whether it can be used.
    fn check(&self, footing: Footing, problems: &mut Vec<Problem>) -> bool {
        let before = problems.len();
        let (shares, own) = sort_of(footing);
        let share = self.value.value.dimension() == Dimension::NONE;
        let name = footing.name().unwrap_or_default();
        let fits = |value: &Spanned<Quantity>, shares: bool| {
            value.value.dimension() == own || shares && value.value.dimension() == Dimension::NONE
        };
        let other = |key: &str, value: &Spanned<Quantity>, shares: bool| {
            let wanted = if shares { format!("a share or {}", own.noun()) } else { own.noun() };
            let found = value.value.dimension().noun();
            let example = if shares { "5 %" } else { own.example() };
            Problem::new(
                "wrong-dimension",
                format!("`{key}` of tolerance `{name}` is {wanted}, and this is {found}"),
            )
            .at(Label::new(value.span, Role::Subject, format!("must be {wanted}")))
            .help(format!("write it such as `{example}`"))
        };
        if !fits(&self.value, shares) {
            problems.push(other("value", &self.value, shares));
        }
        if let Some(least) = &self.least {
            if !(shares && share) {
                problems.push(
                    Problem::new(
                        "needless-least",
                        format!("tolerance `{name}` has a `least` beside a width"),
                    )
                    .at(Label::new(least.span, Role::Subject, "the width alone is the ±"))
                    .help("leave `least` out, or give `value` as a share"),
                );
            } else if !fits(least, false) {
                problems.push(other("least", least, false));
            }
        }
        for value in [Some(&self.value), self.least.as_ref()].into_iter().flatten() {
            if value.value.si() < 0.0 || value.value.tolerance().is_some() {
                problems.push(
                    Problem::new(
                        "impossible-number",
                        format!("tolerance `{name}` cannot be below nothing, nor have a ± itself"),
                    )
                    .at(Label::new(value.span, Role::Subject, "must be a plain figure, zero or more"))
                    .help("write how far a value may be off to either side, such as `5 %`, without a sign"),
                );
            }
        }
        problems.len() == before
    }
}

pub(crate) fn read_override(record: &Record) -> Option<ToleranceOverride> {
    use tolerance_override::{LEAST, OF, REASON, VALUE};
    let reason = record.text(&REASON)?.value.to_owned();
    Some(ToleranceOverride { written: Written::of(record, [&OF, &VALUE, &LEAST])?, reason })
}

/// The built-in table.
pub(crate) fn builtin(sources: &mut Sources, problems: &mut Vec<Problem>) -> Vec<BoundTolerance> {
    let Some((name, bytes)) = builtin_tolerances() else {
        problems.push(
            Problem::new("no-tolerances", "the built-in table of tolerances is gone").help("report this"),
        );
        return Vec::new();
    };
    let file: SourceId = match sources.add_bytes(&name, &bytes) {
        Ok(file) => file,
        Err(error) => {
            problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
            return Vec::new();
        }
    };
    let root = node::parse(sources, file, problems);
    let record = read(&root, &tolerances::SCHEMA, "the table of tolerances", problems);
    require(&record, &tolerances::SCHEMA, problems);
    let mut bound: Vec<BoundTolerance> = Vec::new();
    for record in record.tables(&tolerances::TOLERANCES) {
        use tolerance::{BASIS, LEAST, NOTE, OF, VALUE};
        let Some(written) = Written::of(record, [&OF, &VALUE, &LEAST]) else { continue };
        let basis = record.word(&BASIS).and_then(|word| Basis::from_word(word.value));
        let Some((footing, basis)) = footing_of(&written.of, problems).zip(basis) else { continue };
        if let Some(first) = bound.iter().find(|held| held.footing == footing) {
            problems.push(set_twice(&what(footing), written.of.span, Some(first.span)));
        } else if written.check(footing, problems) {
            bound.push(BoundTolerance {
                footing,
                value: written.value.value,
                least: written.least.map(|least| least.value),
                basis,
                note: record.text(&NOTE).map(|note| note.value.to_owned()),
                span: written.value.span,
                set_by: None,
            });
        }
    }
    bound
}

fn what(footing: Footing) -> String {
    format!("the tolerance of `{}`", footing.name().unwrap_or_default())
}

/// Lays the ± of a layer over those in force.
pub(crate) fn apply(
    bound: &mut [BoundTolerance],
    overrides: &[ToleranceOverride],
    sources: &Sources,
    problems: &mut Vec<Problem>,
) {
    for ToleranceOverride { written, reason } in overrides {
        let Some(footing) = footing_of(&written.of, problems) else { continue };
        let Some(held) = bound.iter_mut().find(|held| held.footing == footing) else { continue };
        if let Err(problem) = once(&what(footing), held.set_by.as_ref(), written.value.span) {
            problems.push(problem);
            continue;
        }
        if !written.check(footing, problems) {
            continue;
        }
        let mut own = held.clone();
        own.value = written.value.value;
        own.least = written.least.map(|least| least.value);
        own.basis = Basis::Shop;
        own.span = written.value.span;
        let under = || Setting {
            file: sources.name(held.span.source).to_owned(),
            value: held.show(Units::AsWritten),
            quantity: None,
            reason: held.note.clone(),
            span: Some(held.span),
        };
        let setting = setting(sources, own.span, own.show(Units::AsWritten), reason);
        own.set_by = Some(SetBy::over(held.set_by.as_ref(), under, setting));
        *held = own;
    }
}

/// As plain data, for reckoning.
pub(crate) fn plain(bound: &[BoundTolerance]) -> Tolerances {
    let mut tolerances = Tolerances::default();
    for held in bound {
        let (shares, _) = sort_of(held.footing);
        let tolerance = if shares && held.value.dimension() == Dimension::NONE {
            Tolerance { share: held.value.si(), width: held.least.map_or(0.0, Quantity::si) }
        } else {
            Tolerance { share: 0.0, width: held.value.si() }
        };
        tolerances.set(held.footing, tolerance);
    }
    tolerances
}
