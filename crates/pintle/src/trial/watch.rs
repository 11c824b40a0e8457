//! Trials again and again, as the author writes.

use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use camino::Utf8PathBuf;
use notify::{Event, RecursiveMode, Watcher};
use pintle_finding::Problem;
use pintle_report::{Look, human};
use pintle_source::Sources;

use crate::exit::Exit;
use crate::print;

/// Editors write a file in several goes: what comes within this time is one change.
const SETTLES: Duration = Duration::from_millis(150);

/// Runs something, then again whenever a file below the folder that it gives changes.
pub(super) fn again(once: impl Fn() -> (Exit, Option<Utf8PathBuf>), look: &Look) -> Exit {
    let (exit, folder) = once();
    let Some(folder) = folder else {
        return refuse(look, "there is nothing to watch: no pintle.toml stands at or above this folder");
    };
    let (tell, changes) = channel();
    let watched = notify::recommended_watcher(tell).and_then(|mut watcher| {
        watcher.watch(folder.as_std_path(), RecursiveMode::Recursive)?;
        Ok(watcher)
    });
    // It watches as long as it is held.
    let _watcher = match watched {
        Ok(held) => held,
        Err(error) => return refuse(look, &format!("`{folder}` cannot be watched: {error}")),
    };
    print::out(&format!("watching {folder}; stop with Ctrl-C\n"));
    let mut last = exit;
    while changed(&changes) {
        print::out("\n");
        last = once().0;
    }
    last
}

/// Waits for a change of a file that matters, and lets it settle; false when nothing will ever change again.
fn changed(changes: &Receiver<notify::Result<Event>>) -> bool {
    loop {
        let Ok(first) = changes.recv() else { return false };
        let mut matters = counts(&first);
        while let Ok(next) = changes.recv_timeout(SETTLES) {
            matters = matters || counts(&next);
        }
        if matters {
            return true;
        }
    }
}

/// Whether something was written, made, renamed or taken away that a shop is made of. Reading is no change.
fn counts(event: &notify::Result<Event>) -> bool {
    let Ok(event) = event else { return true };
    let written = event.kind.is_modify() || event.kind.is_create() || event.kind.is_remove();
    let file = |path: &std::path::PathBuf| {
        path.extension().is_some_and(|ending| ending == "toml" || ending == "rhai")
    };
    written && event.paths.iter().any(file)
}

fn refuse(look: &Look, message: &str) -> Exit {
    let problem = Problem::new("no-watch", message).help("run it in a shop's folder, or without `--watch`");
    print::err(&human::problems(&[problem], &Sources::new(), look));
    Exit::Wrong
}
