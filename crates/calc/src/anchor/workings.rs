//! Every figure of the topic, with how it came about.

mod bolted;
mod latched;
mod pulled;
mod strapped;
mod tilted;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::kinds::{opening, vent};
use pintle_spec::schema::{anchors, item, trailer};
use pintle_spec::{Build, Item, Known, Missing, Table};

use super::forces::front_wall;
use super::held::{Held, gravity, held_parts};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{between_kin, given, sum};
use crate::working::{Outcome, Work, Working};

/// What a reader of any figure here must know.
pub(super) const CAUTION: &str = "guideline: 49 CFR part 393 binds commercial vehicles only; have an engineer check what can hurt people when it comes loose";

/// What a reader must know of cut members.
const FRAME: &str =
    "posts and bows carry the roof: cut none without the trailer maker's word, or an engineer's";

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    for held in held_parts(case.build) {
        all.push(how_held(&held));
        all.push(pulled::mass(&held));
        if held.keeper().is_some() || held.loose() {
            continue;
        }
        all.extend(pulled::workings(case, &held));
        all.extend(tilted::workings(case, &held));
        all.extend(bolted::workings(case, &held));
        all.extend(strapped::workings(case, &held));
        all.extend(latched::workings(case, &held));
        all.push(above_floor(&held));
    }
    all.extend(leaning(case.build));
    all.extend(case.build.items.iter().filter_map(cut));
    all
}

pub(super) fn figure<O: Into<Outcome>>(
    held: &Held<'_>,
    key: &'static str,
    says: &'static str,
    work: impl FnOnce(&mut Work) -> Known<O>,
) -> Working {
    Working::of("anchor", key, held.body.called(), says, work).warned(CAUTION)
}

/// What holds a part, in words.
fn how_held(held: &Held<'_>) -> Working {
    figure(held, "how_held", "what holds it", |_| {
        let anchors = held.anchors()?;
        if held.loose() {
            return Ok(Vec::new());
        }
        if let Some(keeper) = held.keeper() {
            let host = held.build.item(keeper).map_or_else(|| keeper.to_owned(), pintle_spec::Item::called);
            return Ok(vec![format!("kept in {host}")]);
        }
        let links = [
            (anchors.table(&anchors::BOLT).is_some(), "bolts"),
            (anchors.table(&anchors::EACH).is_some(), "fittings"),
            (!anchors.tables(&anchors::STRAPS).is_empty(), "straps"),
            (anchors.table(&anchors::TRACK).is_some(), "track"),
        ];
        let stated: Vec<String> =
            links.into_iter().filter(|(there, _)| *there).map(|(_, word)| word.to_owned()).collect();
        if stated.is_empty() {
            return Err(Missing::new(
                format!("`bolt`, `each` or `straps` of {}", anchors.what),
                Some(anchors.span),
                "say what holds it: the size and grade of its bolts, or what each anchor may carry",
            ));
        }
        Ok(stated)
    })
}

/// Whether a post or bow was cut for a vent or an opening and nothing carries what it carried.
fn cut(body: &Item) -> Option<Working> {
    let (cuts, header) = match body.table {
        Table::Vent => (&vent::CUTS, &vent::HEADER),
        Table::Opening => (&opening::CUTS, &opening::HEADER),
        _ => return None,
    };
    let says = "whether a post or bow was cut for it without a header";
    let working = Working::of("anchor", "cut_without_header", body.called(), says, |_| {
        let cut = body.record.words(cuts).ok_or_else(|| body.record.missing(cuts))?;
        if cut.is_empty() {
            return Ok(false);
        }
        Ok(!body.record.need_flag(header)?.value)
    });
    Some(working.warned(FRAME))
}

/// How high a part's weight lies over the floor.
fn above_floor(held: &Held<'_>) -> Working {
    figure(held, "above_floor", "height of its centre of gravity over the floor", |work| {
        let floor = held.build.surfaces.floor.clone()?;
        let centre = held.body.extent.z.cg.clone()?;
        let high = Ok(between_kin(&floor, &centre, &held.body.called()).shown_in("in"));
        work.step(
            "z",
            "centre of gravity over the floor",
            "z of it − z of the floor",
            high,
            Origin::derived("geometry"),
        )
    })
}

/// What leans on the front when the brakes are on.
fn leaning(build: &Build) -> Vec<Working> {
    let lean =
        |held: &Held<'_>| held.blocked("ahead") && held.body.table != Table::Load && held.keeper().is_none();
    let leaning: Vec<Held<'_>> = held_parts(build).filter(lean).collect();
    if leaning.is_empty() {
        return Vec::new();
    }
    let says = "what the front must hold of the parts that lean on it";
    let working = Working::of("anchor", "front_wall_needed", "the build", says, |work| {
        let mut masses = Vec::new();
        for held in &leaning {
            masses.push(held.mass(work)?);
        }
        let height = work.take("H", "inside height of the front", given(&build.trailer, &trailer::HEIGHT))?;
        let share = Figure::constant(Quantity::share(front_wall(height.quantity.si())));
        let source = Origin::published("49 CFR 393.114(b): half below 6 ft, four tenths from 6 ft up");
        let share = work.know("k", "share of what leans on it", share, source.clone());
        let all = sum(Dimension::MASS, masses)?.times(&gravity()).times(&share).shown_in("lbf");
        work.step("F", "what the front must hold", "k · g · Σ m", Ok(all), source)
    });
    vec![working.warned(CAUTION)]
}

/// A coordinate's distance that is needed as more than nothing.
pub(super) fn positive(figure: Figure, what: &str, held: &Held<'_>) -> Known<Figure> {
    if figure.quantity.si() > 1e-9 {
        return Ok(figure);
    }
    Err(Missing::new(
        format!("{what} that is more than zero"),
        Some(held.body.tag.span),
        "correct its `cg` or its size",
    ))
}

/// The size of a part along an axis: 0 fore and aft, 1 across.
pub(super) fn size(held: &Held<'_>, axis: usize) -> Known<Figure> {
    given(&held.body.record, if axis == 0 { &item::LENGTH } else { &item::WIDTH })
}

#[cfg(test)]
mod tests;
