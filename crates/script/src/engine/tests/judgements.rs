//! Readings: one limit each, kept whatever comes after, and never a pass by accident.

use super::{Bench, at};
use crate::recorder::{Comparison, End};

#[test]
fn a_script_without_a_reading_leaves_none() {
    let mut bench = Bench::new();
    for text in ["", "// nothing\n", "let a = state.gross;", "if false { require(true, \"x\"); }", "return;"]
    {
        let judgement = bench.judge(text);
        assert!(matches!(judgement.end, End::Done), "{text}");
        assert!(judgement.drafts.is_empty(), "{text}");
    }
}

#[test]
fn a_reading_without_a_limit_knows_its_place_and_does_not_pass() {
    let mut bench = Bench::new();
    let judgement = bench.judge("let a = 1;\n  reading(state.gross).remedy(\"carry less\");");
    let draft = &judgement.drafts[0];
    assert!(draft.comparison.is_none());
    assert!(!draft.passes);
    assert_eq!((draft.position.line(), draft.position.position()), (Some(2), Some(3)));
}

#[test]
fn a_reading_takes_one_limit() {
    let mut bench = Bench::new();
    let twice = "a reading takes one limit; begin another reading for the second";
    at(&bench.fails("reading(state.gross)\n  .at_most(limit.most)\n  .at_least(limit.most);"), 3, 4, twice);
    let judgement = bench.judge("reading(state.gross).at_least(limit.most).at_most(limit.most);");
    assert_eq!(judgement.drafts.len(), 1);
    assert!(!judgement.drafts[0].passes, "the first limit stands");
    assert_eq!(bench.fails("require(true, \"x\").at_most(limit.most);").message, twice);
}

#[test]
fn a_pass_is_kept_beside_a_missing_value() {
    let mut bench = Bench::new();
    let text =
        "reading(state.gross).at_most(limit.most);\nreading(state.gross).at_most(trailer.jack.rating);";
    let judgement = bench.judge(text);
    assert_eq!(judgement.drafts.len(), 1);
    assert!(judgement.drafts[0].passes);
    match judgement.end {
        End::Missing(missing) => assert!(missing.what.contains("jack"), "{missing:?}"),
        end => panic!("{end:?}"),
    }
}

#[test]
fn a_fault_is_kept_beside_a_failure() {
    let mut bench = Bench::new();
    let judgement = bench.judge("reading(state.gross).at_least(limit.most);\nthrow \"x\";");
    assert_eq!(judgement.drafts.len(), 1);
    assert!(!judgement.drafts[0].passes);
    assert!(matches!(judgement.end, End::Failed { .. }));
}

#[test]
fn a_rule_that_has_taken_a_reading_applies() {
    let mut bench = Bench::new();
    let failure = bench.fails("reading(state.gross).at_least(limit.most);\nnot_applicable(\"never mind\");");
    at(&failure, 2, 1, "a rule that has taken a reading cannot say that it does not apply");
    let judgement = bench.judge("not_applicable(\"it is empty\"); require(true, \"x\");");
    assert!(matches!(judgement.end, End::NotApplicable(why) if why == "it is empty"));
    assert!(judgement.drafts.is_empty());
}

#[test]
fn a_rule_can_say_itself_what_is_missing() {
    let mut bench = Bench::new();
    let judgement = bench.judge("require(true, \"first\"); cannot_judge(\"the colour\");");
    assert_eq!(judgement.drafts.len(), 1);
    assert!(matches!(judgement.end, End::Missing(missing) if missing.what == "the colour"));
}

#[test]
fn every_comparison_keeps_what_it_was() {
    let mut bench = Bench::new();
    let text = "reading(state.gross).at_least(limit.most);\n\
                reading(state.gross).at_most(limit.most);\n\
                reading(state.gross).between(quantity(\"1000 lb\"), limit.most);\n\
                reading(state.gross).between(limit.most, quantity(\"1000 lb\"));\n\
                reading(state.gross).equals(quantity(\"2000 lb\"));\n\
                require(state.gross < limit.most, \"it is light\");\n\
                require(state.gross > limit.most, \"it is heavy\");";
    let drafts = bench.judge(text).drafts;
    let passes: Vec<bool> = drafts.iter().map(|draft| draft.passes).collect();
    assert_eq!(passes, [false, true, true, false, true, true, false]);
    let sorts: Vec<&str> = drafts
        .iter()
        .map(|draft| match &draft.comparison {
            Some(Comparison::AtLeast(_)) => "at least",
            Some(Comparison::AtMost(_)) => "at most",
            Some(Comparison::Between(..)) => "between",
            Some(Comparison::Equal(_)) => "equal",
            Some(Comparison::Holds(_)) => "holds",
            None => "none",
        })
        .collect();
    assert_eq!(sorts, ["at least", "at most", "between", "between", "equal", "holds", "holds"]);
}

#[test]
fn marks_and_remedies_go_with_faults_only() {
    let mut bench = Bench::new();
    let text = "for ok in [true, false] { require(ok, \"x\").marks(trailer, \"here\").remedy(\"mend it\"); }";
    let drafts = bench.judge(text).drafts;
    assert_eq!(drafts.iter().map(|draft| draft.marks.len()).collect::<Vec<_>>(), [0, 1]);
    assert_eq!(drafts[0].remedy, None);
    assert_eq!(drafts[1].remedy.as_deref(), Some("mend it"));
}
