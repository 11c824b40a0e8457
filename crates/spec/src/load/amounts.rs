//! How much of loads and of water may ride along: what each part states of it by itself.

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::{Quantity, Units};
use pintle_source::Spanned;

use crate::build::{Item, Table};
use crate::schema::item;
use crate::schema::kinds::load;
use crate::schema::kinds::tank::{self, on_road};

/// Says what is wrong with the amounts of a load or a tank.
pub(super) fn check_amounts(item: &Item, problems: &mut Vec<Problem>) {
    match item.table {
        Table::Load => check_load(item, problems),
        Table::Tank => {
            let Some(road) = item.record.table(&tank::ON_ROAD) else { return };
            let most = road.quantity(&on_road::MOST).map(|most| ("most", most));
            refuse_least_over(&road.what, road.quantity(&on_road::LEAST), most, problems);
        }
        _ => {}
    }
}

fn check_load(item: &Item, problems: &mut Vec<Problem>) {
    let record = &item.record;
    if record.value(item::MASS.key).is_none() && !record.is_refused(item::MASS.key) {
        problems.push(
            Problem::new("missing-value", format!("{} has no `mass`", record.what))
                .at(Label::new(record.span, Role::Missing, "`mass` is missing here"))
                .help("give the most of it that rides along, such as `mass = \"150 lb\"`"),
        );
    }
    if let Some(removable) = record.value(item::REMOVABLE.key) {
        problems.push(
            Problem::new("wrong-field", format!("`removable` means nothing on {}", record.what))
                .at(Label::new(removable.span, Role::Subject, "a load is not fitted"))
                .help("leave it out; `least = \"0 lb\"` says that the load may stay at home"),
        );
    }
    let most = record.quantity(&item::MASS).map(|mass| ("mass", mass));
    refuse_least_over(&record.what, record.quantity(&load::LEAST), most, problems);
}

fn refuse_least_over(
    what: &str,
    least: Option<Spanned<Quantity>>,
    most: Option<(&str, Spanned<Quantity>)>,
    problems: &mut Vec<Problem>,
) {
    let (Some(least), Some((key, most))) = (least, most) else { return };
    if least.value.at_most(most.value) == Ok(true) {
        return;
    }
    let [least_shown, most_shown] = [least.value, most.value].map(|amount| amount.show(Units::AsWritten));
    let message =
        format!("`least` of {what} is `{least_shown}`, which is more than its `{key}`, `{most_shown}`");
    problems.push(
        Problem::new("wrong-range", message)
            .at(Label::new(least.span, Role::Subject, "the least"))
            .at(Label::new(most.span, Role::Subject, "the most"))
            .help(format!("give a `least` that is no more than `{key}`")),
    );
}
