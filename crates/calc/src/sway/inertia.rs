//! The trailer's yaw inertia in a state, body by body.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume::{self, sway};
use pintle_spec::schema::trailer;
use pintle_spec::{Build, Extent, Item, Known, Missing, Reach, State, Table};

use crate::case::Case;
use crate::figure::Figure;
use crate::space::{alike, given, sum};
use crate::weights::{Body, BodyKind, Weights};

/// The yaw inertia of a trailer in one state.
#[derive(Debug, Clone)]
pub struct Yaw {
    /// Its weight.
    pub mass: Figure,
    /// Its centre of gravity behind the ball.
    pub centre: Figure,
    /// About its centre of gravity, in kg·m².
    pub about_centre: Figure,
    /// About the ball, in kg·m².
    pub about_ball: Figure,
    /// About its centre of gravity if all that is aboard stood at the axle line, each thing turned and set across as it
    /// is, and only the empty trailer where it is.
    pub at_axle: Figure,
    /// The part of the empty trailer in `about_centre` about its own centre of gravity.
    pub empty: Figure,
}

/// Yaw inertia of a box about its own middle, in kg·m²: m/12·(l² + b²), of any statics text. A box of no size is a point.
///
/// ```
/// use pintle_calc::{Figure, sway::box_inertia};
/// use pintle_quantity::Quantity;
///
/// let (m, l, b) = (Quantity::kilograms(120.0), Quantity::metres(2.0), Quantity::metres(1.0));
/// let [m, l, b] = [m, l, b].map(Figure::constant);
/// assert!((box_inertia(&m, &l, &b)?.quantity.si() - 50.0).abs() < 1e-12);
/// # Ok::<(), pintle_spec::Missing>(())
/// ```
///
/// # Errors
/// A length or width that is no length.
pub fn box_inertia(m: &Figure, l: &Figure, b: &Figure) -> Known<Figure> {
    Ok(m.scaled(1.0 / 12.0).times(&alike(l.times(l).plus(&b.times(b)))?))
}

/// The dimension of a moment of inertia.
pub(super) const INERTIA: Dimension = Dimension::MOMENT.times(Dimension::LENGTH);

struct Piece {
    m: Figure,
    own: Figure,
    x: Figure,
    y: Figure,
    is_trailer: bool,
}

/// The yaw inertia of the trailer in a state: of each body m/12·(l² + b²) + m·r² about the state's centre of gravity
/// (parallel axes). The empty trailer's own is what `yaw_inertia` states, else that of a plate as long and wide as its
/// box, times an assumption. Water counts by how full its tank is, and moves with the trailer.
///
/// # Errors
/// Masses, places and sizes that are not given.
pub fn yaw(case: &Case<'_>, state: &State) -> Known<Yaw> {
    let build = case.build;
    let weights = Weights::of(build, state);
    let (mass, centre) = (weights.gross()?, weights.centre_x()?);
    let (across, axle) = (weights.centre_y()?, Figure::coordinate(&build.surfaces.axle.clone()?));
    let pieces: Vec<Piece> =
        weights.bodies.iter().map(|body| piece(case, state, body)).collect::<Known<_>>()?;
    // Σ m·(x − X) is zero, so how X depends on what was written takes no part in any derivative.
    let (at_x, at_y) = (Figure::constant(centre.quantity), Figure::constant(across.quantity));
    let about = |piece: &Piece, x: &Figure, at_x: &Figure| -> Known<Figure> {
        let (dx, dy) = (alike(x.minus(at_x))?, alike(piece.y.minus(&at_y))?);
        let square = alike(dx.times(&dx).plus(&dy.times(&dy)))?;
        alike(piece.own.plus(&piece.m.times(&square)))
    };
    let real: Vec<Figure> = pieces.iter().map(|piece| about(piece, &piece.x, &at_x)).collect::<Known<_>>()?;
    let about_centre = sum(INERTIA, real)?;
    let about_ball = alike(about_centre.plus(&mass.times(&centre.times(&centre))))?;
    let moved = |piece: &Piece| if piece.is_trailer { piece.x.clone() } else { axle.clone() };
    let moment = sum(Dimension::MOMENT, pieces.iter().map(|piece| piece.m.times(&moved(piece))))?;
    let at_x = Figure::constant(moment.over(&mass).quantity);
    let together: Vec<Figure> =
        pieces.iter().map(|piece| about(piece, &moved(piece), &at_x)).collect::<Known<_>>()?;
    let empty = pieces.iter().find(|piece| piece.is_trailer).map(|piece| piece.own.clone());
    let empty = empty.ok_or_else(|| Missing::new("the empty trailer", None, "report this"))?;
    Ok(Yaw { mass, centre, about_centre, about_ball, at_axle: sum(INERTIA, together)?, empty })
}

