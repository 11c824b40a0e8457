//! Law 1: the crates depend on each other as the table in `docs/src/architecture.md` says, and not otherwise.

use std::collections::{BTreeMap, BTreeSet};

use cargo_metadata::{DependencyKind, MetadataCommand};

use crate::tool::top;

/// The table's rows: a crate and what it may use.
fn allowed() -> BTreeMap<String, BTreeSet<String>> {
    let page = std::fs::read_to_string(top().join("docs/src/architecture.md")).unwrap();
    let mut rows = BTreeMap::new();
    let mut inside = false;
    for line in page.lines() {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        match cells.as_slice() {
            ["crate", _, "may use"] if line.starts_with('|') => inside = true,
            [name, _, uses] if inside && line.starts_with('|') && !name.starts_with('-') => {
                let uses = uses.split(',').map(|used| used.trim().trim_matches('`').to_owned());
                let uses: BTreeSet<String> = uses.filter(|used| !used.is_empty() && used != "–").collect();
                rows.insert(name.trim_matches('`').to_owned(), uses);
            }
            _ if inside && !line.starts_with('|') => break,
            _ => {}
        }
    }
    rows
}

#[test]
fn every_edge_stands_in_the_architecture_page() {
    let allowed = allowed();
    let metadata = MetadataCommand::new().manifest_path(top().join("Cargo.toml")).no_deps().exec().unwrap();
    let short = |name: &str| name.strip_prefix("pintle-").unwrap_or(name).to_owned();
    let ours: BTreeSet<String> = metadata.packages.iter().map(|package| short(&package.name)).collect();
    assert!(ours.len() >= 9, "only {ours:?} in the workspace");
    let mut edges = 0;
    for package in &metadata.packages {
        let name = short(&package.name);
        let row = allowed
            .get(&name)
            .unwrap_or_else(|| panic!("`{name}` has no row in the table of docs/src/architecture.md"));
        for dependency in package.dependencies.iter().filter(|edge| edge.kind == DependencyKind::Normal) {
            let used = short(&dependency.name);
            if ours.contains(&used) {
                edges += 1;
                assert!(
                    row.contains(&used) || row.contains("all"),
                    "`{name}` uses `{used}`, which the table does not allow"
                );
            }
        }
    }
    assert!(edges >= 20, "only {edges} edges were looked at");
}

#[test]
fn only_the_script_room_names_the_script_language_only_report_draws_and_only_pintle_serves() {
    let metadata = MetadataCommand::new().manifest_path(top().join("Cargo.toml")).no_deps().exec().unwrap();
    let users = |wanted: &str| -> Vec<String> {
        let uses =
            |package: &&cargo_metadata::Package| package.dependencies.iter().any(|edge| edge.name == wanted);
        metadata.packages.iter().filter(uses).map(|package| package.name.to_string()).collect()
    };
    assert_eq!(users("rhai"), ["pintle-script"]);
    assert_eq!(users("miette"), ["pintle-report"]);
    assert_eq!(users("ignore"), ["pintle"]);
    // Law 2: only `pintle` opens a socket, and only for the walk.
    for library in ["tokio", "hyper", "hyper-util", "http-body-util", "getrandom"] {
        assert_eq!(users(library), ["pintle"], "{library}");
    }
}

/// Clippy keeps the library's own sockets to `pintle`; within it, the walk alone names any.
#[test]
fn within_pintle_only_the_walk_names_a_socket() {
    let folder = top().join("crates/pintle/src");
    let mut named = Vec::new();
    let mut folders = vec![folder.clone()];
    while let Some(inner) = folders.pop() {
        for entry in std::fs::read_dir(inner).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                if ["std::net", "tokio::", "hyper::", "hyper_util", "TcpStream", "UdpSocket"]
                    .iter()
                    .any(|word| text.contains(word))
                {
                    named.push(path.strip_prefix(&folder).unwrap().to_str().unwrap().to_owned());
                }
            }
        }
    }
    assert!(!named.is_empty());
    assert!(named.iter().all(|file| file == "walk.rs" || file.starts_with("walk/")), "{named:?}");
}
