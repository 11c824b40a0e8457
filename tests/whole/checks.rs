//! The page that lists all checks from outside is what the tables say.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::tool::top;

/// The order of the page: that of a walk round the trailer, weights first.
const TOPICS: [&str; 12] =
    ["weights", "space", "roof", "anchor", "gas", "air", "electric", "water", "road", "tow", "sway", "scale"];
const BASES: [&str; 4] = ["published", "computed", "common practice", "memory"];
const PAGE: &str = "docs/src/calculation/checks.md";

type Row = BTreeMap<String, toml::Value>;

fn rows(topic: &str) -> Vec<Row> {
    let path = top().join(format!("crates/calc/figures/{topic}.toml"));
    let file: Row = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let rows = file.get("check").and_then(toml::Value::as_array).cloned().unwrap_or_default();
    rows.iter().map(|row| row.clone().try_into().unwrap()).collect()
}

fn text<'r>(row: &'r Row, key: &str) -> &'r str {
    row[key].as_str().unwrap()
}

fn page() -> String {
    let all: Vec<(&str, Vec<Row>)> = TOPICS.map(|topic| (topic, rows(topic))).into();
    let count = |rows: &[Row], basis: &str| rows.iter().filter(|row| text(row, "basis") == basis).count();
    let mut page = String::from(
        "# Checks from outside\n\n\
         Made from the tables in `crates/calc/figures`, which the tests run; a test keeps this page fresh. *Published*: the figure was\n\
         seen in the text named. *Computed*: by a general library or a formula named. *Common practice*: what the trade does, no source.\n\
         *Memory*: nobody looked it up. Programs in another language work each topic out again besides: see `tests/oracles`.\n\n\
         | topic | checks | published | computed | common practice | memory |\n|---|---|---|---|---|---|\n",
    );
    let mut line = |name: &str, counts: [usize; 4]| {
        let [published, computed, practice, memory] = counts;
        let sum: usize = counts.iter().sum();
        writeln!(page, "| {name} | {sum} | {published} | {computed} | {practice} | {memory} |").unwrap();
    };
    let mut sums = [0; 4];
    for (topic, rows) in &all {
        let counts = BASES.map(|basis| count(rows, basis));
        sums.iter_mut().zip(counts).for_each(|(sum, count)| *sum += count);
        line(topic, counts);
    }
    line("all", sums);
    for (topic, rows) in &all {
        writeln!(page, "\n## {topic}\n\n| check | of | basis | source |\n|---|---|---|---|").unwrap();
        for row in rows {
            let cell = |key| text(row, key).replace('|', "\\|");
            let (id, of, basis, source) = (cell("id"), cell("of"), cell("basis"), cell("source"));
            writeln!(page, "| {id} | `{of}` | {basis} | {source} |").unwrap();
        }
    }
    page
}

/// Set `PINTLE_WRITE_PAGES` to write it anew.
#[test]
fn the_page_of_checks_is_fresh() {
    let path = top().join(PAGE);
    let page = page();
    if std::env::var_os("PINTLE_WRITE_PAGES").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(written == page, "{PAGE} is not fresh: run this test with PINTLE_WRITE_PAGES=1");
}
