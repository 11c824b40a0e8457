//! Plan areas, inside lengths, fronts of the roof, and the outlines under them.

use pintle_quantity::Quantity;
use proptest::prelude::*;

use super::*;
use crate::Figure;
use crate::space::outline::Outline;
use crate::space::trial::{FLAT, ROUND, WEDGE, build, close, inputs, read, spec, value};
use crate::space::{inside_length, plan_area, roof_front_at};

#[test]
fn plan_areas() {
    // nose, ft², source
    let rows = [
        (FLAT, 72.0, "144 × 72 in"),
        (WEDGE, 76.5, "shapely 2.2.0, 144 × 72 in box with an 18 in triangular nose"),
        (BLUNT, 76.5, "shapely 2.2.0, the same with a trapezoid 12 in deep, 72 to 36 in"),
        (ROUND, 72.0 + std::f64::consts::PI / 4.0 * 6.0 * 1.5, "half an ellipse, π/4 × width × depth"),
    ];
    for (nose, expected, source) in rows {
        let trial = build(nose, "");
        let area = value(&plan_area(&trial).unwrap(), "ft²");
        assert!((area - expected).abs() < 1e-9, "{area} ft² for {nose}: {source}");
        // The outline, integrated, agrees with the formula.
        let square_metres = Outline::inside(&trial).unwrap().area_of(-100.0, 100.0, -100.0, 100.0);
        close(&plan_area(&trial).unwrap(), square_metres, "m²");
    }
}

#[test]
fn a_plan_area_knows_its_inputs() {
    let area = plan_area(&build(BLUNT, "")).unwrap();
    assert_eq!(
        inputs(&area),
        [
            "`width` of the trailer",
            "`length` of the trailer",
            "`front_width` of `nose` of the trailer",
            "`depth` of `nose` of the trailer"
        ]
    );
}

#[test]
fn sealed_lockers_on_the_floor_are_no_living_space() {
    let sealed = locker("box", "front = \"0 in\", left = \"0 in\"", SEALED);
    let beside = locker("other", "front = \"12 in\", left = \"10 in\"", SEALED);
    let open = locker("box", "front = \"0 in\", left = \"0 in\"", "opens = \"inside\"");
    let leaky = locker("box", "front = \"0 in\", left = \"0 in\"", "opens = \"outside\"\nsealed = false");
    let overhead = locker("box", "front = \"0 in\", left = \"0 in\", floor = \"40 in\"", SEALED);
    let tongue = locker("box", "ball = \"4 in\"", "zone = \"tongue\"");
    let whole = 144.0 * 72.0;
    // Arithmetic on rectangles; no published case.
    let rows = [
        (&sealed, 480.0, "24 × 20 in"),
        (&open, 0.0, "opens to the inside"),
        (&leaky, 0.0, "not sealed"),
        (&overhead, 0.0, "floor under it"),
        (&tongue, 0.0, "outside: it need not say how it opens"),
        (&format!("{sealed}{beside}"), 960.0 - 120.0, "what both cover is counted once: 12 × 10 in"),
        (&format!("{beside}{sealed}"), 960.0 - 120.0, "in either order"),
    ];
    for (lockers, off, what) in rows {
        let area = value(&plan_area(&build(FLAT, lockers)).unwrap(), "in²");
        assert!((area - (whole - off)).abs() < 1e-6, "{area} in²: {what}");
    }
    // A locker over the whole of a wedge takes off the wedge and no more: 18 × 72 / 2 in².
    let nose = "\n[[locker]]\ntag = \"box\"\nlength = \"18 in\"\nwidth = \"72 in\"\nheight = \"20 in\"\n\
                at = { nose = \"0 in\", left = \"0 in\" }\nopens = \"outside\"\nsealed = true\n";
    let area = value(&plan_area(&build(WEDGE, nose)).unwrap(), "in²");
    assert!((area - whole).abs() < 1e-6, "{area} in²");
}

