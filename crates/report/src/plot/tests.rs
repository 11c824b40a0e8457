//! What the drawing shows, read back from it.

use super::axis::{Axis, grouped};
use super::*;

fn plot() -> Plot {
    Plot {
        title: "OM-1 <script>alert(1)</script> & \u{202e}more".to_owned(),
        unit: "lb".to_owned(),
        points: vec![(2000.0, 240.0), (2400.0, 200.0), (3100.0, 400.0)],
        too_many: None,
        reach: vec![(2000.0, 240.0), (2400.0, 200.0), (3100.0, 400.0)],
        allowed: vec![(0.0, 0.0), (2990.0, 299.0), (2990.0, 448.5)],
        limits: vec![
            Limit { words: "share at least 10 %".to_owned(), counts: (0.1, -1.0), sum: 0.0 },
            Limit { words: "share at most 15 %".to_owned(), counts: (0.15, -1.0), sum: 0.0 },
            Limit { words: "gross at most 2,990 lb".to_owned(), counts: (1.0, 0.0), sum: 2990.0 },
            Limit { words: "gross at most 9,000 lb".to_owned(), counts: (1.0, 0.0), sum: 9000.0 },
        ],
        marked: vec![
            ("departure: everything aboard".to_owned(), (3100.0, 400.0)),
            ("<b onload='x'>\" out".to_owned(), (2000.0, 240.0)),
        ],
        notes: vec!["the hitch's rating is not given".to_owned()],
    }
}

/// The numbers of an attribute, wherever a tag with a text in it has it.
fn numbers(svg: &str, tag: &str, attribute: &str) -> Vec<f64> {
    let tags = svg.split('<').filter(|rest| rest.contains(tag));
    let value = |rest: &str| {
        let (_, after) = rest.split_once(&format!(" {attribute}=\""))?;
        after.split('"').next()?.parse().ok()
    };
    tags.filter_map(value).collect()
}

#[test]
fn what_is_foreign_is_written_out() {
    let svg = plot().svg();
    assert!(!svg.contains("<script") && !svg.contains("<b "), "{svg}");
    assert!(svg.contains("&lt;script&gt;") && svg.contains("&amp;"), "{svg}");
    assert!(!svg.contains('\u{202e}'));
    let found = svg.replace("http://www.w3.org/2000/svg", "");
    for never in ["http://", "https://", "<style", "href", "<image", "<foreignObject", " onload"] {
        assert!(
            !found.split('<').any(|tag| tag.split('>').next().unwrap().contains(never)),
            "{never} in {svg}"
        );
    }
}

#[test]
fn a_dot_within_and_a_cross_outside() {
    let svg = plot().svg();
    let drawn = |class: &str| -> usize {
        let (_, path) = svg.split_once(&format!("class=\"{class}\" d=\"")).unwrap();
        path.split('"').next().unwrap().matches(if class == "within" { 'h' } else { 'm' }).count()
    };
    // The first of each is the drawing's, the second the key's.
    assert_eq!((drawn("within"), drawn("outside")), (1, 2), "{svg}");
    for said in ["2 of them outside", "1 arrangement within what is allowed", "2 arrangements outside"] {
        assert!(svg.contains(said), "{said}: {svg}");
    }
    assert!(svg.contains("2,000 lb gross, 240 lb on the ball, 12.00 %\n"), "{svg}");
    assert!(svg.contains("3,100 lb gross, 400 lb on the ball, 12.90 %, outside"), "{svg}");
}

#[test]
fn numbers_run_from_left_to_right_in_drawing_and_list() {
    let svg = plot().svg();
    let places = numbers(&svg, "class=\"number\"", "x");
    assert_eq!(places.len(), 2);
    let list = svg.find("onload").unwrap();
    assert!(places[0] < places[1] && list < svg.find("departure: everything").unwrap(), "{svg}");
}

#[test]
fn limits_have_letters_where_their_lines_leave() {
    let svg = plot().svg();
    let letters = svg.matches("class=\"letter\"").count();
    assert_eq!(letters, 3, "the fourth lies beyond: {svg}");
    let (_, beyond) = svg.split_once("beyond the drawing:").unwrap();
    assert!(beyond.contains("9,000 lb") && !beyond.contains("2,990 lb"), "{svg}");
}

#[test]
fn too_many_to_draw_each_is_said_and_those_marked_are_drawn() {
    let svg = Plot { points: Vec::new(), too_many: Some("524,288".to_owned()), ..plot() }.svg();
    for said in ["bounds of all 524,288", "1 marked arrangement within", "1 marked arrangement outside"] {
        assert!(svg.contains(said), "{said}: {svg}");
    }
    assert_eq!(svg.matches("class=\"within\"").count(), 2, "one in the drawing, one in the key");
}

#[test]
fn numbers_of_crowded_rings_cover_neither_each_other_nor_a_ring() {
    let at = |number: u8| (2000.0 + 30.0 * f64::from(number % 5), 240.0 + 4.0 * f64::from(number / 5));
    let marked: Vec<(String, Point)> = (0..20).map(|number| ("x".to_owned(), at(number))).collect();
    let far = [(1500.0, 100.0), (3000.0, 400.0)];
    let svg = Plot { marked, points: far.to_vec(), reach: far.to_vec(), ..plot() }.svg();
    let (x, y) = (numbers(&svg, "class=\"number\"", "x"), numbers(&svg, "class=\"number\"", "y"));
    assert_eq!(x.len(), 20);
    let rings: Vec<Point> =
        numbers(&svg, "circle", "cx").into_iter().zip(numbers(&svg, "circle", "cy")).collect();
    for one in 0..20 {
        for other in 0..one {
            let (across, upright) = ((x[one] - x[other]).abs(), (y[one] - y[other]).abs());
            assert!(across >= 10.0 || upright >= 12.0, "{} and {}", other + 1, one + 1);
        }
        for ring in &rings {
            let apart = (x[one] - ring.0).hypot(y[one] - 4.0 - ring.1);
            assert!(apart >= labels::RING + 4.0, "{} lies on a ring", one + 1);
        }
    }
}

