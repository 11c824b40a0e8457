//! Figures of parts: whether each fits, what it meets, what its doors sweep, and whether what people must get at is free.

use pintle_quantity::Dimension;
use pintle_spec::schema::trailer::WHEEL_BOX;
use pintle_spec::{Build, Item, Missing, Table};

use super::{ASLEEP, AWAKE, GEOMETRY, TOPIC, texts};
use crate::case::Case;
use crate::space::boxes::{Hour, extent_at};
use crate::space::fits::{at_worst, belongs_inside, beyond_box, into_nose, meetings, on_wheel_boxes};
use crate::space::of_places;
use crate::space::reach::{covered, covers, depth, stepped_over};
use crate::space::swings::{Swing, beyond_box as sweeps_beyond, in_the_way, swings};
use crate::working::{Outcome, Working};

/// Of more things that swing than these, it is not worked out what stands in their way.
const MOST_SWINGS: usize = 500;

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for item in build.items.iter().filter(|item| belongs_inside(item)) {
        all.extend(within(build, item));
    }
    for (at, met) in meetings(build) {
        let Some(item) = build.items.get(at) else { continue };
        all.push(Working::of(TOPIC, "meets", item.called(), "parts that its box meets", |_| met.map(texts)));
    }
    let swings = swings(build);
    for swing in swings.iter().take(MOST_SWINGS) {
        all.extend(swept(build, swing));
    }
    for swing in swings.iter().skip(MOST_SWINGS) {
        all.push(Working::of(
            TOPIC,
            "swing_meets",
            swing.called.clone(),
            "what stands where it swings",
            |_| {
                Err::<Outcome, _>(Missing::new(
                    format!("a spec of no more than {MOST_SWINGS} things that swing"),
                    None,
                    "leave out what swings where nothing can be",
                ))
            },
        ));
    }
    for (at, item) in build.items.iter().enumerate().filter(|(_, item)| covers(item)) {
        all.push(Working::of(
            TOPIC,
            "covered_by",
            item.called(),
            "what stands where people must get at it",
            |work| {
                let depth = depth(case, item, work)?;
                let over = if item.table == Table::Opening { stepped_over(case, work)? } else { 0.0 };
                covered(build, at, depth, over).map(texts)
            },
        ));
    }
    all
}

fn within(build: &Build, item: &Item) -> Vec<Working> {
    let folded = item.folded.as_ref();
    let mut all = vec![Working::of(
        TOPIC,
        "outside_box",
        item.called(),
        "how far it stands beyond the inside of the box; negative for the room it has",
        |work| {
            let out =
                at_worst(beyond_box(build, &item.extent), folded.map(|folded| beyond_box(build, folded)));
            work.step("d", "beyond the inside", "max over six sides", out, GEOMETRY)
        },
    )];
    let nose = into_nose(build, extent_at(item, Hour::Night)).transpose();
    if let Some(nose) = nose {
        all.push(Working::of(
            TOPIC,
            "into_nose",
            item.called(),
            "how far its front corners stand into the slope of the nose; negative for the room they have",
            |work| {
                let other = folded.and_then(|folded| into_nose(build, folded).transpose());
                let day = into_nose(build, &item.extent).transpose();
                let worst =
                    [other, day].into_iter().flatten().fold(nose, |one, other| at_worst(one, Some(other)));
                work.step(
                    "d",
                    "into the nose",
                    "front of the outline at its corner − its front",
                    worst,
                    GEOMETRY,
                )
            },
        ));
    }
    if build.trailer.table(&WHEEL_BOX).is_some() {
        all.push(Working::of(TOPIC, "in_wheel_box", item.called(), "wheel boxes that it stands in", |_| {
            on_wheel_boxes(build, item).map(texts)
        }));
    }
    all
}

fn swept(build: &Build, swing: &Swing) -> Vec<Working> {
    let of = swing.called.clone();
    let mut all = Vec::new();
    let owner: Vec<&Item> = build.items.get(swing.part).into_iter().collect();
    let inside = owner.iter().any(|owner| belongs_inside(owner));
    if swing.folds {
        // It turns between its two places, whatever the hour.
        all.push(Working::of(
            TOPIC,
            "fold_meets",
            of.clone(),
            "what stands in its way as it is folded away",
            |_| in_the_way(build, swing, &Hour::ALL).map(texts),
        ));
    } else {
        all.push(Working::of(
            TOPIC,
            "swing_meets",
            of.clone(),
            "what stands where it swings, beds folded away",
            |_| in_the_way(build, swing, AWAKE).map(texts),
        ));
        all.push(Working::of(
            TOPIC,
            "swing_meets_at_night",
            of.clone(),
            "what stands where it swings, beds in use",
            |_| in_the_way(build, swing, ASLEEP).map(texts),
        ));
    }
    if inside {
        all.push(Working::of(
            TOPIC,
            "swings_beyond",
            of,
            "how far it swings beyond the inside of the box; negative for the room it leaves",
            |work| {
                let beyond = sweeps_beyond(build, swing)
                    .map(|beyond| of_places(beyond, Dimension::LENGTH, "in", build, &owner));
                work.step("d", "beyond the inside", "", beyond, GEOMETRY)
            },
        ));
    }
    all
}
