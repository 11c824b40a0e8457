//! What the drawing shows, read back from it.

use super::*;

fn plot() -> Plot {
    Plot {
        title: "OM-1 <script>alert(1)</script> & \u{202e}more".to_owned(),
        unit: "lb".to_owned(),
        points: vec![(2000.0, 240.0), (2400.0, 200.0), (3100.0, 400.0)],
        reach: vec![(2000.0, 240.0), (2400.0, 200.0), (3100.0, 400.0)],
        allowed: vec![(0.0, 0.0), (2990.0, 299.0), (2990.0, 448.5)],
        marked: vec![("departure: everything aboard".to_owned(), (3100.0, 400.0))],
        notes: vec!["the hitch's rating is not given".to_owned()],
    }
}

#[test]
fn what_is_foreign_is_written_out() {
    let svg = plot().svg();
    assert!(!svg.contains("<script"), "{svg}");
    assert!(svg.contains("&lt;script&gt;") && svg.contains("&amp;"), "{svg}");
    assert!(!svg.contains('\u{202e}'));
    for never in ["http://", "https://", "<style", "href", "onload"] {
        let found = svg.replace("http://www.w3.org/2000/svg", "");
        assert!(!found.contains(never), "{never} in {svg}");
    }
}

#[test]
fn a_dot_within_and_a_cross_outside() {
    let svg = plot().svg();
    assert_eq!(svg.matches("r=\"2.2\"").count(), 1, "{svg}");
    assert_eq!(svg.matches("<path").count(), 2, "{svg}");
    assert!(svg.contains("2 of them outside"), "{svg}");
    assert!(svg.contains("1  3100, 400 lb (12.9 %), outside"), "{svg}");
}

#[test]
fn the_border_belongs_to_the_region() {
    let region = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
    let turned: Vec<Point> = region.iter().rev().copied().collect();
    for region in [&region[..], &turned] {
        assert!(holds(region, (5.0, 5.0)) && holds(region, (10.0, 10.0)) && holds(region, (0.0, 3.0)));
        assert!(!holds(region, (10.1, 5.0)) && !holds(region, (-0.1, 5.0)));
    }
    assert!(!holds(&[], (0.0, 0.0)));
}

#[test]
fn places_read_back_are_the_weights() {
    let axis = Axis::over([2000.0, 3100.0].into_iter(), 90.0, 650.0);
    let marks = axis.marks();
    let (first, last) = (marks.first().unwrap(), marks.last().unwrap());
    assert!(first.0 <= 2000.0 && last.0 >= 3100.0, "{marks:?}");
    assert!((axis.place(first.0) - 90.0).abs() < 1e-9 && (axis.place(last.0) - 650.0).abs() < 1e-9);
    let step = marks[1].0 - marks[0].0;
    assert!(
        [1.0, 2.0, 5.0].iter().any(|round| (step / 10_f64.powf(step.log10().floor()) - round).abs() < 1e-9)
    );
    let none = Axis::over(std::iter::empty(), 0.0, 1.0);
    assert!(none.place(0.5).is_finite());
}
