//! Quotes and clashes of small builds, by hand.

use super::workings;
use crate::space::trial::{FLAT, read, spec};
use crate::working::trial::{is, one};
use crate::{Assumptions, Case, Outcome, Working};

fn found(text: &str) -> Vec<Working> {
    let build = read(text);
    workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    })
}

fn item(tag: &str, kind: &str, more: &str) -> String {
    format!(
        "[[item]]\ntag = \"{tag}\"\nkind = \"{kind}\"\nmass = \"10 lb\"\nremovable = true\n\
         at = {{ front = \"10 in\", left = \"10 in\" }}\n{more}\n"
    )
}

#[test]
fn lines_add_up_each_as_often_as_it_is_counted() {
    let all = found(&spec(
        FLAT,
        "[quote]\ntotal = \"$1\"\n[[quote.line]]\nwhat = \"a\"\ncount = 3\nprice = \"$19.99\"\n\
         [[quote.line]]\nwhat = \"b\"\nprice = \"$100\"\n[[quote.line]]\nwhat = \"off\"\nprice = \"-$10.50\"\n",
    ));
    // 3 · 19.99 + 100 − 10.50, by hand.
    is(&all, "lines_sum", "the build", 149.47, "$");
}

#[test]
fn a_line_without_a_price_leaves_the_sum_unknown() {
    let all = found(&spec(
        FLAT,
        "[quote]\n[[quote.line]]\nwhat = \"a\"\nprice = \"$5\"\n[[quote.line]]\nwhat = \"b\"\n",
    ));
    let missing = one(&all, "lines_sum", "the build").outcome.clone().unwrap_err();
    assert_eq!(missing.what, "`price` of the line `b`");
    let all = found(&spec(FLAT, "[quote]\ntotal = \"$5\"\n"));
    assert!(
        one(&all, "lines_sum", "the build").outcome.is_err(),
        "a quote without lines comes to nothing known"
    );
    assert!(found(&spec(FLAT, "")).is_empty(), "no quote, no figures");
}

#[test]
fn parts_clash_by_their_kind_unless_only_one_is_ever_aboard() {
    let both = item("rack", "rack", "clashes = [\"ladder\"]") + &item("steps", "ladder", "");
    let all = found(&spec(FLAT, &both));
    let Ok(Outcome::Texts(barred)) = &one(&all, "clashes", "item `rack`").outcome else { panic!() };
    assert_eq!(barred, &["item `steps`"]);
    let apart = format!("{both}[[either]]\nname = \"one\"\nof = [\"rack\", \"steps\"]\nnone = true\n");
    let all = found(&spec(FLAT, &apart));
    let Ok(Outcome::Texts(barred)) = &one(&all, "clashes", "item `rack`").outcome else { panic!() };
    assert!(barred.is_empty(), "{barred:?}");
    assert_eq!(all.len(), 1, "what says nothing of clashes has no figure");
}
