//! Parts before and after, as resolved: stock under the spec's own fields, places worked out.

use std::collections::BTreeMap;

use pintle_quantity::Quantity;
use pintle_spec::schema::{build as top, item};
use pintle_spec::{Build, Coordinate, Extent, Footing, Load, Reach, Span, State, Use, Zone};

use super::figures::called;
use super::flat::{Flat, Worth, flat, listed};
use super::say::difference;

/// A part, a table or a state that is not as it was.
#[derive(Debug, Clone)]
pub struct PartChange {
    /// What it is, such as "item `galley`".
    pub what: String,
    /// What became of it.
    pub fate: Fate,
    /// Where it went; empty when it did not move, or when that is not known.
    pub moves: Vec<Move>,
    /// Fields that say something else.
    pub fields: Vec<FieldChange>,
    /// Where it stands: in the new version, or in the old one where it is gone.
    pub span: Option<Span>,
}

/// What became of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It was not there.
    Added,
    /// It is no longer there.
    Removed,
    /// It is there, and is not as it was.
    Changed,
}

impl Fate {
    /// The word for it in every output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Added => "added",
            Self::Removed => "removed",
            Self::Changed => "changed",
        }
    }
}

/// An axis of the trailer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Aft from the ball.
    X,
    /// To the right of the centreline.
    Y,
    /// Up from the ground.
    Z,
}

impl Axis {
    /// Its letter.
    pub const fn word(self) -> &'static str {
        match self {
            Self::X => "x",
            Self::Y => "y",
            Self::Z => "z",
        }
    }

    /// Where a move along it leads, forwards along the axis or back.
    pub const fn towards(self, rising: bool) -> &'static str {
        match (self, rising) {
            (Self::X, true) => "aft",
            (Self::X, false) => "forward",
            (Self::Y, true) => "to the right",
            (Self::Y, false) => "to the left",
            (Self::Z, true) => "up",
            (Self::Z, false) => "down",
        }
    }
}

/// How far a part moved along one axis.
#[derive(Debug, Clone, Copy)]
pub struct Move {
    /// The axis.
    pub axis: Axis,
    /// Where its middle was.
    pub old: Quantity,
    /// Where its middle is.
    pub new: Quantity,
    /// Now less before: aft, to the right and up are positive.
    pub by: Quantity,
}

/// A field that says something else.
#[derive(Debug, Clone)]
pub struct FieldChange {
    /// Its path, such as `anchors.count`.
    pub path: String,
    /// What it said; nothing when it was not given.
    pub old: Option<Worth>,
    /// What it says; nothing when it is not given.
    pub new: Option<Worth>,
    /// Now less before, of quantities.
    pub by: Option<Quantity>,
    /// Where it stands: in the new version, or in the old one where it is gone.
    pub span: Span,
}

/// Something that is laid side by side with its like in the other version.
struct Body<'b> {
    what: String,
    span: Option<Span>,
    fields: Vec<Flat>,
    extent: Option<&'b Extent>,
    /// The body it goes with: of one that is added or removed whole, nothing more is said.
    of: Option<String>,
}

/// Names of bodies, each once, with the body.
type Bodies<'b> = Vec<(String, Body<'b>)>;

/// Every part that is not as it was.
pub(super) fn changes(old: &Build, new: &Build, same: &mut usize) -> Vec<PartChange> {
    let (before, after) = (bodies(old), bodies(new));
    let index = |bodies: &Bodies<'_>| -> BTreeMap<String, usize> {
        bodies.iter().enumerate().map(|(at, (key, _))| (key.clone(), at)).collect()
    };
    let (in_old, in_new) = (index(&before), index(&after));
    let mut changes = Vec::new();
    let one_sided = |body: &Body<'_>, fate: Fate| PartChange {
        what: body.what.clone(),
        fate,
        moves: Vec::new(),
        fields: Vec::new(),
        span: body.span,
    };
    let whole = |body: &Body<'_>, others: &BTreeMap<String, usize>| {
        body.of.as_ref().is_none_or(|of| others.contains_key(of))
    };
    for (key, body) in &after {
        match in_old.get(key).and_then(|at| before.get(*at)) {
            Some((_, held)) => match changed(held, body) {
                Some(change) => changes.push(change),
                None => *same += 1,
            },
            None if whole(body, &in_old) => changes.push(one_sided(body, Fate::Added)),
            None => {}
        }
    }
    for (key, body) in &before {
        if !in_new.contains_key(key) && whole(body, &in_new) {
            changes.push(one_sided(body, Fate::Removed));
        }
    }
    changes
}

