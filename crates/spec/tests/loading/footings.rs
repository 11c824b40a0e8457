//! What a value stands on: the basis of a mass goes with the mass, through stock, variants and specs.

use pintle_spec::{Footing, Named, schema::item};

use super::bench::{HEAD, STOCK, part, sound};

/// A stock part with a basis, a variant that restates its mass, one that restates its basis, and one that restates
/// neither.
const PARTS: &str = r#"
[[part]]
name = "cabinet"
kind = "module"
mass = "100 lb"
mass_basis = "maker"
length = "20 in"
width = "20 in"
height = "20 in"

[[part]]
name = "cabinet-oak"
part = "cabinet"
mass = "140 lb"

[[part]]
name = "cabinet-weighed"
part = "cabinet"
mass_basis = "weighed"

[[part]]
name = "cabinet-long"
part = "cabinet"
length = "30 in"
"#;

fn footing(fields: &str) -> Footing {
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n[[item]]\ntag = \"x\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\n{fields}\n"
    );
    let build = sound(&spec, &format!("{STOCK}{PARTS}"));
    Named::of(&part(&build, "x").record, &item::MASS).unwrap().footing
}

#[test]
fn the_basis_of_a_mass_goes_with_the_mass() {
    assert_eq!(footing("part = \"cabinet\""), Footing::Maker);
    assert_eq!(footing("part = \"cabinet-long\""), Footing::Maker);
    assert_eq!(footing("part = \"cabinet-weighed\""), Footing::Weighed);
    assert_eq!(footing("part = \"cabinet\"\nmass_basis = \"weighed\""), Footing::Weighed);
    assert_eq!(
        footing("part = \"cabinet\"\nmass = \"120 lb\"\nmass_basis = \"computed\""),
        Footing::Computed
    );
}

/// The maker's papers say nothing of a mass that was restated.
#[test]
fn a_restated_mass_does_not_inherit_a_basis() {
    assert_eq!(footing("part = \"cabinet\"\nmass = \"120 lb\""), Footing::Unstated);
    assert_eq!(footing("part = \"cabinet-oak\""), Footing::Unstated);
    assert_eq!(footing("part = \"cabinet-oak\"\nmass_basis = \"guessed\""), Footing::Guessed);
}

#[test]
fn loads_of_a_state_say_how_their_mass_is_known() {
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n[[state]]\nname = \"s\"\nuse = \"road\"\nload = [\n\
         {{ what = \"a\", mass = \"1 lb\", at = {{ rear = \"5 in\" }}, mass_basis = \"weighed\" }},\n\
         {{ what = \"b\", mass = \"1 lb\", at = {{ rear = \"5 in\" }} }},\n]\n"
    );
    let build = sound(&spec, STOCK);
    let footings: Vec<Footing> = build.states[0].loads.iter().map(|load| load.footing).collect();
    assert_eq!(footings, [Footing::Weighed, Footing::Unstated]);
}

/// One mass that is used twice is one value; but not where one part says that it was weighed and the other does not.
#[test]
fn one_written_value_is_one_variable() {
    let item = |tag: &str, fields: &str| {
        format!(
            "[[item]]\ntag = \"{tag}\"\npart = \"cabinet\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\n{fields}\n"
        )
    };
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n{}{}{}",
        item("a", ""),
        item("b", ""),
        item("c", "mass_basis = \"weighed\"")
    );
    let build = sound(&spec, &format!("{STOCK}{PARTS}"));
    let mass = |tag: &str| Named::of(&part(&build, tag).record, &item::MASS).unwrap();
    let [a, b, c] = ["a", "b", "c"].map(mass);
    assert_ne!(a, b, "they are named after their parts");
    assert_eq!(a.variable(), b.variable());
    assert_ne!(a.variable(), c.variable());
    let length = Named::of(&part(&build, "a").record, &item::LENGTH).unwrap();
    assert_ne!(a.variable(), length.variable());
}
