//! Laws that hold for every spec: mirrors, units, moves; and that no text at all does harm.

use pintle_source::Sources;
use pintle_spec::{Coordinate, Extent, Known, node, read_build, read_stock};
use proptest::prelude::*;

use super::bench::{HEAD, STOCK, load, part, sound, worded};

/// A whole sound spec over the bench's stock.
const SOUND: &str = r#"[build]
number = "T-1"
title = "sound"
stage = "design"

[trailer]
part = "box"
gvwr = "2990 lb"
nose = { shape = "round", depth = "20 in" }

[people]
count = 2
mass = "180 lb"

[[item]]
tag = "galley"
part = "galley"
at = { front = "3 in", right = "0 in" }
anchors = { kind = "bolt", count = 4 }

[[item]]
tag = "rack"
part = "rack-low"
zone = "roof"
at = { front = "18 in" }

[[item]]
tag = "tent"
part = "tent-soft"
zone = "rack"
at = { front = "-4 in" }
removable = true
opens = "right"

[[tank]]
tag = "fresh"
part = "tank-20"
at = { front = "52 in", left = "2 in" }

[[berth]]
tag = "bed"
zone = "tent"
people = 2

[[state]]
name = "outward"
use = "road"
fill = { fresh = "100 %" }
out = ["tent"]
load = [{ what = "bags", mass = "100 lb", at = { front = "60 in", left = "24 in", floor = "3 in" } }]

[[state]]
name = "night"
use = "camp"
fill = { fresh = "50 %" }
people = [{ berth = "bed", count = 2 }]
"#;

fn metres(place: &Known<Coordinate>) -> f64 {
    place.as_ref().unwrap().metres
}

/// Nine figures: near, centre and far along each axis.
fn figures(extent: &Extent) -> [f64; 9] {
    let Extent { x, y, z } = extent;
    [&x.near, &x.cg, &x.far, &y.near, &y.cg, &y.far, &z.near, &z.cg, &z.far].map(metres)
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * (1.0 + one.abs())
}

fn item(zone: &str, at: &str, size: [f64; 3], unit: &str) -> String {
    let [length, width, height] = size;
    format!(
        "{HEAD}[trailer]\npart = \"box\"\n[[item]]\ntag = \"x\"\nkind = \"equipment\"\nzone = \"{zone}\"\n\
         at = {{ {at} }}\nlength = \"{length} {unit}\"\nwidth = \"{width} {unit}\"\nheight = \"{height} {unit}\"\n"
    )
}

/// A zone, with the gaps that it takes fore and aft, across and upright.
fn zone_and_gaps() -> impl Strategy<Value = (&'static str, &'static str, &'static str, &'static str)> {
    let inside =
        ("inside", &["front", "nose", "rear", "ball", "axle"][..], &["floor", "ceiling", "ground"][..]);
    let roof = ("roof", &["front", "nose", "rear", "ball", "axle"][..], &["gap"][..]);
    let under = ("underside", &["front", "rear", "axle"][..], &["ground"][..]);
    prop::sample::select(vec![inside, roof, under]).prop_flat_map(|(zone, along, upright)| {
        (
            Just(zone),
            prop::sample::select(along),
            prop::sample::select(&["left", "right", "centre"][..]),
            prop::sample::select(upright),
        )
    })
}

fn thousandths(range: std::ops::Range<i32>) -> impl Strategy<Value = f64> {
    range.prop_map(|count| f64::from(count) / 8.0)
}