#[test]
fn what_a_plan_area_misses() {
    let unsaid = build(FLAT, &locker("box", "front = \"0 in\", left = \"0 in\"", "sealed = true"));
    assert_eq!(plan_area(&unsaid).unwrap_err().what, "`opens` of locker `box`");
    let narrow = read(&spec(FLAT, "").replace("width = \"72 in\"\n", ""));
    assert_eq!(plan_area(&narrow).unwrap_err().what, "`width` of the trailer");
    let blunt = BLUNT.replace("36 in", "80 in");
    let too_wide = locker("box", "front = \"0 in\", left = \"0 in\"", SEALED);
    let missing = plan_area(&build(&blunt, &too_wide)).unwrap_err();
    assert_eq!(missing.what, "a `front_width` of `nose` of the trailer no wider than the trailer");
}

#[test]
fn inside_lengths() {
    // "a wedge nose gives about 1 ft 6 in more at the centreline; nominal 12 ft, about 13 ft 6 in": common practice.
    close(&inside_length(&build(WEDGE, "")).unwrap(), 13.5, "ft");
    close(&inside_length(&build(FLAT, "")).unwrap(), 12.0, "ft");
    assert_eq!(inputs(&inside_length(&build(FLAT, "")).unwrap()), ["`length` of the trailer"]);
}

#[test]
fn fronts_of_the_roof() {
    // Outside: 36 in to the nose, sides from 55.5 in, half width 37.5 in. Straight lines and ellipses by hand.
    let ellipse = 55.5 - 19.5 * (1.0_f64 - 0.8 * 0.8).sqrt();
    let rows = [
        (FLAT, 0.0, 36.0),
        (FLAT, 37.5, 36.0),
        (FLAT, -40.0, 36.0),
        (WEDGE, 0.0, 36.0),
        (WEDGE, -18.75, 36.0 + 19.5 / 2.0),
        (WEDGE, 37.5, 55.5),
        (WEDGE, 60.0, 55.5),
        (ROUND, 0.0, 36.0),
        (ROUND, 30.0, ellipse),
        (BLUNT, 18.75, 36.0),
        (BLUNT, 28.125, 36.0 + 13.5 / 2.0),
    ];
    for (nose, y, expected) in rows {
        let front = roof_front_at(&build(nose, ""), &Figure::constant(Quantity::inches(y))).unwrap();
        let found = value(&front, "in");
        assert!((found - expected).abs() < 1e-9, "{found} in at {y} in of {nose}, not {expected} in");
    }
}

proptest! {
    #[test]
    fn outlines_integrate(
        nose in prop::sample::select(vec![FLAT, WEDGE, ROUND, BLUNT]),
        front in 0.5_f64..6.0, long in 0.0_f64..3.0, left in -1.5_f64..1.5, wide in 0.0_f64..2.0,
    ) {
        let outline = Outline::inside(&build(nose, "")).unwrap();
        let exact = outline.area_of(front, front + long, left, left + wide);
        let strips = 4000;
        let step = long / f64::from(strips);
        let summed: f64 = (0..strips).map(|strip| {
            let half = outline.half_width(front + (f64::from(strip) + 0.5) * step);
            ((left + wide).clamp(-half, half) - left.clamp(-half, half)) * step
        }).sum();
        prop_assert!((exact - summed).abs() < 1e-3, "{} against {}", exact, summed);
    }

    #[test]
    fn fronts_and_widths_agree(nose in prop::sample::select(vec![WEDGE, ROUND, BLUNT]), y in 0.0_f64..0.91) {
        let outline = Outline::inside(&build(nose, "")).unwrap();
        let x = outline.front_at(y);
        prop_assert!(outline.half_width(x) >= y - 1e-6);
        prop_assert!(outline.half_width(x - 1e-4) <= y.max(0.4572 + 1e-9) || nose != BLUNT);
        prop_assert!(nose == BLUNT || outline.half_width(x - 1e-3) < y + 1e-9);
    }
}
