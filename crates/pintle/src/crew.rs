//! Several threads over one list of specs, results in the order of the list.
//!
//! Each thread compiles the rules once and keeps them: an engine is not shared (sharing one halves the gain of a second
//! thread), and a thread pool that starts its work anew for every few specs would compile them again and again.

use std::collections::BTreeMap;
use std::num::NonZeroUsize;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::sync_channel;
use std::thread;

use pintle_rulebook::Judge;

use crate::shop::Shop;

/// Results that may wait to be taken, per thread.
const WAITING: usize = 64;

/// Rulebooks that a thread keeps ready: those of one spec before and after a change.
const READY: usize = 2;

/// What one thread works with: the compiled rules of the shops that it met last.
#[derive(Debug, Default)]
pub(crate) struct Bench<'j> {
    ready: Vec<(&'j Arc<Shop>, Judge<'j>)>,
}

impl<'j> Bench<'j> {
    /// Lends the compiled rules of a shop.
    pub(crate) fn judge<T>(&mut self, shop: &'j Arc<Shop>, work: impl FnOnce(&Judge<'j>) -> T) -> T {
        let held = self.ready.iter().position(|(of, _)| Arc::ptr_eq(of, shop));
        let (of, judge) = match held {
            Some(at) => self.ready.remove(at),
            None => (shop, Judge::new(&shop.rulebook)),
        };
        let done = work(&judge);
        self.ready.truncate(READY - 1);
        self.ready.insert(0, (of, judge));
        done
    }
}

/// Works through jobs on so many threads (as many as the machine has when none are stated) and hands each result on,
/// in the order of the jobs, as soon as all before it are done.
pub(crate) fn work<'j, J: Sync, T: Send>(
    jobs: &'j [J],
    threads: Option<usize>,
    one: impl Fn(&mut Bench<'j>, &'j J) -> T + Sync,
    mut take: impl FnMut(T),
) {
    let machine = thread::available_parallelism().map_or(1, NonZeroUsize::get);
    let threads = threads.filter(|threads| *threads > 0).unwrap_or(machine).min(jobs.len().max(1));
    let next = AtomicUsize::new(0);
    let (send, receive) = sync_channel(threads * WAITING);
    thread::scope(|scope| {
        for _ in 0..threads {
            let send = send.clone();
            let (next, one) = (&next, &one);
            scope.spawn(move || {
                let mut bench = Bench::default();
                while let Some((at, job)) = take_next(jobs, next) {
                    if send.send((at, one(&mut bench, job))).is_err() {
                        return;
                    }
                }
            });
        }
        drop(send);
        let mut early = BTreeMap::new();
        let mut due = 0;
        for (at, result) in receive {
            early.insert(at, result);
            while let Some(result) = early.remove(&due) {
                take(result);
                due += 1;
            }
        }
    });
}

fn take_next<'j, J>(jobs: &'j [J], next: &AtomicUsize) -> Option<(usize, &'j J)> {
    let at = next.fetch_add(1, Ordering::Relaxed);
    Some((at, jobs.get(at)?))
}
