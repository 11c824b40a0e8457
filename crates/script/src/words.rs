//! Errors of the script language, in the words of the trade.

use pintle_finding::nearest;
use rhai::{Dynamic, EvalAltResult, ImmutableString, ParseError, ParseErrorType, Position};

use crate::engine::{MOST_OPERATIONS, MOST_SIZE, ScriptError};
use crate::functions::{self, instead};
use crate::recorder::End;

use crate::stop::Stop;

/// What a value is called, from the script language's name of its type.
pub(crate) fn sort(type_name: &str) -> &'static str {
    let bare = type_name.rsplit("::").next().unwrap_or(type_name);
    match bare {
        "i64" => "a whole number",
        "f64" => "a number",
        "bool" => "a yes or no",
        "()" => "nothing",
        "char" => "a letter",
        "array" | "Array" => "a list",
        "map" | "Map" => "a map",
        "quantity" | "Measured" => "a quantity",
        "thing" | "Thing" => "a part of the build",
        "reading" | "Handle" => "a reading",
        "limits" | "Limits" => "the limits",
        other if other.contains("str") || other.contains("String") => "a text",
        other if other.to_lowercase().contains("range") => "a range",
        _ => "something else",
    }
}

/// Unwraps the script language's error to its innermost cause.
pub(crate) fn end_of(error: EvalAltResult) -> End {
    match error {
        EvalAltResult::ErrorInFunctionCall(_, _, inner, outer) => match end_of(*inner) {
            End::Failed { message, position } if position.is_none() => {
                End::Failed { message, position: outer }
            }
            end => end,
        },
        EvalAltResult::ErrorRuntime(value, position) | EvalAltResult::ErrorTerminated(value, position) => {
            let thrown = value.clone();
            match value.try_cast::<Stop>() {
                Some(Stop::Missing(missing)) => End::Missing(missing),
                Some(Stop::NotApplicable(why)) => End::NotApplicable(why),
                Some(Stop::Failed(message)) => End::Failed { message, position },
                None => End::Failed { message: threw(&thrown), position },
            }
        }
        other => {
            let position = other.position();
            End::Failed { message: plain(&other), position }
        }
    }
}

fn threw(value: &Dynamic) -> String {
    match value.clone().try_cast::<ImmutableString>() {
        Some(text) => format!("the script threw `{text}`"),
        None => format!("the script threw {}", sort(value.type_name())),
    }
}

fn plain(error: &EvalAltResult) -> String {
    match error {
        EvalAltResult::ErrorTooManyOperations(_) => {
            format!("the script took more than {MOST_OPERATIONS} operations")
        }
        EvalAltResult::ErrorStackOverflow(_) => {
            "the script's functions call each other too deeply".to_owned()
        }
        EvalAltResult::ErrorDataTooLarge(what, _) => {
            let what = match what {
                what if what.contains("string") => "a text",
                what if what.contains("map") => "a map",
                _ => "a list",
            };
            format!("the script made {what} of more than {MOST_SIZE} entries or letters")
        }
        EvalAltResult::ErrorTooManyVariables(_) => "the script keeps too many variables".to_owned(),
        EvalAltResult::ErrorFunctionNotFound(signature, _) => no_function(signature),
        EvalAltResult::ErrorAssignmentToConstant(name, _) => {
            format!("`{name}` is given to the rule and cannot be changed by it")
        }
        EvalAltResult::ErrorVariableExists(name, _) => {
            format!("there is a variable `{name}` already; call this one something else")
        }
        EvalAltResult::ErrorVariableNotFound(name, _) => {
            format!("there is no variable `{name}` here; a function works with what it is handed")
        }
        EvalAltResult::ErrorMismatchDataType(wanted, found, _) => {
            let found = if found.is_empty() { "something else" } else { sort(found) };
            format!("expected {}, found {found}", sort(wanted))
        }
        EvalAltResult::ErrorPropertyNotFound(name, _) => format!("there is no `{name}` in this"),
        EvalAltResult::ErrorDotExpr(what, _) | EvalAltResult::ErrorIndexingType(what, _)
            if what.contains("setter") || what.contains('=') =>
        {
            "what is given to a rule cannot be changed by it".to_owned()
        }
        EvalAltResult::ErrorDotExpr(..) => {
            "this has nothing that can be asked or set by that name".to_owned()
        }
        EvalAltResult::ErrorIndexingType(..) => "this cannot be looked into or set by name".to_owned(),
        other => {
            let mut text = other.to_string();
            if let Some(at) = text.rfind(" (line") {
                text.truncate(at);
            }
            small_first(&text)
        }
    }
}

/// A signature such as `at_most (reading, i64)`.
fn no_function(signature: &str) -> String {
    let (name, rest) = signature.split_once(" (").unwrap_or((signature, ""));
    let given: Vec<&str> =
        rest.trim_end_matches(')').split(", ").filter(|one| !one.is_empty()).map(sort).collect();
    match given.as_slice() {
        [] => format!("`{name}` needs something to work on"),
        [one] => format!("`{name}` does not work on {one}"),
        [first @ .., last] => format!("`{name}` does not work on {} and {last}", first.join(", ")),
    }
}

/// There is no such function, and which one may have been meant.
pub(crate) fn unknown_function<'a>(
    name: &str,
    own: impl Iterator<Item = &'a str>,
    position: Position,
) -> ScriptError {
    let known = functions::names().map(|name| -> &'a str { name }).chain(own);
    let near = instead(name).or_else(|| nearest(name, known));
    let error =
        ScriptError::new(format!("there is no function `{name}`"), position).label("no such function");
    offer(error, near)
}

/// An error of the script's text.
pub(crate) fn unreadable<'a>(error: &ParseError, variables: impl Iterator<Item = &'a str>) -> ScriptError {
    let message = match error.err_type() {
        ParseErrorType::VariableUndefined(name) => {
            let said = format!("there is no variable `{name}`");
            let error = ScriptError::new(said, error.position()).label("no such variable");
            return offer(error, nearest(name, variables));
        }
        ParseErrorType::ExprTooDeep => "the expression is nested too deeply".to_owned(),
        ParseErrorType::TooManyFunctions => "the script defines too many functions".to_owned(),
        other => {
            let text = other.to_string();
            match text.split('\'').collect::<Vec<_>>().as_slice() {
                [_, word, rest] if rest.contains("disabled") || rest.contains("reserved keyword") => {
                    format!("`{word}` has no place in a rule")
                }
                _ => small_first(&text),
            }
        }
    };
    ScriptError::new(message, error.position())
}

fn offer(error: ScriptError, near: Option<&str>) -> ScriptError {
    match near {
        Some(near) => error.help(format!("did you mean `{near}`?")),
        None => error,
    }
}

fn small_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}
