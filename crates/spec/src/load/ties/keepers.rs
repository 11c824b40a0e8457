//! Parts that are kept in others, whose anchors then carry them: what `held_by` names.

use pintle_finding::{Label, Problem, Role};
use pintle_source::Span;

use crate::build::Item;
use crate::load::items::Fitted;
use crate::load::tags::{Sort, Tags};
use crate::say::full;
use crate::schema::{anchors, item};

/// Loops of more parts than these are not looked for; the calculation says that it cannot follow them.
const LONGEST: usize = 64;

/// Says which parts are kept in something that there is not, or in themselves.
pub(in crate::load) fn check_keepers(fitted: &Fitted, problems: &mut Vec<Problem>) {
    let keeper = |item: &Item, problems: &mut Vec<Problem>| {
        let tag = item.record.table(&item::ANCHORS)?.text(&anchors::HELD_BY)?;
        let what = format!("`held_by` of {}", item.called());
        Tags { fitted, what: &what }
            .find(tag.value, tag.span, Sort::Fitted, problems)
            .map(|at| (at, tag.span))
    };
    let found: Vec<Option<(usize, Span)>> = fitted.items.iter().map(|item| keeper(item, problems)).collect();
    for (start, item) in fitted.items.iter().enumerate() {
        if full(problems) {
            break;
        }
        let mut next = found.get(start).copied().flatten();
        for _ in 0..found.len().min(LONGEST) {
            match next {
                Some((at, _)) if at == start => break,
                Some((at, _)) => next = found.get(at).copied().flatten(),
                None => break,
            }
        }
        if let (Some((at, _)), Some(Some((_, span)))) = (next, found.get(start))
            && at == start
        {
            problems.push(
                Problem::new("held-loop", format!("{} is held, in the end, by itself", item.called()))
                    .at(Label::new(*span, Role::Subject, "part of a loop of parts that hold each other"))
                    .help("let one of them have anchors of its own"),
            );
        }
    }
}
