use proptest::prelude::*;

use super::*;

fn at(line: u32, column: u32) -> Location {
    Location { line, column }
}

fn offset_of(text: &str, part: &str) -> u32 {
    u32::try_from(text.find(part).unwrap()).unwrap()
}

#[test]
fn columns_count_characters_and_lines_count_from_one() {
    // (text, the part looked for, its line and column counted by hand)
    let rows = [
        ("a = \"7½ in\"\nb = 2\n", "b", at(2, 1)),
        ("a = \"7½ in\"\nb = 2\n", "in", at(1, 9)),
        ("a = 1\r\nb = 2\r\n", "b", at(2, 1)),
        ("a = 1\r\nb = 2\r\n", "2", at(2, 5)),
        ("\u{feff}[build]\nx", "[", at(1, 1)),
        ("\u{feff}[build]\nx", "build", at(1, 2)),
        ("\u{feff}[build]\nx", "x", at(2, 1)),
        // Only the first character of a file can be a byte order mark.
        ("\u{feff}\u{feff}x", "x", at(1, 2)),
        ("\n\n\n", "\n", at(1, 1)),
        ("a\u{1f6d6}b", "b", at(1, 3)),
    ];
    for (text, part, place) in rows {
        let index = LineIndex::new(text);
        let offset = offset_of(text, part);
        assert_eq!(index.locate(text, offset), place, "{part:?} in {text:?}");
        assert_eq!(index.offset(text, place), Some(offset), "{place:?} in {text:?}");
    }
}

#[test]
fn past_the_end_is_the_end_and_within_a_character_is_its_start() {
    let text = "a = \"½\"\nb = 2\n";
    let index = LineIndex::new(text);
    assert_eq!(index.locate(text, 9_999), at(3, 1));
    assert_eq!(index.locate(text, u32::MAX), at(3, 1));
    assert_eq!(index.locate(text, offset_of(text, "½") + 1), at(1, 6));
    assert_eq!(index.locate("", 0), at(1, 1));
}

#[test]
fn a_column_past_the_line_is_the_lines_end_and_a_line_past_the_text_is_nowhere() {
    let text = "ab\r\ncd";
    let index = LineIndex::new(text);
    assert_eq!(index.offset(text, at(1, 99)), Some(2), "before the carriage return");
    assert_eq!(index.offset(text, at(2, 99)), Some(6));
    assert_eq!(index.offset(text, at(3, 1)), None);
    assert_eq!(index.offset(text, at(0, 1)), None);
    assert_eq!(index.offset(text, at(1, 0)), Some(0), "columns count from one; none before the first");
}

proptest! {
    #[test]
    fn a_place_found_is_the_place_looked_for(text in "[\u{feff}ab½\u{1f6d6} \n]{0,40}") {
        let index = LineIndex::new(&text);
        for (offset, letter) in text.char_indices() {
            let offset = u32::try_from(offset).unwrap();
            if offset == 0 && letter == '\u{feff}' {
                continue;
            }
            let place = index.locate(&text, offset);
            prop_assert_eq!(index.offset(&text, place), Some(offset));
        }
    }
}
