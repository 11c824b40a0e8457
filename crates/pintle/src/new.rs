//! `pintle new`: the files of a pack or a rule, which pass their trials at once.

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::{Problem, nearest};
use pintle_report::human;
use pintle_rulebook::builtin_packs;
use pintle_source::Sources;
use toml_edit::{Array, DocumentMut, Item, Value};

use crate::call::{Call, New, NewWhat};
use crate::exit::Exit;
use crate::files;
use crate::mend::save;
use crate::print;
use crate::shop::{BUILT_IN, RULEBOOK, Shop, Shops};

const PACK: &str = include_str!("new/pack.toml");
/// The rule that a new pack begins with.
const FIRST_RULE: [&str; 2] = [include_str!("new/rule.toml"), include_str!("new/rule.rhai")];
/// Any other new rule: its trials pass beside every other rule, and beside others made of the same.
const RULE: [&str; 2] = [include_str!("new/start.toml"), include_str!("new/start.rhai")];
/// What that is called.
const FIRST: &str = "heavy-module";

/// Runs the command.
pub(crate) fn run(call: &Call, new: &New) -> Exit {
    let shop = Shops::new(call.rulebook.as_deref()).of(&new.at);
    let made = match &new.what {
        NewWhat::Pack { name } => pack(&shop, name),
        NewWhat::Rule { id } => rule(&shop, id),
    };
    match made {
        Ok(said) => {
            print::out(&said);
            Exit::Released
        }
        Err(problem) => {
            print::out(&human::problems(&[problem], &Sources::new(), &print::look(call)));
            Exit::Wrong
        }
    }
}

/// A folder with one rule, named in the rulebook.
fn pack(shop: &Shop, name: &str) -> Result<String, Problem> {
    let root = root(shop)?;
    named(name)?;
    if builtin_packs().iter().any(|pack| pack.name == name) {
        return Err(Problem::new("taken-name", format!("`{name}` is a built-in pack"))
            .help("call it something else, such as by the shop's name"));
    }
    let folder = root.join("rules").join(name);
    if folder.exists() {
        return Err(Problem::new("taken-name", format!("`{folder}` is there already"))
            .help(format!("add a rule to it with `pintle new rule {name}/…`")));
    }
    let rulebook = root.join(RULEBOOK);
    let old = files::read(&rulebook)?;
    let text = std::str::from_utf8(&old)
        .map_err(|_| Problem::new("unreadable", format!("`{rulebook}` is not UTF-8")))?;
    let entry = format!("./rules/{name}");
    let changed = with_pack(text, &entry).ok_or_else(|| {
        Problem::new("unreadable", format!("`{rulebook}` cannot be added to as it stands"))
            .help("correct what `pintle inspect` says of it first")
    })?;
    std::fs::create_dir_all(&folder).map_err(|error| {
        Problem::new("unwritable", format!("`{folder}` cannot be made: {}", files::reason(&error)))
    })?;
    save::create(&folder.join("pack.toml"), PACK.as_bytes())?;
    let made = write_rule(&folder, FIRST, FIRST_RULE)?;
    save::replace(&rulebook, &old, changed.as_bytes())?;
    Ok(format!(
        "made {folder}/pack.toml, {}\nadded \"{entry}\" to `packs` in {rulebook}\ntry it: pintle trial {name}\n",
        made.join(", ")
    ))
}

/// The two files of a rule in a pack of the shop's own.
fn rule(shop: &Shop, id: &str) -> Result<String, Problem> {
    root(shop)?;
    let Some((pack, name)) = id.split_once('/') else {
        return Err(Problem::new("bad-name", format!("`{id}` names no pack"))
            .help(format!("call the rule `pack/rule`, such as `ours/{id}`")));
    };
    named(name)?;
    if shop.rulebook.ids().any(|known| known == id) {
        return Err(Problem::new("taken-name", format!("there is a rule `{id}` already"))
            .help("a rule is named for its fault: call this one by what it finds"));
    }
    if let Some(now) = shop.rulebook.renamed.now(id) {
        return Err(Problem::new("taken-name", format!("`{id}` was the id of `{now}`"))
            .help("an id is never used again: call this one something else"));
    }
    let folders = pack_folders(shop);
    let Some((_, folder)) = folders.iter().find(|(held, _)| held == pack) else {
        let help = match nearest(pack, folders.iter().map(|(held, _)| held.as_str())) {
            Some(near) => format!("did you mean `{near}/{name}`?"),
            None => format!("make the pack first: `pintle new pack {pack}`"),
        };
        let message = format!("the shop has no pack of its own called `{pack}`");
        return Err(Problem::new("unknown-pack", message).help(help));
    };
    let made = write_rule(folder, name, RULE)?;
    Ok(format!("made {}\ntry it: pintle trial {id}\n", made.join(", ")))
}

