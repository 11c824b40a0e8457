use std::collections::BTreeMap;

use jiff::civil::date;
use pintle_calc::uncertainty::Tolerances;
use pintle_calc::{Assumptions, Case, Places};
use pintle_finding::{Grade, Inspection};
use pintle_report::Look;
use pintle_report::weights::Terms;
use pintle_source::Sources;
use pintle_spec::{Build, Missing, Stock, read_build, read_stock};

use super::canvas::Canvas;
use super::form::{Bounds, View};
use super::scene::Scene;
use super::{figures, section};
use crate::Sheet;
use crate::about::Findings;

/// The demo shop's stock and builds.
const STOCK: &[&str] = &[
    include_str!("../../../../specs/stock/gas.toml"),
    include_str!("../../../../specs/stock/modules.toml"),
    include_str!("../../../../specs/stock/power.toml"),
    include_str!("../../../../specs/stock/roof.toml"),
    include_str!("../../../../specs/stock/safety.toml"),
    include_str!("../../../../specs/stock/tow.toml"),
    include_str!("../../../../specs/stock/trailers.toml"),
    include_str!("../../../../specs/stock/vents.toml"),
    include_str!("../../../../specs/stock/water.toml"),
];
const DEMO: &[&str] = &[
    include_str!("../../../../specs/builds/closet-cylinder-6x12.toml"),
    include_str!("../../../../specs/builds/no-brakes-7x14.toml"),
    include_str!("../../../../specs/builds/overload-6x12.toml"),
    include_str!("../../../../specs/builds/quote-6x12.toml"),
    include_str!("../../../../specs/builds/rear-galley-5x8.toml"),
    include_str!("../../../../specs/builds/slid-axle-5x8.toml"),
    include_str!("../../../../specs/builds/sound-5x8-round.toml"),
    include_str!("../../../../specs/builds/sound-6x10-wedge.toml"),
    include_str!("../../../../specs/builds/sound-6x12-round.toml"),
    include_str!("../../../../specs/builds/sound-7x14-tandem.toml"),
    include_str!("../../../../specs/builds/stuffy-5x8.toml"),
    include_str!("../../../../specs/builds/tall-rack-6x10.toml"),
];

/// A box of 100 × 60 × 70 in inside, an inch of wall, its floor 20 in up, a flat nose 40 in behind the ball.
const TRAILER: &str = r#"
[build]
number = "T-1"
title = "a trial"
stage = "design"

[trailer]
mass = "1000 lb"
ball_to_box = "40 in"
length = "100 in"
width = "60 in"
height = "70 in"
wall = "1 in"
roof = "2 in"
floor_height = "20 in"
frame_height = "17 in"
nose = { shape = "flat" }
axle = { ball = "110 in", count = 1, track = "72 in" }
tire = { radius = "13 in" }
coupler = { ball = "2 in", height = "18 in" }
cg = { ball = "100 in", centre = "0 in", ground = "30 in" }
"#;

/// A cabinet with a door, a bed that folds, a door in the left wall.
const PARTS: &str = r#"
[[item]]
tag = "cabinet"
kind = "module"
mass = "100 lb"
length = "20 in"
width = "15 in"
height = "40 in"
at = { front = "10 in", right = "0 in" }
swings = [{ name = "flap", kind = "door", side = "left", hinge = "front" }]

[[berth]]
tag = "bed"
mass = "0 lb"
length = "40 in"
width = "50 in"
height = "5 in"
at = { rear = "0 in", left = "0 in", floor = "16 in" }
folds = { at = { rear = "0 in", left = "0 in", floor = "16 in" }, width = "6 in", height = "50 in", hinge = "left", way = "up" }

[[opening]]
tag = "door"
zone = "left wall"
sort = "door"
swings = "out"
hinge = "rear"
length = "24 in"
height = "60 in"
at = { front = "5 in", floor = "2 in" }

[[state]]
name = "out"
use = "road"
"#;

fn read(spec: &str, stock: &[&str]) -> Build {
    let (mut sources, mut problems) = (Sources::new(), Vec::new());
    let files: Vec<_> = stock.iter().map(|text| sources.add("stock.toml", text)).collect();
    let stock = if files.is_empty() { Stock::default() } else { read_stock(&sources, &files, &mut problems) };
    let source = sources.add("trial.toml", spec);
    let build = read_build(&sources, source, &stock, &mut problems);
    build.unwrap_or_else(|| panic!("{problems:#?}"))
}

