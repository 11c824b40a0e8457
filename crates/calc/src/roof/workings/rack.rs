//! What a rack carries, and each of its feet.

use pintle_spec::schema::assume;
use pintle_spec::schema::assume::roof as assumed;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::rack as fields;
use pintle_spec::{Item, Known, Missing, Zone};

use super::STATICS;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::roof::feet::{OnRow, on_feet, rows};
use crate::roof::{air_gap, bows, load_per_foot, moving_load, parked_load, stand_height};
use crate::space::{alike, given, greatest, least};
use crate::working::{Outcome, Work, Working};

const BEAM: Origin =
    Origin::derived("three-moment equation (Clapeyron): each rail over its feet, which do not give way");

pub(super) fn workings(case: &Case<'_>, rack: usize, body: &Item) -> Vec<Working> {
    let mut all = vec![
        height(body, "rack_stand", "how high it stands above the skin", || stand_height(case.build, rack)),
        height(body, "air_gap", "air between the skin and what lies on it", || air_gap(case.build, rack)),
    ];
    all.extend(loads(case, rack, body));
    for (key, parked) in [("foot_even_moving", false), ("foot_even_parked", true)] {
        let says = if parked {
            "load of each foot when parked, if all share evenly"
        } else {
            "load of each foot on the road, if all share evenly"
        };
        all.push(Working::of("roof", key, body.called(), says, |work| {
            work.take("e", "the rack's own weight", given(&body.record, &item::MASS))?;
            let share = load_per_foot(case.build, rack, parked);
            let origin = Origin::practice("shared evenly; the feet under a tent carry more");
            work.step("f", "load of each foot", "(e + m) / feet", share, origin)
        }));
    }
    all.extend(feet(case, rack, body));
    all
}

fn height(
    body: &Item,
    key: &'static str,
    says: &'static str,
    found: impl FnOnce() -> Known<Option<Figure>>,
) -> Working {
    Working::of("roof", key, body.called(), says, |work| match found()? {
        Some(found) => work
            .step("h", says, "Σ of heights and gaps", Ok(found), Origin::derived("sum"))
            .map(Outcome::from),
        None => Ok(Outcome::None("it does not stand on the roof, or nothing lies on it".to_owned())),
    })
}

fn loads(case: &Case<'_>, rack: usize, body: &Item) -> [Working; 3] {
    let sum = || Origin::derived("sum of what lies on it, at its heaviest");
    [
        Working::of("roof", "rack_moving", body.called(), "what it carries on the road", |work| {
            work.step("m", "all on it", "Σ m", moving_load(case.build, rack), sum())
        }),
        Working::of("roof", "rack_parked", body.called(), "what it carries when parked", |work| {
            work.step("m", "all on it, and people", "Σ m", parked_load(case.build, rack), sum())
        }),
        Working::of(
            "roof",
            "rack_bumps",
            body.called(),
            "what it presses down with on a bump, itself included",
            |work| {
                let m = work.step("m", "all on it", "Σ m", moving_load(case.build, rack), sum())?;
                let e = work.take("e", "its own weight", given(&body.record, &item::MASS))?;
                let b = work.assume("b", case, &assume::ROOF, &assumed::BUMPS)?;
                let pressed = alike(m.plus(&e)).map(|whole| whole.times(&b));
                work.step(
                    "p",
                    "pressed down",
                    "(e + m) · b",
                    pressed,
                    Origin::derived("definition of the factor"),
                )
            },
        ),
    ]
}

/// The key of each foot's figure, that of the greatest, what each of the two is, and in which case.
const CASES: [(&str, &str, [&str; 2], Load); 3] = [
    (
        "foot_moving",
        "foot_moving_most",
        ["load of the foot on the road", "greatest load of any foot on the road"],
        Load::Moving,
    ),
    ("", "foot_bumps_most", ["", "greatest load of any foot on a bump"], Load::Bumps),
    (
        "foot_parked",
        "foot_parked_most",
        ["load of the foot when parked", "greatest load of any foot when parked"],
        Load::Parked,
    ),
];

#[derive(Clone, Copy, PartialEq, Eq)]
enum Load {
    Moving,
    Bumps,
    Parked,
}

/// What the feet carry on the road and parked, each worked out once.
struct Feet {
    moving: Known<Vec<OnRow>>,
    parked: Known<Vec<OnRow>>,
}

