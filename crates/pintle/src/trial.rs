//! `pintle trial`: run the rules' own trials.

mod cover;
mod said;
mod times;
mod watch;

use std::fmt::Write as _;

use camino::Utf8PathBuf;
use pintle_finding::{Problem, nearest};
use pintle_report::words::counted;
use pintle_report::{Look, human};
use pintle_rulebook::{Bases, Bound, Lines, Rulebook, TrialResult, Trials, each_rule};
use pintle_source::Sources;

use crate::call::{Call, Trial};
use crate::exit::Exit;
use crate::inspect::jobs;
use crate::print;
use crate::shop::{Shop, Shops};

/// Runs the command.
pub(crate) fn run(call: &Call, trial: &Trial) -> Exit {
    let once = || {
        let (text, exit, folder) = tried(call, trial);
        print::out(&text);
        (exit, folder)
    };
    if trial.watch { watch::again(once, &print::look(call)) } else { once().0 }
}

/// What all trials came to, and the folder of the shop.
fn tried(call: &Call, trial: &Trial) -> (String, Exit, Option<Utf8PathBuf>) {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let shop = shops.of(&trial.at);
    let mut text = human::problems(&shop.problems, &shop.sources, &look);
    // A rule with a mistake in it is not in use yet: its name is no second mistake.
    if shop.is_wrong() {
        return (text, Exit::Wrong, shop.root());
    }
    let (wanted, said) = wanted(&trial.wanted, &shop.rulebook);
    text.push_str(&human::problems(&said, &Sources::new(), &look));
    if Problem::any_wrong(&said) {
        return (text, Exit::Wrong, shop.root());
    }
    let mut sources = shop.sources.clone();
    let mut problems = Vec::new();
    let builtin = Bases::builtin(&mut sources, &mut problems);
    let own = own_bases(&shop, &mut shops, &mut sources, &mut problems);
    text.push_str(&human::problems(&problems, &sources, &look));
    let rules: Vec<&Bound> =
        shop.rulebook.rules.iter().filter(|bound| picks(&wanted, &bound.file.id)).collect();
    let tried = each_rule(&shop.rulebook, &builtin, &own, &sources, &rules, |trials, bound| {
        (trials.of(bound), trial.coverage.then(|| trials.lines(bound)))
    });
    let (passed, failed) = outcome(&rules, &tried, &sources, &look, &mut text);
    let counts = (counted(rules.len(), "rule"), counted(passed + failed, "trial"));
    let _ = writeln!(text, "{}, {}: {passed} as expected, {failed} not", counts.0, counts.1);
    if trial.times {
        let trials = Trials::new(&shop.rulebook, &builtin, &own, &sources);
        text.push_str(&times::table(&shop.rulebook, &trials, &rules, &sources));
    }
    let exit = match (problems.is_empty(), failed) {
        (false, _) => Exit::Wrong,
        (true, 0) => Exit::Released,
        (true, _) => Exit::Held,
    };
    (text, exit, shop.root())
}

/// Adds what is to be said of them to the text, and counts what came out as expected and what did not.
fn outcome(
    rules: &[&Bound],
    tried: &[(Vec<TrialResult>, Option<Lines>)],
    sources: &Sources,
    look: &Look,
    text: &mut String,
) -> (usize, usize) {
    let (mut passed, mut failed) = (0, 0);
    let mut cover = cover::Cover::default();
    let mut covered = false;
    for (bound, (results, lines)) in rules.iter().zip(tried) {
        for result in results {
            if result.failure.is_some() {
                failed += 1;
                text.push_str(&said::failure(result, sources, look));
            } else {
                passed += 1;
            }
        }
        if let Some(lines) = lines {
            covered = true;
            cover.add(bound, lines, results);
        }
    }
    if covered {
        text.push_str(&cover.report(sources));
    }
    (passed, failed)
}

/// The shop's own specs, for trials of its own rules.
fn own_bases(shop: &Shop, shops: &mut Shops, sources: &mut Sources, problems: &mut Vec<Problem>) -> Bases {
    if shop.rulebook.rules.iter().all(|bound| bound.file.builtin) {
        return Bases::default();
    }
    let Some(root) = shop.root() else { return Bases::default() };
    let (jobs, found) = jobs(&[root], shops);
    problems.extend(found);
    let mut ids = Vec::new();
    for job in jobs {
        match job.root.read(&job.path).map(|bytes| sources.add_bytes(&job.name(), &bytes)) {
            Ok(Ok(id)) => ids.push(id),
            Ok(Err(error)) => {
                problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
            }
            Err(problem) => problems.push(problem),
        }
    }
    Bases::of_shop(shop.stock.clone(), &ids, sources)
}

/// The packs and rules that a call names, rules by the ids that they have now; and what is to be said of those words.
pub(crate) fn wanted<'w>(words: &'w [String], rulebook: &'w Rulebook) -> (Vec<&'w str>, Vec<Problem>) {
    let renamed = &rulebook.renamed;
    let wanted: Vec<&str> = words.iter().map(|word| renamed.now(word).unwrap_or(word)).collect();
    let warnings = words.iter().filter_map(|word| renamed.warning(word));
    let unknown = wanted.iter().filter_map(|word| unknown(word, rulebook.ids()));
    let said = warnings.chain(unknown).collect();
    (wanted, said)
}

/// Whether the words of a call mean a rule: there are none, or one is its id, or its pack.
pub(crate) fn picks(wanted: &[&str], id: &str) -> bool {
    wanted.is_empty() || wanted.iter().any(|word| means(word, id))
}

fn means(word: &str, id: &str) -> bool {
    id == word || id.split('/').next() == Some(word)
}

/// The problem of a word that means no rule.
fn unknown<'a>(wanted: &str, ids: impl Iterator<Item = &'a str> + Clone) -> Option<Problem> {
    if ids.clone().any(|id| means(wanted, id)) {
        return None;
    }
    let packs = ids.clone().filter_map(|id| id.split('/').next());
    let help = match nearest(wanted, packs.chain(ids)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name a pack, or a rule as `pack/rule`".to_owned(),
    };
    Some(Problem::new("unknown-rule", format!("no pack or rule in use is called `{wanted}`")).help(help))
}
