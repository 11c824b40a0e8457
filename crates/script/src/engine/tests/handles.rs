//! Nothing is kept between runs.

use std::cell::RefCell;
use std::rc::Rc;

use super::{Bench, at};
use crate::recorder::{End, Handle};

#[test]
fn variables_lists_and_constants_begin_anew_in_every_run() {
    let mut bench = Bench::new();
    let text = "const KEPT = [];\nlet seen = #{ n: 0 };\nlet list = [];\n\
                seen.n += 1; list.push(build); list.push(build);\n\
                require(seen.n == 1 && count(list) == 2 && count(KEPT) == 0, \"nothing is kept\");";
    for _ in 0..3 {
        let judgement = bench.judge(text);
        assert!(matches!(judgement.end, End::Done), "{:?}", judgement.end);
        assert_eq!(judgement.drafts.len(), 1);
        assert!(judgement.drafts[0].passes);
    }
}

#[test]
fn one_compiled_script_gives_the_same_in_every_run() {
    let mut bench = Bench::new();
    let text = "let sum = state.gross; sum += state.tongue; reading(sum).at_most(limit.most);";
    let (judges, what) = Bench::judges("road state");
    let source = bench.sources.add("rule.rhai", text);
    let script = bench.engine.compile(text, source, judges).unwrap();
    let once = bench.engine.judge(&script, &bench.run, what, &bench.limits);
    let twice = bench.engine.judge(&script, &bench.run, what, &bench.limits);
    assert_eq!(format!("{once:?}"), format!("{twice:?}"));
    assert_eq!(once.drafts.len(), 1);
}

/// A handle that the host itself would keep, for want of a way for scripts to.
#[test]
fn a_reading_of_an_earlier_run_cannot_be_changed() {
    let mut bench = Bench::new();
    let kept: Rc<RefCell<Option<Handle>>> = Rc::default();
    let (put, get) = (Rc::clone(&kept), Rc::clone(&kept));
    bench.engine.rhai.register_fn("listed", move |handle: Handle| {
        *put.borrow_mut() = Some(handle);
    });
    bench.engine.rhai.register_fn("listed", move || -> Handle { get.borrow().unwrap() });
    assert_eq!(bench.judge("listed(reading(state.gross));").drafts.len(), 1);
    assert!(kept.borrow().is_some());
    for change in ["at_most(limit.most)", "named(\"mine\")", "remedy(\"none\")", "marks(build, \"here\")"] {
        let text = format!("reading(state.gross);\nlisted().{change};");
        at(&bench.fails(&text), 2, 10, "a reading of another run");
        let judgement = bench.judge(&text);
        assert!(judgement.drafts[0].comparison.is_none());
        assert_eq!(judgement.drafts[0].what, "gross weight");
    }
}

#[test]
fn the_readings_of_a_failed_run_do_not_reach_the_next() {
    let mut bench = Bench::new();
    let judgement = bench.judge("require(true, \"first\"); throw \"x\";");
    assert_eq!(judgement.drafts.len(), 1);
    bench.still_judges();
    assert!(bench.judge("").drafts.is_empty());
}
