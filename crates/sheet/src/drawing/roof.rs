//! The roof, seen from above.

use pintle_calc::roof::opened::{ladder_foot, ladder_side, opened};
use pintle_calc::roof::{beyond_roof, bows, feet, overhang};
use pintle_calc::space::{Hour, Outline, extent_at};
use pintle_calc::{Figure, Known};
use pintle_spec::schema::kinds::tent as tent_fields;
use pintle_spec::schema::trailer;
use pintle_spec::{Coordinate, Extent, Item, Reach, Zone};

use super::canvas::{Canvas, Edge, look, metres};
use super::form::{Form, View, ends, plan};
use super::scene::Scene;

/// How many letters' heights fit across it.
const LETTERS: f64 = 58.0;

/// How wide the mark of a foot is, in mm: it is no measure of the foot.
const FOOT: f64 = 35.0;

/// The roof plan.
pub(super) fn canvas(scene: &Scene<'_>) -> Canvas {
    let mut canvas = Canvas::new("roof", View::Above, LETTERS);
    let view = canvas.view;
    canvas.base("box", "wall", Outline::outside(scene.build).map(|outline| plan(&outline)));
    bow_lines(scene, &mut canvas);
    for (part, item) in scene.parts().filter(|(_, item)| scene.root(item) == Zone::Roof) {
        let what = if matches!(item.zone, Zone::Tent(_) | Zone::Locker(_)) { "inside" } else { "body" };
        canvas.part(part, what, look(item), view.extent(extent_at(item, Hour::Road)));
        match item.kind {
            "tent" => tent(scene, &mut canvas, part, item),
            "rack" => rack_feet(scene, &mut canvas, part),
            _ => {}
        }
    }
    canvas
}

fn bow_lines(scene: &Scene<'_>, canvas: &mut Canvas) {
    if scene.build.trailer.table(&trailer::BOWS).is_none() {
        return;
    }
    match (bows::places(scene.build), bows::span(scene.build)) {
        (Ok(places), Ok(span)) => {
            let half = span.quantity.si() / 2.0;
            for x in places.iter().map(|place| place.metres) {
                let line = vec![canvas.view.at(x, -half, 0.0), canvas.view.at(x, half, 0.0)];
                canvas.base("bow", "bow", Ok(Form::Line(line)));
            }
        }
        (Err(missing), _) | (_, Err(missing)) => canvas.lacks(None, "bow", &missing),
    }
}

fn rack_feet(scene: &Scene<'_>, canvas: &mut Canvas, rack: usize) {
    match feet::rows(scene.build, rack) {
        Ok(rows) => {
            for row in rows {
                for y in [row.left.metres, row.right.metres] {
                    let at = canvas.view.at(row.x.metres, y, 0.0);
                    canvas.part(rack, "foot", "foot", Ok(Form::Circle(at, FOOT)));
                }
            }
        }
        Err(missing) => canvas.lacks(Some(rack), "foot", &missing),
    }
}

