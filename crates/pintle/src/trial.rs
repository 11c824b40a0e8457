//! `pintle trial`: run the rules' own trials.

use std::fmt::Write as _;

use pintle_finding::{Problem, nearest};
use pintle_report::words::counted;
use pintle_report::{human, safe};
use pintle_rulebook::{Bases, run_trials};
use pintle_source::Sources;

use crate::call::{Call, Trial};
use crate::exit::Exit;
use crate::inspect::jobs;
use crate::print;
use crate::shop::{Shop, Shops};

/// Runs the command.
pub(crate) fn run(call: &Call, trial: &Trial) -> Exit {
    let look = print::look(call);
    let mut shops = Shops::new(call.rulebook.as_deref());
    let shop = shops.of(&trial.at);
    let unknown: Vec<Problem> =
        trial.wanted.iter().filter_map(|wanted| unknown(wanted, shop.rulebook.ids())).collect();
    if !shop.problems.is_empty() || !unknown.is_empty() {
        print::out(&human::problems(&shop.problems, &shop.sources, &look));
        print::out(&human::problems(&unknown, &Sources::new(), &look));
        return Exit::Wrong;
    }
    let mut sources = shop.sources.clone();
    let mut problems = Vec::new();
    let wanted = |id: &str| trial.wanted.is_empty() || trial.wanted.iter().any(|wanted| picks(wanted, id));
    let builtin = Bases::builtin(&mut sources, &mut problems);
    let own = own_bases(&shop, &mut shops, &mut sources, &mut problems);
    let results = run_trials(&shop.rulebook, &builtin, &own, &sources, wanted);
    let mut text = human::problems(&problems, &sources, &look);
    for result in results.iter().filter(|result| result.failure.is_some()) {
        let place = sources.locate(result.span);
        let failure = result.failure.as_deref().unwrap_or_default();
        let line = format!(
            "{}:{}: {}: {}: {failure}",
            sources.name(result.span.source),
            place.line,
            result.rule,
            result.name
        );
        let _ = writeln!(text, "{}", safe::line(&line));
        text.push_str(&human::problems(&result.problems, &sources, &look));
    }
    let failed = results.iter().filter(|result| result.failure.is_some()).count();
    let rules = counted(shop.rulebook.ids().filter(|id| wanted(id)).count(), "rule");
    let trials = counted(results.len(), "trial");
    let _ = writeln!(text, "{rules}, {trials}: {} as expected, {failed} not", results.len() - failed);
    print::out(&text);
    if !problems.is_empty() {
        Exit::Wrong
    } else if failed > 0 {
        Exit::Held
    } else {
        Exit::Released
    }
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
            Ok(Err(error)) => problems.push(Problem::new("unreadable", error.to_string()).help(error.help())),
            Err(problem) => problems.push(problem),
        }
    }
    Bases::of_shop(shop.stock.clone(), &ids, sources)
}

fn picks(wanted: &str, id: &str) -> bool {
    id == wanted || id.split('/').next() == Some(wanted)
}

fn unknown<'a>(wanted: &str, ids: impl Iterator<Item = &'a str> + Clone) -> Option<Problem> {
    if ids.clone().any(|id| picks(wanted, id)) {
        return None;
    }
    let packs = ids.clone().filter_map(|id| id.split('/').next());
    let help = match nearest(wanted, packs.chain(ids)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name a pack, or a rule as `pack/rule`".to_owned(),
    };
    Some(Problem::new("unknown-rule", format!("no pack or rule in use is called `{wanted}`")).help(help))
}
