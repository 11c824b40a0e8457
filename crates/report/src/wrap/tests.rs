//! Nothing is lost, and nothing is wider than asked.

use unicode_width::UnicodeWidthStr;

use super::*;

fn letters(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace()).collect()
}

#[test]
fn lines_break_at_spaces() {
    assert_eq!(wrapped("galley out, fresh empty", 12), ["galley out,", "fresh empty"]);
    assert_eq!(wrapped("galley out", 10), ["galley out"]);
    assert_eq!(wrapped("", 10), [""]);
}

#[test]
fn long_words_are_broken_and_nothing_is_lost() {
    let text = "galley out, fresh empty, ".to_owned() + &"x".repeat(150) + " bikes";
    for most in [1, 7, 58] {
        let lines = wrapped(&text, most);
        assert!(lines.iter().all(|line| line.width() <= most && !line.is_empty()), "{lines:?}");
        assert_eq!(letters(&lines.concat()), letters(&text));
    }
}

#[test]
fn wide_letters_count_for_two_columns() {
    let lines = wrapped("車載冷蔵庫 e\u{301}te\u{301}", 4);
    assert_eq!(lines, ["車載", "冷蔵", "庫", "e\u{301}te\u{301}"]);
}
