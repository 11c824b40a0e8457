//! Easy wrong rules, and what is missing.

use super::builds::{Found, close, part};
use crate::space::trial::{FLAT, spec};

const BOLTED: &str = "[item.anchors]\ncount = 4\nfixed_to = \"frame\"\nbolt = { size = \"3/8-16\", grade = \"5\" }\n\
                      base = { long = \"40 in\", across = \"16 in\" }\n";

fn bolted(mass: &str) -> String {
    part("module", mass, BOLTED)
}

/// 49 CFR 393.102(b) is a hold downwards, and only of what the structure does not contain.
#[test]
fn trap_a_fifth_downwards_is_no_pull_upwards() {
    let inside = Found::of(&bolted("300 lb"));
    assert!(inside.none("held_down_needed"));
    let outside = bolted("300 lb").replace(
        "at = { front = \"20 in\", left = \"0 in\" }",
        "zone = \"roof\"\nat = { front = \"20 in\" }",
    );
    let outside = Found::of(&outside);
    close(outside.value("held_down_needed", "lbf"), 60.0);
    assert!(!outside.all().iter().any(|working| working.key.contains("upward")));
    // In a locker on the tongue it is not contained; in a locker inside it is.
    for (zone, contained) in [("tongue", false), ("inside", true)] {
        let place = if zone == "tongue" {
            "at = { ball = \"4 in\" }"
        } else {
            "at = { front = \"1 in\", left = \"0 in\" }"
        };
        let more = format!(
            "[[locker]]\ntag = \"box\"\nzone = \"{zone}\"\nmass = \"20 lb\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"20 in\"\n{place}\n\
             [[item]]\ntag = \"it\"\nkind = \"battery\"\nzone = \"box\"\nmass = \"60 lb\"\nlength = \"10 in\"\nwidth = \"7 in\"\nheight = \"8 in\"\n\
             at = {{ front = \"1 in\", left = \"1 in\" }}\n"
        );
        assert_eq!(Found::of(&spec(FLAT, &more)).none("held_down_needed"), contained, "{zone}");
    }
}

/// 393.102(a) has two rows, and each direction applies by itself: nothing is added up.
#[test]
fn trap_one_row_of_pulls_is_not_all() {
    let found = Found::of(&bolted("300 lb"));
    let pulls = ["ahead", "aft", "aside"].map(|way| {
        ["breaking", "working"].map(|against| found.value(&format!("pull_{way}_{against}"), "lbf"))
    });
    for (pull, expected) in pulls.into_iter().zip([[240.0, 130.5], [150.0, 150.0], [150.0, 75.0]]) {
        close(pull[0], expected[0]);
        close(pull[1], expected[1]);
    }
    // Against the working load limit it is the pull aft that governs, not the one ahead.
    assert!(pulls[1][1] > pulls[0][1]);
}

/// 393.106(d): what goes from the vehicle to the part counts half. Two of 110 lb would do for 240 lb if that were forgotten.
#[test]
fn trap_anchors_to_the_part_count_half() {
    let held = |each: &str| {
        let anchors = format!(
            "[item.anchors]\ncount = 2\nfixed_to = \"frame\"\neach = {{ working = \"{each}\", breaking = \"9000 lb\" }}"
        );
        let found = Found::of(&part("module", "240 lb", &anchors));
        (found.value("aggregate", "lbf"), found.value("aggregate_needed", "lbf"))
    };
    close(held("200 lb").0, 200.0);
    close(held("110 lb").0, 110.0);
    close(held("110 lb").1, 120.0);
    // Straps to the same side count half, across they count whole; the ring that one hooks into may be weaker.
    let strapped = |runs: &str, ring: &str| {
        let anchors = format!(
            "[item.anchors]\nfixed_to = \"frame\"\neach = {{ working = \"{ring}\" }}\n\
             straps = [{{ sort = \"webbing\", size = \"2 in\", count = 2{runs} }}]"
        );
        Found::of(&part("module", "240 lb", &anchors)).value("aggregate", "lbf")
    };
    close(strapped("", "5000 lb"), 2000.0);
    close(strapped(", runs = \"same side\"", "5000 lb"), 2000.0);
    close(strapped(", runs = \"across\"", "5000 lb"), 4000.0);
    close(strapped(", runs = \"across\"", "600 lb"), 1200.0);
}

