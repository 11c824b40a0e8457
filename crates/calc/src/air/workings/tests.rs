use super::burners::unconfined_room;
use super::nights::WORK_LIMIT;
use super::surroundings::BATTERY_BOX;
use crate::air::{
    ApplianceKind, burner_carbon_dioxide, combustion_area, dew_point, humidity_ratio, in_series, needed,
    saturation_pressure, seconds_to_share, share_after, sleeper_carbon_dioxide, stack_flow,
};
use crate::checks;
use crate::figure::Figure;
use pintle_quantity::{Dimension, Quantity};

#[test]
fn checks_from_outside() {
    checks::run("air", |of, given| {
        let p = || Figure::constant(Quantity::from_si(given.si("P"), Dimension::POWER));
        let vapour = || given.si("phi") * saturation_pressure(given.si("T"));
        match of {
            "needed" => {
                let plan = Figure::constant(Quantity::from_si(given.si("A"), Dimension::AREA));
                let open = given.word("burner") == "open";
                let kind = if open { ApplianceKind::OpenToRoom(0) } else { ApplianceKind::None };
                let row = needed(&plan, kind).unwrap().unwrap();
                let areas = [Some(row.roof), row.high_wall, Some(row.low)];
                areas.into_iter().flatten().map(|area| area.quantity.si()).collect()
            }
            "combustion" => {
                let each = combustion_area(&p()).unwrap().quantity.si();
                vec![each * super::burners::DUCTS, each * super::burners::SINGLE, each]
            }
            "combustion_each" => vec![combustion_area(&p()).unwrap().quantity.si()],
            "unconfined_room" => vec![unconfined_room(given.si("P"))],
            "sleeper" => {
                vec![sleeper_carbon_dioxide(given.si("BMR") * 1e6 / 86_400.0, given.si("M"), 273.15)]
            }
            "burner" => vec![burner_carbon_dioxide(given.si("P"), given.si("H"), given.si("T"))],
            "after" => {
                let out = given.si("Co");
                vec![share_after(out, out, given.si("G"), given.si("Q"), given.si("V"), given.si("t"))]
            }
            "seconds" => vec![seconds_to_share(given.si("Co"), given.si("C"), given.si("G"), given.si("V"))],
            "stack" => {
                vec![stack_flow(given.si("Cd"), given.si("A"), given.si("H"), given.si("Ti"), given.si("To"))]
            }
            "series" => vec![in_series(given.si("a"), given.si("b"))],
            "saturation" => vec![saturation_pressure(given.si("T"))],
            "humidity_ratio" => vec![humidity_ratio(vapour(), 101_325.0)],
            "dew_point" => vec![dew_point(vapour())],
            "dew_point_of" => vec![dew_point(given.si("p"))],
            "battery_box" => vec![BATTERY_BOX],
            "work_limit" => vec![WORK_LIMIT],
            other => panic!("nothing is called `{other}`"),
        }
    });
}

#[test]
fn the_course_of_a_share_has_its_limits() {
    use crate::air::mean_share;
    let (out, g, v) = (420e-6, 0.0072e-3, 8.5);
    // By hand: after no time nothing has changed; a mean lies between start and end; no flow is the limit of little flow.
    assert!((share_after(1e-3, out, g, 4e-3, v, 0.0) - 1e-3).abs() < 1e-15);
    let (mean, end) = (mean_share(out, out, g, 4e-3, v, 3600.0), share_after(out, out, g, 4e-3, v, 3600.0));
    assert!(mean > out && mean < end);
    let little = share_after(out, out, g, 1e-12, v, 3600.0);
    assert!((little / share_after(out, out, g, 0.0, v, 3600.0) - 1.0).abs() < 1e-9);
    // Without a flow the mean lies half way.
    let half = f64::midpoint(out, share_after(out, out, g, 0.0, v, 3600.0));
    assert!((mean_share(out, out, g, 0.0, v, 3600.0) / half - 1.0).abs() < 1e-12);
    // The mean by the trapezoidal rule over 10,000 steps.
    let parts = 10_000;
    let at = |step: i32| share_after(2e-3, out, g, 4e-3, v, 3600.0 * f64::from(step) / f64::from(parts));
    let sum: f64 = (0..parts).map(|step| f64::midpoint(at(step), at(step + 1))).sum();
    let mean = mean_share(2e-3, out, g, 4e-3, v, 3600.0);
    assert!((mean / (sum / f64::from(parts)) - 1.0).abs() < 1e-8, "{mean}");
}

#[test]
fn nothing_flows_uphill() {
    assert!(stack_flow(0.65, 0.01, 1.8, 280.0, 290.0).abs() < 1e-15, "warmer outside");
    assert!(stack_flow(0.65, 0.01, -1.0, 290.0, 280.0).abs() < 1e-15, "the high vent below the low one");
    assert!(in_series(0.0, 5.0).abs() < 1e-15 && in_series(0.0, 0.0).abs() < 1e-15);
}
