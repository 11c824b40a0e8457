//! The rule book: one page a rule, with an example that fails, as the tool shows it, and one that passes. Made from the
//! rules themselves; a test keeps the pages fresh.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use pintle_finding::{Inspection, Reading, Verdict};
use pintle_quantity::Units;
use pintle_report::{Look, human, words};
use pintle_rulebook::{Bases, Bound, Rulebook, Settings, Trial, Trials, Wanted, builtin_packs};
use pintle_source::Sources;

use crate::tool::top;

const FOLDER: &str = "docs/src/rules";
const SUMMARY: &str = "docs/src/SUMMARY.md";
/// Between these two lines of the summary stand the pages of this book.
const BEGIN: &str = "# The rule book";
const END: &str = "# For those who work on Pintle";

struct Book {
    sources: Sources,
    rulebook: Rulebook,
    bases: Bases,
}

impl Book {
    fn open() -> Self {
        let (mut sources, mut problems) = (Sources::new(), Vec::new());
        let rulebook =
            Rulebook::assemble(&mut sources, &Settings::default(), &builtin_packs(), &mut problems);
        let bases = Bases::builtin(&mut sources, &mut problems);
        assert_eq!(problems, []);
        Self { sources, rulebook, bases }
    }

    /// Every page, by its place under the book's folder.
    fn pages(&self) -> BTreeMap<String, String> {
        let none = Bases::default();
        let trials = Trials::new(&self.rulebook, &self.bases, &none, &self.sources);
        let mut pages = BTreeMap::new();
        let mut packs: BTreeMap<&str, String> = BTreeMap::new();
        for bound in &self.rulebook.rules {
            let id = &bound.rule.id;
            let (pack, name) = id.split_once('/').unwrap();
            pages.insert(format!("{id}.md"), self.page(bound, &trials));
            let list = packs.entry(pack).or_insert_with(|| {
                format!(
                    "# {pack}\n\n| rule | grade | from | finds | mostly rests on |\n|---|---|---|---|---|\n"
                )
            });
            let basis = bound.rule.citations.first().unwrap().basis;
            let (grade, from, title) = (bound.rule.grade, bound.rule.from, &bound.rule.title);
            writeln!(list, "| [`{name}`]({pack}/{name}.md) | {grade} | {from} | {title} | {basis} |")
                .unwrap();
        }
        pages.extend(packs.into_iter().map(|(pack, list)| (format!("{pack}.md"), list)));
        pages
    }

    fn page(&self, bound: &Bound, trials: &Trials<'_>) -> String {
        let rule = &bound.rule;
        let mut page = format!("# {}\n\n**{}.** {}\n\n", rule.id, capital(&rule.title), rule.why);
        let waived = if bound.file.waivable { "may be waived" } else { "may not be waived" };
        let judges = bound.file.judges;
        let subject = if judges.takes_figures() {
            format!("each figure `{}`: {}", judges.word(), judges.noun())
        } else {
            format!("each {}", judges.word())
        };
        let (grade, from) = (rule.grade, rule.from);
        writeln!(page, "Grade {grade}; judged from the stage of {from} on; {waived}. Judges {subject}.\n")
            .unwrap();
        if !bound.file.was.is_empty() {
            let was: Vec<String> = bound.file.was.iter().map(|was| format!("`{}`", was.value)).collect();
            writeln!(
                page,
                "It was {} before; whoever writes that means this rule, and is told.\n",
                was.join(", ")
            )
            .unwrap();
        }
        if bound.limits.is_empty() {
            page.push_str("It has no limit of its own: it judges against what the spec, the stock list or the place states, or a condition.\n");
        } else {
            page.push_str("| limit | value | basis | |\n|---|---|---|---|\n");
            for limit in &bound.limits {
                let note = bound
                    .file
                    .limits
                    .iter()
                    .find(|held| held.name == limit.name)
                    .and_then(|held| held.note.as_deref());
                let value = limit.value.show(Units::AsWritten);
                writeln!(
                    page,
                    "| `{}` | {value} | {} | {} |",
                    limit.name,
                    limit.basis,
                    cell(note.unwrap_or_default())
                )
                .unwrap();
            }
        }
        page.push_str("\nIt rests on:\n\n");
        for citation in &rule.citations {
            writeln!(page, "- {}", words::ground(citation)).unwrap();
        }
        self.example(&mut page, bound, trials, Wanted::Fault);
        self.example(&mut page, bound, trials, Wanted::Pass);
        page.push_str("\n## The script\n\n```text\n");
        page.push_str(self.sources.text(bound.file.script).trim_end());
        page.push_str("\n```\n\nThe examples are of an invented shop. Figures are computed: weigh the real trailer; gas and mains work belongs to qualified people.\n");
        page
    }

