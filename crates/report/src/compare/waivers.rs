//! Faults that are accepted, before and after: which waivers came, went or changed.

use std::collections::BTreeMap;

/// Who accepts a fault, how long and why.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct WaiverTerms {
    /// `deviation` or `concession`.
    pub kind: &'static str,
    /// Its last day.
    pub until: String,
    /// Who accepts the fault.
    pub who: String,
    /// Why.
    pub reason: String,
}

/// The builds that a waiver is for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum WaivedIn {
    /// All that have the item.
    Any,
    /// One, by its number.
    Build(String),
    /// The one in whose own rulebook it stands.
    Own,
}

/// A waiver in one build, or in any.
#[derive(Debug, Clone)]
pub struct WaiverFacts {
    /// The rule whose faults it is of.
    pub rule: String,
    /// What it is waived on; all of a build where there is none.
    pub item: Option<String>,
    /// Where.
    pub waived_in: WaivedIn,
    /// By whom, how long and why.
    pub terms: WaiverTerms,
}

/// A waiver that is not as it was, of all builds of which the same is to be said.
#[derive(Debug, Clone)]
pub struct WaiverChange {
    /// The rule whose faults it is of.
    pub rule: String,
    /// What it is waived on; all of a build where there is none.
    pub item: Option<String>,
    /// Where; never empty.
    pub waived_in: Vec<WaivedIn>,
    /// Before; none where there was none.
    pub old: Option<WaiverTerms>,
    /// Now; none where there is none.
    pub new: Option<WaiverTerms>,
}

/// What changed from some waivers to others, by rule and item.
pub(super) fn changes(old: &[WaiverFacts], new: &[WaiverFacts]) -> Vec<WaiverChange> {
    type Key<'w> = (&'w str, Option<&'w str>, &'w WaivedIn);
    let of = |waiver: &WaiverFacts| waiver.terms.clone();
    let mut both: BTreeMap<Key<'_>, [Option<WaiverTerms>; 2]> = BTreeMap::new();
    for (at, waivers) in [old, new].into_iter().enumerate() {
        for waiver in waivers {
            let key = (waiver.rule.as_str(), waiver.item.as_deref(), &waiver.waived_in);
            if let Some(held) = both.entry(key).or_default().get_mut(at) {
                *held = Some(of(waiver));
            }
        }
    }
    let mut told: Vec<WaiverChange> = Vec::new();
    for ((rule, item, waived_in), [old, new]) in both.into_iter().filter(|(_, [old, new])| old != new) {
        let same = told.iter_mut().find(|held| {
            held.rule == rule && held.item.as_deref() == item && held.old == old && held.new == new
        });
        match same {
            Some(held) => held.waived_in.push(waived_in.clone()),
            None => told.push(WaiverChange {
                rule: rule.to_owned(),
                item: item.map(str::to_owned),
                waived_in: vec![waived_in.clone()],
                old,
                new,
            }),
        }
    }
    told
}

impl WaiverChange {
    /// The numbers of the builds that it names.
    pub(super) fn builds(&self) -> Vec<&str> {
        let builds = self.waived_in.iter().filter_map(|one| match one {
            WaivedIn::Build(number) => Some(number.as_str()),
            WaivedIn::Any | WaivedIn::Own => None,
        });
        builds.collect()
    }

    /// `roof/tall-rack: waiver on `item.rack` in build `OM-124` added, deviation by the foreman until 2039-12-31: why`.
    pub(super) fn sentence(&self) -> String {
        let on = self.item.as_ref().map_or(String::new(), |item| format!(" on `{item}`"));
        let mut places: Vec<String> = Vec::new();
        let builds: Vec<String> = self.builds().into_iter().map(|number| format!("`{number}`")).collect();
        match builds.as_slice() {
            [] => {}
            [one] => places.push(format!("build {one}")),
            many => places.push(format!("builds {}", many.join(", "))),
        }
        if self.waived_in.contains(&WaivedIn::Own) {
            places.push("one build, by its own rulebook".to_owned());
        }
        if self.waived_in.contains(&WaivedIn::Any) {
            places.push("any build".to_owned());
        }
        let head = format!("{}: waiver{on} in {}", self.rule, places.join(", and in "));
        match (&self.old, &self.new) {
            (Some(old), Some(new)) => format!("{head}: {}", differences(old, new).join("; ")),
            (None, Some(terms)) => format!("{head} added, {}", whole(terms)),
            (Some(terms), None) => format!("{head} removed, {}", whole(terms)),
            (None, None) => head,
        }
    }
}

/// `deviation by the foreman until 2039-12-31: the customer's own rack`.
pub(super) fn whole(terms: &WaiverTerms) -> String {
    format!("{} by {} until {}: {}", terms.kind, terms.who, terms.until, terms.reason)
}

fn differences(old: &WaiverTerms, new: &WaiverTerms) -> Vec<String> {
    let rows = [
        ("kind", old.kind, new.kind),
        ("who accepts it", &old.who, &new.who),
        ("last day", &old.until, &new.until),
        ("reason", &old.reason, &new.reason),
    ];
    let changed = rows.into_iter().filter(|(_, old, new)| old != new);
    changed.map(|(what, old, new)| format!("{what} from `{old}` to `{new}`")).collect()
}
