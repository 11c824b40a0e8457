//! A script that takes too long by the clock is stopped; what the tool works out for it is not its time.

use std::cell::Cell;
use std::time::Duration;

use super::{Bench, at};
use crate::engine::Engine;
use crate::watch::{LONGEST, Watch};

thread_local! {
    static NOW: Cell<Duration> = const { Cell::new(Duration::ZERO) };
}

fn stands() -> Duration {
    NOW.get()
}

/// A clock that goes on a hundredth of a second whenever somebody looks.
fn ticks() -> Duration {
    NOW.set(NOW.get() + Duration::from_millis(10));
    NOW.get()
}

fn timed(clock: fn() -> Duration) -> Bench {
    Bench { engine: Engine::timed(Some(clock)), ..Bench::new() }
}

#[test]
fn a_script_that_takes_too_long_is_stopped_where_it_stands() {
    let mut bench = timed(ticks);
    let failure = bench.fails("let n = 0;\nwhile true {\n  n = n + 1;\n}");
    assert_eq!(failure.message, "the script took longer than 5 s");
    assert!(matches!(failure.line, Some(2 | 3)), "{failure:?}");
    let looked = 16 * LONGEST.as_millis() / 10;
    assert!(
        u128::from(super::super::MOST_OPERATIONS) > 2 * looked,
        "the clock stops it before the operations do"
    );
}

#[test]
fn without_a_clock_only_operations_count() {
    let mut bench = Bench::new();
    at(&bench.fails("loop { }"), 1, 6, "the script took more than 50000 operations");
    let mut bench = timed(stands);
    at(&bench.fails("loop { }"), 1, 6, "the script took more than 50000 operations");
}

#[test]
fn work_of_the_tool_is_not_the_scripts_time() {
    let watch = Watch::new(Some(stands));
    NOW.set(Duration::from_secs(100));
    watch.begin();
    watch.rest(|| NOW.set(NOW.get() + 10 * LONGEST));
    assert!(!watch.is_late());
    NOW.set(NOW.get() + LONGEST);
    assert!(!watch.is_late(), "just as long as it may");
    NOW.set(NOW.get() + Duration::from_millis(1));
    assert!(watch.is_late());
    watch.begin();
    assert!(!watch.is_late(), "every run begins anew");
}

#[test]
fn every_lookup_is_work_of_the_tool() {
    let mut bench = timed(ticks);
    bench.judge("state.gross; trailer.axle.track; has(trailer, \"gvwr\"); trailer[\"gvwr\"];");
    // One tick for each: two of them for the axle and its track.
    assert_eq!(bench.engine.watch.rested(), 5 * Duration::from_millis(10));
    bench.judge("let n = 1; n += 1;");
    assert_eq!(bench.engine.watch.rested(), Duration::ZERO);
}
