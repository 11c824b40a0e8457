//! Waivers: faults that somebody accepts until a day.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::civil::Date;
use pintle_finding::{Label, Problem, Reading, Role, Setting, Stage, Waived, WaiverKind};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::record::Record;

use crate::kept::Kept;
use crate::overrides::unknown_rule;
use crate::rulebook::{Bound, set_twice};
use crate::schema::waiver::{BUILDS, ITEM, KIND, REASON, RULE, UNTIL, WHO};
use crate::settings::Layer;

/// Reads a day, written with year, month and day and nothing else.
///
/// ```
/// assert!(pintle_rulebook::day("2026-12-31").is_some());
/// assert!(pintle_rulebook::day("2026-02-30").is_none());
/// assert!(pintle_rulebook::day("31.12.2026").is_none());
/// ```
pub fn day(text: &str) -> Option<Date> {
    let plain = text.len() == "2026-05-04".len();
    text.parse().ok().filter(|_| plain)
}

/// A waiver as one file has it.
#[derive(Debug, Clone)]
pub(crate) struct WaiverEntry {
    pub(crate) rule: Spanned<String>,
    item: Option<Spanned<String>>,
    builds: Vec<Spanned<String>>,
    kind: WaiverKind,
    until: Spanned<Date>,
    who: String,
    reason: String,
}

/// A waiver in the rulebook.
#[derive(Debug, Clone)]
pub struct Waiver {
    /// The rule whose faults it is of, `pack/rule`.
    pub rule: Spanned<String>,
    /// What it is waived on; all of a build where there is none.
    pub item: Option<Spanned<String>>,
    /// The builds that it is for; none where it is for all that have the item.
    pub builds: Vec<Spanned<String>>,
    /// The last day on which it is in force.
    pub until: Spanned<Date>,
    /// Whether the rule may be waived at all.
    pub allowed: bool,
    /// Whether it stands in the rulebook of one build.
    pub of_build: bool,
    /// Whether later layers have taken its place altogether.
    pub replaced: bool,
    /// As findings show it.
    pub waived: Arc<Waived>,
}

/// What two waivers must not share in one file, and what a later file sets anew: rule, item and build.
type Key = (String, String, String);

/// All waivers in the rulebook, by number.
#[derive(Debug, Clone, Default)]
pub struct Waivers {
    all: Vec<Waiver>,
    keys: BTreeMap<Key, (usize, SourceId, Span)>,
    by_rule: BTreeMap<String, Vec<usize>>,
    by_build: BTreeMap<String, Vec<usize>>,
}

pub(crate) fn read_all(tables: &[Record], of_build: bool, problems: &mut Vec<Problem>) -> Vec<WaiverEntry> {
    tables.iter().filter_map(|table| read(table, of_build, problems)).collect()
}

fn read(table: &Record, of_build: bool, problems: &mut Vec<Problem>) -> Option<WaiverEntry> {
    let until = table.text(&UNTIL).and_then(|text| {
        let found = day(text.value).map(|day| Spanned::new(day, text.span));
        if found.is_none() {
            problems.push(
                Problem::new("bad-date", format!("`{}` is no day of the calendar", text.value))
                    .at(Label::new(text.span, Role::Subject, "must be a day"))
                    .help("write year, month and day, such as `2026-12-31`"),
            );
        }
        found
    });
    let rule = table.text(&RULE)?.map(str::to_owned);
    let item = table.text(&ITEM).map(|text| text.map(str::to_owned));
    let builds = table.texts(&BUILDS).to_vec();
    let stated = table.value(BUILDS.key);
    if let Some(stated) = stated.filter(|_| of_build) {
        problems.push(
            Problem::new("not-of-a-build", "a waiver in the rulebook of one build is of that build")
                .at(Label::new(stated.span, Role::Subject, "not in the rulebook of one build"))
                .help("leave `builds` out, or write the waiver into the shop's pintle.toml"),
        );
        return None;
    }
    if builds.is_empty() && (stated.is_some() || item.is_none()) && !of_build {
        let span = stated.map_or(rule.span, |stated| stated.span);
        problems.push(
            Problem::new("wide-waiver", format!("the waiver of `{}` names no item and no build", rule.value))
                .at(Label::new(span, Role::Subject, "of which item, or which builds?"))
                .help(
                    "name the item, such as `item = \"item.galley\"`, the builds, or both; \
                     to take a whole rule less seriously, set its grade",
                ),
        );
        return None;
    }
    Some(WaiverEntry {
        rule,
        item,
        builds,
        kind: WaiverKind::from_word(table.word(&KIND)?.value)?,
        until: until?,
        who: table.text(&WHO)?.value.to_owned(),
        reason: table.text(&REASON)?.value.to_owned(),
    })
}

