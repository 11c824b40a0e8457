//! The bank hour by hour, against the same worked out by hand, and against the figures that rules ask for.

use super::bench::{LITHIUM, RATED, battery, courses, figures};
use pintle_quantity::{Quantity, Unit};

fn watt_hours(energy: Quantity) -> f64 {
    energy.value_in(Unit::find("Wh").unwrap()).unwrap()
}

/// A bank of 1,200 Wh, 960 Wh of them to take, and 60 W from ten in the evening, four hours.
fn lamp(days: u32, more: &str) -> String {
    battery("a", LITHIUM, RATED)
        + &format!(
            "\n[electric]\ndays = {days}\n{more}\n[[electric.use]]\nwhat = \"lamp\"\npower = \"30 W\"\ncount = 2\n\
             hours = \"4 h\"\nfrom_hour = 22\n"
        )
}

const PANEL: &str = "\n[[item]]\ntag = \"sun\"\nkind = \"solar\"\npower = \"100 W\"\nat = { front = \"10 in\" }\n\
                     [[item]]\ntag = \"mppt\"\nkind = \"charger\"\nsort = \"solar\"\nefficiency = \"100 %\"\nat = { front = \"10 in\" }\n";

#[test]
fn an_evening_by_hand() {
    let all = courses(&lamp(2, ""));
    let [(of, Ok(course))] = all.as_slice() else { panic!("{all:?}") };
    assert_eq!((of.as_str(), course.arrival, course.days()), ("without sun", 18, 2));
    assert!((watt_hours(course.full.quantity) - 1200.0).abs() < 1e-9);
    assert!((watt_hours(course.reserve.quantity) - 240.0).abs() < 1e-9);
    // Arrival at six: nothing until ten, then 60 Wh in each of four hours, on both evenings.
    let held: Vec<f64> = course.hours.iter().map(|hour| watt_hours(hour.held)).collect();
    let by_hand = |hour: usize| {
        let lit = (hour + 18) % 24;
        if (2..22).contains(&lit) { 0.0 } else { 60.0 }
    };
    let mut left = 1200.0;
    for (hour, held) in held.iter().enumerate() {
        left -= by_hand(hour);
        assert!((held - left).abs() < 1e-9, "hour {hour}: {held}, not {left}");
    }
    let (after, least) = course.lowest().unwrap();
    assert_eq!(after, 32, "two o'clock of the second night");
    assert!((watt_hours(least) - 720.0).abs() < 1e-9);
}

#[test]
fn sun_fills_the_bank_and_not_more() {
    let all = courses(
        &lamp(3, "latitude = \"40 °\"\nmonths = [\"june\"]\n")
            .replace("[electric]", &format!("{PANEL}[electric]")),
    );
    let [(dark_of, Ok(dark)), (of, Ok(sunny))] = all.as_slice() else { panic!("{all:?}") };
    assert_eq!((dark_of.as_str(), of.as_str()), ("without sun", "month `june`"));
    assert!(dark.hours.iter().all(|hour| hour.brought.si().abs() < 1e-12));
    let full = sunny.full.quantity.si();
    assert!(sunny.hours.iter().all(|hour| hour.held.si() <= full * (1.0 + 1e-12) && hour.held.si() >= 0.0));
    // 240 Wh a night come back by the next evening, when a hundred watts of panel bring more than that.
    let evening = watt_hours(sunny.hours[24 + 3].held);
    assert!((evening - 1200.0).abs() < 1e-9, "{evening}");
    // At midnight there is no sun, at noon the most.
    let brought = |clock: usize| sunny.hours[(clock + 24 - 18) % 24].brought.si();
    assert!(brought(0).abs() < 1e-12 && (0..24).all(|clock| brought(clock) <= brought(12) * (1.0 + 1e-9)));
}

#[test]
fn courses_end_where_the_figures_say() {
    for more in ["", "latitude = \"40 °\"\nmonths = [\"december\", \"june\"]\n"] {
        let spec = lamp(5, more)
            .replace("[electric]", &format!("{}[electric]", if more.is_empty() { "" } else { PANEL }));
        let found = figures(&spec);
        let all = courses(&spec);
        assert_eq!(all.len(), if more.is_empty() { 1 } else { 3 });
        for (of, course) in all {
            let course = course.unwrap();
            let full = course.full.quantity.si();
            found.close("lowest_charge", &of, course.lowest().unwrap().1.si() / full, "");
            found.close("charge_at_end", &of, course.hours.last().unwrap().held.si() / full, "");
        }
    }
}

#[test]
fn what_is_not_there_and_what_is_not_known() {
    assert!(courses("").is_empty(), "no battery");
    let bare = courses(&battery("a", LITHIUM, RATED));
    assert!(bare.iter().all(|(_, course)| course.is_err()), "{bare:?}");
    let months = courses(&lamp(2, "").replace("[electric]", &format!("{PANEL}[electric]")));
    assert!(months[0].1.is_ok() && months[1].1.is_err(), "{months:?}");
    assert_eq!(months[1].0, "the months that it is used in");
}