fn inspection() -> Inspection {
    Inspection {
        spec: "trial.toml".to_owned(),
        number: String::new(),
        title: String::new(),
        stage: None,
        readings: Vec::new(),
        later: Vec::new(),
        remedies: None,
        problems: Vec::new(),
        waivers_used: std::collections::BTreeSet::new(),
        waivers_waiting: std::collections::BTreeSet::new(),
        layers: Vec::new(),
        of_rulebook: false,
    }
}

/// Does something with the sheet of a build.
fn with<T>(build: &Build, done: impl FnOnce(&Sheet<'_>) -> T) -> T {
    let (inspection, sources, places) = (inspection(), Sources::new(), Places::default());
    let (assumptions, tolerances) = (Assumptions::default(), Tolerances::default());
    let band = Err(Missing::new("a band", None, "none in a trial"));
    done(&Sheet {
        build,
        inspection: &inspection,
        rulebook: None,
        in_force: &crate::in_force::InForce::default(),
        sources: &sources,
        case: Case { build, assumptions: &assumptions, places: &places },
        terms: Terms { look: Look::default(), tolerances: &tolerances, band: &band },
        shop: None,
        hold: Grade::Major,
        rules: 0,
        day: date(2026, 1, 1),
    })
}

fn page(build: &Build) -> String {
    with(build, |sheet| section(sheet, &Findings::of(sheet.inspection, build)).into_string())
}

fn canvas<T>(build: &Build, name: &str, done: impl FnOnce(&Canvas) -> T) -> T {
    with(build, |sheet| {
        let scene = Scene::of(sheet);
        let all = figures(&scene);
        let found = all.iter().find(|figure| figure.canvas.name == name);
        done(&found.unwrap_or_else(|| panic!("no drawing is called {name}")).canvas)
    })
}

/// Every form of every part of a drawing, as rectangles in tenths of a millimetre, in order.
fn rectangles(canvas: &Canvas, turned: impl Fn(&Bounds) -> Bounds) -> BTreeMap<usize, Vec<[i64; 4]>> {
    #[expect(clippy::cast_possible_truncation, reason = "millimetres of a trailer")]
    let tenth = |value: f64| (value * 10.0).round() as i64;
    let mut all = BTreeMap::new();
    for (part, drawn) in &canvas.parts {
        let bounds = drawn.iter().map(|drawn| turned(&drawn.form.bounds().unwrap()));
        let mut rows: Vec<[i64; 4]> =
            bounds.map(|b| [b.low.0, b.low.1, b.high.0, b.high.1].map(tenth)).collect();
        rows.sort_unstable();
        all.insert(*part, rows);
    }
    all
}

#[test]
fn every_part_of_every_demo_build_is_drawn_or_told() {
    for spec in DEMO {
        let build = read(spec, STOCK);
        let page = page(&build);
        let (_, nowhere) = page.rsplit_once("</figure>").unwrap();
        for (part, item) in build.items.iter().enumerate() {
            let drawn = page.contains(&format!("<g class=\"part\" data-part=\"{part}\""));
            let told = nowhere.contains(&format!("<li data-part=\"{part}\">"));
            assert!(drawn != told, "{} of {}: drawn {drawn}, told {told}", item.called(), build.title.value);
        }
    }
}

#[test]
fn a_small_build_is_where_it_was_worked_out_by_hand() {
    let page = page(&read(&format!("{TRAILER}{PARTS}"), &[]));
    let holds = |text: &str| assert!(page.contains(text), "{text} is not in\n{page}");
    // Seen from the left. The box: 40 to 142 in, 20 to 92 in up; 1 in is 25.4 mm.
    holds(r#"data-shape="box" data-view="side" x="1016" y="-2336.8" width="2590.8" height="1828.8""#);
    holds(r#"data-shape="room" data-view="side" x="1041.4" y="-2286" width="2540" height="1778""#);
    holds(r#"data-shape="wheel" data-view="side" cx="2794" cy="-330.2" r="330.2""#);
    holds(r#"data-shape="ball" data-view="side" cx="0" cy="-457.2" r="25.4""#);
    // The cabinet: 51 to 71 in, 15 to 30 in right, 20 to 60 in up.
    holds(r#"data-shape="inside" data-view="side" x="1295.4" y="-1524" width="508" height="1016""#);
    holds(r#"data-shape="body" data-view="plan-day" x="1295.4" y="-762" width="508" height="381""#);
    // Its door is hung on the front edge of its left side, 20 in wide: from rear to left about (51, 15).
    holds(r#"d="M 1295.4 -381 L 1803.4 -381 A 508 508 0 0 1 1295.4 127 Z""#);
    // The bed: 101 to 141 in, 30 left to 20 right in use, 30 to 24 left folded.
    holds(r#"data-shape="body" data-view="plan-night" x="2565.4" y="-508" width="1016" height="1270""#);
    holds(r#"data-shape="body" data-view="plan-day" x="2565.4" y="609.6" width="1016" height="152.4""#);
    holds(r#"data-shape="inside" data-view="side" x="2565.4" y="-2184.4" width="1016" height="1270""#);
    // The door swings out, hung on its rear edge 70 in behind the ball, 31 in left; 24 in wide.
    holds(r#"d="M 1778 787.4 L 1168.4 787.4 A 609.6 609.6 0 0 0 1778 1397 Z""#);
    // 1000 lb at 100 in and 100 lb at 61 in; 30 in and 40 in up: 96.4545 and 30.9091 in.
    holds(r#"<circle data-shape="centre of gravity" cx="2449.9" cy="-785.1""#);
    // 1100 lb · (110 − 96.4545) / 110 on the ball.
    holds(">tongue 135 lb<");
    holds(">axle 965 lb<");
    holds(">ball to box 40 in<");
    holds(">length inside 100 in<");
    holds(">width outside 62 in<");
}

#[test]
fn a_build_with_more_doors_on_the_right_is_seen_from_there() {
    let spec = format!("{TRAILER}{PARTS}").replace("\"left wall\"", "\"right wall\"");
    canvas(&read(&spec, &[]), "side", |canvas| {
        assert_eq!(canvas.view, View::FromRight);
        let cabinet = canvas.parts[&0][0].form.bounds().unwrap();
        assert!((cabinet.low.0 + 71.0 * 25.4).abs() < 1e-6 && (cabinet.high.0 + 51.0 * 25.4).abs() < 1e-6);
        assert!(canvas.parts.contains_key(&2), "the door on the near side is drawn");
    });
}

/// The same build with left and right exchanged.
fn mirrored(spec: &str) -> String {
    let mark = |text: &str| text.replace("left", "\u{1}").replace("right", "left").replace('\u{1}', "right");
    mark(spec)
}

#[test]
fn a_build_turned_left_for_right_has_the_mirrored_plan() {
    let spec = format!("{TRAILER}{PARTS}");
    let turned =
        |bounds: &Bounds| Bounds::round((bounds.low.0, -bounds.low.1), (bounds.high.0, -bounds.high.1));
    for name in ["plan-day", "plan-night"] {
        let one = canvas(&read(&spec, &[]), name, |canvas| rectangles(canvas, Bounds::clone));
        let other = canvas(&read(&mirrored(&spec), &[]), name, |canvas| rectangles(canvas, turned));
        assert_eq!(one, other);
        let unturned = canvas(&read(&mirrored(&spec), &[]), name, |canvas| rectangles(canvas, Bounds::clone));
        assert_ne!(one, unturned);
    }
}

#[test]
fn hostile_tags_do_nothing() {
    let long = "n".repeat(10_000);
    // The loader refuses what cannot be seen; a drawing relies on nobody.
    let tags =
        ["</svg><script>alert(1)</script>", "a\" onload=\"x", "b\u{202e}c", "&amp;", "אבג", long.as_str()];
    for tag in tags {
        let mut build = read(&format!("{TRAILER}{PARTS}"), &[]);
        tag.clone_into(&mut build.items[0].tag.value);
        tag.clone_into(&mut build.states[0].name.value);
        let page = page(&build);
        let plain = page_of_plain();
        assert!(!page.contains("<script") && !page.contains('\u{202e}'), "{tag:.40}");
        assert!(!page.contains("onload=\""), "{tag:.40}");
        assert!(!page.contains(&"n".repeat(200)), "a long name is cut");
        // Shapes and their places are the same, whatever a part is called.
        assert_eq!(numbers(&page), numbers(&plain), "{tag:.40}");
    }
}

fn page_of_plain() -> String {
    page(&read(&format!("{TRAILER}{PARTS}"), &[]))
}

/// Every tag of SVG with its numbers, without the texts.
fn numbers(page: &str) -> Vec<&str> {
    let drawn = ["<rect", "<circle", "<path", "<line", "<poly", "<svg class=\"drawing"];
    page.split('>').filter_map(|piece| drawn.iter().find_map(|tag| piece.get(piece.find(tag)?..))).collect()
}

#[test]
fn what_is_not_known_is_told_and_not_guessed() {
    let no_size = PARTS.replace("length = \"20 in\"\n", "");
    let nowhere =
        "[[item]]\ntag = \"lost\"\nkind = \"equipment\"\nmass = \"5 lb\"\nat = { front = \"5 in\" }\n";
    let page = page(&read(&format!("{TRAILER}{no_size}{nowhere}"), &[]));
    let (figures, none) = page.rsplit_once("</figure>").unwrap();
    // Its length is not known: it stands in no plan and no elevation, and is hidden from behind.
    assert!(none.contains("`length` of item `cabinet`"), "{none}");
    assert!(none.contains("item `lost`"), "{none}");
    assert!(figures.contains("Not in this drawing:"));
    assert!(!page.contains("<g class=\"part\" data-part=\"0\""));

    let bare = TRAILER.replace("wall = \"1 in\"\n", "").replace("tire = { radius = \"13 in\" }\n", "");
    let page = self::page(&read(&format!("{bare}{PARTS}"), &[]));
    assert!(page.contains("box: `wall` of the trailer is missing"), "{page}");
    assert!(page.contains("wheel: `tire` of the trailer is missing"), "{page}");
    assert!(!page.contains("data-shape=\"box\"") && !page.contains("data-shape=\"wheel\""));
}

#[test]
fn nothing_in_a_drawing_needs_a_style_attribute_or_an_event() {
    for spec in DEMO {
        let page = page(&read(spec, STOCK));
        for refused in [" style=", " onclick=", " onload=", "http", "NaN", "inf\"", "\"-0\""] {
            assert!(!page.contains(refused), "{refused}");
        }
    }
}

#[test]
fn each_drawing_has_the_parts_that_are_seen_from_there() {
    let at = |tag: &str, zone: &str, place: &str| {
        format!(
            "\n[[item]]\ntag = \"{tag}\"\nkind = \"equipment\"\nzone = \"{zone}\"\nmass = \"1 lb\"\nlength = \"8 in\"\nwidth = \"8 in\"\nheight = \"8 in\"\nat = {{ {place} }}\n"
        )
    };
    let parts = [
        at("in", "inside", "front = \"60 in\", left = \"5 in\""),
        at("ahead", "tongue", "box = \"4 in\""),
        at("top", "roof", "front = \"20 in\""),
        at("hung", "rear door", "floor = \"30 in\""),
        at("below", "underside", "front = \"40 in\", ground = \"10 in\""),
        "\n[[vent]]\ntag = \"hole\"\nzone = \"roof\"\nlength = \"8 in\"\nwidth = \"8 in\"\nheight = \"2 in\"\nat = { front = \"50 in\" }\n".to_owned(),
        "\n[[vent]]\ntag = \"far\"\nzone = \"right wall\"\nlength = \"8 in\"\nwidth = \"1 in\"\nheight = \"2 in\"\nat = { front = \"50 in\", floor = \"1 in\" }\n".to_owned(),
    ];
    let build = read(&format!("{TRAILER}{}", parts.concat()), &[]);
    let seen = |name: &str| {
        canvas(&build, name, |canvas| {
            let tags = canvas.parts.keys().map(|part| build.items[*part].tag.value.clone());
            tags.collect::<Vec<_>>().join(" ")
        })
    };
    assert_eq!(seen("side"), "in ahead top hung below hole");
    assert_eq!(seen("plan"), "in ahead hung below hole far");
    assert_eq!(seen("roof"), "top hole");
    assert_eq!(seen("end"), "top hung below hole far");
}
