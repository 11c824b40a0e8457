//! Envelopes and what ratings allow.

use pintle_quantity::Quantity;

use super::random::Random;
use super::specs::{part, random_spec, spec, try_read};
use crate::arrange::{Arrangements, Bounded, End, Extremum, Point, allowed};

const POUND: f64 = 0.453_592_37;

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

#[track_caller]
fn same(found: &[Point], expected: &[(f64, f64)]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (point, (gross, tongue)) in found.iter().zip(expected) {
        close(point.gross / POUND, *gross);
        close(point.tongue / POUND, *tongue);
    }
}

/// How far the points reach in a direction.
fn reach(points: &[Point], way: (f64, f64)) -> f64 {
    points.iter().map(|point| point.gross * way.0 + point.tongue * way.1).fold(f64::NEG_INFINITY, f64::max)
}

/// A hull reaches in every direction as far as its arrangements do, and turns left at each of its corners, each of which
/// is an arrangement.
#[test]
fn the_hull_reaches_as_far_as_the_arrangements() {
    let mut corners = 0;
    for seed in 0..1200 {
        let Some(build) = try_read(&random_spec(&mut Random::new(seed + 300_000))) else { continue };
        let Ok(arrangements) = Arrangements::of(&build) else { continue };
        let envelope = arrangements.envelope().unwrap();
        let (points, hull) = (envelope.points.unwrap(), envelope.hull);
        close(envelope.count, f64::from(u32::try_from(points.len()).unwrap()));
        for step in 0..90 {
            let angle = f64::from(step) * std::f64::consts::TAU / 90.0;
            let way = (angle.cos(), angle.sin());
            close(reach(&hull, way), reach(&points, way));
        }
        for (at, corner) in hull.iter().enumerate() {
            let near = |point: &Point| {
                (point.gross - corner.gross).hypot(point.tongue - corner.tongue) < 1e-9 * corner.gross
            };
            assert!(points.iter().any(near), "seed {seed}: no arrangement at {corner:?}");
            if hull.len() > 2 {
                let (next, last) = (hull[(at + 1) % hull.len()], hull[(at + 2) % hull.len()]);
                let turn = (next.gross - corner.gross) * (last.tongue - next.tongue)
                    - (next.tongue - corner.tongue) * (last.gross - next.gross);
                assert!(turn > 0.0, "seed {seed}: {hull:?}");
            }
        }
        for extreme in &envelope.extremes {
            let figure = |point: &Point| match extreme.what {
                Extremum::Gross => point.gross,
                Extremum::Tongue => point.tongue,
                _ => point.tongue / point.gross,
            };
            let sign = if extreme.end == End::Most { 1.0 } else { -1.0 };
            let most = points.iter().map(|point| sign * figure(point)).fold(f64::NEG_INFINITY, f64::max);
            close(sign * figure(&extreme.point), most);
        }
        corners = corners.max(hull.len());
    }
    assert!(corners > 8, "the largest hull has {corners} corners");
}

/// 1,000 lb with 1,000 · 8/78 lb on the ball; a chest of 78 lb at the ball, a bin of 78 lb over the axle: four points, a
/// parallelogram.
#[test]
fn an_envelope_by_hand() {
    let chest = "[[item]]\ntag = \"chest\"\nkind = \"module\"\nremovable = true\nmass = \"78 lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\nzone = \"tongue\"\nat = { ball = \"-5 in\" }\n";
    let bin = part("item", "bin", 78.0, [43.0, 0.0, 0.0], "kind = \"module\"\nremovable = true");
    let road = "[[state]]\nname = \"road\"\nuse = \"road\"\n";
    let build = try_read(&spec(&format!("{chest}{bin}{road}"))).unwrap();
    let envelope = Arrangements::of(&build).unwrap().envelope().unwrap();
    let bare = 8000.0 / 78.0;
    same(&envelope.hull, &[(1000.0, bare), (1078.0, bare), (1156.0, bare + 78.0), (1078.0, bare + 78.0)]);
    let named: Vec<&str> = envelope.named.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(named, ["departure: everything aboard", "chest out", "bin out", "everything out"]);
    same(&[envelope.named[1].1], &[(1078.0, bare)]);
    same(&[envelope.named[2].1], &[(1078.0, bare + 78.0)]);
    assert_eq!(envelope.extremes[3].name, "departure: everything aboard");
}

/// GVWR 3,000 lb, axle 3,500 lb, coupler 2,000 lb and 250 lb on the ball, 10 % to 15 %: from the origin along 10 % to
/// (2,000, 200), up to 250 lb, back along 250 lb to 15 % at 1,666.7 lb.
#[test]
fn what_ratings_allow_by_hand() {
    let text = spec("coupler = { rating = \"2000 lb\", tongue_rating = \"250 lb\" }\n");
    let build = try_read(&text).unwrap();
    let shares = (Quantity::share(0.10), Quantity::share(0.15));
    let region = allowed(&build, shares.0, shares.1, 4000.0 * POUND);
    let corners = crate::arrange::hull::convex(region.region.clone());
    same(&corners, &[(0.0, 0.0), (2000.0, 200.0), (2000.0, 250.0), (250.0 / 0.15, 250.0)]);
    assert!(!region.framed);
    let given: Vec<Bounded> = region.ratings.iter().map(|(bounded, _)| *bounded).collect();
    assert_eq!(given, [Bounded::Gross, Bounded::Gross, Bounded::Tongue, Bounded::Axles]);
    let lacking: Vec<&str> = region.not_given.iter().map(|missing| missing.what.as_str()).collect();
    assert_eq!(lacking, ["`rating` of the tow vehicle", "`tongue_rating` of the tow vehicle"]);
    // An axle rating of 900 lb: along 10 % to 1,000 lb, along gross − tongue = 900 to 15 % at 900/0.85.
    let weak = try_read(&text.replace("3500 lb", "900 lb")).unwrap();
    let region = allowed(&weak, shares.0, shares.1, 4000.0 * POUND);
    let corners = crate::arrange::hull::convex(region.region);
    same(&corners, &[(0.0, 0.0), (1000.0, 100.0), (900.0 / 0.85, 135.0 / 0.85)]);
    // Without any rating of weight the region goes on past the frame.
    let bare = spec("").replace("gvwr = \"3000 lb\"\n", "").replace(", gawr = \"3500 lb\"", "");
    let region = allowed(&try_read(&bare).unwrap(), shares.0, shares.1, 4000.0 * POUND);
    assert!(region.framed && region.not_given.len() == 6);
    same(&crate::arrange::hull::convex(region.region), &[(0.0, 0.0), (4000.0, 400.0), (4000.0, 600.0)]);
}
