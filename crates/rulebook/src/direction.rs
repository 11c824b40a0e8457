//! Which way a limit is loosened, as far as the script shows by how it compares.

/// Which side of a limit passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// What is read must be at least the limit: a lower limit is looser.
    Least,
    /// What is read must be at most the limit: a higher limit is looser.
    Most,
}

/// Which side of a limit passes; none where the script does anything else with it than `at_least`, `at_most` and
/// `between`, or both.
pub(crate) fn of(script: &str, limit: &str) -> Option<Side> {
    let script = code(script);
    let mut found = None;
    for (at, _) in script.match_indices("limit") {
        let (before, rest) = (script.get(..at)?, script.get(at..)?);
        let after = rest.strip_prefix("limit")?.trim_start();
        let opens = before.chars().next_back().is_none_or(|letter| !is_of_a_name(letter) && letter != '.');
        let Some(after) = after.strip_prefix('.').map(str::trim_start).filter(|_| opens) else {
            // `limit["most"]`, or `limit` handed on: what becomes of it is not seen here.
            let other = after.starts_with(is_of_a_name) || !opens;
            if other {
                continue;
            }
            return None;
        };
        let name = after.split(|letter| !is_of_a_name(letter)).next()?;
        if name != limit {
            continue;
        }
        let side = side(before.trim_end(), after.strip_prefix(name)?.trim_start())?;
        if found.is_some_and(|held| held != side) {
            return None;
        }
        found = Some(side);
    }
    found
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// By what stands before and after a limit that is compared with as it is.
fn side(before: &str, after: &str) -> Option<Side> {
    let alone = after.starts_with(')');
    match before {
        _ if alone && before.ends_with("at_least(") => Some(Side::Least),
        _ if alone && before.ends_with("at_most(") => Some(Side::Most),
        _ if after.starts_with(',') && before.ends_with("between(") => Some(Side::Least),
        _ if alone && before.ends_with(',') => {
            let (_, first) = before.strip_suffix(',')?.rsplit_once("between(")?;
            let plain = |letter: char| is_of_a_name(letter) || letter == '.' || letter.is_whitespace();
            first.chars().all(plain).then_some(Side::Most)
        }
        _ => None,
    }
}

/// A script without its comments, and with its texts emptied.
fn code(script: &str) -> String {
    let mut code = String::with_capacity(script.len());
    let mut letters = script.chars().peekable();
    while let Some(letter) = letters.next() {
        match (letter, letters.peek()) {
            ('/', Some('/')) => while letters.next_if(|next| *next != '\n').is_some() {},
            ('/', Some('*')) => {
                let mut last = ' ';
                letters.next();
                for next in letters.by_ref() {
                    if (last, next) == ('*', '/') {
                        break;
                    }
                    last = next;
                }
            }
            ('"' | '`', _) => {
                code.push(letter);
                while let Some(next) = letters.next() {
                    if next == '\\' && letter == '"' {
                        letters.next();
                    } else if next == letter {
                        break;
                    }
                }
                code.push(letter);
            }
            _ => code.push(letter),
        }
    }
    code
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_comparison_says_which_way_is_looser() {
        let script =
            "reading(state.tongue_share)\n    .at_least( limit.least )\n    .remedy(\"limit.most\");";
        assert_eq!(of(script, "least"), Some(Side::Least));
        assert_eq!(of(script, "most"), None, "in a text it limits nothing");
        assert_eq!(of("reading(x).at_most(limit.most)", "most"), Some(Side::Most));
        let band = "reading(x).between(limit.least, limit.most); // limit.least * 2";
        assert_eq!((of(band, "least"), of(band, "most")), (Some(Side::Least), Some(Side::Most)));
        assert_eq!(of("reading(x).between(trailer.gvwr, limit.most)", "most"), Some(Side::Most));
    }

    #[test]
    fn what_the_script_reckons_with_is_not_known() {
        for script in [
            "reading(x).at_most(limit.most * 2)",
            "reading(x).at_most(trailer.gvwr - limit.most)",
            "reading(x).equals(limit.most)",
            "if x > limit.most { not_applicable(\"small\") } reading(x).at_most(limit.most)",
            "reading(x).at_most(limit.most); reading(y).at_least(limit.most)",
            "let all = limit; reading(x).at_most(all.most)",
            "reading(x).at_most(limit[\"most\"])",
            "reading(x).at_most(greater(a, limit.most))",
            "reading(x).between(f(a, b), limit.most)",
            "reading(x).at_most(limit.mostly)",
        ] {
            assert_eq!(of(script, "most"), None, "{script}");
        }
    }
}
