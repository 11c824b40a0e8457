//! Making quantities, and what is kept of the author's writing.

use super::*;
use crate::Units;

fn read(text: &str) -> Quantity {
    Quantity::parse(text).unwrap()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-12 * a.abs().max(b.abs())
}

#[test]
fn conveniences_make_what_they_say() {
    for (made, text) in [
        (Quantity::pounds(150.0), "150 lb"),
        (Quantity::inches(22.5), "22.5 in"),
        (Quantity::feet(7.0), "7 ft"),
        (Quantity::kilograms(68.0), "68 kg"),
        (Quantity::metres(2.5), "2.5 m"),
        (Quantity::gallons(20.0), "20 gal"),
        (Quantity::share(0.104), "10.4 %"),
    ] {
        assert_eq!(made.dimension(), read(text).dimension(), "{text}");
        assert!(close(made.si(), read(text).si()), "{text}");
        assert_eq!(made.show(Units::AsWritten), text);
    }
}

#[test]
fn value_is_in_the_authors_unit_or_in_si() {
    assert!(close(read("7 ft 6 in").value(), 7.5));
    assert!(close(read("2/0 AWG").value(), -1.0));
    assert!(close(Quantity::from_si(2.5, Dimension::LENGTH).value(), 2.5));
    assert!(close(read("40 °F").value(), 40.0));
}

#[test]
fn value_in_another_dimension_is_an_error() {
    let inch = Unit::find("in").unwrap();
    let mismatch = Quantity::pounds(1.0).value_in(inch).unwrap_err();
    assert_eq!((mismatch.left, mismatch.right), (Dimension::MASS, Dimension::LENGTH));
}

#[test]
fn a_unit_is_adopted_only_by_its_own_dimension() {
    let length = Quantity::metres(1.0);
    assert_eq!(length.with_unit_of(read("3 in")).unit().map(Unit::name), Some("in"));
    assert_eq!(length.with_unit_of(read("3 lb")).unit().map(Unit::name), Some("m"));
    let anonymous = Quantity::from_si(1.0, Dimension::LENGTH);
    assert_eq!(length.with_unit_of(anonymous).unit().map(Unit::name), Some("m"));
}

#[test]
fn a_tolerance_is_a_difference() {
    let warm = read("40 °F ± 9 °F");
    let half = warm.tolerance().unwrap();
    assert!(close(half.si(), 5.0));
    assert_eq!(half.show(Units::AsWritten), "5 K");
    assert_eq!(Quantity::pounds(5.0).tolerance().map(Quantity::si), None);
    let made = Quantity::pounds(150.0).with_tolerance(Quantity::pounds(5.0).si());
    assert_eq!(made.show(Units::AsWritten), "150 lb ± 5 lb");
}
