//! The end view, from behind.

use pintle_calc::Known;
use pintle_calc::roof::opened::opened;
use pintle_calc::roof::overall_height;
use pintle_calc::space::{Along, Hour, Sweep, extent_at};
use pintle_spec::schema::trailer::{self, axle, tire};
use pintle_spec::{Coordinate, Item, Zone};

use super::canvas::{Canvas, Edge, look, metres};
use super::form::{Form, View};
use super::scene::{Scene, is_through};
use super::side::marks;

/// How many letters' heights fit across it.
const LETTERS: f64 = 40.0;

/// The end view.
pub(super) fn canvas(scene: &Scene<'_>) -> Canvas {
    let mut canvas = Canvas::new("end", View::Behind, LETTERS);
    trailer(scene, &mut canvas);
    for (part, item) in scene.parts().filter(|(_, item)| is_seen(scene, item)) {
        let what = if matches!(item.zone, Zone::Tent(_) | Zone::Locker(_)) { "inside" } else { "body" };
        canvas.part(part, what, look(item), canvas.view.extent(extent_at(item, Hour::Road)));
        if item.kind == "tent" {
            let open = opened(scene.build, part).and_then(|open| canvas.view.extent(&open));
            canvas.part(part, "open", "open", open);
        }
    }
    swings(scene, &mut canvas);
    if let Some(bounds) = canvas.bounds() {
        let ground = Form::Line(vec![(bounds.low.0, 0.0), (bounds.high.0, 0.0)]);
        canvas.base("ground", "ground", Ok(ground));
    }
    marks(scene, &mut canvas);
    dimensions(scene, &mut canvas);
    canvas
}

/// Whether a part is seen from behind: what is on the rear, the sides, the roof, and below.
fn is_seen(scene: &Scene<'_>, item: &Item) -> bool {
    match scene.root(item) {
        Zone::RearDoor | Zone::Roof | Zone::LeftWall | Zone::RightWall | Zone::Underside => true,
        Zone::Inside
        | Zone::Floor
        | Zone::Tongue
        | Zone::FrontWall
        | Zone::Rack(_)
        | Zone::Locker(_)
        | Zone::Tent(_) => false,
    }
}

fn trailer(scene: &Scene<'_>, canvas: &mut Canvas) {
    let (s, view) = (&scene.build.surfaces, canvas.view);
    let boxed = |half: &Known<Coordinate>, high: &Known<Coordinate>| -> Known<Form> {
        let half = metres(half)?;
        Ok(Form::Rect(view.boxed((0.0, 0.0), (-half, half), (metres(&s.floor)?, metres(high)?))))
    };
    canvas.base("box", "wall", boxed(&s.wall_outside, &s.skin));
    canvas.base("room", "room", boxed(&s.wall_inside, &s.ceiling));
    let wheels = || -> Known<(f64, f64)> {
        let track = scene.build.trailer.need_table(&trailer::AXLE)?.need(&axle::TRACK)?;
        let radius = scene.build.trailer.need_table(&trailer::TIRE)?.need(&tire::RADIUS)?;
        Ok((track.value.si() / 2.0, radius.value.si()))
    };
    match wheels() {
        Ok((half, radius)) => {
            for y in [-half, half] {
                let line = vec![view.at(0.0, y, 0.0), view.at(0.0, y, 2.0 * radius)];
                canvas.base("wheel", "tire", Ok(Form::Line(line)));
            }
            let line = vec![view.at(0.0, -half, radius), view.at(0.0, half, radius)];
            canvas.base("axle", "axle", Ok(Form::Line(line)));
        }
        Err(missing) => canvas.lacks(None, "wheel", &missing),
    }
}

/// What swings up or down at the sides, and how far leaves reach out of them.
fn swings(scene: &Scene<'_>, canvas: &mut Canvas) {
    for swing in scene.swings.iter().filter(|swing| !swing.folds) {
        let Some(item) = scene.build.items.get(swing.part) else { continue };
        let aside = is_through(item) && matches!(item.zone, Zone::LeftWall | Zone::RightWall);
        let (Ok(sweeps), true) = (&swing.sweeps, aside && canvas.parts.contains_key(&swing.part)) else {
            continue;
        };
        let seen = sweeps.iter().filter(|sweep| {
            matches!(sweep, Sweep::Straight(_) | Sweep::Quarter { hinge: Along::X | Along::Z, .. })
        });
        for sweep in seen {
            canvas.part(swing.part, "swing", "swing", Ok(canvas.view.sweep(sweep)));
        }
    }
}

fn dimensions(scene: &Scene<'_>, canvas: &mut Canvas) {
    let (s, view) = (&scene.build.surfaces, canvas.view);
    let at = |y: f64, z: f64| view.at(0.0, y, z);
    if let Ok(right) = &s.wall_outside {
        let left = Coordinate::ORIGIN.plus(-1.0, right);
        let text = format!("width outside {}", scene.between(&left, right));
        canvas.dimension(at(left.metres, 0.0), at(right.metres, 0.0), Edge::Below, text);
    }
    let track = scene.build.trailer.need_table(&trailer::AXLE).and_then(|group| group.need(&axle::TRACK));
    if let Ok(track) = track {
        let half = track.value.si() / 2.0;
        let text = format!("track {}", scene.plain(track.value));
        canvas.dimension(at(-half, 0.0), at(half, 0.0), Edge::Below, text);
    }
    let side = metres(&s.wall_outside).unwrap_or(0.0);
    let roof = s.skin.as_ref().map(|skin| skin.metres);
    if let Ok(height) = overall_height(scene.build) {
        let text = format!("overall {}", scene.shown(height.quantity));
        canvas.dimension(at(side, 0.0), at(side, height.quantity.si()), Edge::Right, text);
        if roof.is_ok_and(|roof| height.quantity.si() - roof < 1e-9) {
            return;
        }
    }
    if let Ok(skin) = &s.skin {
        let text = format!("roof {}", scene.between(&Coordinate::ORIGIN, skin));
        canvas.dimension(at(side, 0.0), at(side, skin.metres), Edge::Right, text);
    }
}
