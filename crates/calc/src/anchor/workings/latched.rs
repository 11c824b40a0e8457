//! Latches of what is folded away on the road.

use pintle_quantity::Dimension;
use pintle_spec::field::Field;
use pintle_spec::schema::anchors::{self, latch};
use pintle_spec::schema::item;
use pintle_spec::{Known, Record};

use super::figure;
use super::pulled::coefficient;
use crate::anchor::chain::{force, number, rating};
use crate::anchor::forces::{Against, Way};
use crate::anchor::held::Held;
use crate::anchor::tipping::latch_pull;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::given;
use crate::working::{Work, Working};

fn pulled(work: &mut Work, latch: &Record, against: Against) -> Known<Figure> {
    let way = match latch.need_word(&latch::UNFOLDS)?.value {
        "ahead" => Way::Ahead,
        "aft" => Way::Aft,
        _ => Way::Aside,
    };
    let w = work.take("W", "weight of what is folded", Ok(force(&given(latch, &latch::MASS)?)))?;
    let c = coefficient(work, way, against);
    let cg = work.take("a", "from the hinge to its centre of gravity", given(latch, &latch::CG))?;
    let arm = work.take("e", "from the hinge to the latch", given(latch, &latch::ARM))?;
    let pull = Figure::by(Dimension::FORCE, [&c, &w, &cg, &arm], |[c, w, cg, arm]| latch_pull(c, w, cg, arm));
    let origin = Origin::derived("moments about the hinge");
    work.step("F", "pull on the latches together", "c · W · a / e", Ok(pull.shown_in("lbf")), origin)
}

fn holds(work: &mut Work, case: &Case<'_>, latch: &Record, against: Against) -> Known<Figure> {
    let fields: [&'static Field; 2] = [&latch::BREAKING, &latch::WORKING];
    let one = rating(work, case, latch, fields, ("f", "each latch"), against)?;
    let n = number(f64::from(latch.need_count(&latch::COUNT)?.value));
    let n = work.know("n", "how many", n, Origin::WRITTEN);
    let all = Ok(n.times(&one).shown_in("lbf"));
    work.step("F", "what the latches hold together", "n · f", all, Origin::derived("shared evenly"))
}

pub(super) fn workings(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let anchors = held.body.record.table(&item::ANCHORS);
    let Some(latch) = anchors.and_then(|anchors| anchors.table(&anchors::LATCH)) else { return Vec::new() };
    let breaking = Against::Breaking;
    let working = Against::Working;
    vec![
        figure(held, "latch_pull_breaking", "pull on its latches, against the breaking load", |work| {
            pulled(work, latch, breaking)
        }),
        figure(held, "latch_pull_working", "pull on its latches, against the working load limit", |work| {
            pulled(work, latch, working)
        }),
        figure(held, "latch_strength_breaking", "breaking load of its latches", |work| {
            holds(work, case, latch, breaking)
        }),
        figure(held, "latch_strength_working", "working load limit of its latches", |work| {
            holds(work, case, latch, working)
        }),
    ]
}
