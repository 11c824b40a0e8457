//! `pintle rules`: the rules in use, and which of them rest on what.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use pintle_calc::Place;
use pintle_calc::topics;
use pintle_finding::{Basis, Citation, Problem, nearest};
use pintle_quantity::Units;
use pintle_report::words::{counted, ground};
use pintle_report::{human, safe};
use pintle_rulebook::{Bound, Rulebook};
use pintle_source::Sources;
use serde_json::{Value, json};

use crate::call::{Call, Format, Rules};
use crate::exit::Exit;
use crate::print;
use crate::shop::Shops;
use crate::trial::{picks, wanted};

/// Runs the command.
pub(crate) fn run(call: &Call, asked: &Rules) -> Exit {
    let look = print::look(call);
    let shop = Shops::new(call.rulebook.as_deref()).of(&asked.at);
    let rulebook = &shop.rulebook;
    let (wanted, mut problems) = wanted(&asked.wanted, rulebook);
    problems.extend(asked.place.as_deref().and_then(|name| unknown_place(name, rulebook)));
    if shop.is_wrong() || Problem::any_wrong(&problems) {
        print::out(&human::problems(&shop.problems, &shop.sources, &look));
        print::out(&human::problems(&problems, &Sources::new(), &look));
        return Exit::Wrong;
    }
    let mut aside = print::Aside::new(look);
    aside.say(&shop.problems, &shop.sources);
    aside.say(&problems, &Sources::new());
    let rules: Vec<&Bound> = rulebook.rules.iter().filter(|bound| is_asked(bound, &wanted, asked)).collect();
    let place = asked.place.as_deref().and_then(|name| rulebook.places.get(name));
    print::out(&match asked.format {
        Format::Human => for_people(&rules, asked, place),
        Format::Plain => plain(&rules),
        Format::Json => in_json(&rules, place),
    });
    Exit::Released
}

fn unknown_place(name: &str, rulebook: &Rulebook) -> Option<Problem> {
    if rulebook.places.get(name).is_some() {
        return None;
    }
    let help = match nearest(name, rulebook.places.all().map(|place| place.name.as_str())) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "places are named such as `us-tx`, `us`, `eu`".to_owned(),
    };
    Some(Problem::new("unknown-place", format!("no place is called `{name}`")).help(help))
}

fn is_asked(bound: &Bound, wanted: &[&str], asked: &Rules) -> bool {
    let rule = &bound.rule;
    picks(wanted, &rule.id)
        && asked.grade.is_none_or(|grade| rule.grade == grade)
        && asked.stage.is_none_or(|stage| rule.from <= stage)
        && asked.basis.is_none_or(|basis| bases(bound).contains(&basis))
        && (asked.place.is_none() || goes_by_place(bound))
        && asked
            .source
            .as_deref()
            .is_none_or(|text| rule.citations.iter().any(|citation| speaks_of(citation, text)))
}

/// What its limits and sources are worth.
fn bases(bound: &Bound) -> BTreeSet<Basis> {
    let sources = bound.rule.citations.iter().map(|citation| citation.basis);
    bound.limits.iter().map(|limit| limit.basis).chain(sources).collect()
}

fn goes_by_place(bound: &Bound) -> bool {
    topics::find_sort(bound.file.judges.word()).is_some_and(|sort| sort.by_place)
}

fn speaks_of(citation: &Citation, text: &str) -> bool {
    let text = text.to_lowercase();
    [&citation.text, &citation.says].into_iter().any(|words| words.to_lowercase().contains(&text))
}

/// What it mostly rests on: its first source.
fn main_basis(bound: &Bound) -> Basis {
    bound.rule.citations.first().map_or(Basis::Memory, |citation| citation.basis)
}

