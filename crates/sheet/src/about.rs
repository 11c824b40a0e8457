//! What a finding is about: which parts of the build it names, so that page and drawings can point at each other.

use std::collections::{BTreeMap, BTreeSet};

use pintle_finding::{Inspection, Reading, Role};
use pintle_spec::Build;

/// The findings of a sheet, numbered from 1 in the order in which they are printed: the gravest first.
#[derive(Debug)]
pub(crate) struct Findings<'s> {
    all: Vec<Numbered<'s>>,
    of_parts: BTreeMap<usize, Vec<usize>>,
}

/// A finding with its number and the parts that it is about; indices count [`Build::items`].
#[derive(Debug)]
pub(crate) struct Numbered<'s> {
    pub(crate) number: usize,
    pub(crate) reading: &'s Reading,
    pub(crate) parts: Vec<usize>,
}

impl<'s> Findings<'s> {
    /// Of an inspection: open ones before accepted ones, then by grade, faults before what could not be judged.
    pub(crate) fn of(inspection: &'s Inspection, build: &Build) -> Self {
        let mut found: Vec<(usize, &Reading)> = inspection
            .readings
            .iter()
            .enumerate()
            .filter(|(_, reading)| reading.verdict.is_finding())
            .collect();
        found.sort_by_key(|(at, reading)| {
            (reading.accepted.is_some(), std::cmp::Reverse(reading.grade()), reading.verdict, *at)
        });
        let mut of_parts: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        let mut all = Vec::new();
        for (at, (_, reading)) in found.into_iter().enumerate() {
            let (number, parts) = (at + 1, parts_of(reading, build));
            for part in &parts {
                of_parts.entry(*part).or_default().push(number);
            }
            all.push(Numbered { number, reading, parts });
        }
        Self { all, of_parts }
    }

    pub(crate) fn all(&self) -> &[Numbered<'s>] {
        &self.all
    }

    /// The numbers of the findings about a part.
    pub(crate) fn about(&self, part: usize) -> &[usize] {
        self.of_parts.get(&part).map_or(&[], Vec::as_slice)
    }
}

/// The parts that a reading is about: its subject, else those that its labels stand in. A heavy contributor is one; who
/// merely owns an input is not.
pub(crate) fn parts_of(reading: &Reading, build: &Build) -> Vec<usize> {
    let tag = reading.path.split_once('.').map(|(_, tag)| tag);
    let subject = tag.and_then(|tag| build.items.iter().position(|item| item.tag.value == tag));
    let mut parts: BTreeSet<usize> = subject.into_iter().collect();
    for label in &reading.labels {
        if matches!(label.role, Role::Subject | Role::Contributor | Role::Missing) {
            parts.extend(build.items.iter().position(|item| item.tag.span == label.span));
        }
    }
    parts.into_iter().collect()
}

/// Indices as an attribute of the page holds them, such as `3 7`.
pub(crate) fn listed(indices: &[usize]) -> String {
    indices.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}
