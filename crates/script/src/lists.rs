//! Lists: counted, searched and named by scripts, and kept short.

use rhai::{Array, Dynamic, EvalAltResult, INT, ImmutableString};

use crate::desk::Desk;
use crate::engine::MOST_SIZE;
use crate::stop::failed;
use crate::thing::Thing;

/// Teaches an engine to handle lists of things and of words.
pub(crate) fn register(desk: &mut Desk<'_>) {
    desk.register_fn("push", |list: &mut Array, thing: Thing| -> Result<(), Box<EvalAltResult>> {
        if list.len() >= MOST_SIZE {
            return Err(failed(format!("a list of more than {MOST_SIZE} entries")));
        }
        list.push(Dynamic::from(thing));
        Ok(())
    });
    desk.register_fn("count", |list: Array| INT::try_from(list.len()).unwrap_or(INT::MAX));
    desk.register_fn("contains", |list: Array, text: ImmutableString| {
        list.iter().any(|held| held.clone().try_cast::<ImmutableString>().is_some_and(|held| held == text))
    });
    desk.register_fn("listed", |list: Array| {
        let names = list.iter().filter_map(|held| held.clone().try_cast::<ImmutableString>());
        // Parts are called by their tags, in backticks already.
        let marked = |name: ImmutableString| {
            if name.contains('`') { name.to_string() } else { format!("`{name}`") }
        };
        names.map(marked).collect::<Vec<_>>().join(", ")
    });
}
