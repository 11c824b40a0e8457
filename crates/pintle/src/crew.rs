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

use crate::inspect::Job;

/// Results that may wait to be taken, per thread.
const WAITING: usize = 64;

/// Works through jobs on so many threads (as many as the machine has when none are stated) and hands each result on,
/// in the order of the jobs, as soon as all before it are done.
pub(crate) fn work<T: Send>(
    jobs: &[Job],
    threads: Option<usize>,
    one: impl Fn(&Judge<'_>, &Job) -> T + Sync,
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
                let mut ready: Option<(&Job, Judge<'_>)> = None;
                while let Some((at, job)) = take_next(jobs, next) {
                    let stale = ready.as_ref().is_none_or(|(of, _)| !Arc::ptr_eq(&of.shop, &job.shop));
                    if stale {
                        ready = Some((job, Judge::new(&job.shop.rulebook)));
                    }
                    let Some((_, judge)) = &ready else { return };
                    if send.send((at, one(judge, job))).is_err() {
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

fn take_next<'j>(jobs: &'j [Job], next: &AtomicUsize) -> Option<(usize, &'j Job)> {
    let at = next.fetch_add(1, Ordering::Relaxed);
    Some((at, jobs.get(at)?))
}
