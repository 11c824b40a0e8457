//! The side elevation: how the trailer stands on the road.

use pintle_calc::roof::opened::opened;
use pintle_calc::roof::{air_gap, overall_height, overhang, stand_height};
use pintle_calc::space::{Along, Hour, Sweep, extent_at};
use pintle_calc::{Figure, Known};
use pintle_spec::schema::trailer::{self, coupler, tire};
use pintle_spec::{Coordinate, Zone};

use super::canvas::{Arrow, Canvas, Drawn, Edge, Mark, look, metres};
use super::form::{Form, View};
use super::scene::{Scene, is_through};

/// How many letters' heights fit across it.
const LETTERS: f64 = 74.0;

/// The elevation.
pub(super) fn canvas(scene: &Scene<'_>) -> Canvas {
    let mut canvas = Canvas::new("side", scene.side(), LETTERS);
    parts(scene, &mut canvas);
    trailer(scene, &mut canvas);
    marks(scene, &mut canvas);
    arrows(scene, &mut canvas);
    lengths(scene, &mut canvas);
    heights(scene, &mut canvas);
    canvas
}

fn trailer(scene: &Scene<'_>, canvas: &mut Canvas) {
    let (s, view) = (&scene.build.surfaces, canvas.view);
    let at = |x: f64, z: f64| view.at(x, 0.0, z);
    let boxed = |front: &Known<Coordinate>, rear: &Known<Coordinate>, low, high| -> Known<Form> {
        Ok(Form::Rect(view.boxed((metres(front)?, metres(rear)?), (0.0, 0.0), (metres(low)?, metres(high)?))))
    };
    canvas.base("box", "wall", boxed(&s.nose_outside, &s.rear_outside, &s.floor, &s.skin));
    canvas.base("room", "room", boxed(&s.nose_inside, &s.rear_inside, &s.floor, &s.ceiling));
    let sides_begin = || -> Known<Form> {
        let (x, low, high) = (metres(&s.square_outside)?, metres(&s.floor)?, metres(&s.skin)?);
        Ok(Form::Line(vec![at(x, low), at(x, high)]))
    };
    canvas.base("nose", "edge", sides_begin());
    let frame = || -> Known<Form> {
        let z = metres(&s.frame)?;
        Ok(Form::Line(vec![at(0.0, z), at(metres(&s.nose_outside)?, z)]))
    };
    canvas.base("tongue", "frame", frame());
    canvas.base("ball", "ball", ball(scene, view));
    let radius = || scene.build.trailer.need_table(&trailer::TIRE)?.need(&tire::RADIUS);
    match (scene.axles(), radius()) {
        (Ok(axles), Ok(radius)) => {
            let radius = radius.value.si();
            for x in axles {
                canvas.base("wheel", "wheel", Ok(Form::Circle(at(x, radius), radius * 1000.0)));
                canvas.over.push(Drawn::new("axle", "axle", Form::Circle(at(x, radius), 25.0)));
            }
        }
        (Ok(axles), Err(missing)) => {
            for x in axles {
                canvas.base("axle", "axle", Ok(Form::Line(vec![at(x, 0.0), at(x, 0.3)])));
            }
            canvas.lacks(None, "wheel", &missing);
        }
        (Err(missing), _) => canvas.lacks(None, "axle", &missing),
    }
    if let Some(bounds) = canvas.bounds() {
        let ground = Form::Line(vec![(bounds.low.0, 0.0), (bounds.high.0, 0.0)]);
        canvas.base("ground", "ground", Ok(ground));
    }
}

/// The ball, as large as it is, in the height of the coupler; on top of the frame where that is not given.
pub(super) fn ball(scene: &Scene<'_>, view: View) -> Known<Form> {
    let coupler = scene.build.trailer.need_table(&trailer::COUPLER)?;
    let radius = coupler.need(&coupler::BALL)?.value.si() / 2.0;
    let height = match coupler.quantity(&coupler::HEIGHT) {
        Some(height) => height.value.si(),
        None => metres(&scene.build.surfaces.frame)?,
    };
    Ok(Form::Circle(view.at(0.0, 0.0, height), radius * 1000.0))
}

fn parts(scene: &Scene<'_>, canvas: &mut Canvas) {
    let view = canvas.view;
    let far = if view == View::FromRight { Zone::LeftWall } else { Zone::RightWall };
    for (part, item) in scene.parts().filter(|(_, item)| !(is_through(item) && item.zone == far)) {
        let (hidden, extent) = (scene.is_hidden(item), extent_at(item, Hour::Road));
        let what = if hidden { "inside" } else { "body" };
        canvas.part(part, what, look(item), view.extent(extent));
        if item.kind == "tent" {
            canvas.part(part, "open", "open", opened(scene.build, part).and_then(|open| view.extent(&open)));
        }
    }
    for swing in &scene.swings {
        let Ok(sweeps) = &swing.sweeps else { continue };
        let seen = sweeps.iter().filter(|sweep| matches!(sweep, Sweep::Quarter { hinge: Along::Y, .. }));
        if !swing.folds && canvas.parts.contains_key(&swing.part) {
            for sweep in seen {
                canvas.part(swing.part, "swing", "swing", Ok(view.sweep(sweep)));
            }
        }
    }
}