/// The packs of the shop's own that have a rule, and the folders in which their rules stand.
fn pack_folders(shop: &Shop) -> Vec<(String, Utf8PathBuf)> {
    let own = shop.rulebook.rules.iter().filter(|bound| !bound.file.builtin);
    let folders = own.filter_map(|bound| {
        let pack = bound.file.id.split('/').next()?.to_owned();
        let file = Utf8Path::new(shop.sources.name(bound.file.file));
        Some((pack, file.parent()?.to_owned()))
    });
    folders.collect()
}

fn root(shop: &Shop) -> Result<Utf8PathBuf, Problem> {
    // Files of the current folder are named as one would type them, without `./`.
    let here = |root: Utf8PathBuf| if root == "." { Utf8PathBuf::new() } else { root };
    shop.root().map(here).ok_or_else(|| {
        Problem::new("no-shop", format!("no {RULEBOOK} stands at or above this folder"))
            .help("make one in the shop's folder; `shop = \"…\"` with the shop's name is enough for a start")
    })
}

/// Names are those of files and ids: small letters, digits and hyphens.
fn named(name: &str) -> Result<(), Problem> {
    let sound = name.starts_with(|first: char| first.is_ascii_lowercase())
        && name.chars().all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-')
        && name != "pack";
    if sound {
        return Ok(());
    }
    Err(Problem::new("bad-name", format!("`{name}` cannot be a name here"))
        .help("use small letters, digits and hyphens, as in `heavy-module`"))
}

fn write_rule(folder: &Utf8Path, name: &str, [data, script]: [&str; 2]) -> Result<[String; 2], Problem> {
    let words = name.replace('-', " ");
    let files = [("toml", data.replace("NAME", &words)), ("rhai", script.replace("NAME", &words))];
    let mut made = Vec::new();
    for (ending, text) in files {
        let path = folder.join(format!("{name}.{ending}"));
        save::create(&path, text.as_bytes())?;
        made.push(files::shown(&path));
    }
    Ok(<[String; 2]>::try_from(made).unwrap_or_default())
}

/// A rulebook with one more pack in use. Where it names none, all built-in ones stay in use.
fn with_pack(text: &str, entry: &str) -> Option<String> {
    let mut document: DocumentMut = text.parse().ok()?;
    if let Some(packs) = document.get_mut("packs") {
        packs.as_array_mut()?.push(entry);
    } else {
        let packs: Array = [BUILT_IN, entry].into_iter().collect();
        document.insert("packs", Item::Value(Value::Array(packs)));
    }
    Some(document.to_string())
}

#[cfg(test)]
mod tests {
    use super::with_pack;

    #[test]
    fn a_pack_is_added_and_nothing_else_is_changed() {
        let none = "# ours\nshop = \"Ours\"   # the name\n\n[[limit]]\nrule = \"a/b\"\n";
        let added = with_pack(none, "./rules/ours").unwrap();
        assert_eq!(
            added,
            "# ours\nshop = \"Ours\"   # the name\npacks = [\"built-in\", \"./rules/ours\"]\n\n[[limit]]\nrule = \"a/b\"\n"
        );
        let some = "packs = [\n  \"towing\",   # all that we do\n]\n";
        let added = with_pack(some, "./rules/ours").unwrap();
        for kept in ["\"towing\"", "# all that we do", "\"./rules/ours\""] {
            assert!(added.contains(kept), "{added}");
        }
        assert_eq!(with_pack("packs = 3\n", "./rules/ours"), None);
        assert_eq!(with_pack("packs = [\n", "./rules/ours"), None);
    }
}
