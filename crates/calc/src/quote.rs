//! The quote: what its lines come to, and which parts do not go together.

use pintle_spec::schema::item;
use pintle_spec::schema::quote::{self, line};
use pintle_spec::{Build, Item, Known, Missing, Named, Record};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::{Outcome, Work, Working};

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    if let Some(quote) = &build.quote {
        all.push(Working::of("quote", "lines_sum", "the build", "sum of the lines", |work| sum(work, quote)));
    }
    let stated =
        build.items.iter().enumerate().filter(|(_, item)| !item.record.texts(&item::CLASHES).is_empty());
    all.extend(stated.map(|(at, item)| {
        Working::of("quote", "clashes", item.called(), "parts that it does not go with", |_| {
            Ok(clashes(build, at, item))
        })
    }));
    all
}

/// What the lines come to: Σ count · price.
fn sum(work: &mut Work, quote: &Record) -> Known<Figure> {
    let lines = quote.tables(&quote::LINES);
    let mut sum: Option<Figure> = None;
    for entry in lines {
        let price = entry.need(&line::PRICE).and_then(|_| Named::of(entry, &line::PRICE))?;
        let count = entry.count(&line::COUNT).map_or(1, |count| count.value);
        let part = Figure::given(price).scaled(f64::from(count));
        sum = Some(match sum {
            Some(sum) => alike(sum.plus(&part))?,
            None => part,
        });
    }
    let sum = sum.ok_or_else(|| {
        Missing::new("a line of the quote", Some(quote.span), "add a `[[quote.line]]` for each thing offered")
    });
    work.step("s", "sum of the lines", "Σ n · p", sum, Origin::derived("sum"))
}

/// The fitted parts that a part says it does not go with, by their stock name or by their kind. Two of one either-or
/// group are never aboard together, so they do not clash.
fn clashes(build: &Build, at: usize, item: &Item) -> Outcome {
    let barred = item.record.texts(&item::CLASHES);
    let is_barred = |other: &Item| {
        let part = other.record.text(&item::PART).map(|part| part.value);
        barred.iter().any(|name| name.value == other.kind || Some(name.value.as_str()) == part)
    };
    let apart =
        |other: usize| build.eithers.iter().any(|group| group.of.contains(&at) && group.of.contains(&other));
    let others = build.items.iter().enumerate().filter(|(other, _)| *other != at && !apart(*other));
    Outcome::Texts(others.filter(|(_, other)| is_barred(other)).map(|(_, other)| other.called()).collect())
}

#[cfg(test)]
mod tests;
