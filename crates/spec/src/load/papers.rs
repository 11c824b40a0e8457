//! `[quote]`, and `[record]` besides its tickets: the days in them, and the parts that they name.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};

use super::items::Fitted;
use super::tags::{Sort, Tags, only_once};
use crate::date::day;
use crate::field::Field;
use crate::record::{Record, Value};
use crate::say::{full, shown};
use crate::schema::electric::{outlet_test, skin_test};
use crate::schema::gas::leak_test;
use crate::schema::quote::{self, line};
use crate::schema::record::{
    self, alarm_test, brake_test, change, lamp_test, photo, recheck, serial, sign_off, ticket, torque,
};

/// The days of the record itself.
static OWN_DAYS: &[&Field] = &[&record::DELIVERED, &record::SEEN];
/// Those of the tables in it.
static DAYS_OF_TABLES: &[(&Field, &Field)] = &[
    (&record::LEAK_TEST, &leak_test::DATE),
    (&record::BRAKE_TEST, &brake_test::DATE),
    (&record::LAMP_TEST, &lamp_test::DATE),
    (&record::OUTLET_TEST, &outlet_test::DATE),
    (&record::SKIN_TEST, &skin_test::DATE),
];
/// Those of the lists in it.
static DAYS_OF_LISTS: &[(&Field, &[&Field])] = &[
    (&record::TICKETS, &[&ticket::DATE]),
    (&record::ALARM_TESTS, &[&alarm_test::DATE, &alarm_test::REPLACE]),
    (&record::TORQUES, &[&torque::DATE]),
    (&record::PHOTOS, &[&photo::DATE]),
    (&record::RECHECKS, &[&recheck::DUE, &recheck::DONE]),
    (&record::CHANGES, &[&change::DATE, &change::REVIEWED]),
    (&record::SIGN_OFF, &[&sign_off::DATE]),
];

/// Lists whose entries are called by one of their fields, and what they are then called.
static NAMED: &[(&Field, &Field, &str)] = &[
    (&quote::LINES, &line::WHAT, "the line"),
    (&record::ALARM_TESTS, &alarm_test::ALARM, "the test of"),
    (&record::TORQUES, &torque::ITEM, "the torque of"),
    (&record::RECHECKS, &recheck::WHAT, "the recheck of"),
    (&record::CHANGES, &change::WHAT, "the change"),
    (&record::SIGN_OFF, &sign_off::ROLE, "the signature as"),
];

/// A quote or a record with each entry called by its name, so that what is missing of it says of which.
pub(super) fn with_names(paper: &Record) -> Record {
    let mut named = paper.clone();
    for (list, field, noun) in NAMED {
        let Some(Value::Tables(entries)) = named.value_mut(list.key) else { continue };
        for entry in entries {
            let called = entry.text(field).map(|text| shown(text.value));
            let called = called.or_else(|| entry.word(field).map(|word| word.value.to_owned()));
            if let Some(called) = called {
                entry.rename(&format!("{noun} `{called}`"));
            }
        }
    }
    named
}

/// Says which days are none, and which tags name no part that can be meant.
pub(super) fn check(record: Option<&Record>, fitted: &Fitted, problems: &mut Vec<Problem>) {
    let Some(record) = record else { return };
    for field in OWN_DAYS {
        refuse_no_day(record, field, problems);
    }
    for (table, field) in DAYS_OF_TABLES {
        if let Some(table) = record.table(table) {
            refuse_no_day(table, field, problems);
        }
    }
    for (list, fields) in DAYS_OF_LISTS {
        for entry in record.tables(list) {
            if full(problems) {
                return;
            }
            for field in *fields {
                refuse_no_day(entry, field, problems);
            }
        }
    }
    refuse_no_part(record, (&record::ALARM_TESTS, &alarm_test::ALARM, Sort::Alarm), fitted, problems);
    refuse_no_part(record, (&record::TORQUES, &torque::ITEM, Sort::Fitted), fitted, problems);
    refuse_no_part(record, (&record::SERIALS, &serial::ITEM, Sort::Part), fitted, problems);
}

/// The same of a quote. A part may stand in several of its lines.
pub(super) fn check_quote(quote: Option<&Record>, fitted: &Fitted, problems: &mut Vec<Problem>) {
    let Some(quote) = quote else { return };
    refuse_no_day(quote, &quote::DATE, problems);
    refuse_no_day(quote, &quote::PROMISED, problems);
    for entry in quote.tables(&quote::LINES) {
        if full(problems) {
            return;
        }
        if let Some(tag) = entry.text(&line::ITEM).filter(|tag| tag.value != line::TRAILER) {
            let tags = Tags { fitted, what: "`line` of the quote" };
            tags.find(tag.value, tag.span, Sort::Part, problems);
        }
    }
}

fn refuse_no_part(
    record: &Record,
    (list, field, sort): (&'static Field, &'static Field, Sort),
    fitted: &Fitted,
    problems: &mut Vec<Problem>,
) {
    let mut seen = BTreeMap::new();
    let what = format!("`{}` of the record", list.key);
    for entry in record.tables(list) {
        if full(problems) {
            return;
        }
        let Some(tag) = entry.text(field) else { continue };
        if only_once(tag, &what, &mut seen, problems) {
            Tags { fitted, what: &what }.find(tag.value, tag.span, sort, problems);
        }
    }
}

fn refuse_no_day(record: &Record, field: &'static Field, problems: &mut Vec<Problem>) {
    let Some(given) = record.text(field).filter(|given| day(given.value).is_none()) else { return };
    problems.push(
        Problem::new(
            "no-day",
            format!("`{}` of {} is no day: `{}`", field.key, record.what, shown(given.value)),
        )
        .at(Label::new(given.span, Role::Subject, "no day of the calendar"))
        .help("write year, month and day, such as `2026-05-04`"),
    );
}