fn changed(old: &Body<'_>, new: &Body<'_>) -> Option<PartChange> {
    let moves = old.extent.zip(new.extent).map_or_else(Vec::new, |(old, new)| moves(old, new));
    let fields = field_changes(&old.fields, &new.fields);
    let fate = Fate::Changed;
    (!moves.is_empty() || !fields.is_empty()).then(|| PartChange {
        what: new.what.clone(),
        fate,
        moves,
        fields,
        span: new.span,
    })
}

fn field_changes(old: &[Flat], new: &[Flat]) -> Vec<FieldChange> {
    let mut changes = Vec::new();
    for field in new {
        let before = old.iter().find(|held| held.path == field.path);
        if before.is_some_and(|held| held.worth.is(&field.worth)) {
            continue;
        }
        let by = match (before.map(|held| &held.worth), &field.worth) {
            (Some(Worth::Quantity(old)), Worth::Quantity(new)) => difference(*old, *new),
            _ => None,
        };
        changes.push(FieldChange {
            path: field.path.clone(),
            old: before.map(|held| held.worth.clone()),
            new: Some(field.worth.clone()),
            by,
            span: field.span,
        });
    }
    for field in old.iter().filter(|field| new.iter().all(|held| held.path != field.path)) {
        changes.push(FieldChange {
            path: field.path.clone(),
            old: Some(field.worth.clone()),
            new: None,
            by: None,
            span: field.span,
        });
    }
    changes
}

/// Along which axes both ends of a body moved. One that only grew did not.
fn moves(old: &Extent, new: &Extent) -> Vec<Move> {
    let axes = [(Axis::X, &old.x, &new.x), (Axis::Y, &old.y, &new.y), (Axis::Z, &old.z, &new.z)];
    axes.into_iter().filter_map(|(axis, old, new)| shift(axis, old, new)).collect()
}

fn shift(axis: Axis, old: &Reach, new: &Reach) -> Option<Move> {
    let stays = |old: &pintle_spec::Known<Coordinate>, new: &pintle_spec::Known<Coordinate>| match (old, new)
    {
        (Ok(old), Ok(new)) => old.quantity().equals(new.quantity()) == Ok(true),
        _ => false,
    };
    if stays(&old.near, &new.near) || stays(&old.far, &new.far) {
        return None;
    }
    let (old, new) = (middle(old)?, middle(new)?);
    let by = difference(old, new)?;
    (old.equals(new) != Ok(true)).then_some(Move { axis, old, new, by })
}

/// The middle of a body along one axis, or its centre of gravity where its size is not known.
fn middle(reach: &Reach) -> Option<Quantity> {
    match (&reach.near, &reach.far) {
        (Ok(near), Ok(far)) => {
            Some(near.quantity().try_add(far.quantity()).ok()?.scaled(0.5).with_unit_of(near.quantity()))
        }
        _ => reach.cg.as_ref().ok().map(Coordinate::quantity),
    }
}

