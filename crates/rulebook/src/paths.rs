//! What waivers and the backlog call what is judged: `item.galley`, `state.homeward`, `build`.

use pintle_finding::Subject;
use pintle_script::{ARRANGEMENT, TIGHT};
use pintle_spec::Build;

/// The path of the build as a whole.
pub(crate) const BUILD: &str = "build";

/// The path of a subject. All arrangements have one: the worst is read, which may be another one tomorrow; so have the
/// tight readings of one rule.
pub(crate) fn of(subject: &Subject, build: &Build) -> String {
    let name = subject.name.as_str();
    match subject.kind {
        ARRANGEMENT => ARRANGEMENT.to_owned(),
        TIGHT => format!("tight.{}", name.rsplit_once(", by ").map_or(name, |(_, rule)| rule)),
        _ if name.is_empty() => BUILD.to_owned(),
        "state" | "road state" | "camp state" => format!("state.{name}"),
        kind => match build.item(name).filter(|item| is_of(item, kind)) {
            Some(item) => format!("{}.{name}", item.table.key()),
            None => format!("{kind}.{name}"),
        },
    }
}

fn is_of(item: &pintle_spec::Item, kind: &str) -> bool {
    kind == item.kind || kind == item.table.key() || kind == "removable"
}

/// The paths of what a build has, so that a near one can be offered.
pub(crate) fn all(build: &Build) -> Vec<String> {
    let items = build.items.iter().map(|item| format!("{}.{}", item.table.key(), item.tag.value));
    let states = build.states.iter().map(|state| format!("state.{}", state.name.value));
    items.chain(states).chain([BUILD.to_owned(), ARRANGEMENT.to_owned()]).collect()
}
