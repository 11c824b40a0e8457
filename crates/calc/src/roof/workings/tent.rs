//! The tent: what it overhangs, covers and blocks, and its ladder.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::roof as assumed;
use pintle_spec::schema::build::people;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::appliance;
use pintle_spec::schema::kinds::tent as fields;
use pintle_spec::{Item, Known, Missing, Zone};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::roof::opened::{
    covers, from_tent, ladder_foot, ladder_out, swung_into, swung_over_foot, too_short,
};
use crate::roof::{beyond_roof, ladder, overhang, tent_floor_height};
use crate::space::{alike, given, greatest};
use crate::working::{Outcome, Work, Working};

/// Said of ladders.
const EMPLOYERS: &str = "29 CFR 1926.1053 binds employers; a yardstick here";

const GEOMETRY: Origin = Origin::derived("geometry");

pub(super) fn workings(case: &Case<'_>, tent: usize, body: &Item) -> Vec<Working> {
    let mut all = beyond(case, tent, body);
    all.extend(on_ladder(case, tent, body));
    all.extend(in_the_way(case, tent, body));
    for (at, stove) in case.build.of_kind("appliance") {
        if stove.record.word(&appliance::USED).is_none_or(|used| used.value == "outside") {
            all.extend(stove_under(case, (tent, body), (at, stove)));
        }
    }
    all
}

fn of(
    body: &Item,
    key: &'static str,
    says: &'static str,
    work: impl FnOnce(&mut Work) -> Known<Outcome>,
) -> Working {
    Working::of("roof", key, body.called(), says, work)
}

fn beyond(case: &Case<'_>, tent: usize, body: &Item) -> Vec<Working> {
    let mut all = Vec::new();
    let mut share = None;
    let mut side = |key, says, found: Known<Figure>| {
        all.push(of(body, key, says, |work| {
            work.step("o", says, "edge − edge", found, GEOMETRY).map(Outcome::from)
        }));
    };
    if matches!(body.zone, Zone::Rack(_)) {
        let over = overhang(case.build, tent);
        let each = |pick: fn(&crate::roof::Overhang) -> &Known<Figure>| match &over {
            Ok(over) => pick(over).clone(),
            Err(missing) => Err(missing.clone()),
        };
        side("overhang_front", "how far it reaches ahead of its rack", each(|over| &over.front));
        side("overhang_rear", "how far it reaches behind its rack", each(|over| &over.rear));
        side("overhang_left", "how far it reaches to the left of its rack", each(|over| &over.left));
        side("overhang_right", "how far it reaches to the right of its rack", each(|over| &over.right));
        let most = || {
            let over = over.as_ref().map_err(Clone::clone)?;
            let all = [&over.front, &over.rear, &over.left, &over.right].map(Clone::clone);
            let all = all.into_iter().collect::<Known<Vec<_>>>()?;
            greatest(all).ok_or_else(|| Missing::new("an overhang", Some(body.tag.span), "report this"))
        };
        side("overhang_most", "its greatest overhang over its rack", most());
        share = Some(of(body, "overhang_share", "its greatest overhang against its length", |work| {
            let o = work.step("o", "greatest overhang", "max (edge − edge)", most(), GEOMETRY)?;
            let l = work.take("L", "length of the closed tent", given(&body.record, &item::LENGTH))?;
            work.step("s", "against its length", "o / L", Ok(o.over(&l).as_share()), GEOMETRY)
                .map(Outcome::from)
        }));
    }
    let beyond = beyond_roof(case.build, tent);
    let each = |pick: fn(&crate::roof::BeyondRoof) -> &Known<Figure>| match &beyond {
        Ok(beyond) => pick(beyond).clone(),
        Err(missing) => Err(missing.clone()),
    };
    side("ahead_of_roof", "how far it reaches ahead of the roof", each(|beyond| &beyond.ahead));
    side("aside_of_roof", "how far it reaches beyond a side wall", each(|beyond| &beyond.aside));
    side("behind_roof", "how far it reaches behind the rear door", each(|beyond| &beyond.behind));
    all.extend(share);
    all
}