/// Unmarked webbing of 4 in is 4,000 lb.
#[test]
fn trap_wide_webbing_is_not_five_thousand() {
    let anchors = "[item.anchors]\nfixed_to = \"frame\"\neach = { working = \"9000 lb\" }\n\
                   straps = [{ sort = \"webbing\", size = \"4 in\", count = 1 }]";
    close(Found::of(&part("module", "240 lb", anchors)).value("strength_working", "lbf"), 4000.0);
}

/// Part 393 binds commercial vehicles: no figure goes without saying so.
#[test]
fn trap_a_guideline_is_no_law() {
    let found = Found::of(&bolted("300 lb"));
    assert!(found.all().len() > 30);
    assert!(
        found.all().iter().all(|working| working.caution.starts_with("guideline")),
        "of a build without vents"
    );
}

#[test]
fn a_chain_is_as_strong_as_its_weakest_link() {
    let chain = |track: &str, fastener: &str| {
        let anchors = format!(
            "[item.anchors]\ncount = 4\nfixed_to = \"posts\"\nbolt = {{ size = \"3/8-16\", grade = \"5\" }}\n\
             each = {{ breaking = \"2000 lb\", working = \"600 lb\" }}\n\
             track = {{ breaking = \"{track}\", fasteners = 12, fastener = {{ breaking = \"{fastener}\" }} }}"
        );
        let found = Found::of(&part("module", "150 lb", &anchors));
        (
            found.value("strength_breaking", "lbf"),
            found.text("weakest_breaking"),
            found.value("strength_working", "lbf"),
            found.text("weakest_working"),
        )
    };
    let (breaking, weakest, working, weakest_working) = chain("6000 lb", "700 lb");
    close(breaking, 8000.0);
    close(working, 2400.0);
    assert_eq!([weakest.as_str(), weakest_working.as_str()], ["fittings", "fittings"]);
    let (breaking, weakest, working, _) = chain("6000 lb", "300 lb");
    close(breaking, 3600.0);
    close(working, 1200.0);
    assert_eq!(weakest, "fasteners of the track");
    let (breaking, weakest, ..) = chain("1500 lb", "900 lb");
    close(breaking, 6000.0);
    assert_eq!(weakest, "track");
}

/// Bolts: shear of 60 % of the tensile strength on the stress area, a third of it as working load limit.
#[test]
fn bolts_by_hand() {
    let found = Found::of(&bolted("300 lb"));
    let area = std::f64::consts::FRAC_PI_4 * (0.375_f64 - 0.9743 / 16.0).powi(2);
    let near =
        |found: f64, expected: f64| assert!((found / expected - 1.0).abs() < 1e-4, "{found}, {expected}");
    near(found.value("stress_area", "in²"), area);
    near(found.value("proof_load", "lbf"), 85_000.0 * area);
    near(found.value("clamp_load", "lbf"), 0.75 * 85_000.0 * area);
    near(found.value("torque", "lbf·ft"), 0.2 * 0.375 * 0.75 * 85_000.0 * area / 12.0);
    near(found.value("bolt_pull_strength", "lbf"), 120_000.0 * area);
    near(found.value("bolt_shear_strength", "lbf"), 72_000.0 * area);
    near(found.value("strength_breaking", "lbf"), 4.0 * 72_000.0 * area);
    near(found.value("strength_working", "lbf"), 4.0 * 24_000.0 * area);
    let shank = BOLTED.replace("grade = \"5\"", "grade = \"5\", sheared = \"shank\", count = 8");
    let found = Found::of(&part("module", "300 lb", &shank));
    near(
        found.value("strength_breaking", "lbf"),
        8.0 * 72_000.0 * std::f64::consts::FRAC_PI_4 * 0.375 * 0.375,
    );
    assert!(!Found::of(&part("module", "300 lb", "")).has("torque", "item `it`"));
}

