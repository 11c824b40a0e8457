//! `pintle explain`: what a rule judges, why, and which limit is in force and who set it.

use std::fmt::Write as _;

use jiff::civil::Date;
use pintle_calc::topics;
use pintle_finding::{Problem, SetBy, nearest};
use pintle_quantity::Units;
use pintle_report::explained::{self, Explained, LimitInForce, WaiverOf};
use pintle_report::{human, safe, words};
use pintle_rulebook::{Bound, Wanted};
use pintle_source::{Sources, Span};

use crate::call::{Call, Explain, ExplainFormat, Figures, Format};
use crate::clock;
use crate::exit::Exit;
use crate::figures;
use crate::print;
use crate::shop::{Shop, Shops};

/// Runs the command.
pub(crate) fn run(call: &Call, explain: &Explain) -> Exit {
    let look = print::look(call);
    let shop = Shops::new(call.rulebook.as_deref()).of(&explain.at);
    if shop.is_wrong() {
        print::out(&human::problems(&shop.problems, &shop.sources, &look));
        return Exit::Wrong;
    }
    let renamed = &shop.rulebook.renamed;
    let rule = renamed.now(&explain.rule).unwrap_or(&explain.rule);
    if let Some(explained) = explained(&shop, rule, clock::day(call)) {
        let mut aside = print::Aside::new(look);
        aside.say(&shop.problems, &shop.sources);
        aside.say(renamed.warning(&explain.rule).as_slice(), &Sources::new());
        print::out(&match explain.format {
            ExplainFormat::Human => text(&explained, shop.rulebook.rule(rule), &shop.sources),
            ExplainFormat::Json => explained::json(&explained, &shop.sources, &look),
        });
        return Exit::Released;
    }
    let kept = || shop.rulebook.kept.iter().map(|kept| kept.rule.id.as_str());
    let ids = || shop.rulebook.ids().chain(kept());
    // A rule's name without its pack is taken for what it is.
    let is_name = |id: &str| id.rsplit('/').next() == Some(explain.rule.as_str());
    let before = || renamed.all().find(|(was, _)| is_name(was)).map(|(_, now)| now);
    let by_name = ids().find(|id| is_name(id)).or_else(before);
    // A topic, or a figure of one, is explained by how it came about in the builds there.
    let topic = explain.rule.split('/').next().unwrap_or_default();
    let near = by_name.or_else(|| nearest(&explain.rule, ids()));
    if near.is_none() && topics::find(topic).is_some() {
        let figures = Figures {
            paths: vec![explain.at.clone()],
            topics: vec![explain.rule.clone()],
            format: match explain.format {
                ExplainFormat::Human => Format::Human,
                ExplainFormat::Json => Format::Json,
            },
        };
        return figures::run(call, &figures);
    }
    let help = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => {
            format!("rules are called `pack/rule`; those in use are {}", ids().collect::<Vec<_>>().join(", "))
        }
    };
    let problem =
        Problem::new("unknown-rule", format!("no rule in use is called `{}`", explain.rule)).help(help);
    print::out(&human::problems(&[problem], &Sources::new(), &look));
    Exit::Wrong
}

/// A rule in force, be it in files or one of the tool's own, with the waivers of its faults.
fn explained<'s>(shop: &'s Shop, id: &str, day: Date) -> Option<Explained<'s>> {
    let rulebook = &shop.rulebook;
    let waivers = rulebook.waivers.of_rule(id).map(|(_, waiver)| WaiverOf {
        item: waiver.item.as_ref().map(|item| item.value.as_str()),
        builds: waiver.builds.iter().map(|build| build.value.as_str()).collect(),
        has_run_out: waiver.has_run_out(day),
        allowed: waiver.allowed,
        waived: &waiver.waived,
    });
    let waivers = waivers.collect();
    if let Some(kept) = rulebook.kept.iter().find(|kept| kept.rule.id == id) {
        return Some(Explained {
            rule: &kept.rule,
            was: Vec::new(),
            judges: kept.judges,
            waivable: false,
            limits: Vec::new(),
            waivers,
            trials: Vec::new(),
            files: Vec::new(),
        });
    }
    let bound = rulebook.rule(id)?;
    let limits = bound.limits.iter().map(|limit| LimitInForce {
        name: &limit.name,
        value: limit.value,
        basis: limit.basis,
        note: note(bound, &limit.name),
        set_by: limit.set_by.as_ref(),
        span: limit.span,
    });
    let trials = bound.file.trials.iter().map(|trial| (trial.name.value.as_str(), expected(trial.expect)));
    let files = [bound.file.file, bound.file.script].map(|file| shop.sources.name(file));
    Some(Explained {
        rule: &bound.rule,
        was: bound.file.was.iter().map(|was| was.value.as_str()).collect(),
        judges: bound.file.judges.word(),
        waivable: bound.file.waivable,
        limits: limits.collect(),
        waivers,
        trials: trials.collect(),
        files: files.to_vec(),
    })
}

