//! Worked examples, names, ties, and what is missing.

use std::fmt::Write as _;

use pintle_quantity::{Quantity, Unit};
use pintle_spec::{Build, Known, Missing, State};

use super::builds::weighed;
use super::specs::{part, spec, try_read};
use crate::arrange::{Arrangements, End, Extremum};

const ROAD: &str = "[[state]]\nname = \"road\"\nuse = \"road\"\n";

fn read(more: &str) -> Build {
    let text = spec(more);
    try_read(&text).unwrap_or_else(|| panic!("refused:\n{text}"))
}

/// A removable module with its middle so far behind the ball and over the floor, on the centreline.
fn module(tag: &str, mass: f64, behind_ball: f64, over_floor: f64, more: &str) -> String {
    let at = [behind_ball - 35.0, 0.0, over_floor - 5.0];
    part("item", tag, mass, at, &format!("kind = \"module\"\nremovable = true\n{more}"))
}

fn extreme(build: &Build, what: Extremum, end: End) -> State {
    Arrangements::of(build).unwrap().extreme(what, end).unwrap()
}

fn figure(build: &Build, what: Extremum, end: End) -> f64 {
    weighed(build, &extreme(build, what, end), what)
}

fn name(build: &Build, what: Extremum, end: End) -> String {
    extreme(build, what, end).name.value
}

fn inches(metres: f64) -> f64 {
    metres / 0.0254
}

fn pounds(kilograms: f64) -> f64 {
    kilograms / 0.453_592_37
}

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

/// 1,000 lb at 70 in and a galley of 200 lb at 115 in: with it, the centre of gravity lies at (70,000 + 23,000)/1,200 =
/// 77.5 in. For a tongue of 10 % the axle must stand 77.5/0.9 = 86.1 in or more behind the ball, for one of 15 %
/// without the galley 70/0.85 = 82.4 in or less (statics of a beam on two supports).
#[test]
fn two_arrangements_that_exclude_each_other_wherever_the_axle_stands() {
    let build = read(&(module("galley", 200.0, 115.0, 20.0, "") + ROAD));
    close(inches(figure(&build, Extremum::CentreX, End::Most)), 77.5);
    close(inches(figure(&build, Extremum::CentreX, End::Least)), 70.0);
    let arrangements = Arrangements::of(&build).unwrap();
    let window = arrangements.axle_window(Quantity::share(0.10), Quantity::share(0.15)).unwrap();
    close(inches(window.least.si()), 77.5 / 0.9);
    close(inches(window.most.si()), 70.0 / 0.85);
    assert!(window.is_empty());
    assert_eq!(
        [&window.aft, &window.fore].map(|state| state.name.value.as_str()),
        ["departure: everything aboard", "galley out"]
    );
    assert_eq!(window.least.unit().map(Unit::name), Some("in"), "as the axle was written");
}

/// The same with 60 lb: (70,000 + 6,900)/1,060 = 72.547 in, so 80.608 in to 82.353 in. At each end of the window the
/// arrangement that decides it has just the share.
#[test]
fn a_window_and_the_arrangements_that_decide_it() {
    let text = module("galley", 60.0, 115.0, 20.0, "") + ROAD;
    let build = read(&text);
    let arrangements = Arrangements::of(&build).unwrap();
    let window = arrangements.axle_window(Quantity::share(0.10), Quantity::share(0.15)).unwrap();
    assert!(!window.is_empty());
    assert!((inches(window.least.si()) - 80.608).abs() < 5e-4, "{}", inches(window.least.si()));
    assert!((inches(window.most.si()) - 82.353).abs() < 5e-4, "{}", inches(window.most.si()));
    for (place, state, share) in [(window.least, &window.aft, 0.10), (window.most, &window.fore, 0.15)] {
        let moved = spec(&text).replace("ball = \"78 in\"", &format!("ball = \"{} in\"", inches(place.si())));
        let moved = try_read(&moved).unwrap();
        close(weighed(&moved, state, Extremum::TongueShare), share);
        close(
            figure(&moved, Extremum::TongueShare, End::Least).max(0.10),
            figure(&moved, Extremum::TongueShare, End::Least),
        );
        assert!(figure(&moved, Extremum::TongueShare, End::Most) < 0.15 + 1e-9);
    }
    let refused = arrangements.axle_window(Quantity::share(0.10), Quantity::share(1.0)).unwrap_err();
    assert_eq!(refused.what, "a share of tongue weight below 100 %, instead of 100 %");
}