impl WaiverEntry {
    fn key(&self, build: &str) -> Key {
        let item = self.item.as_ref().map_or(String::new(), |item| item.value.clone());
        (self.rule.value.clone(), item, build.to_owned())
    }

    /// In a few words: `concession by R. Shopfloor until 2026-12-31`.
    fn words(&self) -> String {
        format!("{} by {} until {}", self.kind.word(), self.who, self.until.value)
    }

    fn setting(&self, sources: &Sources) -> Setting {
        Setting {
            file: sources.name(self.rule.span.source).to_owned(),
            value: self.words(),
            quantity: None,
            reason: Some(self.reason.clone()),
            span: Some(self.rule.span),
        }
    }
}

impl Waivers {
    /// Lays the waivers of a layer over those there are: the same rule, item and build is set anew.
    pub(crate) fn lay(
        &mut self,
        layer: &Layer,
        of_build: bool,
        rules: &[Bound],
        kept: &[Kept],
        sources: &Sources,
        problems: &mut Vec<Problem>,
    ) {
        let waivable: BTreeMap<&str, bool> = rules
            .iter()
            .map(|bound| (bound.file.id.as_str(), bound.file.waivable))
            .chain(kept.iter().map(|kept| (kept.rule.id.as_str(), false)))
            .collect();
        for entry in &layer.waivers {
            match waivable.get(entry.rule.value.as_str()) {
                Some(allowed) => self.set(entry, *allowed, of_build, sources, problems),
                None => problems.push(unknown_rule(&entry.rule, waivable.keys().copied())),
            }
        }
    }

