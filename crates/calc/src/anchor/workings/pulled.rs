//! What a part pulls with, and what its chain of anchors holds.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::anchors::{self, track};
use pintle_spec::schema::{assume, item};
use pintle_spec::{Known, Missing};

use super::{figure, size};
use crate::anchor::chain::{aggregate, anchor_count, links, number, weakest};
use crate::anchor::forces::{AGGREGATE, Against, CYLINDER, HELD_DOWN, Way, beyond_friction, pull, tiedowns};
use crate::anchor::held::Held;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{constant, given};
use crate::working::{Outcome, Work, Working};

pub(super) const PULL: Origin = Origin::published("49 CFR 393.102(a), each direction by itself");

/// What a part weighs with all that is kept in it.
pub(super) fn mass(held: &Held<'_>) -> Working {
    figure(held, "weight", "its weight with all that is kept in it, tanks as full as they ride", |work| {
        held.mass(work)
    })
}

/// Keys and titles of the pulls.
const PULLS: [(Way, Against, &str, &str); 6] = [
    (Way::Ahead, Against::Breaking, "pull_ahead_breaking", "pull ahead, against the breaking load"),
    (Way::Aft, Against::Breaking, "pull_aft_breaking", "pull aft, against the breaking load"),
    (Way::Aside, Against::Breaking, "pull_aside_breaking", "pull aside, against the breaking load"),
    (Way::Ahead, Against::Working, "pull_ahead_working", "pull ahead, against the working load limit"),
    (Way::Aft, Against::Working, "pull_aft_working", "pull aft, against the working load limit"),
    (Way::Aside, Against::Working, "pull_aside_working", "pull aside, against the working load limit"),
];

const SLIDES: [(Way, &str, &str); 3] = [
    (Way::Ahead, "slide_ahead", "what friction leaves of the pull ahead"),
    (Way::Aft, "slide_aft", "what friction leaves of the pull aft"),
    (Way::Aside, "slide_aside", "what friction leaves of the pull aside"),
];

/// Notes the pull as a share of the weight.
pub(super) fn coefficient(work: &mut Work, way: Way, against: Against) -> Figure {
    let c = Figure::constant(Quantity::from_si(pull(way, against), Dimension::NONE));
    work.know("c", format!("pull {} as a share of the weight", way.word()), c, PULL)
}

/// Notes the pull.
pub(super) fn pulls(work: &mut Work, held: &Held<'_>, way: Way, against: Against) -> Known<Figure> {
    let w = held.weight(work)?;
    let c = coefficient(work, way, against);
    let force = Ok(c.times(&w).shown_in("lbf"));
    work.step("F", format!("pull {}", way.word()), "c · W", force, PULL)
}

/// Notes the friction under a part.
pub(super) fn friction(work: &mut Work, case: &Case<'_>, held: &Held<'_>) -> Known<Figure> {
    let anchors = held.body.record.table(&item::ANCHORS);
    match anchors.filter(|anchors| anchors.value(anchors::FRICTION.key).is_some()) {
        Some(stated) => work.take("μ", "friction under it", given(stated, &anchors::FRICTION)),
        None => work.assume("μ", case, &assume::ANCHOR, &assume::anchor::FRICTION),
    }
}

pub(super) fn workings(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let mut all: Vec<Working> = PULLS
        .into_iter()
        .map(|(way, against, key, says)| figure(held, key, says, |work| pulls(work, held, way, against)))
        .collect();
    all.extend(SLIDES.into_iter().map(|(way, key, says)| {
        figure(held, key, says, |work| {
            let w = held.weight(work)?;
            let c = coefficient(work, way, Against::Breaking);
            let mu = friction(work, case, held)?;
            let left = Figure::by(Dimension::FORCE, [&c, &mu, &w], |[c, mu, w]| beyond_friction(c, mu, w));
            let origin =
                Origin::derived("balance of a block on a level floor; 49 CFR 393.102 takes no friction off");
            work.step(
                "F",
                "what is left for the anchors",
                "(c − μ) · W, at least 0",
                Ok(left.shown_in("lbf")),
                origin,
            )
        })
    }));
    for (against, strength, weak) in [
        (Against::Breaking, "strength_breaking", "weakest_breaking"),
        (Against::Working, "strength_working", "weakest_working"),
    ] {
        let says = match against {
            Against::Breaking => "breaking load of the chain that holds it",
            Against::Working => "working load limit of the chain that holds it",
        };
        all.push(figure(held, strength, says, |work| {
            let all = links(work, case, held, against)?;
            Ok(weakest(work, all, against)?.holds)
        }));
        let says = match against {
            Against::Breaking => "weakest link by breaking load",
            Against::Working => "weakest link by working load limit",
        };
        all.push(figure(held, weak, says, |work| {
            let all = links(work, case, held, against)?;
            Ok(weakest(work, all, against)?.name.to_owned())
        }));
    }
    all.extend(counted(case, held));
    all
}

