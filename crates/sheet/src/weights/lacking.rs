//! What could not be worked out on the weight page, and what is missing for it.

use std::collections::{BTreeMap, BTreeSet};

use maud::{Markup, html};
use pintle_report::weights::Shown;

use crate::markup::{sentence, text};

/// What is missing, with what waits for it.
#[derive(Debug, Default)]
pub(super) struct Lacking(BTreeMap<String, BTreeSet<String>>);

impl Lacking {
    /// Notes that something is missing for something.
    pub(super) fn note(&mut self, missing: &str, waits: &str) {
        self.0.entry(missing.to_owned()).or_default().insert(waits.to_owned());
    }

    /// Notes what a figure lacks, if it lacks anything.
    pub(super) fn of(&mut self, shown: &Shown, waits: &str) {
        if let Some(missing) = shown.missing() {
            self.note(missing, waits);
        }
    }

    /// All of it.
    pub(super) fn section(&self) -> Markup {
        html! {
            h3 { "What could not be worked out" }
            @if self.0.is_empty() {
                p { "Everything on this page could be worked out." }
            } @else {
                p { "None of it counts as a pass." }
                table .lacking {
                    thead { tr { th scope="col" { "what is missing" } th scope="col" { "so these could not be worked out" } } }
                    tbody {
                        @for (missing, waits) in &self.0 {
                            tr {
                                td { (sentence(missing)) }
                                td { @for (at, what) in waits.iter().enumerate() { @if at > 0 { "; " } (text(what)) } }
                            }
                        }
                    }
                }
            }
        }
    }
}