/// FAA-H-8083-1, weight shift: weight moved / total weight = change of the centre of gravity / distance moved. Bags of
/// 100 lb lie in front or in the back, 48 in apart, with 1,000 lb of trailer.
#[test]
fn bags_in_front_or_in_the_back_shift_as_the_handbook_says() {
    let bags = |tag: &str, front: f64| part("load", tag, 100.0, [front, 0.0, 0.0], "least = \"0 lb\"");
    let more = bags("bags ahead", 20.0)
        + &bags("bags aft", 68.0)
        + "[[either]]\nname = \"bags\"\nof = [\"bags ahead\", \"bags aft\"]\nnone = false\n"
        + ROAD;
    let build = read(&more);
    let [aft, ahead] = [End::Most, End::Least].map(|end| figure(&build, Extremum::CentreX, end));
    close(inches(aft - ahead), 48.0 * 100.0 / 1100.0);
    assert_eq!(name(&build, Extremum::CentreX, End::Most), "bags: bags aft 100 lb");
    assert_eq!(name(&build, Extremum::CentreX, End::Least), "departure: bags: bags ahead 100 lb");
    // With none of either aboard, the lightest arrangement names none of them.
    let build = read(&more.replace("none = false", "none = true"));
    assert_eq!(name(&build, Extremum::Gross, End::Least), "bags: none");
    // FAA-H-8083-1, weight added: change of the centre of gravity = weight added × its distance / new total weight.
    let build = read(&(module("galley", 200.0, 115.0, 20.0, "") + ROAD));
    let [with, without] = [End::Most, End::Least].map(|end| figure(&build, Extremum::CentreX, end));
    close(inches(with - without), 200.0 * (115.0 - 70.0) / 1200.0);
}

/// Water poured into an upright tank has its centre of gravity, and the trailer's with it, lowest when its surface
/// stands as high as the common centre (the puzzle of the can that is drunk from; from memory).
#[test]
fn a_tank_partly_full_puts_the_centre_of_gravity_lowest() {
    let more = "[[tank]]\ntag = \"fresh\"\nmass = \"20 lb\"\nholds = \"fresh\"\ncapacity = \"60 gal\"\nlength = \"20 in\"\nwidth = \"20 in\"\n\
                height = \"40 in\"\nat = { front = \"30 in\", centre = \"0 in\" }\n";
    let build = read(&(more.to_owned() + ROAD));
    let state = extreme(&build, Extremum::CentreZ, End::Least);
    let fill = state.fill[0].1.value.si();
    assert!(0.1 < fill && fill < 0.9, "{fill}");
    close(20.0 + 40.0 * fill, inches(weighed(&build, &state, Extremum::CentreZ)));
    assert_eq!(state.name.value, format!("fresh {:.0} % full", fill * 100.0));
    // No other fill has it lower.
    let mut other = state.clone();
    for step in 0..=1000 {
        other.fill[0].1.value = Quantity::share(f64::from(step) / 1000.0);
        let height = weighed(&build, &other, Extremum::CentreZ);
        assert!(height >= weighed(&build, &state, Extremum::CentreZ) - 1e-15, "at {step} ‰");
    }
    assert_eq!(name(&build, Extremum::CentreZ, End::Most), "departure: fresh full");
}

const FULL: &str = r#"
[[item]]
tag = "rack"
kind = "rack"
mass = "50 lb"
length = "60 in"
width = "50 in"
height = "3 in"
zone = "roof"
at = { front = "10 in" }
removable = true

[[item]]
tag = "tent"
kind = "tent"
mass = "120 lb"
bedding = "15 lb"
length = "56 in"
width = "48 in"
height = "12 in"
zone = "rack"
at = { front = "2 in" }
removable = true

[[either]]
name = "bay"
of = ["bunk", "desk"]
none = true
"#;

fn full() -> Build {
    let tank = |tag: &str, holds: &str, more: &str| {
        let more = format!("capacity = \"10 gal\"\nholds = \"{holds}\"\n{more}");
        part("tank", tag, 10.0, [40.0, 0.0, 0.0], &more)
    };
    let more = module("bunk", 80.0, 60.0, 20.0, "")
        + &module("desk", 80.0, 60.0, 20.0, "")
        + &tank("fresh", "fresh", "")
        + &tank("grey", "grey", "on_road = { least = \"0 %\", most = \"37 %\" }")
        + &part("load", "bikes", 40.0, [80.0, 0.0, 30.0], "least = \"0 lb\"")
        + &part("load", "food", 30.0, [20.0, 0.0, 10.0], "least = \"10 lb\"\nused_up = true")
        + FULL
        + ROAD;
    read(&more)
}

