//! How sure values are: the built-in table is whole, a shop's own takes effect, and what fits nothing is refused.

use std::fmt::Write as _;

use pintle_calc::uncertainty;
use pintle_calc::weights::Weights;
use pintle_finding::{Basis, Problem};
use pintle_quantity::Units;
use pintle_rulebook::builtin_packs;
use pintle_spec::Footing;

use crate::bench::Bench;

fn own(fields: &str) -> String {
    format!("[[tolerance]]\n{fields}\nreason = \"we tried it\"\n")
}

/// Problems of a rulebook file: code, message, help, and the text each stands at.
fn said(settings: &str) -> Vec<(String, String, String, String)> {
    let (bench, problems) = Bench::tried(&builtin_packs(), settings);
    let of = |problem: &Problem| {
        let at = problem.labels.first().map_or("", |label| bench.sources.slice(label.span));
        let help = problem.help.clone().unwrap_or_default();
        (problem.code.to_owned(), problem.message.clone(), help, at.to_owned())
    };
    problems.iter().map(of).collect()
}

#[track_caller]
fn one(settings: &str, expected: [&str; 4]) {
    let said = said(settings);
    let [(code, message, help, at)] = said.as_slice() else { panic!("{said:#?}") };
    assert_eq!([code.as_str(), message, help, at], expected);
}

/// Figures that no text gives change only on purpose.
#[test]
fn the_built_in_table_has_one_of_each_and_says_what_it_rests_on() {
    let bench = Bench::builtin();
    let held = &bench.rulebook.bound_tolerances;
    let footings: Vec<Footing> = held.iter().map(|held| held.footing).collect();
    assert_eq!(footings, Footing::NAMED);
    let mut list = String::new();
    for held in held {
        let name = held.footing.name().unwrap();
        let _ = writeln!(list, "{name}: {} ({})", held.show(Units::AsWritten), held.basis);
        assert!(held.note.as_ref().is_some_and(|note| !note.is_empty()), "{name}");
        assert_eq!(bench.sources.name(held.span.source), "rules/tolerances.toml");
        assert!(held.set_by.is_none());
    }
    insta::assert_snapshot!(list);
}

#[test]
fn a_shops_own_takes_effect_and_says_whose_it_is() {
    let of_tongue = |settings: &str| {
        let mut bench = Bench::with(&builtin_packs(), settings);
        let build = bench.build("sound-6x12-round", &[]);
        let trace = Weights::of_state(&build, 0).tongue().unwrap().trace;
        (uncertainty::of(&trace, &bench.rulebook.tolerances).unwrap(), bench)
    };
    let (before, _) = of_tongue("shop = \"ours\"\n");
    let (after, bench) = of_tongue(&own("of = \"place\"\nvalue = \"3 in\""));
    let by_places = |sure: &uncertainty::Uncertainty| -> f64 {
        let places =
            sure.sources.iter().filter(|source| source.input.footing == Footing::Place && !source.stated);
        places.map(|source| source.effect).sum()
    };
    assert!(by_places(&before) > 0.0);
    assert!((by_places(&after) / by_places(&before) - 6.0).abs() < 1e-9, "3 in for 1/2 in");
    let held = bench.rulebook.bound_tolerances.iter().find(|held| held.footing == Footing::Place).unwrap();
    let set_by = held.set_by.as_ref().unwrap();
    assert_eq!((held.basis, held.show(Units::AsWritten).as_str()), (Basis::Shop, "3 in"));
    assert_eq!(
        (set_by.was.as_str(), set_by.reason.as_str(), set_by.file.as_str()),
        ("1/2 in", "we tried it", "pintle.toml")
    );
    // A share and the least of it; a width instead; each takes the place of the whole.
    let guessed = |fields: &str| {
        let bench = Bench::with(&builtin_packs(), &own(&format!("of = \"guessed\"\n{fields}")));
        let tolerance = bench.rulebook.tolerances.of(Footing::Guessed).unwrap();
        assert_eq!(bench.rulebook.tolerances.of(Footing::Unstated), Some(tolerance), "it counts as guessed");
        (tolerance.share, tolerance.width / 0.453_592_37)
    };
    let close = |(share, width): (f64, f64), wanted: (f64, f64)| {
        assert!((share - wanted.0).abs() < 1e-12 && (width - wanted.1).abs() < 1e-12, "{share} {width}");
    };
    close(guessed("value = \"20 %\""), (0.2, 0.0));
    close(guessed("value = \"20 %\"\nleast = \"2 lb\""), (0.2, 2.0));
    close(guessed("value = \"10 lb\""), (0.0, 10.0));
    let fill = Bench::with(&builtin_packs(), &own("of = \"fill\"\nvalue = \"10 %\""));
    let points = fill.rulebook.tolerances.of(Footing::Fill).unwrap();
    close((points.share, points.width), (0.0, 0.1));
}