/// A part of 48 × 20 × 36 in: b/h is 24/18 fore and aft and 10/18 across. It stands ahead and aft, and tips aside at 0.6.
#[test]
fn tipping_by_hand() {
    let found = Found::of(&bolted("300 lb"));
    close(found.si("steady_ahead"), 24.0 / 18.0);
    close(found.si("steady_aft"), 24.0 / 18.0);
    close(found.si("steady_aside"), 10.0 / 18.0);
    assert_eq!(["ahead", "aft", "aside"].map(|way| found.flag(&format!("tips_{way}"))), [false, false, true]);
    close(found.value("tilt_pull_ahead", "lbf"), 0.0);
    // M = 300 · (0.6 · 18 − 10) = 240 lbf·in; rows 2 and 18 in from the edge, two anchors each.
    let pull = 240.0 * 18.0 / (2.0 * (18.0 * 18.0 + 2.0 * 2.0));
    close(found.value("tilt_pull_aside", "lbf"), pull);
    close(found.value("anchor_load_aside_breaking", "lbf"), pull.hypot(150.0 / 4.0));
    // Against the working load limit it is thrown by 0.25 only, and stands.
    close(found.value("anchor_load_aside_working", "lbf"), 75.0 / 4.0);
    close(found.value("anchor_load_ahead_breaking", "lbf"), 60.0);
    let area = std::f64::consts::FRAC_PI_4 * (0.375_f64 - 0.9743 / 16.0).powi(2);
    let used = (pull / (120_000.0 * area)).powi(2) + (37.5 / (72_000.0 * area)).powi(2);
    assert!((found.si("bolt_used_aside_breaking") / used - 1.0).abs() < 1e-4);
    // At the limit it stands: 0.6 of 20 in is 12 in, and no spread of the anchors is asked for.
    let limit = "cg = { left = \"7.2 in\", floor = \"12 in\" }\n[item.anchors]\ncount = 4\neach = { working = \"500 lb\" }";
    let limit = Found::of(&part("module", "300 lb", limit));
    assert!(!limit.flag("tips_aside"));
    close(limit.value("tilt_pull_aside", "lbf"), 0.0);
    // A centre of gravity to the left tips to the left first.
    let leaning = bolted("300 lb").replace("[item.anchors]", "cg = { left = \"6 in\" }\n[item.anchors]");
    close(Found::of(&leaning).si("steady_aside"), 6.0 / 18.0);
    // Three rows across: 2, 10 and 18 in from the edge.
    let rows = BOLTED
        .replace("count = 4", "count = 6")
        .replace("across = \"16 in\"", "across = \"16 in\", rows_across = 3");
    let found = Found::of(&part("module", "300 lb", &rows));
    close(found.value("tilt_pull_aside", "lbf"), 240.0 * 18.0 / (2.0 * (324.0 + 100.0 + 4.0)));
    // A strap 30 in up holds it level.
    let held = BOLTED.replace("base = {", "base = { height = \"30 in\",");
    let found = Found::of(&part("module", "300 lb", &held));
    close(found.value("tilt_pull_aside", "lbf"), 240.0 / 30.0 / 4.0);
    close(found.value("anchor_load_aside_breaking", "lbf"), 150.0 / 4.0);
}

#[test]
fn friction_is_a_step_of_its_own() {
    let found = Found::of(&bolted("300 lb"));
    close(found.value("slide_ahead", "lbf"), 150.0);
    close(found.value("slide_aft", "lbf"), 60.0);
    let steps = &found.working("slide_ahead", "item `it`").steps;
    assert!(steps.iter().any(|step| step.symbol == "μ"));
    // The pull beside it knows of none.
    close(found.value("pull_ahead_breaking", "lbf"), 240.0);
    let mat = BOLTED.replace("count = 4", "count = 4\nfriction = \"60 %\"");
    let found = Found::of(&part("module", "300 lb", &mat));
    close(found.value("slide_ahead", "lbf"), 60.0);
    close(found.value("slide_aft", "lbf"), 0.0);
}

