//! The page on the spec format has every field of every table.

use pintle_spec::schema;

use crate::tool::top;

#[test]
fn the_page_has_every_field() {
    let page = std::fs::read_to_string(top().join("docs/src/spec-format.md")).unwrap();
    let rows: Vec<&str> = page.lines().filter(|line| line.starts_with("| `")).collect();
    let mut missing = Vec::new();
    for schema in schema::ALL {
        for field in schema.fields.iter().filter(|field| !TOLD.contains(&field.key)) {
            let opens = format!("| `{}` |", field.key);
            let required = if field.required { "| required |" } else { "| |" };
            let told = rows.iter().any(|row| {
                row.starts_with(&opens)
                    && row.ends_with(&format!("| {} |", field.doc))
                    && row.contains(required)
            });
            if !told {
                missing.push(format!("{}: {opens} … {required} {} |", schema.name, field.doc));
            }
        }
    }
    assert!(missing.is_empty(), "docs/src/spec-format.md lacks, or tells otherwise:\n{}", missing.join("\n"));
}

/// Fields that the page tells in words of its own, or as headings.
const TOLD: &[&str] = &[
    "build", "trailer", "tow", "people", "item", "tank", "locker", "bulkhead", "berth", "vent", "opening",
    "load", "either", "gas", "electric", "water", "quote", "record", "assume", "state", "part",
    // Topics of `[assume]`, each with a table.
    "space", "roof", "anchor", "air", "road", "sway", "scale",
];