impl Feet {
    /// Their loads in one case; on a bump, with the factor.
    fn loaded(&self, case: &Case<'_>, load: Load, work: &mut Work) -> Known<Vec<OnRow>> {
        let rows = if load == Load::Parked { &self.parked } else { &self.moving };
        let rows = rows.clone()?;
        if load != Load::Bumps {
            return Ok(rows);
        }
        let b = work.assume("b", case, &assume::ROOF, &assumed::BUMPS)?;
        Ok(rows.iter().map(|row| OnRow { left: row.left.times(&b), right: row.right.times(&b) }).collect())
    }
}

fn feet(case: &Case<'_>, rack: usize, body: &Item) -> Vec<Working> {
    let mut all = Vec::new();
    let count = rows(case.build, rack).map_or(0, |rows| rows.len());
    let carried = Feet { moving: on_feet(case.build, rack, false), parked: on_feet(case.build, rack, true) };
    let carried = &carried;
    for (each, most, [says, says_most], load) in CASES {
        // A bump adds nothing to tell the feet apart by: there the greatest is enough.
        for row in (0..count).filter(|_| load != Load::Bumps) {
            for left in [true, false] {
                let side = if left { "left" } else { "right" };
                let of = format!("foot {side} of row {} of {}", row + 1, body.called());
                let foot = Working::of("roof", each, of, says, |work| {
                    let rows = carried.loaded(case, load, work)?;
                    let found =
                        rows.get(row).map(|row| if left { row.left.clone() } else { row.right.clone() });
                    let found = found
                        .ok_or_else(|| Missing::new("that row of feet", Some(body.tag.span), "report this"));
                    work.step(
                        "R",
                        "reaction",
                        "M₁L₁ + 2M₂(L₁ + L₂) + M₃L₂ = −6A₁a₁/L₁ − 6A₂b₂/L₂",
                        found,
                        BEAM,
                    )
                });
                all.push(foot.warned(STATICS));
            }
        }
        let of_all = |key, says, pick: fn(Vec<Figure>) -> Option<Figure>| {
            Working::of("roof", key, body.called(), says, move |work| {
                let rows = carried.loaded(case, load, work)?;
                let feet = rows.into_iter().flat_map(|row| [row.left, row.right]).collect();
                let missing = || Missing::new("a foot", Some(body.tag.span), "report this");
                work.step("R", says, "max or min of all feet", pick(feet).ok_or_else(missing), BEAM)
            })
            .warned(STATICS)
        };
        all.push(of_all(most, says_most, greatest));
        if load == Load::Parked {
            all.push(of_all(
                "foot_parked_least",
                "least load of any foot when parked; negative where it is pulled up",
                least,
            ));
        }
    }
    if body.zone == Zone::Roof {
        all.extend(off_bows(case, rack, body, count));
    }
    all
}

fn off_bows(case: &Case<'_>, rack: usize, body: &Item, count: usize) -> Vec<Working> {
    let stands_on = || -> Known<Option<String>> {
        let on = body.record.need_word(&fields::FEET_ON)?;
        Ok((on.value != "bows").then(|| format!("its feet stand on the {}", on.value)))
    };
    let off = |row: usize| -> Known<Figure> {
        let rows = rows(case.build, rack)?;
        let row = rows
            .get(row)
            .ok_or_else(|| Missing::new("that row of feet", Some(body.tag.span), "report this"))?;
        Ok(bows::nearest(case.build, &row.x)?.1)
    };
    let mut all: Vec<Working> = (0..count)
        .map(|row| {
            let of = format!("row {} of {}", row + 1, body.called());
            Working::of("roof", "foot_off_bow", of, "from the row to the nearest roof bow", |work| {
                if let Some(why) = stands_on()? {
                    return Ok(Outcome::None(why));
                }
                let origin = Origin::derived("difference of places");
                work.step("a", "off the bow", "|x − x of the bow|", off(row), origin).map(Outcome::from)
            })
        })
        .collect();
    all.push(Working::of(
        "roof",
        "foot_off_bow_most",
        body.called(),
        "the farthest of any row of feet from a bow",
        |work| {
            if let Some(why) = stands_on()? {
                return Ok(Outcome::None(why));
            }
            let rows = rows(case.build, rack)?;
            let all = (0..rows.len()).map(off).collect::<Known<Vec<Figure>>>()?;
            let most = greatest(all)
                .ok_or_else(|| Missing::new("a row of feet", Some(body.tag.span), "report this"));
            work.step(
                "a",
                "off the bow",
                "max |x − x of the bow|",
                most,
                Origin::derived("difference of places"),
            )
            .map(Outcome::from)
        },
    ));
    all
}