#[test]
fn arrangements_are_called_by_what_varies() {
    let build = full();
    let named = Arrangements::of(&build).unwrap().named().unwrap();
    let called: Vec<&str> = named.iter().map(|state| state.name.value.as_str()).collect();
    assert_eq!(
        called,
        [
            "departure: everything aboard, bay: bunk, fresh full, grey empty, bikes 40 lb, food 30 lb",
            "homeward: everything aboard, bay: bunk, fresh empty, grey 37 % full, bikes 40 lb, food 10 lb",
            "everything aboard, bay: desk, fresh full, grey empty, bikes 40 lb, food 30 lb",
            "everything out, bay: bunk, fresh full, grey empty, bikes 40 lb, food 30 lb",
            "tent out, bay: bunk, fresh full, grey empty, bikes 40 lb, food 30 lb",
            "everything out, bay: none, fresh empty, grey empty, no bikes, food 10 lb",
        ]
    );
    assert_eq!(
        name(&build, Extremum::Tongue, End::Least),
        "everything out, bay: none, fresh empty, grey empty, bikes 40 lb, food 10 lb"
    );
    let bare = read(ROAD);
    assert_eq!(name(&bare, Extremum::Gross, End::Most), "departure");
}

#[test]
fn of_arrangements_alike_the_one_with_most_aboard_is_taken() {
    // Over the axle, or on the centreline, weight changes nothing.
    let build = read(&(module("chest", 90.0, 78.0, 20.0, "") + ROAD));
    for end in [End::Least, End::Most] {
        assert_eq!(name(&build, Extremum::Tongue, end), "departure: everything aboard");
        assert_eq!(name(&build, Extremum::Side, end), "departure: everything aboard");
    }
    // Of two alike in a group, the first.
    let build = full();
    assert!(name(&build, Extremum::Gross, End::Most).contains("bay: bunk"));
}

#[test]
fn own_loads_of_road_states_make_families() {
    let own = |name: &str, what: &str, zone: &str| {
        format!(
            "[[state]]\nname = \"{name}\"\nuse = \"road\"\nload = [{{ what = \"{what}\", mass = \"55 lb\", zone = \"{zone}\", at = {{ front = \"20 in\", left = \"9 in\", {} = \"1 in\" }} }}]\n",
            if zone == "rack" { "gap" } else { "floor" }
        )
    };
    let rack = "[[item]]\ntag = \"rack\"\nkind = \"rack\"\nmass = \"50 lb\"\nlength = \"60 in\"\nwidth = \"50 in\"\nheight = \"3 in\"\nzone = \"roof\"\nat = { front = \"10 in\" }\nremovable = true\n";
    let states =
        own("weekend", "boat", "rack") + &own("week", "boat", "rack") + &own("fair", "stall", "inside");
    let build = read(&(rack.to_owned() + &states));
    let arrangements = Arrangements::of(&build).unwrap();
    assert_eq!(arrangements.families.len(), 2, "weekend and week are alike");
    // What carries a boat stays: only the fair can do without the rack.
    assert!((arrangements.count().unwrap() - 3.0).abs() < 1e-9);
    let lightest = arrangements.extreme(Extremum::Gross, End::Least).unwrap();
    assert_eq!(lightest.name.value, "rack out, loads of fair");
    close(pounds(weighed(&build, &lightest, Extremum::Gross)), 1055.0);
    let high = arrangements.extreme(Extremum::CentreZ, End::Most).unwrap();
    assert_eq!(high.name.value, "departure: loads of weekend");
    close(pounds(weighed(&build, &high, Extremum::Gross)), 1105.0);
}