#[test]
fn all_words_stay_on_the_page() {
    let wide = "W".repeat(700);
    let mut plot = plot();
    plot.title.clone_from(&wide);
    plot.marked = vec![(wide.clone(), (2000.0, 240.0)), (wide.clone(), (2100.0, 240.0))];
    plot.notes = vec![wide];
    let svg = plot.svg();
    let height = numbers(&svg, "svg ", "height")[0];
    let bottom = numbers(&svg, "text ", "y").into_iter().fold(0.0, f64::max);
    assert!(bottom < height, "{bottom} of {height}");
    // A W is as wide as its size at the most, in the typefaces that were looked at.
    for line in svg.split("<text").skip(1).filter(|line| line.contains("WW")) {
        let letters = line.matches('W').count();
        let size = if line.contains("font-size=\"17\"") { 17 } else { 13 };
        let most = if size == 17 { 1020 } else { 492 };
        assert!(letters * size <= most, "{letters} of {size}");
    }
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
    let axis = Axis::over([2000.0, 3100.0].into_iter(), (90.0, 650.0), 8.0);
    let marks = axis.marks();
    let (first, last) = (marks.first().unwrap(), marks.last().unwrap());
    assert!(first.0 <= 2000.0 && last.0 >= 3100.0, "{marks:?}");
    assert!((axis.place(first.0) - 90.0).abs() < 1e-9 && (axis.place(last.0) - 650.0).abs() < 1e-9);
    let step = marks[1].0 - marks[0].0;
    assert!(
        [1.0, 2.0, 5.0].iter().any(|round| (step / 10_f64.powf(step.log10().floor()) - round).abs() < 1e-9)
    );
    let none = Axis::over(std::iter::empty(), (0.0, 1.0), 8.0);
    assert!(none.place(0.5).is_finite());
}

#[test]
fn the_window_holds_all_arrangements_and_what_is_allowed_near_them() {
    let area = Frame { left: 0.0, top: 0.0, width: 604.0, height: 440.0 };
    let shown = |plot: &Plot| {
        let window = Window::over(plot, &area);
        [window.across.least, window.across.most, window.upright.least, window.upright.most]
    };
    let [left, right, bottom, top] = shown(&plot());
    assert!(left > 1500.0 && left <= 2000.0 && (3100.0..4000.0).contains(&right), "{left} to {right}");
    assert!(bottom <= 200.0 && top >= 448.5, "{bottom} to {top}");
    // Where nothing varies, and nothing is allowed, there is still something to see.
    let one = Plot { points: vec![(2000.0, 200.0)], ..Plot::default() };
    let [left, right, bottom, top] = shown(&one);
    assert!(left < 2000.0 && 2000.0 < right && bottom < 200.0 && 200.0 < top);
    assert!(shown(&Plot::default()).iter().all(|edge| edge.is_finite()));
    // Lighter than all arrangements: the region's edge comes into view.
    let light = Plot { allowed: vec![(0.0, 0.0), (1900.0, 190.0), (1900.0, 285.0)], ..plot() };
    assert!(shown(&light)[0] <= 1900.0);
}

#[test]
fn thousands_stand_apart() {
    assert_eq!(grouped(1_234_567.0, 0), "1,234,567");
    assert_eq!(grouped(-123.0, 1), "-123.0");
    assert_eq!(grouped(-0.04, 1), "0.0");
    assert_eq!(grouped(1000.0, 0), "1,000");
}

#[test]
fn within_a_page_the_drawing_leaves_key_and_list_to_it() {
    let plot = plot();
    let svg = plot.inset("here");
    for id in ["here-title", "here-told", "here-area"] {
        assert_eq!(svg.matches(&format!("id=\"{id}\"")).count(), 1, "{id}");
    }
    assert!(
        !svg.contains("<script") && !svg.contains("style=") && !svg.contains("within what is allowed"),
        "{svg}"
    );
    let signs: Vec<Sign> = plot.entries().iter().map(|entry| entry.sign).collect();
    let limits = [Sign::Limit('A'), Sign::Limit('B'), Sign::Limit('C'), Sign::Beyond];
    assert_eq!(signs[..5], [Sign::Region, Sign::Bounds, Sign::Dot, Sign::Cross, Sign::Ring]);
    assert_eq!(signs[5..], limits, "every limit is told, also one beyond the drawing");
    let numbered = plot.numbered();
    assert_eq!(numbered.iter().map(|one| one.number).collect::<Vec<_>>(), [1, 2]);
    assert_eq!(numbered.iter().map(|one| one.outside).collect::<Vec<_>>(), [false, true]);
    // Every letter of the key stands at a line, and every number at a ring.
    assert_eq!((svg.matches("class=\"letter\"").count(), svg.matches("class=\"number\"").count()), (3, 2));
}