#[test]
fn what_is_kept_in_a_part_pulls_on_its_anchors() {
    let more = "[[load]]\ntag = \"pans\"\nmass = \"20 lb\"\nleast = \"0 lb\"\nat = { front = \"25 in\", left = \"5 in\", floor = \"30 in\" }\n\
                anchors = { held_by = \"it\" }\n";
    let found = Found::of(&(bolted("300 lb") + more));
    close(found.value("weight", "lb"), 320.0);
    close(found.value("pull_ahead_breaking", "lbf"), 256.0);
    // Moments: 300 lb at 24 in and 18 in up, 20 lb at 5 in and 30 in up.
    close(found.si("steady_ahead"), (300.0 * 24.0 + 20.0 * 5.0) / (300.0 * 18.0 + 20.0 * 30.0));
    assert!(!found.has("pull_ahead_breaking", "load `pans`"));
    assert!(found.has("weight", "load `pans`"));
    // A tank is as full as it rides: 10 gal at 8.34 lb/gal, or the half of it.
    let tank = |road: &str| {
        let more = format!(
            "[[tank]]\ntag = \"fresh\"\nmass = \"12 lb\"\ncapacity = \"10 gal\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"10 in\"\n\
             at = {{ front = \"1 in\", left = \"1 in\" }}\n{road}\n"
        );
        let found = Found::of(&spec(FLAT, &more));
        found.working("weight", "tank `fresh`").figure().unwrap().quantity.si() / 0.453_592_37
    };
    close(tank(""), 95.4);
    close(tank("on_road = { least = \"0 %\", most = \"50 %\" }"), 53.7);
}

#[test]
fn what_rides_loose_has_a_weight_and_nothing_that_holds_it() {
    let found = Found::of(&part("module", "300 lb", "anchors = { loose = true }"));
    assert_eq!(found.text("how_held"), "");
    close(found.value("weight", "lb"), 300.0);
    assert!(!found.has("strength_breaking", "item `it`"));
    assert!(!found.has("pull_ahead_breaking", "item `it`"));
    let held = Found::of(&part("module", "300 lb", &BOLTED.replace("count = 4", "count = 4\nloose = false")));
    assert_eq!(held.text("how_held"), "bolts");
    assert!(held.has("pull_ahead_breaking", "item `it`"));
}

#[test]
fn what_is_not_said_is_missing() {
    let missing = |anchors: &str, key: &str| Found::of(&part("module", "300 lb", anchors)).missing(key);
    assert_eq!(missing("", "strength_breaking"), "`anchors` of item `it`");
    assert_eq!(missing("", "how_held"), "`anchors` of item `it`");
    let kind = "anchors = { kind = \"track-bolt\", count = 4 }";
    assert_eq!(missing(kind, "strength_working"), "`bolt`, `each` or `straps` of `anchors` of item `it`");
    assert_eq!(missing(kind, "how_held"), "`bolt`, `each` or `straps` of `anchors` of item `it`");
    let each = "anchors = { count = 4, each = { working = \"500 lb\" } }";
    assert_eq!(missing(each, "strength_breaking"), "`breaking` of `each` of `anchors` of item `it`");
    assert_eq!(missing(each, "strength_working"), "`fixed_to` of `anchors` of item `it`");
    assert_eq!(missing(each, "tilt_pull_aside"), "`base` of `anchors` of item `it`");
    // Plywood and skin have no strength of their own that is stated.
    let ply = "anchors = { count = 4, fixed_to = \"plywood\", each = { working = \"500 lb\" } }";
    assert_eq!(missing(ply, "strength_working"), "`member` of `anchors` of item `it`");
    let ply = "anchors = { count = 4, fixed_to = \"plywood\", each = { working = \"500 lb\" }, member = { working = \"90 lb\" } }";
    let found = Found::of(&part("module", "300 lb", ply));
    close(found.value("strength_working", "lbf"), 360.0);
    assert_eq!(found.text("weakest_working"), "what it is fixed to");
    assert!(!found.flag("fixed_in_members") && !found.flag("sheet_unrated"));
    let bare = Found::of(&part("module", "300 lb", "anchors = { fixed_to = \"skin\" }"));
    assert!(!bare.flag("fixed_in_members") && bare.flag("sheet_unrated"));
    assert!(!Found::of(&bolted("300 lb")).flag("sheet_unrated"));
    let strap =
        "anchors = { fixed_to = \"frame\", straps = [{ sort = \"webbing\", size = \"2 in\", count = 2 }] }";
    assert_eq!(missing(strap, "strength_working"), "`each` of `anchors` of item `it`");
    let odd = "anchors = { fixed_to = \"frame\", each = { working = \"9 lb\" }, straps = [{ sort = \"webbing\", size = \"2.5 in\", count = 2 }] }";
    assert_eq!(missing(odd, "strength_working"), "`working` of `straps` of `anchors` of item `it`");
    let thick = "anchors = { count = 4, bolt = { size = \"thick\", grade = \"5\" } }";
    assert_eq!(
        missing(thick, "strength_breaking"),
        "`size` of `bolt` of `anchors` of item `it` that is known"
    );
    let ungraded = "anchors = { count = 4, bolt = { size = \"3/8-16\" } }";
    assert_eq!(missing(ungraded, "torque"), "`grade` of `bolt` of `anchors` of item `it`");
    let uneven = "anchors = { count = 5, each = { working = \"500 lb\" }, base = { across = \"16 in\" } }";
    assert!(missing(uneven, "tilt_pull_aside").starts_with("rows of item `it` with as many anchors each"));
    let wide = "anchors = { count = 4, each = { working = \"500 lb\" }, base = { across = \"21 in\" } }";
    assert_eq!(
        missing(wide, "tilt_pull_aside"),
        "`across` of `base` of `anchors` of item `it` that is no more than its foot"
    );
    let unsized_part = bolted("300 lb").replace("height = \"36 in\"\n", "");
    assert_eq!(Found::of(&unsized_part).missing("steady_aside"), "`height` of item `it`");
    // Nothing is assumed that the rulebook does not state.
    let bare = crate::assumed::Assumptions::default();
    let build = crate::space::trial::read(&bolted("300 lb"));
    let all = crate::anchor::workings(&crate::case::Case {
        build: &build,
        assumptions: &bare,
        places: &crate::place::Places::default(),
    });
    let torque = all.iter().find(|working| working.key == "torque").unwrap();
    assert_eq!(torque.outcome.as_ref().unwrap_err().what, "the assumption `anchor.clamp_share`");
}

