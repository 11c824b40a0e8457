//! The bolts of a part by themselves: area, proof load, clamp load, torque, and what breaks them.

use pintle_quantity::Dimension;
use pintle_spec::Known;
use pintle_spec::schema::{anchors, assume, item};

use super::figure;
use crate::anchor::bolts::torque;
use crate::anchor::chain::Bolts;
use crate::anchor::held::Held;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::worked;
use crate::working::{Work, Working};

fn bolts(held: &Held<'_>) -> Known<Bolts> {
    Bolts::of(held)?.map_or_else(|| Err(held.anchors()?.missing(&anchors::BOLT)), Ok)
}

/// Notes the clamp load of one bolt.
fn clamp(work: &mut Work, case: &Case<'_>, bolts: &Bolts) -> Known<Figure> {
    let proof = bolts.proof(work)?;
    let share = work.assume("k", case, &assume::ANCHOR, &assume::anchor::CLAMP_SHARE)?;
    let load = share.times(&proof).shown_in(if bolts.thread.inch { "lbf" } else { "kN" });
    work.step(
        "Fc",
        "clamp load of one bolt",
        "k · Fp",
        Ok(load),
        Origin::published("coxhardware.com, T-bolt torque (seen)"),
    )
}

pub(super) fn workings(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let anchors = held.body.record.table(&item::ANCHORS);
    if anchors.and_then(|anchors| anchors.table(&anchors::BOLT)).is_none() {
        return Vec::new();
    }
    vec![
        figure(held, "stress_area", "stress area of each bolt", |work| Ok(bolts(held)?.stress_area(work))),
        figure(held, "proof_load", "proof load of each bolt", |work| bolts(held)?.proof(work)),
        figure(held, "clamp_load", "clamp load of each bolt when tightened", |work| {
            clamp(work, case, &bolts(held)?)
        }),
        figure(held, "torque", "torque that tightens each bolt, dry", |work| {
            let bolts = bolts(held)?;
            let f = clamp(work, case, &bolts)?;
            let k = work.assume("K", case, &assume::ANCHOR, &assume::anchor::NUT_FACTOR)?;
            let d = worked(bolts.thread.d, Dimension::LENGTH, Vec::new());
            let t = Figure::by(Dimension::ENERGY, [&k, &d, &f], |[k, d, f]| torque(k, d, f));
            let t = t.shown_in(if bolts.thread.inch { "lbf·ft" } else { "N·m" });
            work.step(
                "T",
                "torque",
                "K · d · Fc",
                Ok(t),
                Origin::published("coxhardware.com, T-bolt torque (seen)"),
            )
        }),
        figure(held, "bolt_pull_strength", "pull that breaks each bolt", |work| bolts(held)?.tension(work)),
        figure(held, "bolt_shear_strength", "shear that breaks each bolt", |work| {
            bolts(held)?.shear(work, case)
        }),
    ]
}
