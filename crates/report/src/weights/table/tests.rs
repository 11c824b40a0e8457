//! Wide names are broken, and nothing of them is lost.

use super::*;

#[test]
fn names_are_broken_where_the_table_would_be_too_wide() {
    let name = "load `everything that came out of the shed and a bit more`";
    let row = vec![name.to_owned(), "100 lb".to_owned(), "12 in".to_owned()];
    let lines = table(&["", "weight", "behind ball"], std::slice::from_ref(&row), 48);
    assert!(lines.iter().all(|line| line.width() <= 48), "{lines:?}");
    assert_eq!(
        lines,
        [
            "                            weight  behind ball",
            "  load `everything that",
            "  came out of the shed and",
            "  a bit more`               100 lb        12 in",
        ]
    );
    let wide = table(&["", "weight", "behind ball"], &[row], 200);
    assert!(wide.len() == 2 && wide[1].starts_with(&format!("  {name}  100 lb")), "{wide:?}");
}

#[test]
fn words_hang_beside_a_figure_or_stand_below_it() {
    let words = "everything out, fresh empty, grey empty";
    assert_eq!(
        hung("  gross  765 kg  ", words, 48),
        ["  gross  765 kg  everything out, fresh empty,", "                 grey empty"]
    );
    assert_eq!(
        hung("  gross  765 kg  ", words, 40),
        ["  gross  765 kg", "        everything out, fresh empty,", "        grey empty"]
    );
    assert_eq!(hung("  gross  765 kg  ", "short", 24), ["  gross  765 kg  short"]);
    assert_eq!(hung("  gross  765 kg  ", "", 48), ["  gross  765 kg"]);
}