#[test]
fn an_unknown_name_is_refused_and_the_nearest_offered() {
    let message = "there is no tolerance of `gessed`";
    one(
        &own("of = \"gessed\"\nvalue = \"20 %\""),
        ["unknown-tolerance", message, "did you mean `guessed`?", "\"gessed\""],
    );
    let help = "the tolerances are of `weighed`, `maker`, `computed`, `guessed`, `person`, `fill`, `capacity`, `place`, \
                `centre`, `axle` and `trailer`";
    one(
        &own("of = \"zebra crossing\"\nvalue = \"20 %\""),
        ["unknown-tolerance", "there is no tolerance of `zebra crossing`", help, "\"zebra crossing\""],
    );
}

#[test]
fn another_dimension_is_refused() {
    let wrong = "wrong-dimension";
    let message = "`value` of tolerance `place` is a length, and this is a share";
    one(&own("of = \"place\"\nvalue = \"5 %\""), [wrong, message, "write it such as `22 3/8 in`", "\"5 %\""]);
    let message = "`value` of tolerance `weighed` is a share or a mass, and this is a length";
    one(&own("of = \"weighed\"\nvalue = \"5 in\""), [wrong, message, "write it such as `5 %`", "\"5 in\""]);
    let message = "`value` of tolerance `fill` is a share, and this is a volume";
    one(&own("of = \"fill\"\nvalue = \"1 gal\""), [wrong, message, "write it such as `10 %`", "\"1 gal\""]);
    let message = "`least` of tolerance `maker` is a mass, and this is a length";
    one(
        &own("of = \"maker\"\nvalue = \"5 %\"\nleast = \"1 in\""),
        [wrong, message, "write it such as `150 lb`", "\"1 in\""],
    );
}

#[test]
fn what_cannot_be_a_tolerance_is_refused() {
    let code = "needless-least";
    let help = "leave `least` out, or give `value` as a share";
    for (of, value, least) in [("maker", "5 lb", "1 lb"), ("place", "1 in", "1 in"), ("fill", "5 %", "1 %")] {
        let settings = own(&format!("of = \"{of}\"\nvalue = \"{value}\"\nleast = \"{least}\""));
        let message = format!("tolerance `{of}` has a `least` beside a width");
        one(&settings, [code, &message, help, &format!("\"{least}\"")]);
    }
    for value in ["-5 %", "5 % ± 1 %"] {
        let said = said(&own(&format!("of = \"maker\"\nvalue = \"{value}\"")));
        assert_eq!(said.len(), 1, "{said:#?}");
        assert_eq!((said[0].0.as_str(), said[0].3.as_str()), ("impossible-number", &*format!("\"{value}\"")));
    }
    let said = said("[[tolerance]]\nof = \"maker\"\nvalue = \"5 %\"\n");
    assert!(said.len() == 1 && said[0].1.contains("`reason`"), "{said:#?}");
}

#[test]
fn what_is_set_twice_is_refused_and_the_first_stands() {
    let twice = ["30 %", "40 %"].map(|value| own(&format!("of = \"guessed\"\nvalue = \"{value}\""))).concat();
    let message = "the tolerance of `guessed` is set twice";
    one(&twice, ["set-twice", message, "keep one of the two", "\"40 %\""]);
    let (bench, _) = Bench::tried(&builtin_packs(), &twice);
    assert!((bench.rulebook.tolerances.of(Footing::Guessed).unwrap().share - 0.3).abs() < 1e-12);
}

/// All that is wrong is said at once.
#[test]
fn several_mistakes_are_said_together() {
    let wrong = [
        "of = \"gessed\"\nvalue = \"1 %\"",
        "of = \"axle\"\nvalue = \"1 lb\"",
        "of = \"fill\"\nvalue = \"-1 %\"",
    ];
    let codes: Vec<String> = said(&wrong.map(own).concat()).into_iter().map(|(code, ..)| code).collect();
    assert_eq!(codes, ["unknown-tolerance", "wrong-dimension", "impossible-number"]);
}