fn for_people(rules: &[&Bound], asked: &Rules, place: Option<&Place>) -> String {
    let mut text = String::new();
    let width = rules.iter().map(|bound| bound.rule.id.len()).max().unwrap_or(0);
    for bound in rules {
        let rule = &bound.rule;
        let line =
            format!("{:width$}  {:8}  {:8}  {}", rule.id, rule.grade.word(), rule.from.word(), rule.title);
        let _ = writeln!(text, "{}", safe::line(&line));
        for citation in rule
            .citations
            .iter()
            .filter(|citation| asked.source.as_deref().is_some_and(|text| speaks_of(citation, text)))
        {
            let _ = writeln!(text, "{}", safe::line(&format!("{:width$}  {}", "", ground(citation))));
        }
    }
    if let Some(place) = place {
        text.push_str(&asks(place));
    }
    text.push_str(&counts(rules));
    text
}

/// What a place asks, each figure with its source.
fn asks(place: &Place) -> String {
    let mut text = format!("\n{} asks:\n", safe::line(&place.title));
    for (field, figure) in &place.figures {
        let ground = &figure.ground;
        let verify = if ground.verify { "; look it up before relying on it" } else { "" };
        let shown = figure.value.value.show(Units::AsWritten);
        let line = format!("  {}: {shown} ({}{verify})", field.doc, ground.origin.line());
        let _ = writeln!(text, "{}", safe::line(&line));
    }
    text.push('\n');
    text
}

/// How many there are, by pack and by what they mostly rest on.
fn counts(rules: &[&Bound]) -> String {
    let mut packs: BTreeMap<&str, BTreeMap<Basis, usize>> = BTreeMap::new();
    for bound in rules {
        let pack = bound.rule.id.split('/').next().unwrap_or_default();
        *packs.entry(pack).or_default().entry(main_basis(bound)).or_default() += 1;
    }
    let mut text = format!("{}, by what they mostly rest on\n", counted(rules.len(), "rule"));
    for (pack, counts) in packs {
        let list: Vec<String> = counts.iter().map(|(basis, count)| format!("{count} {basis}")).collect();
        let sum: usize = counts.values().sum();
        let _ = writeln!(text, "{}", safe::line(&format!("  {pack}: {sum} ({})", list.join(", "))));
    }
    text
}

/// One line a rule, tab between fields.
fn plain(rules: &[&Bound]) -> String {
    let mut text = String::new();
    for bound in rules {
        let rule = &bound.rule;
        let fields = [&rule.id, rule.grade.word(), rule.from.word(), main_basis(bound).word(), &rule.title];
        let fields = fields.map(|field| safe::line(field).into_owned());
        let _ = writeln!(text, "{}", fields.join("\t"));
    }
    text
}

fn in_json(rules: &[&Bound], place: Option<&Place>) -> String {
    let rules: Vec<Value> = rules
        .iter()
        .map(|bound| {
            let rule = &bound.rule;
            let limits = bound.limits.iter().map(|limit| {
                json!({ "name": limit.name, "value": limit.value.show(Units::AsWritten), "si": limit.value.si(),
                        "basis": limit.basis.word() })
            });
            let sources = rule.citations.iter().map(|citation| {
                json!({ "basis": citation.basis.word(), "text": citation.text, "says": citation.says,
                        "guideline": citation.guideline })
            });
            json!({
                "rule": rule.id,
                "was": bound.file.was.iter().map(|was| was.value.as_str()).collect::<Vec<_>>(),
                "title": rule.title,
                "why": rule.why,
                "judges": bound.file.judges.word(),
                "grade": rule.grade.word(),
                "from": rule.from.word(),
                "waivable": bound.file.waivable,
                "by_place": goes_by_place(bound),
                "limits": limits.collect::<Vec<_>>(),
                "sources": sources.collect::<Vec<_>>(),
            })
        })
        .collect();
    let place = place.map(|place| {
        let figures = place.figures.iter().map(|(field, figure)| {
            json!({ "figure": field.key, "value": figure.value.value.show(Units::AsWritten), "si": figure.value.value.si(),
                    "source": figure.ground.origin.line(), "verify": figure.ground.verify })
        });
        json!({ "name": place.name, "title": place.title, "figures": figures.collect::<Vec<_>>() })
    });
    let document = json!({ "format": "pintle rules", "version": 1, "rules": rules, "place": place });
    format!("{document:#}\n")
}
