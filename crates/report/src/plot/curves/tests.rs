//! What the drawing shows, read back from it.

use super::*;

fn curves() -> Curves {
    Curves {
        id: "night".to_owned(),
        title: "night <b onload='x'> & \u{202e}more".to_owned(),
        told: "told <script>".to_owned(),
        across: Scale { words: "hours".to_owned(), least: 0.0, most: 8.0, step: Some(1.0) },
        upright: Scale { words: "share, ppm".to_owned(), least: 0.0, most: 7000.0, step: None },
        lines: vec![
            Line {
                key: "vented",
                words: "vents".to_owned(),
                points: vec![(0.0, 420.0), (8.0, 983.0)],
                dashes: "",
            },
            Line {
                key: "shut",
                words: "shut".to_owned(),
                points: vec![(0.0, 420.0), (8.0, 24_000.0)],
                dashes: "7 4",
            },
        ],
        marks: vec![Mark { words: "5,000 ppm".to_owned(), at: 5000.0 }],
    }
}

/// The figure and the place of every mark of an axis.
fn ticks(svg: &str, axis: &str, at: &str) -> Vec<(f64, f64)> {
    let begins = format!("class=\"tick {axis}\">");
    let groups = svg.split(&begins).skip(1);
    let tick = |group: &str| -> (f64, f64) {
        let place = group.split_once(&format!(" {at}=\"")).unwrap().1.split('"').next().unwrap();
        let (_, text) = group.split_once("<text").unwrap();
        let shown = text.split_once('>').unwrap().1.split('<').next().unwrap().trim().replace(',', "");
        (shown.parse().unwrap(), place.parse().unwrap())
    };
    groups.map(tick).collect()
}

#[test]
fn lines_read_back_over_the_axes_are_the_values() {
    let svg = curves().svg();
    let scale = |ticks: Vec<(f64, f64)>| {
        let (first, last) = (ticks[0], ticks[ticks.len() - 1]);
        move |place: f64| first.0 + (place - first.1) / (last.1 - first.1) * (last.0 - first.0)
    };
    let (x, y) = (scale(ticks(&svg, "across", "x1")), scale(ticks(&svg, "upright", "y1")));
    let (_, shut) = svg.split_once("data-line=\"shut\"").unwrap();
    let points = shut.split_once("points=\"").unwrap().1.split('"').next().unwrap();
    let read: Vec<Point> = points
        .split(' ')
        .map(|pair| pair.split_once(',').unwrap())
        .map(|(one, other)| (x(one.parse().unwrap()), y(other.parse().unwrap())))
        .collect();
    for (found, given) in read.iter().zip([(0.0, 420.0), (8.0, 24_000.0)]) {
        assert!(
            (found.0 - given.0).abs() < 0.01 && (found.1 - given.1).abs() < 5.0,
            "{found:?} for {given:?}"
        );
    }
    assert_eq!(read.len(), 2);
}

#[test]
fn what_is_foreign_is_written_out_and_nothing_is_styled() {
    let svg = curves().svg();
    for never in ["<script", "<b ", "style=", "<style", "href", "\u{202e}"] {
        assert!(!svg.contains(never), "{never} in {svg}");
    }
    for id in ["night-title", "night-told", "night-area"] {
        assert_eq!(svg.matches(&format!("id=\"{id}\"")).count(), 1, "{id}");
    }
}

#[test]
fn names_stand_within_the_area_and_off_each_other() {
    let svg = curves().svg();
    let names: Vec<&str> = svg.split("class=\"name\"").skip(1).collect();
    assert_eq!(names.len(), 3, "{svg}");
    let mut places = Vec::new();
    for name in names {
        let read = |at: &str| -> f64 {
            name.split_once(&format!(" {at}=\"")).unwrap().1.split('"').next().unwrap().parse().unwrap()
        };
        places.push((read("x"), read("y")));
    }
    for (at, one) in places.iter().enumerate() {
        assert!(one.0 > AREA.left && one.0 < AREA.right() && one.1 > AREA.top && one.1 < AREA.bottom());
        for other in places.iter().skip(at + 1) {
            assert!((one.0 - other.0).abs() > 30.0 || (one.1 - other.1).abs() >= 15.0, "{places:?}");
        }
    }
}

#[test]
fn no_name_is_crossed_by_a_steep_line() {
    // Down within a hundredth of an hour, in the middle of where a name would like to stand.
    let points = vec![(0.0, 6000.0), (6.5, 6000.0), (6.51, 3000.0), (8.0, 3000.0)];
    let curves = Curves {
        lines: vec![Line { key: "held", words: "without any sun".to_owned(), points, dashes: "" }],
        marks: Vec::new(),
        ..curves()
    };
    let svg = curves.svg();
    let name = svg.split("class=\"name\"").nth(1).unwrap();
    let read = |at: &str| -> f64 {
        name.split_once(&format!(" {at}=\"")).unwrap().1.split('"').next().unwrap().parse().unwrap()
    };
    let (x, y) = (read("x"), read("y"));
    let [across, upright] = curves.axes();
    let drop = across.place(6.5);
    let beside = (x - drop).abs() > crate::plot::lettering::words_width("without any sun") / 2.0;
    let over = y < upright.place(6000.0) || y - 12.0 > upright.place(3000.0);
    assert!(beside || over, "{x}, {y} with the drop at {drop}");
}

#[test]
fn lines_differ_without_colour() {
    let svg = curves().svg();
    let lines: Vec<&str> =
        svg.split("<polyline").skip(1).map(|rest| rest.split('>').next().unwrap()).collect();
    assert_eq!(lines.len(), 2);
    assert!(lines[1].contains("stroke-dasharray") && !lines[0].contains("stroke-dasharray"), "{lines:?}");
}