/// Sums and numbers of tie-downs, hold downwards, and what it is fixed to.
fn counted(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let half = "working load limit of its tie-downs as it counts";
    let mut all = vec![
        figure(held, "aggregate", half, |work| aggregate(work, case, held)),
        figure(
            held,
            "aggregate_needed",
            "working load limit that its tie-downs must have together",
            |work| {
                let w = held.weight(work)?;
                let origin = Origin::published("49 CFR 393.106(d)");
                let share = Figure::constant(Quantity::share(AGGREGATE));
                let share = work.know("k", "share of its weight", share, origin.clone());
                work.step("A", "needed together", "k · W", Ok(share.times(&w).shown_in("lbf")), origin)
            },
        ),
        figure(held, "count", "how many anchors or tie-downs it has", |work| {
            Ok(work.know("n", "how many", number(anchor_count(held)?), Origin::WRITTEN))
        }),
        figure(held, "count_needed", "how many tie-downs it needs", |work| {
            let mass = held.mass(work)?;
            let length = if held.is_point() { Ok(constant(0.0, "in")?) } else { size(held, 0) };
            let length = work.take("l", "its length along the trailer", length)?;
            let blocked = held.blocked("ahead");
            let count = tiedowns(length.quantity.si(), mass.quantity.si(), blocked);
            let (formula, source) = if blocked {
                ("one for each 10 ft or part, at least 1", "49 CFR 393.110(c): kept from moving ahead")
            } else {
                (
                    "1 up to 5 ft and 1,100 lb; 2 up to 10 ft; one more for each further 10 ft or part",
                    "49 CFR 393.110(b): not kept from moving ahead",
                )
            };
            let found = Figure::new(number(count).quantity, length.trace.and(&mass.trace));
            work.step("n", "how many it needs", formula, Ok(found), Origin::published(source))
        }),
        figure(held, "held_down_needed", "hold downwards that it needs", |work| {
            let source = Origin::published("49 CFR 393.102(b): a hold downwards, not a pull upwards");
            if held.contained() {
                return Ok(Outcome::None(
                    "it is contained in the trailer's structure, so 49 CFR 393.102(b) asks for none"
                        .to_owned(),
                ));
            }
            let w = held.weight(work)?;
            let share = Figure::constant(Quantity::share(HELD_DOWN));
            let share = work.know("k", "share of its weight", share, source.clone());
            let down = Ok(share.times(&w).shown_in("lbf"));
            Ok(Outcome::Figure(work.step("F", "hold downwards", "k · W", down, source)?))
        }),
        figure(
            held,
            "sheet_unrated",
            "whether it is fixed into plywood or skin of which no strength is stated",
            |_| {
                let anchors = held.anchors()?;
                let sheet = matches!(anchors.need_word(&anchors::FIXED_TO)?.value, "plywood" | "skin");
                let of_track = anchors.table(&anchors::TRACK).and_then(|track| track.table(&track::FASTENER));
                Ok(sheet && anchors.table(&anchors::MEMBER).is_none() && of_track.is_none())
            },
        ),
        figure(
            held,
            "fixed_in_members",
            "whether it, or its track, is fixed to frame, posts or bows",
            |_| {
                Ok(matches!(held.anchors()?.need_word(&anchors::FIXED_TO)?.value, "frame" | "posts" | "bows"))
            },
        ),
    ];
    if held.body.kind == "cylinder" {
        all.push(figure(
            held,
            "cylinder_hold_needed",
            "what the mounting of a cylinder must hold in every direction",
            |work| {
                let w = held.weight(work)?;
                let source = Origin::published(
                    "AS/NZS 5601.2 section 3, quoted on trade pages (seen); a guideline elsewhere",
                );
                let times = work.know("k", "times its full weight", number(CYLINDER), source.clone());
                work.step(
                    "F",
                    "what the mounting must hold",
                    "k · W",
                    Ok(times.times(&w).shown_in("lbf")),
                    source,
                )
            },
        ));
    }
    all
}

/// What is said where a part's anchors do not come out even in its rows.
pub(super) fn uneven(held: &Held<'_>, count: f64, rows: u32) -> Missing {
    Missing::new(
        format!("rows of {} with as many anchors each: {count} in {rows} rows", held.body.called()),
        Some(held.body.tag.span),
        "give `rows_long` and `rows_across` that the number of anchors can be shared out to",
    )
}
