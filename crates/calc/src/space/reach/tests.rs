use crate::space::trial::{FLAT, build};
use crate::space::workings::tests::{list, missing, of};

fn module(tag: &str, size: &str, at: &str, more: &str) -> String {
    let [length, width, height] = size.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"equipment\"\nlength = \"{length} in\"\nwidth = \"{width} in\"\nheight = \"{height} in\"\nat = {{ {at} }}\n{more}\n"
    )
}

fn covered(panel: &str, other: &str) -> Vec<String> {
    list(&of(&build(FLAT, &format!("{panel}{other}"))), "covered_by", "item `panel`")
}

#[test]
fn a_panel_behind_a_bed() {
    let panel = |access: &str| {
        module("panel", "12 4 20", "front = \"40 in\", left = \"0 in\", floor = \"10 in\"", access)
    };
    let cabinet =
        |left: u32| module("cabinet", "30 20 36", &format!("front = \"30 in\", left = \"{left} in\""), "");
    let right = panel("access = { side = \"right\" }");
    // 24 in from its face at 4 in: to 28 in.
    assert_eq!(covered(&right, &cabinet(27)), ["item `cabinet`"]);
    assert!(covered(&right, &cabinet(28)).is_empty());
    let shallow = panel("access = { side = \"right\", depth = \"10 in\" }");
    assert!(covered(&shallow, &cabinet(14)).is_empty());
    assert_eq!(covered(&shallow, &cabinet(13)), ["item `cabinet`"]);
    // What it stands in is in its way as well: a panel inside a cabinet is got at through nothing.
    assert_eq!(covered(&right, &cabinet(0)), ["item `cabinet`"]);
    let top = panel("access = { side = \"top\" }");
    assert!(covered(&top, &cabinet(27)).is_empty());
}

#[test]
fn at_which_hours_it_is_covered() {
    let panel = module(
        "panel",
        "4 12 20",
        "front = \"60 in\", left = \"20 in\", floor = \"10 in\"",
        "access = { side = \"rear\" }",
    );
    let bed = r#"
[[berth]]
tag = "bed"
length = "54 in"
width = "72 in"
height = "5 in"
at = { rear = "0 in", centre = "0 in", floor = "16 in" }
folds = { at = { rear = "0 in", centre = "0 in", floor = "16 in" }, length = "6 in", height = "50 in", hinge = "rear", way = "up" }
"#;
    // The panel's rear is at 64 in; the bed begins at 90 in, and 24 in are asked for.
    assert!(covered(&panel, bed).is_empty());
    let deep = panel.replace("side = \"rear\"", "side = \"rear\", depth = \"30 in\"");
    assert_eq!(covered(&deep, bed), ["berth `bed`, at night"]);
}

#[test]
fn a_window_behind_a_cabinet_and_a_hatch_above_one() {
    let opening = |zone: &str, at: &str| {
        format!(
            "\n[[opening]]\ntag = \"w\"\nzone = \"{zone}\"\nsort = \"window\"\nlength = \"24 in\"\nwidth = \"24 in\"\nheight = \"18 in\"\nat = {{ {at} }}\n"
        )
    };
    let covered = |opening: &str, other: &str| {
        list(&of(&build(FLAT, &format!("{opening}{other}"))), "covered_by", "opening `w`")
    };
    let window = opening("left wall", "front = \"40 in\", floor = \"30 in\"");
    let cabinet =
        |height: u32| module("cabinet", &format!("30 20 {height}"), "front = \"45 in\", left = \"0 in\"", "");
    assert_eq!(covered(&window, &cabinet(31)), ["item `cabinet`"]);
    assert!(covered(&window, &cabinet(30)).is_empty(), "it ends below the window");
    // 75 in high inside: what is within 24 in of the ceiling is under the hatch.
    let hatch = opening("roof", "front = \"40 in\"");
    let wardrobe = |height: u32| {
        module("wardrobe", &format!("30 40 {height}"), "front = \"45 in\", left = \"20 in\"", "")
    };
    assert_eq!(covered(&hatch, &wardrobe(52)), ["item `wardrobe`"]);
    assert!(covered(&hatch, &wardrobe(51)).is_empty());
    // What is stepped over is no obstacle before a door.
    let door = opening("left wall", "front = \"40 in\", floor = \"0 in\"");
    assert!(covered(&door, &cabinet(6)).is_empty());
    assert_eq!(covered(&door, &cabinet(7)), ["item `cabinet`"]);
}

#[test]
fn a_place_that_is_not_known_is_said() {
    let panel = module(
        "panel",
        "12 4 20",
        "front = \"40 in\", left = \"0 in\", floor = \"10 in\"",
        "access = { side = \"right\" }",
    );
    let unplaced = module("box", "10 10 30", "left = \"10 in\"", "");
    let all = of(&build(FLAT, &format!("{panel}{unplaced}")));
    assert_eq!(missing(&all, "covered_by", "item `panel`").what, "the place fore and aft of item `box`");
}
