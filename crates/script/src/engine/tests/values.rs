//! Figures keep their trace, and stand exactly at their limits.

use pintle_quantity::Quantity;
use proptest::prelude::*;

use super::Bench;
use crate::recorder::{Comparison, Draft};

fn inputs(draft: &Draft) -> Vec<String> {
    draft.value.as_ref().unwrap().figure.trace.inputs().iter().map(pintle_spec::Named::name).collect()
}

#[test]
fn a_formula_of_the_shops_keeps_every_input_and_its_place() {
    let mut bench = Bench::new();
    let text = "reading((state.gross - state.tongue) / trailer.axle.track)\n\
                .named(\"load for each inch of track\")\n.at_most(quantity(\"100 lb\") / quantity(\"1 in\"));";
    let judgement = bench.judge(text);
    let draft = &judgement.drafts[0];
    assert!(draft.passes, "1,700 lb over 70 in is 24.3 lb an inch");
    let named = inputs(draft);
    for wanted in ["mass", "tongue", "axle", "track"] {
        assert!(named.iter().any(|name| name.contains(wanted)), "{wanted} is not in {named:?}");
    }
    let figure = &draft.value.as_ref().unwrap().figure;
    for input in figure.trace.inputs() {
        let written = bench.sources.slice(input.value.span);
        let parsed = Quantity::parse(written.trim_matches('"')).unwrap();
        assert_eq!(parsed, input.value.value, "{} stands at {written}", input.name());
    }
    let per_inch = Quantity::pounds(1700.0).over(Quantity::inches(70.0));
    assert!(figure.quantity.equals(per_inch).unwrap());
    assert!(figure.trace.parts().is_some(), "the bodies of the state are in it");
}

#[test]
fn every_operation_keeps_the_trace() {
    let mut bench = Bench::new();
    for (formula, wanted) in [
        ("trailer.gvwr + trailer.axle.gawr", 2),
        ("trailer.gvwr - trailer.axle.gawr", 2),
        ("trailer.gvwr * trailer.axle.gawr", 2),
        ("trailer.gvwr / trailer.axle.gawr", 2),
        ("greater(trailer.gvwr, trailer.axle.gawr)", 2),
        ("lesser(trailer.gvwr, trailer.axle.gawr)", 2),
        ("-trailer.gvwr", 1),
        ("abs(trailer.gvwr)", 1),
        ("trailer.gvwr * 2", 1),
        ("2 * trailer.gvwr", 1),
        ("trailer.gvwr * 0.5", 1),
        ("0.5 * trailer.gvwr", 1),
        ("trailer.gvwr / 2", 1),
        ("trailer.gvwr / 2.0", 1),
        ("quantity(\"10 lb\") - trailer.gvwr", 1),
        ("quantity(\"10 lb\")", 0),
    ] {
        let judgement = bench.judge(&format!("let x = {formula}; reading(x).equals(x);"));
        assert!(judgement.drafts[0].passes, "{formula}");
        assert_eq!(inputs(&judgement.drafts[0]).len(), wanted, "{formula}");
    }
}

#[test]
fn arithmetic_comes_out_right() {
    let mut bench = Bench::new();
    for (formula, value) in [
        ("trailer.gvwr + trailer.axle.gawr", "6500 lb"),
        ("trailer.axle.gawr - trailer.gvwr", "500 lb"),
        ("trailer.gvwr * 2", "6000 lb"),
        ("0.5 * trailer.gvwr", "1500 lb"),
        ("trailer.gvwr / 4", "750 lb"),
        ("-trailer.gvwr", "-3000 lb"),
        ("abs(-trailer.gvwr)", "3000 lb"),
        ("trailer.gvwr * limit.least", "300 lb"),
        ("state.tongue / state.gross", "15 %"),
        ("lesser(trailer.gvwr, trailer.axle.gawr)", "3000 lb"),
        ("greater(trailer.gvwr, trailer.axle.gawr)", "3500 lb"),
        ("quantity(\"20 in\") * quantity(\"10 in\")", "200 in²"),
    ] {
        let judgement = bench.judge(&format!("reading({formula}).equals(quantity(\"{value}\"));"));
        assert!(judgement.drafts[0].passes, "{formula} is {:?}", judgement.drafts[0].value);
    }
}

