//! Hostile characters, one class at a time.

use super::*;

/// One of each class, of one, two, three and four bytes.
const HOSTILE: &str = "\u{0}\u{7}\u{8}\u{1b}\u{7f}\u{80}\u{9b}\u{9f}\u{ad}\u{61c}\u{200b}\u{200d}\u{200e}\u{200f}\
                       \u{2028}\u{2029}\u{202a}\u{202e}\u{2060}\u{2066}\u{2069}\u{feff}\u{e0001}\u{e007f}";

#[test]
fn every_hostile_character_gives_way_to_a_visible_one_as_long() {
    for letter in HOSTILE.chars() {
        assert!(is_hidden(letter), "{letter:?}");
        let text = letter.to_string();
        for clean in [line(&text), snippet(&text)] {
            assert_eq!(clean.len(), text.len(), "{letter:?}");
            assert!(!clean.contains(is_hidden), "{letter:?} became {clean:?}");
            assert!(!clean.trim().is_empty(), "{letter:?} became {clean:?}");
        }
    }
}

#[test]
fn byte_offsets_after_a_hostile_character_stay_true() {
    let text = format!("{HOSTILE}\tgvwr\r\n\rend");
    let clean = snippet(&text);
    assert_eq!(clean.len(), text.len());
    assert_eq!(clean.find("gvwr"), text.find("gvwr"));
    assert!(clean.ends_with("\tgvwr \n?end"), "{clean:?}");
}

#[test]
fn what_a_shop_writes_is_left_alone_and_not_copied() {
    let text = "7 ft 2½ in × 54 in, 12 °C, µ = 0.3, naïve, 箱, 🏕";
    assert!(matches!(line(text), Cow::Borrowed(same) if same == text));
    assert!(matches!(snippet(text), Cow::Borrowed(same) if same == text));
    assert_eq!(json(text.to_owned()), text);
}

#[test]
fn a_line_stays_one_line() {
    assert_eq!(line("a\r\nb\tc\u{2028}d\u{85}e"), "a  b c\u{fffd}d\u{bf}e");
}

#[test]
fn escaped_json_reads_back_to_the_same_text() {
    let written = json(serde_json::to_string(HOSTILE).unwrap());
    assert!(!written.contains(is_hidden), "{written:?}");
    assert_eq!(serde_json::from_str::<String>(&written).unwrap(), HOSTILE);
}