fn note<'b>(bound: &'b Bound, name: &str) -> Option<&'b str> {
    bound.file.limits.iter().find(|written| written.name == name)?.note.as_deref()
}

fn text(explained: &Explained<'_>, bound: Option<&Bound>, sources: &Sources) -> String {
    let rule = explained.rule;
    let mut text = String::new();
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", safe::line(words));
    };
    line(&format!("{}: {}", rule.id, rule.title));
    line("");
    if !explained.was.is_empty() {
        line(&format!("was      {}", explained.was.join(", ")));
    }
    line(&format!("why      {}", rule.why));
    line(&format!("judges   each {}", explained.judges));
    let set = |what: &str, value: &str, by: Option<&SetBy>| match by {
        None => vec![format!("{what} {value}, as the rule says")],
        Some(by) => with_chain(
            sources,
            by,
            format!(
                "{what} {value}, set by {}: {} (the rule says {})",
                place(sources, &by.file, by.span),
                by.reason,
                by.own()
            ),
        ),
    };
    for words in set("from    ", &format!("stage {} on", rule.from), rule.from_set_by.as_ref()) {
        // As the rule says is said of a grade; of a stage it goes without saying.
        line(words.strip_suffix(", as the rule says").unwrap_or(&words));
    }
    for words in set("grade   ", rule.grade.word(), rule.grade_set_by.as_ref()) {
        line(&words);
    }
    line(&format!("waivable {}", if explained.waivable { "yes" } else { "no" }));
    if explained.limits.is_empty() && bound.is_some() {
        line("limit    none of its own: it judges against ratings stated in the spec or the stock list");
    }
    for limit in &explained.limits {
        let head =
            format!("limit    {} = {} ({})", limit.name, limit.value.show(Units::AsWritten), limit.basis);
        let lines = match limit.set_by {
            None => {
                let file = explained.files.first().copied().unwrap_or_default();
                vec![format!("{head}, set by {file}")]
            }
            Some(by) => with_chain(
                sources,
                by,
                format!(
                    "{head}, set by {}: {} (the rule says {})",
                    place(sources, &by.file, by.span),
                    by.reason,
                    by.own()
                ),
            ),
        };
        for words in lines {
            line(&words);
        }
        if let Some(note) = limit.note {
            line(&format!("         {note}"));
        }
    }
    for waiver in &explained.waivers {
        for words in waived(waiver, sources) {
            line(&words);
        }
    }
    for citation in &rule.citations {
        line(&format!("source   {}", words::ground(citation)));
    }
    let Some(bound) = bound else {
        line("files    none: it is one of the tool's own rules, on the rulebook itself");
        return text;
    };
    for trial in &bound.file.trials {
        let expect = expected(trial.expect);
        line(&format!("trial    {}: {expect}", trial.name.value));
    }
    line(&format!("files    {} and {}", sources.name(bound.file.file), sources.name(bound.file.script)));
    text.push('\n');
    for script in sources.text(bound.file.script).lines() {
        let _ = writeln!(text, "    {}", safe::line(script));
    }
    text
}

fn expected(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Pass => "passes",
        Wanted::Fault => "is a fault",
        Wanted::NotApplicable => "is not applicable",
        Wanted::CannotJudge => "cannot be judged",
    }
}

/// Who set a value, and below it everybody who did, where that was more than one.
fn with_chain(sources: &Sources, by: &SetBy, head: String) -> Vec<String> {
    let mut lines = vec![head];
    if by.chain.len() > 2 {
        lines.extend(by.chain.iter().map(|setting| {
            let reason = setting.reason.as_ref().map_or(String::new(), |reason| format!(": {reason}"));
            format!("         - {}, {}{reason}", setting.value, place(sources, &setting.file, setting.span))
        }));
    }
    lines
}

fn waived(waiver: &WaiverOf<'_>, sources: &Sources) -> Vec<String> {
    let on = waiver.item.map_or("the build".to_owned(), |item| format!("`{item}`"));
    let builds = match waiver.builds.as_slice() {
        [] => String::new(),
        builds => format!(" of {}", builds.join(", ")),
    };
    let held = waiver.waived;
    let standing = match (waiver.allowed, waiver.has_run_out) {
        (false, _) => ", which is not allowed",
        (true, true) => ", which is past",
        (true, false) => "",
    };
    let mut lines = vec![format!(
        "waiver   {on}{builds}: {} by {} until {}{standing}, {}: {}",
        held.kind.word(),
        held.who,
        held.until,
        place(sources, &held.file, held.span),
        held.reason
    )];
    if held.chain.len() > 1 {
        lines.extend(held.chain.iter().map(|setting| {
            format!("         - {}, {}", setting.value, place(sources, &setting.file, setting.span))
        }));
    }
    lines
}

fn place(sources: &Sources, file: &str, span: Option<Span>) -> String {
    span.map_or(file.to_owned(), |span| format!("{file}:{}", sources.locate(span).line))
}
