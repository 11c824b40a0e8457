//! Whether a part tips over the edge of its foot, and what that adds to the load of its anchors.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::anchors::{self, base};
use pintle_spec::schema::assume;
use pintle_spec::{Known, Missing};

use super::pulled::{PULL, pulls, uneven};
use super::{figure, positive, size};
use crate::anchor::bolts;
use crate::anchor::chain::{Bolts, anchor_count, links, number, weakest};
use crate::anchor::forces::{Against, Way, pull};
use crate::anchor::held::{Held, lesser};
use crate::anchor::tipping::{far_pull, overturning, steadiness};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::{Outcome, Work, Working};

const MOMENTS: Origin = Origin::derived("moments about the edge of the foot");

/// Keys and titles by way.
struct Keys {
    way: Way,
    steady: (&'static str, &'static str),
    tips: (&'static str, &'static str),
    tension: (&'static str, &'static str),
    load: [(&'static str, &'static str); 2],
    used: [(&'static str, &'static str); 2],
}

const KEYS: [Keys; 3] = [
    Keys {
        way: Way::Ahead,
        steady: ("steady_ahead", "how steady it stands against tipping ahead"),
        tips: ("tips_ahead", "whether it tips ahead when nothing holds it"),
        tension: ("tilt_pull_ahead", "upward pull of tipping ahead on each anchor of the rear row"),
        load: [
            (
                "anchor_load_ahead_breaking",
                "load of the worst anchor, thrown ahead, against the breaking load",
            ),
            (
                "anchor_load_ahead_working",
                "load of the worst anchor, thrown ahead, against the working load limit",
            ),
        ],
        used: [
            ("bolt_used_ahead_breaking", "how far the worst bolt is used up, thrown ahead, by breaking load"),
            (
                "bolt_used_ahead_working",
                "how far the worst bolt is used up, thrown ahead, by working load limit",
            ),
        ],
    },
    Keys {
        way: Way::Aft,
        steady: ("steady_aft", "how steady it stands against tipping aft"),
        tips: ("tips_aft", "whether it tips aft when nothing holds it"),
        tension: ("tilt_pull_aft", "upward pull of tipping aft on each anchor of the front row"),
        load: [
            ("anchor_load_aft_breaking", "load of the worst anchor, thrown aft, against the breaking load"),
            (
                "anchor_load_aft_working",
                "load of the worst anchor, thrown aft, against the working load limit",
            ),
        ],
        used: [
            ("bolt_used_aft_breaking", "how far the worst bolt is used up, thrown aft, by breaking load"),
            ("bolt_used_aft_working", "how far the worst bolt is used up, thrown aft, by working load limit"),
        ],
    },
    Keys {
        way: Way::Aside,
        steady: ("steady_aside", "how steady it stands against tipping aside"),
        tips: ("tips_aside", "whether it tips aside when nothing holds it"),
        tension: ("tilt_pull_aside", "upward pull of tipping aside on each anchor of the far row"),
        load: [
            (
                "anchor_load_aside_breaking",
                "load of the worst anchor, thrown aside, against the breaking load",
            ),
            (
                "anchor_load_aside_working",
                "load of the worst anchor, thrown aside, against the working load limit",
            ),
        ],
        used: [
            ("bolt_used_aside_breaking", "how far the worst bolt is used up, thrown aside, by breaking load"),
            (
                "bolt_used_aside_working",
                "how far the worst bolt is used up, thrown aside, by working load limit",
            ),
        ],
    },
];

/// From the centre of gravity to the edge that a part tips over, and its height over the foot.
fn levers(work: &mut Work, held: &Held<'_>, way: Way) -> Known<(Figure, Figure)> {
    let edge = match way {
        Way::Ahead => held.depth(0, false)?,
        Way::Aft => held.depth(0, true)?,
        Way::Aside => lesser(&held.depth(1, false)?, &held.depth(1, true)?)?,
    };
    let height = positive(held.depth(2, false)?, "height of its centre of gravity over its foot", held)?;
    let edge = work.step(
        "b",
        "from its centre of gravity to the edge it tips over",
        "",
        Ok(edge.shown_in("in")),
        Origin::WRITTEN,
    )?;
    let height = work.step(
        "h",
        "height of its centre of gravity over its foot",
        "",
        Ok(height.shown_in("in")),
        Origin::WRITTEN,
    )?;
    Ok((edge, height))
}

/// Notes the pull that tips, as a share of the weight.
fn tipping(work: &mut Work, case: &Case<'_>, way: Way, against: Against) -> Known<Figure> {
    if way == Way::Aside && against == Against::Breaking {
        return work.assume("c", case, &assume::ANCHOR, &assume::anchor::TIPPING_ASIDE);
    }
    let c = Figure::constant(Quantity::from_si(pull(way, against), Dimension::NONE));
    Ok(work.know("c", format!("pull {} as a share of the weight", way.word()), c, PULL))
}