/// The centre of gravity of every road state, as it is seen in a view.
pub(super) fn marks(scene: &Scene<'_>, canvas: &mut Canvas) {
    for weighed in &scene.road {
        let si =
            |figure: &Known<Figure>| figure.as_ref().map(|figure| figure.quantity.si()).map_err(Clone::clone);
        let across = if canvas.view == View::Behind { si(&weighed.y) } else { si(&weighed.x) };
        match (across, si(&weighed.z)) {
            (Ok(across), Ok(z)) => {
                let at = canvas.view.at(across, across, z);
                canvas.marks.push(Mark { state: weighed.state, at });
            }
            (Err(missing), _) | (_, Err(missing)) => {
                canvas.lacks(None, &format!("centre of gravity G{}", weighed.number), &missing);
            }
        }
    }
}

fn arrows(scene: &Scene<'_>, canvas: &mut Canvas) {
    let Some(heaviest) = scene.heaviest() else {
        if let Some(Err(missing)) = scene.road.first().map(|first| &first.gross) {
            canvas.lacks(None, "loads of tongue and axles", missing);
        }
        return;
    };
    let axle = metres(&scene.build.surfaces.axle);
    let loads = [("tongue", Ok(0.0), &heaviest.tongue), ("axle", axle, &heaviest.axles)];
    for (what, x, load) in loads {
        match (x, load) {
            (Ok(x), Ok(load)) => {
                let text = format!("{what} {}", scene.shown(load.quantity));
                let up = load.quantity.si() < 0.0;
                canvas.arrows.push(Arrow { what, at: canvas.view.at(x, 0.0, 0.0), up, text });
            }
            (Err(missing), _) => canvas.lacks(None, what, &missing),
            (_, Err(missing)) => canvas.lacks(None, what, missing),
        }
    }
}

fn lengths(scene: &Scene<'_>, canvas: &mut Canvas) {
    let s = &scene.build.surfaces;
    let ball = Ok(Coordinate::ORIGIN);
    let runs = [
        ("ball to box", &ball, &s.nose_outside),
        ("box outside", &s.nose_outside, &s.rear_outside),
        ("ball to axle", &ball, &s.axle),
        ("behind the axle", &s.axle, &s.rear_outside),
    ];
    for (what, from, to) in runs {
        if let (Ok(from), Ok(to)) = (from, to) {
            let at = |place: &Coordinate| canvas.view.at(place.metres, 0.0, 0.0);
            let text = format!("{what} {}", scene.between(from, to));
            canvas.dimension(at(from), at(to), Edge::Below, text);
        }
    }
    for (tent, item) in scene.build.of_kind("tent") {
        let Zone::Rack(rack) = item.zone else { continue };
        let (Ok(over), Some(rack)) = (overhang(scene.build, tent), scene.build.items.get(rack)) else {
            continue;
        };
        let (of, on) = (&item.extent.x, &rack.extent.x);
        for (past, from, to) in [(&over.front, &of.near, &on.near), (&over.rear, &on.far, &of.far)] {
            let (Ok(past), Ok(from), Ok(to), Ok(top)) = (past, from, to, &item.extent.z.far) else {
                continue;
            };
            if past.quantity.si().abs() > 1e-9 {
                let at = |place: &Coordinate| canvas.view.at(place.metres, 0.0, top.metres);
                let text = scene.overhang(past);
                canvas.dimension(at(from), at(to), Edge::Above, text);
            }
        }
    }
}

fn heights(scene: &Scene<'_>, canvas: &mut Canvas) {
    let s = &scene.build.surfaces;
    let view = canvas.view;
    let (near, far) = match view {
        View::FromRight => (Edge::Left, Edge::Right),
        _ => (Edge::Right, Edge::Left),
    };
    let rear = metres(&s.rear_outside).unwrap_or(0.0);
    let front = metres(&s.nose_outside).unwrap_or(0.0);
    let ground = Coordinate::ORIGIN;
    if let Ok(floor) = &s.floor {
        let text = format!("floor {}", scene.between(&ground, floor));
        canvas.dimension(view.at(rear, 0.0, 0.0), view.at(rear, 0.0, floor.metres), near, text);
        if let Ok(ceiling) = &s.ceiling {
            let text = format!("inside {}", scene.between(floor, ceiling));
            canvas.dimension(
                view.at(rear, 0.0, floor.metres),
                view.at(rear, 0.0, ceiling.metres),
                near,
                text,
            );
        }
    }
    match overall_height(scene.build) {
        Ok(height) => {
            let text = format!("overall {}", scene.shown(height.quantity));
            canvas.dimension(view.at(rear, 0.0, 0.0), view.at(rear, 0.0, height.quantity.si()), near, text);
        }
        Err(missing) => canvas.lacks(None, "overall height", &missing),
    }
    for (rack, _) in scene.build.of_kind("rack") {
        let (Ok(skin), Ok(Some(_)), Ok(Some(gap))) =
            (metres(&s.skin), stand_height(scene.build, rack), air_gap(scene.build, rack))
        else {
            continue;
        };
        let text = format!("gap {}", scene.shown(gap.quantity));
        let top = skin + gap.quantity.si();
        canvas.dimension(view.at(front, 0.0, skin), view.at(front, 0.0, top), far, text);
    }
}
