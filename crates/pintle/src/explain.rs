//! `pintle explain`: what a rule judges, why, and which limit is in force and who set it.

use std::fmt::Write as _;

use pintle_calc::topics;
use pintle_finding::{Problem, nearest};
use pintle_quantity::Units;
use pintle_report::{human, safe, words};
use pintle_rulebook::{Bound, Wanted};
use pintle_source::Sources;

use crate::call::{Call, Explain, Figures, Format};
use crate::exit::Exit;
use crate::figures;
use crate::print;
use crate::shop::Shops;

/// Runs the command.
pub(crate) fn run(call: &Call, explain: &Explain) -> Exit {
    let look = print::look(call);
    let shop = Shops::new(call.rulebook.as_deref()).of(&explain.at);
    if !shop.problems.is_empty() {
        print::out(&human::problems(&shop.problems, &shop.sources, &look));
        return Exit::Wrong;
    }
    if let Some(bound) = shop.rulebook.rule(&explain.rule) {
        print::out(&text(bound, &shop.sources));
        return Exit::Released;
    }
    let ids = || shop.rulebook.ids();
    // A rule's name without its pack is taken for what it is.
    let by_name = ids().find(|id| id.rsplit('/').next() == Some(explain.rule.as_str()));
    // A topic, or a figure of one, is explained by how it came about in the builds there.
    let topic = explain.rule.split('/').next().unwrap_or_default();
    let near = by_name.or_else(|| nearest(&explain.rule, ids()));
    if near.is_none() && topics::find(topic).is_some() {
        let figures = Figures {
            paths: vec![explain.at.clone()],
            topics: vec![explain.rule.clone()],
            format: Format::Human,
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

fn text(bound: &Bound, sources: &Sources) -> String {
    let rule = &bound.rule;
    let mut text = String::new();
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", safe::line(words));
    };
    line(&format!("{}: {}", rule.id, rule.title));
    line("");
    line(&format!("why      {}", rule.why));
    line(&format!("judges   each {}", bound.file.judges.word()));
    line(&format!("from     stage {} on", rule.from));
    line(&match &rule.grade_set_by {
        None => format!("grade    {}, as the rule says", rule.grade),
        Some(set) => format!(
            "grade    {}, set by {}: {} (the rule says {})",
            rule.grade,
            place(sources, set),
            set.reason,
            set.was
        ),
    });
    line(&format!("waivable {}", if bound.file.waivable { "yes" } else { "no" }));
    if bound.limits.is_empty() {
        line("limit    none of its own: it judges against ratings stated in the spec or the stock list");
    }
    for limit in &bound.limits {
        let shown = limit.value.show(Units::AsWritten);
        line(&match &limit.set_by {
            None => format!(
                "limit    {} = {shown} ({}), set by {}",
                limit.name,
                limit.basis,
                sources.name(bound.file.file)
            ),
            Some(set) => {
                format!(
                    "limit    {} = {shown} ({}), set by {}: {} (the rule says {})",
                    limit.name,
                    limit.basis,
                    place(sources, set),
                    set.reason,
                    set.was
                )
            }
        });
        let note = bound
            .file
            .limits
            .iter()
            .find(|written| written.name == limit.name)
            .and_then(|written| written.note.as_ref());
        if let Some(note) = note {
            line(&format!("         {note}"));
        }
    }
    for citation in &rule.citations {
        line(&format!("source   {}", words::ground(citation)));
    }
    for trial in &bound.file.trials {
        let expect = match trial.expect {
            Wanted::Pass => "passes",
            Wanted::Fault => "is a fault",
            Wanted::NotApplicable => "is not applicable",
            Wanted::CannotJudge => "cannot be judged",
        };
        line(&format!("trial    {}: {expect}", trial.name.value));
    }
    line(&format!("files    {} and {}", sources.name(bound.file.file), sources.name(bound.file.script)));
    text.push('\n');
    for script in sources.text(bound.file.script).lines() {
        let _ = writeln!(text, "    {}", safe::line(script));
    }
    text
}

fn place(sources: &Sources, set: &pintle_finding::SetBy) -> String {
    set.span.map_or(set.file.clone(), |span| format!("{}:{}", set.file, sources.locate(span).line))
}