/// Whether a part stands by itself: b/h is at least c, to the tolerance that everything is compared with.
fn stands(b: &Figure, h: &Figure, c: &Figure) -> bool {
    let ratio = Figure::by(Dimension::NONE, [b, h], |[b, h]| steadiness(b, h));
    ratio.quantity.at_least(c.quantity) == Ok(true)
}

/// What tipping pulls on each anchor.
enum Tilt {
    /// Upwards, out of the floor, at the row farthest from the edge.
    Up(Figure),
    /// Level, on a ring or strap some way up the part.
    Level(Figure),
}

impl Tilt {
    fn pull(self) -> Figure {
        match self {
            Self::Up(pull) | Self::Level(pull) => pull,
        }
    }
}

/// Notes the pull of tipping on each anchor; nothing where the part stands by itself.
fn tension(work: &mut Work, case: &Case<'_>, held: &Held<'_>, (way, against): (Way, Against)) -> Known<Tilt> {
    let weight = held.weight(work)?;
    let (b, h) = levers(work, held, way)?;
    let c = tipping(work, case, way, against)?;
    let moment = Figure::by(Dimension::ENERGY, [&weight, &c, &h, &b], |[w, c, h, b]| overturning(w, c, h, b));
    let moment = Ok(moment.shown_in("lbf·ft"));
    let moment =
        work.step("M", "moment that the anchors hold", "W · (c · h − b), at least 0", moment, MOMENTS)?;
    if stands(&b, &h, &c) {
        let none = Figure::by(Dimension::FORCE, [&weight], |[weight]| 0.0 * weight).shown_in("lbf");
        let none = work.step("T", "pull on each anchor: it stands by itself", "0", Ok(none), MOMENTS)?;
        return Ok(Tilt::Up(none));
    }
    let spread = held.anchors()?.need_table(&anchors::BASE)?;
    let count = anchor_count(held)?;
    if spread.value(base::HEIGHT.key).is_some() {
        let high = work.take("z", "how high it is held", given(spread, &base::HEIGHT))?;
        let n = work.know("N", "anchors that share it", number(count), Origin::WRITTEN);
        let pull = Ok(moment.over(&high).over(&n).shown_in("lbf"));
        return Ok(Tilt::Level(work.step("T", "level pull on each anchor", "M / (z · N)", pull, MOMENTS)?));
    }
    let (axis, field, rows) = match way {
        Way::Ahead | Way::Aft => (0, &base::LONG, &base::ROWS_LONG),
        Way::Aside => (1, &base::ACROSS, &base::ROWS_ACROSS),
    };
    let between = work.take("s", "from the first row of anchors to the last", given(spread, field))?;
    let foot = work.take("a", "size of its foot", size(held, axis))?;
    if between.quantity.at_most(foot.quantity) != Ok(true) {
        return Err(Missing::new(
            format!("`{}` of {} that is no more than its foot", field.key, spread.what),
            spread.value(field.key).map(|value| value.span),
            "give the size of the foot that the anchors stand in, or measure their rows again",
        ));
    }
    let rows = spread.count(rows).map_or(2, |count| count.value);
    let each = count / f64::from(rows);
    if (each - each.round()).abs() > 1e-9 {
        return Err(uneven(held, count, rows));
    }
    work.know("r", "rows of anchors", number(f64::from(rows)), Origin::WRITTEN);
    work.know("n", "anchors in each row", number(each), Origin::WRITTEN);
    let pull =
        Figure::by(Dimension::FORCE, [&moment, &foot, &between], |[m, a, s]| far_pull(m, a, s, rows, each));
    let origin = Origin::derived(
        "the foot turns as a whole: each anchor pulls in proportion to its distance from the edge",
    );
    let formula = "M · sᵣ / (n · Σ sᵢ²), rows in the middle of a";
    let what = "upward pull on each anchor of the far row";
    Ok(Tilt::Up(work.step("T", what, formula, Ok(pull.shown_in("lbf")), origin)?))
}

/// Notes what tipping pulls, and the shear on each anchor.
fn both(
    work: &mut Work,
    case: &Case<'_>,
    held: &Held<'_>,
    (way, against): (Way, Against),
) -> Known<(Tilt, Figure)> {
    let tilt = tension(work, case, held, (way, against))?;
    let pull = pulls(&mut Work::default(), held, way, against)?;
    let pull = work.step("F", format!("pull {}", way.word()), "c · W", Ok(pull), PULL)?;
    let n = work.know("N", "anchors that share it", number(anchor_count(held)?), Origin::WRITTEN);
    let shear = Ok(pull.over(&n).shown_in("lbf"));
    let shear = work.step("V", "shear on each anchor", "F / N", shear, Origin::derived("shared evenly"))?;
    Ok((tilt, shear))
}

