//! What became of parts and weights.

use pintle_quantity::Units;

use super::super::*;
use super::{SPEC, of_texts, read};

/// Every part that changed, in words, and its fields.
fn told(comparison: &Comparison) -> Vec<String> {
    let units = Units::AsWritten;
    let mut lines = Vec::new();
    for change in &comparison.parts {
        lines.push(say::part(change, units));
        for field in &change.fields {
            let [old, new, by] = say::field(field, units);
            lines.push(format!("  {}: {old} / {new} / {by}", field.path));
        }
    }
    lines
}

fn edited(from: &str, to: &str) -> Comparison {
    assert!(SPEC.contains(from), "`{from}` is not in the spec");
    of_texts(SPEC, &SPEC.replacen(from, to, 1))
}

#[test]
fn the_same_spec_has_no_changes() {
    let same = of_texts(SPEC, &format!("# another remark\n{SPEC}\n"));
    assert!(same.is_same() && same.parts.is_empty() && same.figures.is_empty());
    assert_eq!(same.counts.same_parts, 7, "build, trailer, three items, state, load");
    assert_eq!(same.counts.same_figures, 11);
}

#[test]
fn a_part_that_moved_says_how_far_and_where() {
    let rows = [
        ("front = \"3 in\", left = \"0 in\"", "front = \"40 in\", left = \"0 in\"", "moved 37 in aft"),
        ("front = \"3 in\", left = \"0 in\"", "front = \"1 in\", left = \"0 in\"", "moved 2 in forward"),
        ("front = \"3 in\", left = \"0 in\"", "front = \"3 in\", left = \"4 in\"", "moved 4 in to the right"),
        (
            "front = \"3 in\", left = \"0 in\"",
            "front = \"3 in\", left = \"0 in\", floor = \"2 in\"",
            "moved 2 in up",
        ),
        // From the other side, to the same place: 60 in less 40 in.
        ("front = \"3 in\", left = \"0 in\"", "front = \"5 in\", right = \"20 in\"", "moved 2 in aft"),
    ];
    for (from, to, wanted) in rows {
        let found = told(&edited(from, to));
        assert_eq!(found[0], format!("item `galley`: {wanted}"), "{to}");
    }
}

#[test]
fn a_place_that_is_stated_in_another_way_is_no_move() {
    let found = told(&edited("left = \"0 in\"", "right = \"20 in\""));
    assert_eq!(found[0], "item `galley`: restated");
    assert_eq!(found[1..], ["  at.right: not given / 20 in / ", "  at.left: 0 in / not given / "]);
}

#[test]
fn a_part_that_only_grew_did_not_move() {
    let found = told(&edited("length = \"20 in\"", "length = \"24 in\""));
    assert_eq!(found, ["item `galley`: restated", "  length: 20 in / 24 in / +4 in"]);
}

#[test]
fn what_stands_on_a_part_moves_along_and_says_nothing_else() {
    let found = edited("at = { front = \"10 in\" }", "at = { front = \"16 in\" }");
    assert_eq!(
        told(&found),
        ["item `rack`: moved 6 in aft", "  at.front: 10 in / 16 in / +6 in", "item `box`: moved 6 in aft"]
    );
    let carried: Vec<_> =
        found.parts.iter().filter(|part| say::is_carried(part)).map(|part| &part.what).collect();
    assert_eq!(carried, ["item `box`"]);
}

#[test]
fn fields_restated_given_and_left_out() {
    assert_eq!(told(&edited("mass = \"90 lb\"", "mass = \"120 lb\""))[1], "  mass: 90 lb / 120 lb / +30 lb");
    assert_eq!(
        told(&edited("mass = \"90 lb\"", "mass = \"90 lb ± 5 lb\""))[1],
        "  mass: 90 lb / 90 lb ± 5 lb / 0 lb"
    );
    assert_eq!(told(&edited("removable = true\n", ""))[1], "  removable: true / not given / ");
    assert_eq!(
        told(&edited("count = 1", "count = 2, suspension = \"equalised\""))[0],
        "the trailer: restated"
    );
    // The same weight in another unit is the same weight.
    assert!(edited("mass = \"90 lb\"", "mass = \"1440 oz\"").is_same());
}