proptest! {
    #[test]
    fn left_and_right_are_mirrors(
        zone in prop::sample::select(&["inside", "roof", "underside"][..]),
        gap in thousandths(-100..400),
        size in [thousandths(1..400), thousandths(1..400), thousandths(1..400)],
    ) {
        let upright = if zone == "underside" { "ground = '5 in'" } else { "" };
        let read = |side: &str, gap: f64| {
            let at = format!("front = '3 in', {side} = '{gap} in', {upright}");
            let build = sound(&item(zone, &at, size, "in"), STOCK);
            figures(&part(&build, "x").extent)
        };
        let (left, right) = (read("left", gap), read("right", gap));
        prop_assert!(close(left[3], -right[5]) && close(left[4], -right[4]) && close(left[5], -right[3]));
        let centred = (read("centre", gap), read("centre", -gap));
        prop_assert!(close(centred.0[3], -centred.1[5]) && close(centred.0[5], -centred.1[3]));
        for axis in [0, 1, 2, 6, 7, 8] {
            prop_assert!(close(left[axis], right[axis]), "the other axes do not change");
        }
    }

    #[test]
    fn places_do_not_depend_on_the_unit(
        (zone, along, across, upright) in zone_and_gaps(),
        gaps in [thousandths(-100..400), thousandths(-100..400), thousandths(-100..400)],
        size in [thousandths(1..400), thousandths(1..400), thousandths(1..400)],
    ) {
        let read = |factor: f64, unit: &str| {
            let [x, y, z] = gaps.map(|gap| format!("{} {unit}", gap * factor));
            let at = format!("{along} = '{x}', {across} = '{y}', {upright} = '{z}'");
            let build = sound(&item(zone, &at, size.map(|side| side * factor), unit), STOCK);
            figures(&part(&build, "x").extent)
        };
        let (inches, millimetres) = (read(1.0, "in"), read(25.4, "mm"));
        for (one, other) in inches.into_iter().zip(millimetres) {
            prop_assert!(close(one, other), "{one} m and {other} m");
        }
    }

    #[test]
    fn moving_the_box_aft_moves_all_that_is_measured_from_it(
        (zone, along, across, upright) in zone_and_gaps(),
        gap in thousandths(-100..400),
        moved in thousandths(-200..800),
    ) {
        let read = |ball_to_box: f64| {
            let at = format!("{along} = '{gap} in', {across} = '1 in', {upright} = '1 in'");
            let stock = STOCK.replace("ball_to_box = \"40 in\"", &format!("ball_to_box = \"{ball_to_box} in\""));
            let build = sound(&item(zone, &at, [10.0, 6.0, 4.0], "in"), &stock);
            figures(&part(&build, "x").extent)
        };
        let (before, after) = (read(40.0), read(40.0 + moved));
        let from_the_box = !matches!(along, "ball" | "axle");
        let shift = if from_the_box { moved * 0.0254 } else { 0.0 };
        for axis in 0..3 {
            prop_assert!(close(after[axis], before[axis] + shift));
        }
        for axis in 3..9 {
            prop_assert!(close(after[axis], before[axis]));
        }
    }
}

/// Reads a text as a spec and as a stock list; nothing may be accepted in silence.
fn reads_without_harm(text: &str) -> Result<(), TestCaseError> {
    let mut sources = Sources::new();
    let id = sources.add("any.toml", text);
    let mut problems = Vec::new();
    node::parse(&sources, id, &mut problems);
    let read = load(text, STOCK);
    prop_assert_eq!(read.build.is_some(), read.problems.is_empty());
    for problem in &read.problems {
        worded(problem);
        for label in &problem.labels {
            prop_assert!(read.sources.text(label.span.source).get(label.span.range()).is_some());
        }
    }
    let mut problems = Vec::new();
    let stock = read_stock(&sources, &[id, id], &mut problems);
    problems.iter().for_each(worded);
    let used = sources.add("used.toml", SOUND);
    let mut of_spec = Vec::new();
    let build = read_build(&sources, used, &stock, &mut of_spec);
    prop_assert_eq!(build.is_some(), of_spec.is_empty());
    Ok(())
}

/// Pieces that TOML, quantities and specs are made of.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(
        &[
            "[",
            "]",
            "[[",
            "]]",
            "{",
            "}",
            "=",
            ",",
            ".",
            "\"",
            "'",
            "'''",
            "\"\"\"",
            "\n",
            "\r\n",
            "#",
            " ",
            "\\",
            "\u{feff}",
            "½",
            "\u{1b}",
            "\u{202e}",
            "[build]\n",
            "[trailer]\n",
            "[[item]]\n",
            "[[state]]\n",
            "[[part]]\n",
            "part = \"box\"\n",
            "tag = \"a\"\n",
            "zone = \"a\"\n",
            "kind = \"rack\"\n",
            "at = {}\n",
            "name = \"a\"\n",
            "7 ft 2 1/4 in",
            "nan",
            "1e308",
            "-1",
            "99999999999",
            "true",
            "1979-05-27",
            "a",
            "front",
        ][..],
    );
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

proptest! {
    #[test]
    fn no_text_does_harm(text in any::<String>()) {
        reads_without_harm(&text)?;
    }

    #[test]
    fn no_text_of_the_right_pieces_does_harm(text in pieces()) {
        reads_without_harm(&text)?;
    }

    #[test]
    fn no_change_of_lines_does_harm(
        changes in prop::collection::vec((0..60_usize, 0..60_usize, 0..5_u8), 1..6),
        piece in pieces(),
        bytes in 0..40_usize,
    ) {
        let mut lines: Vec<String> = SOUND.lines().map(str::to_owned).collect();
        for (at, from, change) in changes {
            let (at, other) = (at % lines.len(), lines[from % lines.len()].clone());
            match change {
                0 if lines.len() > 1 => { lines.remove(at); }
                1 => lines.insert(at, other),
                2 => lines[at] = other,
                3 => lines[at].clone_from(&piece),
                _ => {
                    let cut = lines[at].char_indices().nth(bytes).map_or(lines[at].len(), |(cut, _)| cut);
                    lines[at].truncate(cut);
                }
            }
        }
        reads_without_harm(&lines.join("\n"))?;
    }
}

#[test]
fn the_spec_that_is_changed_is_sound() {
    assert_eq!(load(SOUND, STOCK).said(), []);
    let build = sound(SOUND, STOCK);
    assert_eq!((build.items.len(), build.states.len()), (5, 2));
}