/// A folded bed of 60 lb, its centre of gravity 30 in and its latches 60 in from the hinge.
#[test]
fn latches_by_hand() {
    let latch = "[item.anchors]\nlatch = { count = 2, unfolds = \"right\", mass = \"60 lb\", cg = \"30 in\", arm = \"60 in\", breaking = \"90 lb\" }";
    let found = Found::of(&part("module", "120 lb", latch));
    close(found.value("latch_pull_breaking", "lbf"), 15.0);
    close(found.value("latch_pull_working", "lbf"), 7.5);
    close(found.value("latch_strength_breaking", "lbf"), 180.0);
    close(found.value("latch_strength_working", "lbf"), 60.0);
    let ahead = Found::of(&part("module", "120 lb", &latch.replace("right", "ahead")));
    close(ahead.value("latch_pull_breaking", "lbf"), 24.0);
    assert!(!Found::of(&bolted("300 lb")).has("latch_pull_breaking", "item `it`"));
}

#[test]
fn straps_over_the_top() {
    let straps = "[item.anchors]\nfixed_to = \"frame\"\neach = { working = \"900 lb\" }\nfriction = \"30 %\"\n\
                  straps = [{ sort = \"webbing\", size = \"2 in\", count = 2, runs = \"across\", tension = \"100 lb\", angle = \"60 °\" }]";
    let found = Found::of(&part("module", "300 lb", straps));
    let sine = 0.75_f64.sqrt();
    close(found.value("pressed_down", "lbf"), 0.3 * (300.0 + 4.0 * 100.0 * sine));
    close(found.si("lashings_ahead"), 0.5 * 300.0 * 1.25 / (2.0 * 0.3 * 100.0 * sine));
    close(found.si("lashings_aft"), 0.2 * 300.0 * 1.1 / (2.0 * 0.3 * 100.0 * sine));
    let level = straps.replace(", angle = \"60 °\"", "");
    assert_eq!(
        Found::of(&part("module", "300 lb", &level)).missing("pressed_down"),
        "`angle` of `straps` of `anchors` of item `it`"
    );
}