#[test]
fn a_figure_keeps_its_name_through_a_sign_or_a_size_only() {
    let mut bench = Bench::new();
    let drafts = bench
        .judge(
            "reading(state.gross).at_most(limit.most); reading(state.gross * 2).at_most(limit.most);\n\
             reading(state.gross + state.tongue).at_most(limit.most);",
        )
        .drafts;
    let named: Vec<&str> = drafts.iter().map(|draft| draft.what.as_str()).collect();
    assert_eq!(named, ["gross weight", "gross weight", ""]);
}

#[test]
fn only_the_limit_itself_is_called_by_its_name() {
    let mut bench = Bench::new();
    let limit_of = |bench: &mut Bench, text: &str| {
        let judgement = bench.judge(&format!("reading(state.gross).at_most({text});"));
        match &judgement.drafts[0].comparison {
            Some(Comparison::AtMost(limit)) => limit.limit.as_ref().map(|limit| limit.name.clone()),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(limit_of(&mut bench, "limit.most").as_deref(), Some("most"));
    assert_eq!(limit_of(&mut bench, "limit.most * 2"), None);
    assert_eq!(limit_of(&mut bench, "limit.least * trailer.gvwr"), None);
}

/// Whether each of the three comparisons passes for a weight against a limit.
fn verdicts(bench: &mut Bench, value: f64, limit: f64) -> [bool; 3] {
    let text = format!(
        "let value = quantity(\"1 lb\") * {value:?}; let limit_ = quantity(\"1 lb\") * {limit:?};\n\
         reading(value).at_least(limit_); reading(value).at_most(limit_); reading(value).equals(limit_);"
    );
    let passes: Vec<bool> = bench.judge(&text).drafts.iter().map(|draft| draft.passes).collect();
    [passes[0], passes[1], passes[2]]
}

#[test]
fn exactly_at_the_limit_passes() {
    let mut bench = Bench::new();
    assert_eq!(verdicts(&mut bench, 3000.0, 3000.0), [true, true, true]);
    let exact = "reading(quantity(\"0.1 lb\") + quantity(\"0.2 lb\")).at_most(quantity(\"0.3 lb\"));\n\
                 reading(quantity(\"7 ft 2 in\")).at_least(quantity(\"86 in\"));\n\
                 reading(quantity(\"45.359237 kg\")).equals(quantity(\"100 lb\"));";
    assert!(bench.judge(exact).drafts.iter().all(|draft| draft.passes));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// What is at the limit but for the noise of reckoning is at the limit; what is beyond it is beyond.
    #[test]
    fn a_hair_does_not_turn_a_verdict_and_an_ounce_does(limit in 1.0_f64..20_000.0) {
        let mut bench = Bench::new();
        for noise in [-5e-10, 5e-10] {
            prop_assert_eq!(verdicts(&mut bench, limit * (1.0 + noise), limit), [true, true, true]);
        }
        prop_assert_eq!(verdicts(&mut bench, limit * (1.0 + 1e-7), limit), [true, false, false]);
        prop_assert_eq!(verdicts(&mut bench, limit * (1.0 - 1e-7), limit), [false, true, false]);
    }

    /// Whatever a script says, it is read or refused, run or stopped; the engine judges on.
    #[test]
    fn no_text_brings_the_engine_down(text in "[a-z(){};=.+*/\"`$ 0-9\\n<>!&|\\[\\]#:,-]{0,80}") {
        let mut bench = Bench::new();
        let _ = bench.judge_a("road state", &text);
        bench.still_judges();
    }

    /// The same of words that scripts are made of.
    #[test]
    fn no_words_bring_the_engine_down(words in prop::collection::vec(prop::sample::select(vec![
        "state", "limit", "build", ".gross", ".most", "reading", "require", "(", ")", "{", "}", "[", "]", ";", ",",
        "let", "x", "=", "==", "<", "+", "-", "*", "/", "if", "else", "loop", "while", "for", "in", "fn", "return",
        "break", "true", "1", "0", "1.5", "\"t\"", "`${", "}`", "#{", ":", "push", "quantity", "!", "throw", "..",
    ]), 0..40)) {
        let mut bench = Bench::new();
        let _ = bench.judge_a("road state", &words.join(" "));
        bench.still_judges();
    }
}