fn tent(scene: &Scene<'_>, canvas: &mut Canvas, tent: usize, item: &Item) {
    let view = canvas.view;
    let open = opened(scene.build, tent);
    canvas.part(tent, "open", "open", open.clone().and_then(|open| view.extent(&open)));
    if item.record.value(tent_fields::LADDER.key).is_some() {
        canvas.part(tent, "ladder", "ladder", open.and_then(|open| ladder(scene, tent, item, &open)));
    }
    beyond(scene, canvas, tent, &item.extent);
    let Zone::Rack(rack) = item.zone else { return };
    let (Ok(over), Some(rack)) = (overhang(scene.build, tent), scene.build.items.get(rack)) else { return };
    let (of, on) = (&item.extent, &rack.extent);
    let Ok(left) = metres(&of.y.near) else { return };
    let along = [(&over.front, &of.x.near, &on.x.near), (&over.rear, &on.x.far, &of.x.far)];
    for (past, from, to) in along {
        let (Ok(past), Ok(from), Ok(to)) = (past, metres(from), metres(to)) else { continue };
        if past.quantity.si().abs() > 1e-9 {
            let told = scene.overhang(past);
            canvas.dimension(view.at(from, left, 0.0), view.at(to, left, 0.0), Edge::Below, told);
        }
    }
    let Ok(rear) = metres(&of.x.far) else { return };
    let across = [(&over.left, &of.y.near, &on.y.near), (&over.right, &on.y.far, &of.y.far)];
    for (past, from, to) in across {
        let (Ok(past), Ok(from), Ok(to)) = (past, metres(from), metres(to)) else { continue };
        if past.quantity.si().abs() > 1e-9 {
            let told = scene.overhang(past);
            canvas.dimension(view.at(rear, from, 0.0), view.at(rear, to, 0.0), Edge::Right, told);
        }
    }
    let reach = Coordinate::of(&item.record, &tent_fields::OPEN_REACH);
    let side = item.record.word(&tent_fields::OPENS).map(|side| side.value);
    if let (Ok(reach), Some(side), Ok((front, end)), Ok((near, far))) =
        (reach, side, ends(&of.x), ends(&of.y))
    {
        let told = format!("opens by {}", scene.shown(reach.quantity()));
        let by = reach.metres;
        let (from, to, edge) = match side {
            "left" => ((front, near), (front, near - by), Edge::Left),
            "right" => ((front, far), (front, far + by), Edge::Left),
            "front" => ((front, far), (front - by, far), Edge::Above),
            "rear" => ((end, far), (end + by, far), Edge::Above),
            _ => return,
        };
        canvas.dimension(view.at(from.0, from.1, 0.0), view.at(to.0, to.1, 0.0), edge, told);
    }
}

/// How far a closed tent reaches beyond the box, where it does.
fn beyond(scene: &Scene<'_>, canvas: &mut Canvas, tent: usize, of: &Extent) {
    let view = canvas.view;
    let (Ok(past), Ok((front, end)), Ok((near, far))) =
        (beyond_roof(scene.build, tent), ends(&of.x), ends(&of.y))
    else {
        return;
    };
    let past_by = |figure: &Known<Figure>| {
        let by = figure.as_ref().ok()?.quantity;
        (by.si() > 1e-9).then(|| (by.si(), format!("beyond the roof {}", scene.shown(by))))
    };
    if let Some((by, told)) = past_by(&past.ahead) {
        canvas.dimension(view.at(front, near, 0.0), view.at(front + by, near, 0.0), Edge::Above, told);
    }
    if let Some((by, told)) = past_by(&past.behind) {
        canvas.dimension(view.at(end - by, near, 0.0), view.at(end, near, 0.0), Edge::Above, told);
    }
    if let Some((by, told)) = past_by(&past.aside) {
        let (from, to) = if far > -near { (far - by, far) } else { (near, near + by) };
        canvas.dimension(view.at(end, from, 0.0), view.at(end, to, 0.0), Edge::Right, told);
    }
}

/// A tent's ladder: from the edge that it leans on to its foot.
fn ladder(scene: &Scene<'_>, tent: usize, item: &Item, open: &Extent) -> Known<Form> {
    let (x, y) = ladder_foot(scene.build, tent)?;
    let (x, y) = (x.quantity.si(), y.quantity.si());
    let end = |reach: &Reach, far: bool| ends(reach).map(|(near, end)| if far { end } else { near });
    let top = match ladder_side(item)? {
        "left" => (x, end(&open.y, false)?),
        "right" => (x, end(&open.y, true)?),
        "front" => (end(&open.x, false)?, y),
        _ => (end(&open.x, true)?, y),
    };
    Ok(Form::Line(vec![View::Above.at(top.0, top.1, 0.0), View::Above.at(x, y, 0.0)]))
}
