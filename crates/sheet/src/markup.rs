//! Text from specs, rules and stock lists on its way into a page. The template escapes markup; this makes characters
//! harmless that cannot be seen or that turn the direction of writing, and cuts what would run off the page.

use std::borrow::Cow;

use pintle_report::safe;

/// A name longer than this is cut, with how many letters it lost; in letters.
const LONGEST: usize = 120;

/// A text of one line, as long as it is.
pub(crate) fn text(from: &str) -> Cow<'_, str> {
    safe::line(from)
}

/// A name, cut where it is too long to be read as one.
pub(crate) fn name(from: &str) -> Cow<'_, str> {
    let shown = safe::line(from);
    let letters = shown.chars().count();
    if letters <= LONGEST {
        return shown;
    }
    let kept: String = shown.chars().take(LONGEST).collect();
    Cow::Owned(format!("{kept}… ({} more letters)", letters - LONGEST))
}

/// A sentence with a capital at its head and a full stop at its end.
pub(crate) fn sentence(from: &str) -> String {
    let shown = text(from);
    let mut letters = shown.chars();
    let Some(first) = letters.next() else { return String::new() };
    let rest = letters.as_str();
    let stop = if shown.ends_with(['.', '!', '?', ':']) { "" } else { "." };
    // A name in back quotes, or a word with a capital of its own, stays as it is.
    format!("{}{rest}{stop}", first.to_uppercase())
}

/// A word or a name with a capital at its head.
pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_cut_and_says_so() {
        let long = "a".repeat(10_000);
        assert_eq!(name(&long), format!("{}… (9880 more letters)", "a".repeat(120)));
        assert_eq!(name("short"), "short");
    }

    #[test]
    fn what_turns_the_writing_is_shown_and_not_obeyed() {
        assert!(!text("a\u{202e}b").contains('\u{202e}'));
        assert_eq!(sentence("tongue share is 9 %"), "Tongue share is 9 %.");
    }
}