    fn set(
        &mut self,
        entry: &WaiverEntry,
        allowed: bool,
        of_build: bool,
        sources: &Sources,
        problems: &mut Vec<Problem>,
    ) {
        let number = self.all.len();
        let file = entry.rule.span.source;
        let mut chain: Vec<Setting> = Vec::new();
        let mut builds = Vec::new();
        let wide = Spanned::new(String::new(), entry.rule.span);
        let keys = if entry.builds.is_empty() { std::slice::from_ref(&wide) } else { &entry.builds };
        let mut any = false;
        for build in keys {
            let key = entry.key(&build.value);
            match self.keys.get(&key) {
                Some((_, held, first)) if *held == file => {
                    problems.push(set_twice(&said(&key), build.span, Some(*first)));
                    continue;
                }
                // The shop's stays beside that of one build, whose number is not known here.
                Some((at, ..)) if !of_build => {
                    if let Some(under) = self.all.get_mut(*at) {
                        chain.clone_from(&under.waived.chain);
                        under.builds.retain(|held| held.value != build.value);
                        under.replaced = under.builds.is_empty();
                    }
                }
                _ => {}
            }
            self.keys.insert(key, (number, file, build.span));
            any = true;
            if !entry.builds.is_empty() {
                builds.push(build.clone());
                self.by_build.entry(build.value.clone()).or_default().push(number);
            }
        }
        if !any {
            return;
        }
        chain.push(entry.setting(sources));
        self.by_rule.entry(entry.rule.value.clone()).or_default().push(number);
        let waived = Waived {
            kind: entry.kind,
            reason: entry.reason.clone(),
            who: entry.who.clone(),
            until: entry.until.value.to_string(),
            file: sources.name(file).to_owned(),
            span: Some(entry.rule.span),
            chain,
        };
        self.all.push(Waiver {
            rule: entry.rule.clone(),
            item: entry.item.clone(),
            builds,
            until: entry.until,
            allowed,
            of_build,
            replaced: false,
            waived: Arc::new(waived),
        });
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// The waiver with a number.
    pub fn get(&self, number: usize) -> Option<&Waiver> {
        self.all.get(number)
    }

    /// All that no later layer has taken the place of, by number.
    pub fn all(&self) -> impl Iterator<Item = (usize, &Waiver)> {
        self.all.iter().enumerate().filter(|(_, waiver)| !waiver.replaced)
    }

    /// Those of one rule.
    pub fn of_rule(&self, rule: &str) -> impl Iterator<Item = (usize, &Waiver)> {
        self.numbered(self.by_rule.get(rule))
    }

    /// Those that name a build, or stand in its own rulebook.
    pub(crate) fn of_build(&self, number: &str) -> Vec<(usize, &Waiver)> {
        let named = self.numbered(self.by_build.get(number));
        let named = named.filter(|(_, waiver)| waiver.builds.iter().any(|build| build.value == number));
        let own: Vec<(usize, &Waiver)> = self.all().filter(|(_, waiver)| waiver.of_build).collect();
        let set_anew = |waiver: &Waiver| {
            own.iter().any(|(_, own)| own.rule.value == waiver.rule.value && own.item() == waiver.item())
        };
        let named: Vec<(usize, &Waiver)> = named.filter(|(_, waiver)| !set_anew(waiver)).collect();
        named.into_iter().chain(own).collect()
    }

    fn numbered<'w>(&'w self, numbers: Option<&'w Vec<usize>>) -> impl Iterator<Item = (usize, &'w Waiver)> {
        let numbers = numbers.map(Vec::as_slice).unwrap_or_default().iter();
        let all = numbers.filter_map(|number| Some((*number, self.all.get(*number)?)));
        all.filter(|(_, waiver)| !waiver.replaced)
    }

    /// The waivers that bear on a finding. One in the build's own rulebook takes the place of the shop's of the same rule
    /// and item.
    pub(crate) fn on(&self, reading: &Reading, number: &str) -> Vec<(usize, &Waiver)> {
        let all = self.of_rule(&reading.rule.id);
        let mut on: Vec<(usize, &Waiver)> =
            all.filter(|(_, waiver)| waiver.bears_on(reading, number)).collect();
        let own: Vec<Option<&str>> =
            on.iter().filter(|(_, waiver)| waiver.of_build).map(|(_, waiver)| waiver.item()).collect();
        on.retain(|(_, waiver)| waiver.of_build || !own.contains(&waiver.item()));
        on
    }
}

fn said((rule, item, build): &Key) -> String {
    let item = if item.is_empty() { String::new() } else { format!(" on `{item}`") };
    let build = if build.is_empty() { String::new() } else { format!(" in build `{build}`") };
    format!("the waiver of `{rule}`{item}{build}")
}

impl Waiver {
    fn item(&self) -> Option<&str> {
        self.item.as_ref().map(|item| item.value.as_str())
    }

    pub(crate) fn bears_on(&self, reading: &Reading, number: &str) -> bool {
        let item = self.item().is_none_or(|item| item == reading.path);
        let build =
            self.of_build || self.builds.is_empty() || self.builds.iter().any(|build| build.value == number);
        item && build
    }

    /// Whether its last day is past.
    pub fn has_run_out(&self, day: Date) -> bool {
        day > self.until.value
    }

    /// Whether it is given at the right time: nothing is conceded of what is not built yet.
    pub(crate) fn is_timely(&self, stage: Stage) -> bool {
        self.waived.kind == WaiverKind::Deviation || stage >= Stage::Build
    }

    /// What it is called in readings.
    pub fn called(&self) -> String {
        match self.item() {
            Some(item) => format!("{} on {item}", self.rule.value),
            None => self.rule.value.clone(),
        }
    }
}
