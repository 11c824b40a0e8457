use pintle_source::{Sources, Span};
use proptest::prelude::*;

use super::*;

#[test]
fn names_are_shown_on_one_line_and_not_too_long() {
    // (as written, as shown)
    let rows = [
        ("galley", "galley".to_owned()),
        ("a\nb\t\u{1b}[31m", r"a\nb\t\u{1b}[31m".to_owned()),
        ("\u{202e}abc\u{feff}", r"\u{202e}abc\u{feff}".to_owned()),
        ("7½ lb", "7½ lb".to_owned()),
        (&"½".repeat(80), "½".repeat(80)),
        (&"½".repeat(81), "½".repeat(80) + "…"),
    ];
    for (written, by_hand) in rows {
        assert_eq!(shown(written), by_hand);
    }
}

#[test]
fn nouns_have_their_article() {
    assert_eq!(
        [a("rack"), a("alarm"), a("appliance"), a("tow vehicle")],
        ["a rack", "an alarm", "an appliance", "a tow vehicle"]
    );
}

#[test]
fn near_names_are_looked_for_within_bounds() {
    let known = || ["galley", "settee"].into_iter();
    assert_eq!(near("galey", known(), 0), Some("galley"));
    assert_eq!(near("galey", known(), MOST_HELPED), None, "after so many problems no more");
    assert_eq!(near(" ", known(), 0), None);
    assert_eq!(
        near(&"g".repeat(81), ["g"].into_iter(), 0),
        None,
        "a name that long is no slip of the finger"
    );
    assert_eq!(near("g", [&*"g".repeat(81)].into_iter(), 0), None);
    assert_eq!(near("abc", ["", "abd"].into_iter(), 0), Some("abd"), "an empty name is never offered");
}

#[test]
fn problems_are_put_in_order_and_said_once() {
    let mut sources = Sources::new();
    let (own, other) = (sources.add("a.toml", "0123456789"), sources.add("b.toml", "0123456789"));
    let problem = |message: &str, source, start| {
        Problem::new("x", message).at(Label::new(Span::new(source, start, start + 1), Role::Subject, "here"))
    };
    let mut problems = vec![
        problem("d", other, 0),
        problem("c", own, 7),
        problem("a", own, 2),
        problem("b", own, 2),
        problem("a", own, 2),
        problem("c", own, 7),
    ];
    in_order(&mut problems, own);
    let told: Vec<&str> = problems.iter().map(|problem| problem.message.as_str()).collect();
    assert_eq!(told, ["a", "b", "c", "d"], "the file's own first");
}

proptest! {
    #[test]
    fn leaving_names_out_early_never_changes_what_is_offered(
        given in "[a-eA-E½ -]{1,12}",
        known in prop::collection::vec("[a-eA-E½ -]{1,12}", 0..8),
    ) {
        let names = || known.iter().map(String::as_str);
        let expected = if given.trim().is_empty() { None } else { nearest(&given, names()) };
        prop_assert_eq!(near(&given, names(), 0), expected);
    }
}