fn on_ladder(case: &Case<'_>, tent: usize, body: &Item) -> Vec<Working> {
    let build = case.build;
    let rule = || Origin::published("29 CFR 1926.1053(b)(5)(i)");
    let floor = |work: &mut Work| {
        let height = tent_floor_height(build, tent);
        work.step("h", "tent floor above the ground", "z + floor", height, GEOMETRY)
    };
    let ladder = |work: &mut Work| {
        work.take("L", "working length of its ladder", given(&body.record, &fields::LADDER))
    };
    let shown = |figure: Figure, like: &Figure| {
        let unit = like.quantity.unit().map_or("in", pintle_quantity::Unit::name);
        figure.shown_in(unit)
    };
    let needed = |work: &mut Work| {
        let h = floor(work)?;
        let needed = shown(h.scaled(ladder::needed(1.0)), &h);
        work.step("n", "working length needed", "h / sin(arccos ¼)", Ok(needed), rule())
    };
    vec![
        of(body, "floor_height", "height of its floor above the ground", |work| {
            floor(work).map(Outcome::from)
        }),
        of(body, "ladder_needed", "working length that a ladder to its floor needs", |work| {
            needed(work).map(Outcome::from)
        })
        .warned(EMPLOYERS),
        of(body, "ladder_with_landing", "the same with rails to hold on to above the floor", |work| {
            let n = needed(work)?;
            let a = work.assume("a", case, &assume::ROOF, &assumed::LANDING)?;
            let origin = Origin::published("29 CFR 1926.1053(b)(1)");
            work.step("m", "with rails above the floor", "n + a", alike(n.plus(&a)), origin)
                .map(Outcome::from)
        })
        .warned("or the ladder is secured and there is a grab; 29 CFR 1926.1053 binds employers"),
        of(body, "ladder_angle", "angle to the ground at which its ladder stands", |work| {
            let (h, l) = (floor(work)?, ladder(work)?);
            ladder::angle(h.quantity.si(), l.quantity.si()).ok_or_else(|| too_short(body))?;
            let angle =
                Figure::by(Dimension::ANGLE, [&h, &l], |[h, l]| ladder::angle(h, l).unwrap_or(f64::NAN));
            work.step(
                "φ",
                "angle",
                "arccos ¼, or arcsin(h / L) where it is short",
                Ok(angle.shown_in("°")),
                rule(),
            )
            .map(Outcome::from)
        })
        .warned(EMPLOYERS),
        of(body, "ladder_above_floor", "how far its ladder stands above its floor", |work| {
            let (h, l) = (floor(work)?, ladder(work)?);
            ladder::angle(h.quantity.si(), l.quantity.si()).ok_or_else(|| too_short(body))?;
            let above = Figure::by(Dimension::LENGTH, [&h, &l], |[h, l]| {
                ladder::angle(h, l).map_or(f64::NAN, |angle| l - h / angle.sin())
            });
            work.step("a", "along the ladder", "L − h / sin φ", Ok(shown(above, &l)), GEOMETRY)
                .map(Outcome::from)
        }),
        of(body, "ladder_out", "how far out from the tent's edge the foot of its ladder stands", |work| {
            floor(work)?;
            ladder(work)?;
            work.step("o", "foot out", "h / tan φ", ladder_out(build, tent), rule()).map(Outcome::from)
        }),
        of(body, "ladder_bears", "what its ladder must bear", |work| {
            let missing = || Missing::new("the weight of a person", None, "add `[people]` with `mass`");
            let person = build.people.as_ref().ok_or_else(missing).and_then(|own| given(own, &people::MASS));
            let p = work.take("p", "a person", person)?;
            let k = work.assume("k", case, &assume::ROOF, &assumed::LADDER_STRENGTH)?;
            let origin = Origin::published("29 CFR 1926.1053(a)(1)");
            work.step("F", "must bear", "k · p", Ok(p.times(&k)), origin).map(Outcome::from)
        })
        .warned(EMPLOYERS),
        of(body, "ladder_foot_behind", "how far behind the ball the foot of its ladder stands", |work| {
            let found = ladder_foot(build, tent).map(|(x, _)| x);
            work.step("x", "foot of the ladder", "", found, GEOMETRY).map(Outcome::from)
        }),
        of(
            body,
            "ladder_foot_right",
            "how far right of the centreline the foot of its ladder stands",
            |work| {
                let found = ladder_foot(build, tent).map(|(_, y)| y);
                work.step("y", "foot of the ladder", "", found, GEOMETRY).map(Outcome::from)
            },
        ),
    ]
}

fn in_the_way(case: &Case<'_>, tent: usize, body: &Item) -> [Working; 3] {
    let build = case.build;
    let names = |found: Known<Vec<usize>>| -> Known<Outcome> {
        let called = |at: usize| build.items.get(at).map(Item::called);
        Ok(Outcome::Texts(found?.into_iter().filter_map(called).collect()))
    };
    [
        of(body, "open_over", "what it hangs over when open", |_| names(covers(build, tent))),
        of(body, "open_blocks", "what swings into it, or stands in it, when open", |_| {
            names(swung_into(build, tent))
        }),
        of(body, "swings_over_ladder", "what swings over the foot of its ladder", |_| {
            names(swung_over_foot(build, tent))
        }),
    ]
}

fn stove_under(case: &Case<'_>, (tent, body): (usize, &Item), (at, stove): (usize, &Item)) -> [Working; 2] {
    let of = format!("{} by {}", stove.called(), body.called());
    let found = || -> Known<(Figure, Figure)> {
        stove.record.need_word(&appliance::USED)?;
        from_tent(case.build, tent, at)
    };
    let distance = |key, says, pick: fn((Figure, Figure)) -> Figure| {
        Working::of("roof", key, of.clone(), says, |work| {
            work.step("d", says, "from box to box", found().map(pick), GEOMETRY)
        })
        .warned("cloth catches fire: flames and fumes stay clear of it whatever the figure says")
    };
    [
        distance("stove_aside", "how far aside of the opened tent it stands", |(aside, _)| aside),
        distance("stove_below", "how far below the opened tent its top is", |(_, below)| below),
    ]
}
