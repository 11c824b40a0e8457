//! How much of loads and of water may ride along: what each part states of it by itself.

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::{Quantity, Units};
use pintle_source::Spanned;

use crate::build::{Item, Table};
use crate::schema::item;
use crate::schema::kinds::load;
use crate::schema::kinds::tank::{self, on_road};

/// The least and the most of something that may ride along.
#[derive(Clone, Copy)]
pub(super) struct Amounts {
    pub(super) least: Spanned<Quantity>,
    pub(super) most: Spanned<Quantity>,
}

impl Amounts {
    /// Those that a load states, where both can be.
    pub(super) fn of_load(item: &Item) -> Option<Self> {
        let (least, most) = (item.record.quantity(&load::LEAST)?, item.record.quantity(&item::MASS)?);
        Self { least, most }.sound().filter(|_| item.table == Table::Load)
    }

    /// Those that a tank states for the road, where both can be.
    pub(super) fn of_tank(item: &Item) -> Option<Self> {
        let road = item.record.table(&tank::ON_ROAD)?;
        let (least, most) = (road.quantity(&on_road::LEAST)?, road.quantity(&on_road::MOST)?);
        Self { least, most }.sound()
    }

    fn sound(self) -> Option<Self> {
        (self.least.value.at_most(self.most.value) == Ok(true)).then_some(self)
    }
}

/// How full a tank may be on the road: empty to full when it does not say; nothing where what it says cannot be.
pub(super) fn on_the_road(tank: &Item) -> Option<(Quantity, Quantity)> {
    let stated = |amounts: Amounts| (amounts.least.value, amounts.most.value);
    match tank.record.value(tank::ON_ROAD.key) {
        Some(_) => Amounts::of_tank(tank).map(stated),
        None if tank.record.is_refused(tank::ON_ROAD.key) => None,
        None => Some((Quantity::share(0.0), Quantity::share(1.0))),
    }
}

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
