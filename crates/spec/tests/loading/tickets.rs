//! Scale tickets: the states they name, and the days of the record.

use super::bench::{STOCK, says_of, sound, with};

const STATES: &str =
    "[[state]]\nname = \"homeward\"\nuse = \"road\"\n[[state]]\nname = \"outward\"\nuse = \"road\"\n";

#[test]
fn a_ticket_names_a_state_of_the_spec() {
    let build = sound(
        &with(&format!(
            "{STATES}[[record.ticket]]\nstate = \"outward\"\ngross = \"1,650 lb\"\nresolution = \"20 lb\"\ndate = \"2026-05-02\"\n"
        )),
        STOCK,
    );
    let record = build.record.unwrap();
    let tickets = record.tables(&pintle_spec::schema::record::TICKETS);
    assert_eq!(tickets.len(), 1);
    let gross = tickets[0].quantity(&pintle_spec::schema::record::ticket::GROSS).unwrap();
    assert!((gross.value.si() - 1650.0 * 0.453_592_37).abs() < 1e-9);
}

#[test]
fn a_state_that_is_not_there_is_refused() {
    says_of(
        &format!("{STATES}[[record.ticket]]\nstate = \"homewards\"\n"),
        &[(
            "unknown-state",
            "a scale ticket names the state `homewards`, and there is none",
            "did you mean `homeward`?",
            "\"homewards\"",
            8,
        )],
    );
    says_of(
        &format!("{STATES}[[record.ticket]]\nstate = \"x\"\n"),
        &[(
            "unknown-state",
            "a scale ticket names the state `x`, and there is none",
            "the states are `homeward` and `outward`",
            "\"x\"",
            8,
        )],
    );
    says_of(
        "[[record.ticket]]\nstate = \"x\"\n",
        &[(
            "unknown-state",
            "a scale ticket names the state `x`, and there is none",
            "add a `[[state]]` for how the trailer stood on the scale",
            "\"x\"",
            2,
        )],
    );
}

#[test]
fn a_ticket_without_a_state_is_refused() {
    says_of(
        "[[record.ticket]]\ngross = \"1,650 lb\"\n",
        &[(
            "missing-value",
            "`ticket` of `record` of the spec has no `state`",
            "give `state`: the state in which the trailer stood on the scale, by its name",
            "[[record.ticket]]",
            1,
        )],
    );
}

#[test]
fn days_are_days_of_the_calendar() {
    for day in ["2026-02-30", "2 May 2026", "05/02/2026", "2026-05-02T10:00"] {
        says_of(
            &format!("[record]\ndelivered = \"{day}\"\n"),
            &[(
                "no-day",
                &format!("`delivered` of `record` of the spec is no day: `{day}`"),
                "write year, month and day, such as `2026-05-04`",
                &format!("\"{day}\""),
                2,
            )],
        );
    }
    sound(&with("[record]\ndelivered = \"2024-02-29\"\n"), STOCK);
}
