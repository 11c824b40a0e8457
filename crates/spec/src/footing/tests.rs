//! Every field that can go into a weight says what its values stand on.

use std::collections::BTreeSet;

use pintle_quantity::Dimension;
use pintle_source::{Sources, Span};

use super::*;
use crate::field::Kind;
use crate::schema;

fn record() -> Record {
    let source = Sources::new().add("a.toml", "");
    Record::new("anything", Span::new(source, 0, 0))
}

fn footing(field: &'static Field) -> Footing {
    Footing::of(&record(), field)
}

/// A new field of one of these dimensions must be entered in one of the lists: a forgotten one would leave every
/// weight that it goes into without a ±.
#[test]
fn no_mass_length_or_volume_is_forgotten() {
    let (mut seen, mut forgotten) = (0, Vec::new());
    for schema in schema::ALL {
        for field in schema.fields {
            if let Kind::Quantity(dimension, _) = field.kind
                && [Dimension::MASS, Dimension::LENGTH, Dimension::VOLUME].contains(&dimension)
            {
                seen += 1;
                if footing(field) == Footing::Other {
                    forgotten.push(format!("`{}` of {}", field.key, schema.name));
                }
            }
        }
    }
    assert_eq!(forgotten, [""; 0]);
    assert!(seen > 60, "only {seen} fields were looked at");
}

#[test]
fn fields_of_one_name_stand_on_different_things() {
    assert_eq!(footing(&place::BALL), Footing::Place);
    assert_eq!(footing(&trailer::cg::BALL), Footing::Centre);
    assert_eq!(footing(&axle::BALL), Footing::Axle);
    assert_eq!(footing(&coupler::BALL), Footing::Exact);
    assert_eq!(footing(&item::LENGTH), Footing::Place);
    assert_eq!(footing(&trailer::LENGTH), Footing::Trailer);
    assert_eq!(footing(&people::MASS), Footing::Person);
    assert_eq!(footing(&tank::CAPACITY), Footing::Capacity);
    assert_eq!(footing(&crate::schema::kinds::battery::CAPACITY), Footing::Other);
}

#[test]
fn every_basis_of_a_mass_has_a_footing_of_its_own() {
    let footings: BTreeSet<Footing> =
        item::MASS_BASES.iter().map(|basis| Footing::of_mass(Some(basis))).collect();
    assert_eq!(footings.len(), item::MASS_BASES.len());
    for basis in item::MASS_BASES {
        assert_eq!(Footing::of_mass(Some(basis)).name(), Some(*basis));
    }
    assert_eq!(Footing::of_mass(None), Footing::Unstated);
    assert_eq!(Footing::Unstated.name(), Some("guessed"), "nobody said how it is known");
}

/// The basis is asked for by one field's key, whichever table the mass stands in.
#[test]
fn the_key_of_a_basis_is_the_same_in_every_table() {
    for field in [&trailer::MASS_BASIS, &state::load::MASS_BASIS] {
        assert_eq!(field.key, item::MASS_BASIS.key);
    }
}

#[test]
fn names_are_listed_once_each() {
    let names: BTreeSet<&str> = Footing::NAMED.iter().filter_map(|footing| footing.name()).collect();
    assert_eq!(names.len(), Footing::NAMED.len());
}