    /// The first trial that comes out so, and what the tool says of it.
    fn example(&self, page: &mut String, bound: &Bound, trials: &Trials<'_>, wanted: Wanted) {
        let of_sort = |trial: &&Trial| trial.expect == wanted;
        let trial = bound
            .file
            .trials
            .iter()
            .find(of_sort)
            .unwrap_or_else(|| panic!("{}: no such trial", bound.rule.id));
        let result = trials.alone(bound, trial);
        assert_eq!(result.failure, None, "{}: {}", bound.rule.id, trial.name.value);
        let (head, verdict) = match wanted {
            Wanted::Fault => ("A build that has the fault", Verdict::Fault),
            _ => ("A build that has not", Verdict::Pass),
        };
        let reading = result.readings.iter().find(|reading| reading.verdict == verdict).unwrap();
        let written = self.written(trial);
        write!(page, "\n## {head}\n\n```toml\n{written}\n```\n\n```text\n{}\n```\n", self.shown(reading))
            .unwrap();
    }

    /// The trial as its author wrote it.
    fn written(&self, trial: &Trial) -> String {
        let span = trial.name.span;
        let text = self.sources.text(span.source);
        let before = text.get(..span.start as usize).unwrap();
        let begin = before.rfind("[[trial]]").unwrap();
        let rest = text.get(begin..).unwrap();
        let end = rest.find("\n\n").unwrap_or(rest.len());
        rest.get(..end).unwrap().trim_end().to_owned()
    }

    fn shown(&self, reading: &Reading) -> String {
        if reading.verdict == Verdict::Pass {
            return format!("pass: {}", reading.sentence(Units::AsWritten));
        }
        let inspection = Inspection { readings: vec![reading.clone()], ..Inspection::default() };
        let look = Look { width: 100, ..Look::default() };
        human::findings(&inspection, &self.sources, &look).trim().to_owned()
    }
}

fn capital(title: &str) -> String {
    let mut letters = title.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

/// The lines of the summary for the pages, pack by pack.
fn listed(pages: &BTreeMap<String, String>) -> String {
    let mut list = String::from("\n");
    let packs: BTreeSet<&str> =
        pages.keys().filter_map(|page| page.split_once('/')).map(|(pack, _)| pack).collect();
    for pack in packs {
        writeln!(list, "- [{pack}](rules/{pack}.md)").unwrap();
        for page in
            pages.keys().filter(|page| page.strip_prefix(pack).is_some_and(|rest| rest.starts_with('/')))
        {
            let name = page.trim_end_matches(".md").split_once('/').unwrap().1;
            writeln!(list, "  - [{name}](rules/{page})").unwrap();
        }
    }
    list.push('\n');
    list
}

fn on_disk() -> BTreeSet<String> {
    let folder = top().join(FOLDER);
    let mut found = BTreeSet::new();
    let mut folders = vec![folder.clone()];
    while let Some(next) = folders.pop() {
        for entry in std::fs::read_dir(next).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                found.insert(path.strip_prefix(&folder).unwrap().to_str().unwrap().to_owned());
            }
        }
    }
    found
}

/// Set `PINTLE_WRITE_PAGES` to write them anew.
#[test]
fn the_pages_of_the_rule_book_are_fresh() {
    let pages = Book::open().pages();
    let summary = std::fs::read_to_string(top().join(SUMMARY)).unwrap();
    let (head, rest) = summary.split_once(BEGIN).unwrap();
    let (_, tail) = rest.split_once(END).unwrap();
    let summary_now = format!("{head}{BEGIN}\n{}{END}{tail}", listed(&pages));
    if std::env::var_os("PINTLE_WRITE_PAGES").is_some() {
        for stale in on_disk().difference(&pages.keys().cloned().collect()) {
            std::fs::remove_file(top().join(FOLDER).join(stale)).unwrap();
        }
        for (path, page) in &pages {
            let path = top().join(FOLDER).join(path);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, page).unwrap();
        }
        std::fs::write(top().join(SUMMARY), &summary_now).unwrap();
    }
    let how = "run this test with PINTLE_WRITE_PAGES=1";
    assert_eq!(on_disk(), pages.keys().cloned().collect(), "{how}");
    for (path, page) in &pages {
        let written = std::fs::read_to_string(top().join(FOLDER).join(path)).unwrap();
        assert!(written == *page, "{FOLDER}/{path} is not fresh: {how}");
    }
    let summary = std::fs::read_to_string(top().join(SUMMARY)).unwrap();
    assert!(summary == summary_now, "{SUMMARY} is not fresh: {how}");
}