#[test]
fn many_parts_that_do_not_hang_on_each_other_are_no_trouble() {
    let more: String = (0..300).fold(String::new(), |mut more, number| {
        let at = 40.0 + f64::from(number % 80);
        let _ = write!(more, "{}", module(&format!("m{number}"), 1.0, at, 20.0, ""));
        more
    });
    let build = read(&(more + ROAD));
    close(pounds(figure(&build, Extremum::Gross, End::Most)), 1300.0);
    close(pounds(figure(&build, Extremum::Gross, End::Least)), 1000.0);
    // All that lies ahead of the axle at 78 in pushes on the ball: 1,000 · 8/78, and 1 lb · (78 − x)/78 each.
    let ahead: f64 = (0..300).map(|number| (38.0 - f64::from(number % 80)).max(0.0) / 78.0).sum();
    close(pounds(figure(&build, Extremum::Tongue, End::Most)), 1000.0 * 8.0 / 78.0 + ahead);
    let arrangements = Arrangements::of(&build).unwrap();
    close(arrangements.count().unwrap(), 2.0_f64.powi(300));
    assert!(arrangements.corners().unwrap().is_none());
}

fn missing<T: std::fmt::Debug>(known: Known<T>) -> Missing {
    known.unwrap_err()
}

#[test]
fn what_is_missing_is_named() {
    let weightless = module("galley", 1.0, 60.0, 20.0, "").replace("mass = \"1 lb\"\n", "");
    let build = read(&(weightless + ROAD));
    let arrangements = Arrangements::of(&build).unwrap();
    for what in Extremum::ALL {
        assert_eq!(
            missing(arrangements.extreme(*what, End::Least)).what,
            "`mass` of item `galley`",
            "{what:?}"
        );
    }
    // A load without a height does not hinder what needs none.
    let bags =
        part("load", "bags", 30.0, [20.0, 0.0, 10.0], "least = \"0 lb\"").replace(", floor = \"10 in\"", "");
    let build = read(&(bags + ROAD));
    let arrangements = Arrangements::of(&build).unwrap();
    for what in Extremum::ALL {
        let found = arrangements.extreme(*what, End::Most);
        match what {
            Extremum::CentreZ => assert_eq!(missing(found).what, "the place upright of load `bags`"),
            _ => assert!(found.is_ok(), "{what:?}: {found:?}"),
        }
    }
    assert_eq!(missing(Arrangements::of(&read(""))).what, "a state for the road");
    let camp = "[[state]]\nname = \"night\"\nuse = \"camp\"\n";
    assert_eq!(missing(Arrangements::of(&read(camp))).what, "a state for the road");
    // Which of two tanks is full on the way out is not known of one that holds nobody knows what.
    let tank = part("tank", "can", 10.0, [20.0, 0.0, 0.0], "capacity = \"10 gal\"");
    let build = read(&(tank + ROAD));
    let arrangements = Arrangements::of(&build).unwrap();
    assert_eq!(missing(arrangements.named()).what, "`holds` of tank `can`");
    assert_eq!(name(&build, Extremum::Gross, End::Most), "can full");
}

#[test]
fn a_tank_that_is_always_empty_needs_no_capacity() {
    let tank = |most: &str| {
        let road = format!("holds = \"fresh\"\non_road = {{ least = \"0 %\", most = \"{most}\" }}");
        read(&(part("tank", "can", 10.0, [20.0, 0.0, 0.0], &road) + ROAD))
    };
    close(pounds(figure(&tank("0 %"), Extremum::Gross, End::Most)), 1010.0);
    let build = tank("1 %");
    let arrangements = Arrangements::of(&build).unwrap();
    assert_eq!(missing(arrangements.extreme(Extremum::Gross, End::Most)).what, "`capacity` of tank `can`");
}

/// What is asked for is that one of a group is aboard, and what stands in the way is what always rides.
#[test]
fn no_arrangement_at_all_is_said() {
    let more = module("bunk", 80.0, 60.0, 20.0, "") + &module("desk", 80.0, 60.0, 20.0, "") + ROAD;
    let mut build = read(&more);
    build.items[0].removable = false;
    build.items[1].removable = false;
    build.eithers =
        read(&(more + "[[either]]\nname = \"bay\"\nof = [\"bunk\", \"desk\"]\nnone = true\n")).eithers;
    let found = missing(Arrangements::of(&build));
    assert_eq!(found.what, "an arrangement that zones, `needs` and either-or groups allow");
    assert_eq!(found.span, Some(build.eithers[0].name.span));
}

