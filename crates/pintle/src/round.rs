//! What a run says of the rulebooks themselves, once all specs are judged.

use std::collections::BTreeSet;
use std::sync::Arc;

use camino::Utf8PathBuf;
use jiff::civil::Date;
use pintle_finding::Inspection;
use pintle_rulebook::Round;
use pintle_source::Sources;

use crate::inspect::{Job, jobs};
use crate::shop::{Shop, Shops};

/// What was seen of each shop's builds, in the order in which the shops came up.
#[derive(Debug, Default)]
pub(crate) struct Rounds(Vec<(Arc<Shop>, Round)>);

/// A shop as it is for all its builds.
pub(crate) fn base(shop: &Arc<Shop>) -> &Arc<Shop> {
    shop.base.as_ref().unwrap_or(shop)
}

impl Rounds {
    /// Takes note of one build.
    pub(crate) fn add(&mut self, shop: &Arc<Shop>, inspection: &Inspection) {
        let shop = base(shop);
        let at = self.0.iter().position(|(held, _)| Arc::ptr_eq(held, shop));
        if at.is_none() {
            self.0.push((Arc::clone(shop), Round::default()));
        }
        let held = match at {
            Some(at) => self.0.get_mut(at),
            None => self.0.last_mut(),
        };
        if let Some((_, round)) = held {
            round.add(inspection);
        }
    }
}

/// What the tool's own rules say of each shop's rulebook, with the files that it is in.
pub(crate) fn closed(
    rounds: Rounds,
    jobs: &[Job],
    shops: &mut Shops,
    day: Date,
) -> Vec<(Inspection, Sources)> {
    let with_rulebook = rounds.0.into_iter().filter(|(shop, _)| shop.name.is_some());
    let closed = with_rulebook.map(|(shop, round)| {
        let all = needs_all(&shop) && looked_at_all(&shop, jobs, shops);
        (round.close(&shop.rulebook, &shop.sources, all, day), shop.sources.clone())
    });
    closed.collect()
}

/// Whether anything hangs on all specs of the shop being looked at.
fn needs_all(shop: &Shop) -> bool {
    !shop.rulebook.waivers.is_empty() || shop.rulebook.backlog.is_some()
}

/// Every spec of a shop.
pub(crate) fn specs_of(shop: &Arc<Shop>, shops: &mut Shops) -> Vec<Job> {
    let Some(root) = shop.root() else { return Vec::new() };
    let (mut jobs, _) = jobs(&[root], shops);
    jobs.retain(|job| base(&job.shop).name == shop.name);
    jobs
}

fn looked_at_all(shop: &Arc<Shop>, looked_at: &[Job], shops: &mut Shops) -> bool {
    let place = |job: &Job| job.root.absolute(&job.path).unwrap_or_else(|_| job.path.clone());
    let seen: BTreeSet<Utf8PathBuf> = looked_at.iter().map(place).collect();
    specs_of(shop, shops).iter().all(|job| seen.contains(&place(job)))
}
