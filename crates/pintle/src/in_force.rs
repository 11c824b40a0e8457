//! The rulebook in force over one build, as the inspection sheet shows it.

use pintle_finding::{Accepted, Inspection, SetBy};
use pintle_rulebook::Rulebook;
use pintle_sheet::in_force::{Backlog, InForce, Limit, Set, Sort, Waiver};
use pintle_source::{Sources, Span};

/// What is in force over the build that was inspected.
pub(crate) fn in_force(rulebook: &Rulebook, inspection: &Inspection, sources: &Sources) -> InForce {
    let name = |file| sources.name(file).to_owned();
    InForce {
        layers: rulebook.layers.iter().map(|file| name(*file)).collect(),
        limits: limits(rulebook),
        set: set(rulebook),
        waivers: waivers(rulebook, inspection, sources),
        backlog: backlog(rulebook, &inspection.number),
        by_eye: rulebook.by_eye.clone(),
    }
}

fn limits(rulebook: &Rulebook) -> Vec<Limit> {
    let of_rule =
        rulebook.rules.iter().flat_map(|bound| bound.limits.iter().map(move |limit| (bound, limit)));
    of_rule
        .map(|(bound, limit)| Limit {
            rule: bound.file.id.clone(),
            name: limit.name.clone(),
            value: limit.value,
            basis: limit.basis,
        })
        .collect()
}

fn set(rulebook: &Rulebook) -> Vec<Set> {
    let one = |sort, rule: &str, called: String, by: Option<&SetBy>| {
        by.map(|by| Set { sort, rule: rule.to_owned(), called, by: by.clone() })
    };
    let mut all = Vec::new();
    for bound in &rulebook.rules {
        let id = bound.file.id.as_str();
        for limit in &bound.limits {
            all.extend(one(Sort::Limit, id, format!("{} of {id}", limit.name), limit.set_by.as_ref()));
        }
        all.extend(one(Sort::Grade, id, id.to_owned(), bound.rule.grade_set_by.as_ref()));
        all.extend(one(Sort::Stage, id, id.to_owned(), bound.rule.from_set_by.as_ref()));
    }
    for kept in &rulebook.kept {
        let id = kept.rule.id.as_str();
        all.extend(one(Sort::Grade, id, id.to_owned(), kept.rule.grade_set_by.as_ref()));
    }
    all
}

fn waivers(rulebook: &Rulebook, inspection: &Inspection, sources: &Sources) -> Vec<Waiver> {
    let bears = |waiver: &pintle_rulebook::Waiver| {
        waiver.of_build
            || waiver.builds.is_empty()
            || waiver.builds.iter().any(|build| build.value == inspection.number)
    };
    let accepted_by = |span: Option<Span>| {
        let by = |accepted: &Accepted| matches!(accepted, Accepted::Waived(waived) if waived.span == span);
        inspection.readings.iter().filter(|reading| reading.accepted.as_ref().is_some_and(by)).count()
    };
    // One in the build's own rulebook takes the place of the shop's of the same rule and item.
    let item = |waiver: &pintle_rulebook::Waiver| waiver.item.as_ref().map(|item| item.value.clone());
    let own: Vec<(&str, Option<String>)> = rulebook
        .waivers
        .all()
        .filter(|(_, waiver)| waiver.of_build)
        .map(|(_, waiver)| (waiver.rule.value.as_str(), item(waiver)))
        .collect();
    let replaced = |waiver: &pintle_rulebook::Waiver| {
        !waiver.of_build && own.contains(&(waiver.rule.value.as_str(), item(waiver)))
    };
    let all = rulebook.waivers.all().map(|(_, waiver)| waiver);
    let bearing = all.filter(|waiver| bears(waiver) && !replaced(waiver));
    bearing
        .map(|waiver| Waiver {
            rule: waiver.rule.value.clone(),
            item: waiver.item.as_ref().map(|item| item.value.clone()),
            kind: waiver.waived.kind,
            until: waiver.until.value,
            who: waiver.waived.who.clone(),
            reason: waiver.waived.reason.clone(),
            at: format!("{}:{}", waiver.waived.file, sources.locate(waiver.rule.span).line),
            allowed: waiver.allowed,
            accepts: accepted_by(waiver.waived.span),
        })
        .collect()
}

fn backlog(rulebook: &Rulebook, number: &str) -> Option<Backlog> {
    let backlog = rulebook.backlog.as_ref()?;
    let own = backlog.entries.iter().filter(|(entry, _)| entry.build == number);
    Some(Backlog {
        file: backlog.file.clone(),
        of_build: own.map(|(_, items)| items.len()).sum(),
        in_all: backlog.count(),
    })
}
