//! Clearances: under the trailer, behind it, and to the tow vehicle's tailgate.

use crate::assumed::Assumptions;
use crate::case::Case;
use crate::road::ground::{departure_angle, ground_clearance};
use crate::road::nose::camp_only_aboard;
use crate::road::trial::places;
use crate::space::trial::{FLAT, build, close, read, spec};
use crate::working::{Outcome, Working};

const LOW: &str = "ground_clearance = \"11 in\"\nrear_clearance = \"16 in\"\naxle = { ball = \"123 in\", count = 1 }\n\
                   tire = { radius = \"13 in\" }\n";

fn hung(place: &str, ground: &str) -> String {
    format!(
        "[[tank]]\ntag = \"grey\"\nzone = \"underside\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"8 in\"\n\
         at = {{ {place}, ground = \"{ground}\" }}\n"
    )
}

#[test]
fn the_lowest_of_what_hangs_below() {
    close(&ground_clearance(&build(FLAT, LOW)).unwrap(), 11.0, "in");
    close(
        &ground_clearance(&build(FLAT, &(LOW.to_owned() + &hung("rear = \"4 in\"", "9 in")))).unwrap(),
        9.0,
        "in",
    );
    close(
        &ground_clearance(&build(FLAT, &(LOW.to_owned() + &hung("rear = \"4 in\"", "12 in")))).unwrap(),
        11.0,
        "in",
    );
    assert_eq!(ground_clearance(&build(FLAT, "")).unwrap_err().what, "`ground_clearance` of the trailer");
}

/// The tangent from (d, z) to the circle of radius r on the ground, by halving an interval.
fn by_halving(d: f64, z: f64, r: f64) -> f64 {
    let off = |angle: f64| (z - angle.tan() * d - r).abs() / angle.tan().hypot(1.0) - r;
    let (mut low, mut high) = (1e-6, (z / d).atan() + 0.2);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if (off(middle) > 0.0) == (off(low) > 0.0) { low = middle } else { high = middle }
    }
    low.to_degrees()
}

#[test]
fn the_least_of_all_departure_angles() {
    // The box ends 183 in behind the ball: 60 in behind the axle.
    let angle = |more: &str| departure_angle(&build(FLAT, &(LOW.to_owned() + more))).unwrap();
    let value = |figure: &crate::Figure| crate::space::trial::value(figure, "°");
    assert!((value(&angle("")) - by_halving(60.0, 16.0, 13.0)).abs() < 1e-6);
    // A tank 9 in up that ends 4 in short of the rear is steeper to clear than the rear itself.
    let hung_low = angle(&hung("rear = \"4 in\"", "9 in"));
    assert!((value(&hung_low) - by_halving(56.0, 9.0, 13.0)).abs() < 1e-6);
    // Ahead of the axle it is in nobody's way.
    assert!((value(&angle(&hung("front = \"4 in\"", "9 in"))) - by_halving(60.0, 16.0, 13.0)).abs() < 1e-6);
    let pair = LOW.replace("count = 1", "count = 2, spread = \"34 in\"");
    let tandem = departure_angle(&build(FLAT, &pair)).unwrap();
    assert!((value(&tandem) - by_halving(43.0, 16.0, 13.0)).abs() < 1e-6);
    let flat = LOW.replace("tire = { radius = \"13 in\" }\n", "tire = { count = 2 }\n");
    assert_eq!(departure_angle(&build(FLAT, &flat)).unwrap_err().what, "`radius` of `tire` of the trailer");
}

fn clearances(more: &str, tow: &str) -> Vec<Working> {
    let jack = "jack = { ball = \"12 in\", top = \"34 in\" }\n";
    let box_on_tongue = "[[item]]\ntag = \"box\"\nkind = \"equipment\"\nzone = \"tongue\"\nlength = \"10 in\"\nwidth = \"20 in\"\n\
                         height = \"14 in\"\nat = { ball = \"20 in\" }\n";
    let spec = spec(FLAT, &format!("{jack}{box_on_tongue}{tow}"));
    let build = read(&format!("{spec}\n[assume.road]\nlock = \"60°\"\n{more}"));
    let (assumptions, places) = (Assumptions::default(), places());
    super::super::nose::workings(&Case { build: &build, assumptions: &assumptions, places: &places })
}

#[test]
fn what_stands_in_the_tailgates_way() {
    let found = clearances("", "[tow]\ntailgate = \"6 in\"\ntailgate_height = \"28 in\"\n");
    assert_eq!(
        found.iter().map(|working| working.of.as_str()).collect::<Vec<_>>(),
        ["item `box`", "the jack"]
    );
    // The box: 20 in behind the ball, 10 in off the centreline; the jack on it, 12 in behind the ball. At 60°.
    let root = 0.75_f64.sqrt();
    close(found[0].figure().unwrap(), 20.0 * 0.5 - 10.0 * root - 6.0, "in");
    close(found[1].figure().unwrap(), 12.0 * 0.5 - 6.0, "in");
    // A tailgate that opens above both passes over them.
    let above = clearances("", "[tow]\ntailgate = \"6 in\"\ntailgate_height = \"36 in\"\n");
    assert!(above.iter().all(|working| matches!(working.outcome, Ok(Outcome::None(_)))));
    assert!(clearances("", "[tow]\nball = \"2 in\"\n").is_empty(), "nobody said anything of a tailgate");
    let half = clearances("", "[tow]\ntailgate_height = \"28 in\"\n");
    assert_eq!(half[0].outcome.as_ref().unwrap_err().what, "`tailgate` of the tow vehicle");
}

#[test]
fn what_is_for_camp_only_and_rides_along() {
    let with = |tags: &str, out: &str| {
        let text = spec(
            FLAT,
            &format!(
                "[[item]]\ntag = \"awning\"\nkind = \"equipment\"\nremovable = true\nat = {{ front = \"1 in\", left = \"1 in\" }}\n\
                 [[state]]\nname = \"away\"\nuse = \"road\"\n{out}\n"
            ),
        );
        camp_only_aboard(&read(
            &text.replace("stage = \"design\"", &format!("stage = \"design\"\ncamp_only = [{tags}]")),
        ))
    };
    assert_eq!(with("\"awning\"", "").unwrap(), ["`awning` in state `away`"]);
    assert!(with("\"awning\"", "out = [\"awning\"]").unwrap().is_empty());
    assert!(with("", "").unwrap().is_empty());
    assert_eq!(with("\"awnig\"", "").unwrap_err().what, "the part `awnig` that is named in `camp_only`");
}

/// What hangs within the outline of the tire, seen from the side, touches no ramp before the tire does.
#[test]
fn what_is_within_the_tires_outline_takes_nothing_off_the_angle() {
    // Its far end 2 in behind the wheel's middle and 10 in up, the tire 13 in in radius.
    let tucked = "[[item]]\ntag = \"strut\"\nkind = \"equipment\"\nzone = \"underside\"\nlength = \"20 in\"\nwidth = \"4 in\"\n\
                  height = \"2 in\"\nat = { ball = \"105 in\", ground = \"10 in\" }\n";
    let angle = departure_angle(&build(FLAT, &(LOW.to_owned() + tucked))).unwrap();
    assert!((crate::space::trial::value(&angle, "°") - by_halving(60.0, 16.0, 13.0)).abs() < 1e-6);
    // An axle behind the whole box leaves nothing behind it.
    let far = LOW.replace("123 in", "190 in");
    assert_eq!(departure_angle(&build(FLAT, &far)).unwrap_err().what, "a rear end behind the wheels");
}
