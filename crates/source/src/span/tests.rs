use super::*;
use crate::Sources;

#[test]
fn a_part_stays_inside() {
    let id = Sources::new().add("a.toml", "0123456789");
    let span = Span::new(id, 2, 8);
    // (bytes from the start of the span, start and end in the file)
    for (inner, start, end) in
        [(0..6, 2, 8), (1..3, 3, 5), (4..99, 6, 8), (98..99, 8, 8), (0..usize::MAX, 2, 8)]
    {
        assert_eq!(span.part(inner.clone()), Span::new(id, start, end), "{inner:?}");
        assert!(span.holds(span.part(inner)));
    }
}

#[test]
fn holding_needs_the_same_file_and_both_ends() {
    let mut sources = Sources::new();
    let (one, two) = (sources.add("a.toml", "0123456789"), sources.add("b.toml", "0123456789"));
    let span = Span::new(one, 2, 8);
    assert!(span.holds(span));
    assert!(span.holds(Span::new(one, 3, 3)));
    assert!(!span.holds(Span::new(one, 1, 8)));
    assert!(!span.holds(Span::new(one, 2, 9)));
    assert!(!span.holds(Span::new(two, 3, 4)));
}

#[test]
fn a_value_keeps_its_place_when_it_is_changed() {
    let id = Sources::new().add("a.toml", "7");
    let spanned = Spanned::new(7, Span::new(id, 0, 1));
    assert_eq!(spanned.map(|value| value * 2), Spanned::new(14, Span::new(id, 0, 1)));
    assert_eq!(spanned.as_ref().value, &7);
    assert_eq!(spanned.as_ref().span, spanned.span);
}