fn piece(case: &Case<'_>, state: &State, body: &Body) -> Known<Piece> {
    let m = body.mass();
    let is_trailer = body.kind == BodyKind::Trailer;
    let own = if is_trailer { empty_inertia(case, &m)? } else { own_inertia(case.build, state, body, &m)? };
    let (x, y) = (Figure::coordinate(&body.x.clone()?), Figure::coordinate(&body.y.clone()?));
    Ok(Piece { m, own, x, y, is_trailer })
}

/// The empty trailer's own yaw inertia.
pub(super) fn empty_inertia(case: &Case<'_>, m: &Figure) -> Known<Figure> {
    let build = case.build;
    if build.trailer.quantity(&trailer::YAW_INERTIA).is_some() {
        return given(&build.trailer, &trailer::YAW_INERTIA);
    }
    let (factor, _) = case.assumed(&assume::SWAY, &sway::EMPTY_INERTIA)?;
    let [l, b] = outside(build)?;
    Ok(box_inertia(m, &l, &b)?.times(&factor))
}

/// Outside length of the box with its nose, and its outside width without fenders.
pub(super) fn outside(build: &Build) -> Known<[Figure; 2]> {
    let surfaces = &build.surfaces;
    let (rear, nose) = (surfaces.rear_outside.clone()?, surfaces.nose_outside.clone()?);
    let half = Figure::coordinate(&surfaces.wall_outside.clone()?);
    Ok([Figure::coordinate(&rear.plus(-1.0, &nose)), half.scaled(2.0)])
}

fn own_inertia(build: &Build, state: &State, body: &Body, m: &Figure) -> Known<Figure> {
    let extent = extent_of(build, state, body)
        .ok_or_else(|| Missing::new(format!("the size of {}", body.name), body.span, "report this"))?;
    let size = |reach: &Reach| -> Known<Figure> {
        let (near, far) = (reach.near.clone()?, reach.far.clone()?);
        Ok(Figure::coordinate(&far.plus(-1.0, &near)))
    };
    box_inertia(m, &size(&extent.x)?, &size(&extent.y)?)
}

/// The box that a body is, or stands in.
fn extent_of<'b>(build: &'b Build, state: &'b State, body: &Body) -> Option<&'b Extent> {
    let own = || state.loads.iter().find(|load| Some(load.span) == body.span).map(|load| &load.extent);
    let item =
        |fits: &dyn Fn(&Item) -> bool| build.items.iter().find(|item| fits(item)).map(|item| &item.extent);
    match body.kind {
        BodyKind::Trailer => None,
        BodyKind::Load => own().or_else(|| item(&|item| Some(item.tag.span) == body.span)),
        BodyKind::Fitted => item(&|item| Some(item.tag.span) == body.span)
            .or_else(|| item(&|item| body.name == format!("bedding in {}", item.called()))),
        BodyKind::Water => item(&|item| body.name == format!("water in {}", item.called())),
        BodyKind::People => {
            item(&|item| item.table == Table::Berth && body.name.ends_with(&format!(" in {}", item.called())))
        }
    }
}