#[test]
fn what_leans_on_the_front() {
    let blocked = BOLTED.replace("count = 4", "count = 4\nblocked = [\"ahead\"]");
    let found = Found::of(&part("module", "300 lb", &blocked));
    // 75 in inside: four tenths.
    let needed = found.working("front_wall_needed", "the build").figure().unwrap().quantity;
    close(needed.si() / (0.453_592_37 * 9.806_65), 120.0);
    close(found.si("count_needed"), 1.0);
    close(Found::of(&bolted("300 lb")).si("count_needed"), 1.0);
    close(Found::of(&bolted("1200 lb")).si("count_needed"), 2.0);
    assert!(!Found::of(&bolted("300 lb")).has("front_wall_needed", "the build"));
}

#[test]
fn members_that_were_cut() {
    let vent = |more: &str| {
        let more = format!(
            "[[vent]]\ntag = \"v\"\nzone = \"roof\"\narea = \"14 in²\"\nclosable = false\n{more}\n\
             [[opening]]\ntag = \"o\"\nzone = \"left wall\"\nsort = \"window\"\n{more}\n"
        );
        let found = Found::of(&spec(FLAT, &more));
        let told = |of: &str| match &found.working("cut_without_header", of).outcome {
            Ok(crate::working::Outcome::Flag(flag)) => Ok(*flag),
            Err(missing) => Err(missing.what.clone()),
            other => panic!("{other:?}"),
        };
        [told("vent `v`"), told("opening `o`")]
    };
    assert_eq!(vent("cuts = []"), [Ok(false), Ok(false)]);
    assert_eq!(vent("cuts = [\"bow\"]\nheader = true"), [Ok(false), Ok(false)]);
    assert_eq!(vent("cuts = [\"bow\"]\nheader = false"), [Ok(true), Ok(true)]);
    let missing = |what: &str| [format!("`{what}` of vent `v`"), format!("`{what}` of opening `o`")].map(Err);
    assert_eq!(vent(""), missing("cuts"));
    assert_eq!(vent("cuts = [\"post\"]"), missing("header"));
}

/// A load without any size is a point: it needs tie-downs by its weight, and has no foot. With one size it needs them all.
#[test]
fn a_load_without_a_size_is_a_point() {
    let bags = |more: &str| {
        let text = format!(
            "[[load]]\ntag = \"bags\"\nmass = \"1200 lb\"\nleast = \"0 lb\"\nat = {{ front = \"25 in\", left = \"5 in\", floor = \"5 in\" }}\n{more}\n"
        );
        Found::of(&spec(FLAT, &text))
    };
    let told = |found: &Found, key: &str| found.working(key, "load `bags`").outcome.clone();
    let point = bags("");
    for key in ["steady_ahead", "tips_aside", "tilt_pull_aft", "anchor_load_ahead_breaking"] {
        assert!(matches!(told(&point, key), Ok(crate::working::Outcome::None(_))), "{key}");
    }
    close(point.working("count_needed", "load `bags`").figure().unwrap().quantity.si(), 2.0);
    let half = bags("length = \"20 in\"");
    assert_eq!(told(&half, "steady_aside").unwrap_err().what, "`width` of load `bags`");
    assert_eq!(told(&bags("width = \"20 in\""), "count_needed").unwrap_err().what, "`length` of load `bags`");
}

#[test]
fn what_hangs_on_a_wall_has_no_foot() {
    let wall = bolted("30 lb").replace(
        "at = { front = \"20 in\", left = \"0 in\" }",
        "zone = \"left wall\"\nat = { front = \"20 in\", floor = \"30 in\" }",
    );
    let found = Found::of(&wall);
    assert!(
        ["steady_ahead", "tips_aft", "tilt_pull_aside", "anchor_load_aft_working", "bolt_used_aft_working"]
            .iter()
            .all(|key| found.none(key))
    );
    close(found.value("pull_ahead_breaking", "lbf"), 24.0);
    assert!(!found.none("held_down_needed"), "a wall part is not contained");
    // A cupboard inside that is said to hang.
    let inside = Found::of(&part("module", "30 lb", &BOLTED.replace("count = 4", "count = 4\nhung = true")));
    assert!(inside.none("tips_aside") && inside.none("held_down_needed"));
}