#[test]
fn parts_states_and_loads_that_come_and_go() {
    let gone = SPEC.replace("[[item]]\ntag = \"box\"", "[[item]]\ntag = \"chest\"");
    assert_eq!(told(&of_texts(SPEC, &gone)), ["item `chest`: added", "item `box`: removed"]);
    let renamed = SPEC.replace("name = \"outward\"", "name = \"homeward\"");
    // The loads of a state that comes or goes are not told by themselves.
    assert_eq!(
        told(&of_texts(SPEC, &renamed)),
        ["road state `homeward`: added", "road state `outward`: removed"]
    );
    let other = SPEC.replace("what = \"bags\", mass = \"50 lb\"", "what = \"bags\", mass = \"60 lb\"");
    assert_eq!(
        told(&of_texts(SPEC, &other)),
        ["load `bags` of road state `outward`: restated", "  mass: 50 lb / 60 lb / +10 lb"]
    );
    let weighed = SPEC.replace("mass = \"50 lb\"", "mass = \"50 lb\", mass_basis = \"weighed\"");
    assert_eq!(
        told(&of_texts(SPEC, &weighed)),
        ["load `bags` of road state `outward`: restated", "  mass_basis: not given / weighed / "]
    );
    let out = SPEC.replace("use = \"road\"\n", "use = \"road\"\nout = [\"galley\"]\n");
    assert_eq!(told(&of_texts(SPEC, &out)), ["road state `outward`: restated", "  out: none / galley / "]);
}

#[test]
fn two_loads_of_one_name_are_kept_apart() {
    let second = "load = [{ what = \"bags\", mass = \"20 lb\", at = { front = \"10 in\", centre = \"0 in\", floor = \"5 in\" } }, ";
    let both = SPEC.replace("load = [", second);
    let moved = both.replace("front = \"40 in\"", "front = \"45 in\"");
    assert_eq!(told(&of_texts(&both, &moved)), ["load `bags` (2) of road state `outward`: moved 5 in aft"]);
    assert_eq!(
        told(&of_texts(SPEC, &both))[0],
        "load `bags` of road state `outward`: moved 30 in forward",
        "the first of the two is compared with the one there was"
    );
}

#[test]
fn a_change_in_the_stock_list_alone_is_a_change_of_the_part() {
    let stock = |mass: &str| format!("[[part]]\nname = \"g\"\nkind = \"module\"\nmass = \"{mass}\"\n");
    let spec = SPEC.replace("kind = \"module\"\nmass = \"90 lb\"", "part = \"g\"");
    let side = |mass: &str| {
        let (build, sources) = read("a.toml", &spec, &stock(mass));
        let inspection = Inspection { spec: "a.toml".to_owned(), ..Inspection::default() };
        Side { inspection, build: Some(build), sources }
    };
    let found = compare(Some(side("90 lb")), Some(side("100 lb")), Matched::Call, Grade::Major);
    assert_eq!(told(&found), ["item `galley`: restated", "  mass: 90 lb / 100 lb / +10 lb"]);
    let span = found.parts[0].fields[0].span;
    assert_eq!(found.place(Some(span), true).unwrap(), "stock.toml:4:8");
}

/// Moving 90 lb aft by 37 in takes 90 × 37 / 110 lb off the tongue, and puts them on the axle.
#[test]
fn weights_change_by_what_statics_says() {
    let found = edited("front = \"3 in\", left", "front = \"40 in\", left");
    let by = |name: &str| {
        let change = found.figures.iter().find(|change| change.name == name);
        change.and_then(|change| change.by).map(pintle_quantity::Quantity::value)
    };
    let shift = 90.0 * 37.0 / 110.0;
    assert!((by("tongue").unwrap() + shift).abs() < 1e-9, "{:?}", by("tongue"));
    assert!((by("axles").unwrap() - shift).abs() < 1e-9);
    assert!((by("cg behind the ball").unwrap() - 90.0 * 37.0 / 1200.0).abs() < 1e-9);
    assert_eq!((by("gross"), by("unloaded"), by("cg above the ground")), (None, None, None));
    assert_eq!(found.counts.same_figures + found.figures.len(), 11);
}

#[test]
fn a_weight_that_is_no_longer_known_says_what_is_missing() {
    let found = edited("mass = \"90 lb\"\n", "");
    let gross = found.figures.iter().find(|change| change.name == "gross").unwrap();
    assert!(gross.old.is_ok() && gross.by.is_none());
    assert_eq!(gross.new, Err("`mass` of item `galley`".to_owned()));
}