#[test]
fn too_many_parts_that_hang_on_each_other_are_said_not_sampled() {
    let more: String = (0..300).map(|number| module(&format!("m{number}"), 1.0, 50.0, 20.0, "")).collect();
    let tags: Vec<String> = (0..300).map(|number| format!("\"m{number}\"")).collect();
    let group = format!("[[either]]\nname = \"bay\"\nof = [{}]\nnone = true\n", tags.join(", "));
    let build = read(&(more + &group + ROAD));
    let found = missing(Arrangements::of(&build));
    assert!(found.what.contains("too many parts hang on each other"), "{}", found.what);
}

#[test]
fn more_road_states_with_own_loads_than_are_looked_at_are_said() {
    let state = |number: u32| {
        format!(
            "[[state]]\nname = \"road {number}\"\nuse = \"road\"\nload = [{{ what = \"crate\", mass = \"{} lb\", at = {{ front = \"20 in\", left = \"9 in\", floor = \"1 in\" }} }}]\n",
            10 + number
        )
    };
    let build = |states: u32| read(&(0..states).map(state).collect::<String>());
    assert_eq!(Arrangements::of(&build(64)).unwrap().families.len(), 64);
    let found = missing(Arrangements::of(&build(65)));
    assert_eq!(found.what, "the extremes over more than 64 road states with loads of their own");
}

#[test]
fn more_removable_parts_than_anybody_names_are_said() {
    let modules = |number: u32| {
        (0..number).map(|at| module(&format!("m{at}"), 1.0, 50.0, 20.0, "")).collect::<String>()
    };
    let named = |number: u32| {
        let build = read(&(modules(number) + ROAD));
        let arrangements = Arrangements::of(&build).unwrap();
        arrangements.named().map(|named| named.len())
    };
    assert_eq!(named(256).unwrap(), 1 + 256 + 1, "departure and homeward are one");
    assert!(missing(named(257)).what.contains("more than 256 parts can be taken out"));
}

#[test]
fn tanks_emptied_in_order_are_named_as_near_to_the_trip_as_the_order_lets_them() {
    let tank = |tag: &str, holds: &str| {
        let more = format!("capacity = \"10 gal\"\nholds = \"{holds}\"\n");
        part("tank", tag, 10.0, [40.0, 0.0, 0.0], &more)
    };
    let names = |second: &str| -> Vec<String> {
        let order = "[water]\nuse_order = [\"front\", \"rear\"]\n";
        let build = read(&(tank("rear", second) + &tank("front", "fresh") + order + ROAD));
        let named = Arrangements::of(&build).unwrap().named().unwrap();
        named.into_iter().map(|state| state.name.value).collect()
    };
    assert_eq!(names("fresh"), ["departure: rear full, front full", "homeward: rear empty, front empty"]);
    // A waste tank cannot be empty before the fresh one is, as the builder states it.
    assert_eq!(
        names("grey"),
        ["departure: rear full, front full", "homeward: rear full, front empty", "rear empty, front empty"]
    );
}

#[test]
fn a_load_that_may_stay_at_home_is_counted_once_without_it() {
    let rack = "[[item]]\ntag = \"rack\"\nkind = \"rack\"\nmass = \"50 lb\"\nlength = \"60 in\"\nwidth = \"50 in\"\nheight = \"3 in\"\nzone = \"roof\"\nat = { front = \"10 in\" }\nremovable = true\n";
    let boat = "[[load]]\ntag = \"boat\"\nmass = \"55 lb\"\nleast = \"0 lb\"\nzone = \"rack\"\nat = { front = \"20 in\", left = \"9 in\", gap = \"1 in\" }\n";
    let build = read(&(rack.to_owned() + boat + ROAD));
    close(Arrangements::of(&build).unwrap().count().unwrap(), 3.0);
}

/// A removable 3,000 lb ahead of the ball lifts the axle off the road: the side difference has no share of that.
#[test]
fn no_share_is_taken_of_a_load_that_is_not_there() {
    let ahead = "[[item]]\ntag = \"winch\"\nkind = \"module\"\nremovable = true\nmass = \"3000 lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\nzone = \"tongue\"\nat = { ball = \"-45 in\" }\n";
    let build = read(&(ahead.to_owned() + ROAD));
    let arrangements = Arrangements::of(&build).unwrap();
    let found = missing(arrangements.extreme(Extremum::SideShare, End::Most));
    assert_eq!(found.what, "a share of a load that is positive in every arrangement");
    // 1,000 lb at 70 in and 3,000 lb at −40 in: −50,000 lb·in.
    close(inches(figure(&build, Extremum::CentreX, End::Least)), -50_000.0 / 4000.0);
}