/// Notes the load of the worst anchor.
fn load(work: &mut Work, tilt: Tilt, shear: &Figure) -> Known<Figure> {
    match tilt {
        Tilt::Up(pull) => {
            let both = Figure::by(Dimension::FORCE, [&pull, shear], |[t, v]| t.hypot(v)).shown_in("lbf");
            let origin = Origin::derived("forces at right angles");
            work.step("R", "load of the worst anchor", "√(T² + V²)", Ok(both), origin)
        }
        Tilt::Level(pull) => {
            let worse = alike(pull.greater(shear)).map(|worse| worse.shown_in("lbf"));
            let origin = Origin::derived("it holds the sliding or the tipping, whichever pulls harder");
            work.step("R", "load of the worst anchor", "greater of T and V", worse, origin)
        }
    }
}

pub(super) fn workings(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    for keys in KEYS {
        let way = keys.way;
        all.push(figure(held, keys.steady.0, keys.steady.1, |work| {
            if let Some(why) = held.footless() {
                return Ok(Outcome::None(why.to_owned()));
            }
            let (b, h) = levers(work, held, way)?;
            let ratio = Figure::by(Dimension::NONE, [&b, &h], |[b, h]| steadiness(b, h));
            let origin = Origin::memory("EN 12195-1: stands while b/h is at least c/cz, cz = 1");
            Ok(Outcome::Figure(work.step("b/h", "steadiness", "b / h", Ok(ratio), origin)?))
        }));
        all.push(figure(held, keys.tips.0, keys.tips.1, |work| {
            if let Some(why) = held.footless() {
                return Ok(Outcome::None(why.to_owned()));
            }
            let (b, h) = levers(work, held, way)?;
            let c = tipping(work, case, way, Against::Breaking)?;
            Ok(Outcome::Flag(!stands(&b, &h, &c)))
        }));
        all.push(figure(held, keys.tension.0, keys.tension.1, |work| {
            if let Some(why) = held.footless() {
                return Ok(Outcome::None(why.to_owned()));
            }
            Ok(Outcome::Figure(tension(work, case, held, (way, Against::Breaking))?.pull()))
        }));
        for (against, (key, says)) in Against::ALL.into_iter().zip(keys.load) {
            all.push(figure(held, key, says, |work| {
                if let Some(why) = held.footless() {
                    return Ok(Outcome::None(why.to_owned()));
                }
                let (tilt, shear) = both(work, case, held, (way, against))?;
                Ok(Outcome::Figure(load(work, tilt, &shear)?))
            }));
        }
        if held
            .body
            .record
            .table(&pintle_spec::schema::item::ANCHORS)
            .and_then(|it| it.table(&anchors::BOLT))
            .is_some()
        {
            for (against, (key, says)) in Against::ALL.into_iter().zip(keys.used) {
                all.push(figure(held, key, says, |work| used(work, case, held, way, against)));
            }
        }
    }
    for (against, key, says) in [
        (Against::Breaking, "anchor_strength_breaking", "breaking load of each anchor's share of the chain"),
        (
            Against::Working,
            "anchor_strength_working",
            "working load limit of each anchor's share of the chain",
        ),
    ] {
        all.push(figure(held, key, says, |work| {
            let all = links(work, case, held, against)?;
            let least = weakest(work, all, against)?;
            let n = work.know("N", "anchors", number(anchor_count(held)?), Origin::WRITTEN);
            work.step(
                "f",
                "share of each",
                "F / N",
                Ok(least.holds.over(&n).shown_in("lbf")),
                Origin::derived("shared evenly"),
            )
        }));
    }
    all
}

/// How far the worst bolt is used up by pull and shear together.
fn used(work: &mut Work, case: &Case<'_>, held: &Held<'_>, way: Way, against: Against) -> Known<Outcome> {
    if let Some(why) = held.footless() {
        return Ok(Outcome::None(why.to_owned()));
    }
    let (tilt, v) = both(work, case, held, (way, against))?;
    let t = tilt.pull();
    let Some(bolts) = Bolts::of(held)? else { return Ok(Outcome::None("it has no bolts".to_owned())) };
    let more =
        work.know("q", "anchors to a bolt", number(anchor_count(held)? / bolts.count), Origin::WRITTEN);
    let breaks = bolts.tension(work)?;
    let pulled = bolts.may(work, case, breaks, against)?;
    let breaks = bolts.shear(work, case)?;
    let sheared = bolts.may(work, case, breaks, against)?;
    let used =
        Figure::by(Dimension::NONE, [&t, &v, &more, &pulled, &sheared], |[t, v, more, pulled, sheared]| {
            bolts::used(t * more, v * more, pulled, sheared)
        });
    let origin = Origin::published(
        "NSTS 08307, quoted on eng-tips.com thread 29968 (seen), with the shear squared in place of cubed",
    );
    let used = work.step(
        "U",
        "used up",
        "(T / what it holds of pull)² + (V / what it holds of shear)²",
        Ok(used.as_share()),
        origin,
    )?;
    Ok(Outcome::Figure(used))
}