/// All that a build is made of, in the order of the spec.
fn bodies(build: &Build) -> Bodies<'_> {
    let mut bodies: Bodies<'_> = Vec::new();
    let mut table = |key: &str, what: &str, record: &pintle_spec::Record| {
        let body = Body {
            what: what.to_owned(),
            span: Some(record.span),
            fields: flat(record, &[]),
            extent: None,
            of: None,
        };
        bodies.push((key.to_owned(), body));
    };
    table("build", "the build", &build.head);
    table("trailer", "the trailer", &build.trailer);
    if let Some(tow) = &build.tow {
        table("tow", "the tow vehicle", tow);
    }
    if let Some(people) = &build.people {
        table("people", "the people", people);
    }
    for item in &build.items {
        let mut fields = flat(&item.record, &[item::TAG.key, item::ZONE.key]);
        fields.insert(0, Flat::words("kind", item.kind, item.tag.span));
        let zone = item.record.value(item::ZONE.key).map_or(item.tag.span, |zone| zone.span);
        fields.push(Flat::words(item::ZONE.key, zone_words(build, item.zone), zone));
        let body = Body {
            what: item.called(),
            span: Some(item.tag.span),
            fields,
            extent: Some(&item.extent),
            of: None,
        };
        bodies.push((format!("item {}", item.tag.value), body));
    }
    for either in &build.eithers {
        let of = listed(either.of.iter().filter_map(|at| Some(build.items.get(*at)?.tag.value.as_str())));
        let span = either.name.span;
        let fields = vec![
            Flat::words(top::either::OF.key, of, span),
            Flat::words(top::either::NONE.key, either.none.to_string(), span),
        ];
        let what = format!("either-or group `{}`", either.name.value);
        bodies.push((what.clone(), Body { what, span: Some(span), fields, extent: None, of: None }));
    }
    if !build.use_order.is_empty() {
        let tags = build.use_order.iter().filter_map(|at| Some(build.items.get(*at)?.tag.value.as_str()));
        let fields = vec![Flat::words(top::water::USE_ORDER.key, listed(tags), build.number.span)];
        let what = "the use of water".to_owned();
        bodies.push((what.clone(), Body { what, span: None, fields, extent: None, of: None }));
    }
    for state in &build.states {
        of_state(build, state, &mut bodies);
    }
    bodies
}

fn of_state<'b>(build: &Build, state: &'b State, bodies: &mut Bodies<'b>) {
    let tag = |at: &usize| build.items.get(*at).map_or("", |item| item.tag.value.as_str());
    let span = state.name.span;
    let used = if state.used == Use::Road { "road" } else { "camp" };
    let mut fields = vec![Flat::words("use", used, span)];
    fields.extend(state.fill.iter().map(|(at, share)| Flat::quantity(format!("fill.{}", tag(at)), *share)));
    fields.extend(state.carry.iter().map(|(at, mass)| Flat::quantity(format!("carry.{}", tag(at)), *mass)));
    let mut out: Vec<&str> = state.out.iter().map(tag).collect();
    out.sort_unstable();
    fields.push(Flat::words("out", listed(out.into_iter()), span));
    fields.extend(
        state.people.iter().map(|(at, count)| {
            Flat::words(format!("people.{}", tag(at)), count.value.to_string(), count.span)
        }),
    );
    let what = called(state.used, &state.name.value);
    let key = format!("state {}", state.name.value);
    bodies.push((key.clone(), Body { what: what.clone(), span: Some(span), fields, extent: None, of: None }));
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for load in &state.loads {
        let name = load.what.value.as_str();
        let nth = seen.entry(name).or_default();
        *nth += 1;
        let again = if *nth > 1 { format!(" ({nth})") } else { String::new() };
        let body = Body {
            what: format!("load `{name}`{again} of {what}"),
            span: Some(load.span),
            fields: load_fields(build, load),
            extent: Some(&load.extent),
            of: Some(key.clone()),
        };
        // A line end cannot stand in a name, so the keys of two loads never run together.
        bodies.push((format!("{key}\n{name}\n{nth}"), body));
    }
}

fn load_fields(build: &Build, load: &Load) -> Vec<Flat> {
    let mut fields = vec![
        Flat::quantity("mass", load.mass),
        Flat::words(item::ZONE.key, zone_words(build, load.zone), load.span),
    ];
    // A basis that is not stated counts as guessed, and is no field.
    if load.footing != Footing::Unstated
        && let Some(basis) = load.footing.name()
    {
        fields.push(Flat::words(item::MASS_BASIS.key, basis, load.span));
    }
    fields
}

fn zone_words(build: &Build, zone: Zone) -> String {
    let tag = |at: usize| build.items.get(at).map_or("", |item| item.tag.value.as_str());
    match zone {
        Zone::Inside => "inside".to_owned(),
        Zone::Tongue => "tongue".to_owned(),
        Zone::Roof => "roof".to_owned(),
        Zone::FrontWall => "front wall".to_owned(),
        Zone::RearDoor => "rear door".to_owned(),
        Zone::LeftWall => "left wall".to_owned(),
        Zone::RightWall => "right wall".to_owned(),
        Zone::Floor => "floor".to_owned(),
        Zone::Underside => "underside".to_owned(),
        Zone::Rack(at) => format!("rack `{}`", tag(at)),
        Zone::Locker(at) => format!("locker `{}`", tag(at)),
        Zone::Tent(at) => format!("tent `{}`", tag(at)),
    }
}
