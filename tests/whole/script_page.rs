//! The page for rule authors lists all that a script can ask for and call, as the tool's own tables say it.

use std::fmt::Write as _;

use pintle_calc::topics;
use pintle_script::{FUNCTIONS, Section, comes_to, sections};

use crate::tool::{demo_shop, pintle_in, top};

const PAGE: &str = "docs/src/script-reference.md";

const HEAD: &str = "# What a script can ask\n\n\
    Made from the tables by which scripts are run and by which they are held against what they ask before they run; a test keeps this\n\
    page fresh, and tries every example. [Writing rules](rules.md) says how a rule is put together.\n\n\
    A name that stands in no table below is an error when the rule is loaded, with the nearest one offered. A value that the spec does\n\
    not give ends the script in *cannot judge*.\n\n";

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn functions(page: &mut String) {
    page.push_str("## Functions\n\n| function | works on | does | such as |\n|---|---|---|---|\n");
    for function in FUNCTIONS {
        let (taken, doc, example) = (function.taken(), cell(function.doc), cell(function.example));
        // A text in backticks within the example is quoted by two of them.
        let ticks = if example.contains('`') { "``" } else { "`" };
        writeln!(page, "| `{}` | {taken} | {doc} | {ticks}{example}{ticks} |", function.name).unwrap();
    }
    page.push_str(
        "\nWhat stands before a point comes first: `reading.at_most(limit)` is `at_most(reading, limit)`. Quantities are added, compared and\n\
         multiplied with `+ - * /` and `< <= > >= == !=`; numbers may stretch them.\n\n",
    );
}

fn section(page: &mut String, section: &Section) {
    let called = section.variable;
    writeln!(page, "### {}\n", section.heading).unwrap();
    match section.judges {
        None => writeln!(page, "Every script finds it as `{called}`.\n").unwrap(),
        Some("space/headroom") => {
            writeln!(page, "A rule that judges a figure, such as `judges = \"space/headroom\"`, finds it as `{called}`.\n").unwrap();
        }
        Some("item") => writeln!(
            page,
            "Every part has these, whatever its kind. A rule that judges `item`, `removable` or a kind finds it as `{called}`.\n"
        )
        .unwrap(),
        Some(judges) => writeln!(page, "A rule that judges `{judges}` finds it as `{called}`.\n").unwrap(),
    }
    page.push_str("| name | is | such as | what it is |\n|---|---|---|---|\n");
    for entry in &section.entries {
        let (holds, doc) = (cell(&entry.holds), cell(entry.doc));
        writeln!(page, "| `{}` | {holds} | `{}` | {doc} |", entry.name, cell(&entry.example)).unwrap();
    }
    page.push('\n');
}

fn figures(page: &mut String) {
    page.push_str(
        "## Figures\n\n\
         A rule that judges one of them, `judges = \"gas/burn_time\"`, is run once for each part that has it, and reads `figure.value`. Any\n\
         other script asks the thing that it is of: `item[\"space/lift_share\"]`, `state[\"space/free_floor\"]`, `build[\"gas/burn_time\"]`;\n\
         `has(item, \"space/lift_share\")` asks first. The pages on [what is worked out](calculation.md) say how.\n\n",
    );
    for topic in topics::ALL {
        let (name, title) = (topic.name, topic.title);
        writeln!(page, "### {name}: {title}\n\n| figure | comes to | what it is |\n|---|---|---|").unwrap();
        for sort in topic.sorts {
            writeln!(page, "| `{}` | {} | {} |", sort.name, cell(&comes_to(sort)), cell(sort.says)).unwrap();
        }
        page.push('\n');
    }
}

fn page() -> String {
    let mut page = String::from(HEAD);
    functions(&mut page);
    page.push_str("## Things\n\nTables within tables are asked with points, entries of lists by number or with `for`.\n\n");
    for one in sections() {
        section(&mut page, &one);
    }
    figures(&mut page);
    page.truncate(page.trim_end().len());
    page.push('\n');
    page
}

/// Set `PINTLE_WRITE_PAGES` to write it anew.
#[test]
fn the_page_of_what_scripts_can_ask_is_fresh() {
    let path = top().join(PAGE);
    let page = page();
    if std::env::var_os("PINTLE_WRITE_PAGES").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(written == page, "{PAGE} is not fresh: run this test with PINTLE_WRITE_PAGES=1");
}

#[test]
fn the_page_has_every_figure_every_function_and_a_section_for_every_kind() {
    let page = page();
    for sort in topics::sorts() {
        assert_eq!(page.matches(&format!("\n| `{}` |", sort.name)).count(), 1, "{}", sort.name);
    }
    for function in FUNCTIONS {
        assert!(page.contains(&format!("\n| `{}` | ", function.name)), "{}", function.name);
    }
    for kind in pintle_spec::item_kinds() {
        assert!(page.contains(&format!("\n### {kind}\n")), "{kind}");
    }
    for (word, properties) in pintle_script::all_properties() {
        for property in properties {
            assert!(page.contains(&format!("\n| `{}` |", property.name)), "{word}.{}", property.name);
        }
    }
}

const RULE: &str = r#"title  = "a part too heavy to lift"
why    = "Two people carry it."
judges = "item"
grade  = "minor"
from   = "design"

[limit.most]
value = "100 lb"
basis = "shop"

[[source]]
basis = "shop"
says  = "what two of us lift"

[[trial]]
name   = "as drawn"
base   = "sound-6x12-round"
expect = "pass"
"#;

/// The page shows how errors of a script look: its script, and what the tool says of it.
#[test]
fn the_errors_in_the_book_are_real() {
    let book = top().join("docs/src/rules.md");
    let page = std::fs::read_to_string(&book).unwrap();
    let (before, rest) = page.split_once("```rhai\n").unwrap();
    let (script, rest) = rest.split_once("```\n").unwrap();
    let (between, rest) = rest.split_once("```text\n").unwrap();
    let (shown, after) = rest.split_once("\n```\n").unwrap();
    let shop = demo_shop();
    let pack = shop.path().join("rules/ours");
    std::fs::create_dir_all(&pack).unwrap();
    std::fs::write(shop.path().join("pintle.toml"), "packs = [\"./rules/ours\"]\n").unwrap();
    std::fs::write(pack.join("too-heavy.toml"), RULE).unwrap();
    std::fs::write(pack.join("too-heavy.rhai"), script).unwrap();
    let ran = pintle_in(shop.path(), &["trial"]);
    assert_eq!(ran.code, 2, "{}", ran.out);
    let said = format!("$ pintle trial\n{}", ran.out.trim_end());
    if std::env::var_os("PINTLE_WRITE_PAGES").is_some() {
        let page = format!("{before}```rhai\n{script}```\n{between}```text\n{said}\n```\n{after}");
        std::fs::write(&book, page).unwrap();
        return;
    }
    assert_eq!(shown, said, "run this test with PINTLE_WRITE_PAGES=1");
}
