//! What rack feet do to the roof bows.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::roof as assumed;
use pintle_spec::schema::kinds::rack as rack_fields;
use pintle_spec::{Known, Zone};

use super::STATICS;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::roof::bows::{Loaded, loaded, material, section, shown, span};
use crate::space::greatest;
use crate::working::{Outcome, Work, Working};

/// Standard gravity, in m/s².
const GRAVITY: f64 = 9.806_65;

/// Keys of the figures of one case: load, moment, stress, deflection, and of the build greatest stress, its share of the
/// allowable one, and greatest deflection as a share of the span.
struct Keys {
    parked: bool,
    load: &'static str,
    moment: &'static str,
    stress: &'static str,
    sag: &'static str,
    stress_most: &'static str,
    stress_use: &'static str,
    sag_share: &'static str,
}

const CASES: [Keys; 2] = [
    Keys {
        parked: true,
        load: "bow_load_parked",
        moment: "bow_moment_parked",
        stress: "bow_stress_parked",
        sag: "bow_sag_parked",
        stress_most: "bow_stress_parked_most",
        stress_use: "bow_stress_parked_use",
        sag_share: "bow_sag_parked_share",
    },
    Keys {
        parked: false,
        load: "bow_load_bumps",
        moment: "bow_moment_bumps",
        stress: "bow_stress_bumps",
        sag: "bow_sag_bumps",
        stress_most: "bow_stress_bumps_most",
        stress_use: "bow_stress_bumps_use",
        sag_share: "bow_sag_bumps_share",
    },
];

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let on_bows = || -> Known<bool> {
        let racks = build.of_kind("rack").filter(|(_, body)| body.zone == Zone::Roof);
        let words = racks.map(|(_, body)| body.record.need_word(&rack_fields::FEET_ON).map(|on| on.value));
        Ok(words.collect::<Known<Vec<_>>>()?.contains(&"bows"))
    };
    let on_bows = on_bows();
    let mut all = Vec::new();
    if on_bows == Ok(true) {
        all.extend(of_the_section(case));
    }
    for keys in &CASES {
        let bows = loaded(build, keys.parked);
        for bow in bows.iter().flatten() {
            all.extend(one_bow(case, keys, bow));
        }
        all.extend(of_all(case, keys, &on_bows, &bows));
    }
    all
}

fn of_the_section(case: &Case<'_>) -> [Working; 3] {
    let build = case.build;
    [
        Working::of("roof", "bow_span", "the roof bows", "between the posts of a bow", |work| {
            work.take("L", "span; the outside width of the box when not given", span(build))
        }),
        Working::of("roof", "bow_inertia", "the roof bows", "second moment of area", |work| {
            let found = section(build).map(|(inertia, _)| inertia);
            work.step(
                "I",
                "about the level axis, sharp corners",
                "Σ (b h³/12 + A d²)",
                found,
                Origin::derived("parallel axis theorem"),
            )
        }),
        Working::of("roof", "bow_modulus", "the roof bows", "section modulus", |work| {
            let found = section(build).map(|(_, modulus)| modulus);
            work.step("Z", "to the farthest fibre", "I / c", found, Origin::derived("theory of bending"))
        }),
    ]
}

fn gravity() -> Figure {
    Figure::constant(Quantity::from_si(GRAVITY, Dimension::ACCELERATION))
}

/// How many times over the load counts: once when parked.
fn factor(case: &Case<'_>, parked: bool, work: &mut Work) -> Known<Figure> {
    if parked {
        return Ok(Figure::constant(Quantity::from_si(1.0, Dimension::NONE)));
    }
    work.assume("b", case, &assume::ROOF, &assumed::BUMPS)
}

fn stress(case: &Case<'_>, parked: bool, bow: &Loaded, work: &mut Work) -> Known<Figure> {
    let b = factor(case, parked, work)?;
    let moment = bow.moment.times(&b).times(&gravity());
    let m = work.step(
        "M",
        "greatest moment",
        "b · Σ R x",
        Ok(moment.shown_in(shown(case.build).moment)),
        Origin::derived("statics: two posts, feet between"),
    )?;
    let z = work.step(
        "Z",
        "section modulus",
        "I / c",
        section(case.build).map(|(_, z)| z),
        Origin::derived("theory of bending"),
    )?;
    let stress = m.over(&z);
    work.step(
        "σ",
        "greatest bending stress",
        "M / Z",
        Ok(stress.shown_in(shown(case.build).stress)),
        Origin::derived("theory of bending"),
    )
}

fn sag(case: &Case<'_>, parked: bool, bow: &Loaded, work: &mut Work) -> Known<Figure> {
    let b = factor(case, parked, work)?;
    let [stiffness, _] = material(case.build)?;
    let e = work.assume("E", case, &assume::ROOF, stiffness)?;
    let i = work.step(
        "I",
        "second moment of area",
        "Σ (b h³/12 + A d²)",
        section(case.build).map(|(i, _)| i),
        Origin::derived("parallel axis theorem"),
    )?;
    work.take("L", "span", span(case.build))?;
    let sag = bow.bend.times(&b).times(&gravity()).over(&e.times(&i)).shown_in(shown(case.build).sag);
    let origin = Origin::derived("superposition of point loads on two posts");
    work.step("δ", "greatest deflection", "b · Σ P b x (L² − b² − x²) / (6 L E I)", Ok(sag), origin)
}

fn one_bow(case: &Case<'_>, keys: &Keys, bow: &Loaded) -> Vec<Working> {
    let parked = keys.parked;
    let of = || format!("roof bow {}", bow.bow + 1);
    vec![
        Working::of("roof", keys.load, of(), "what rack feet press on it with", |work| {
            let b = factor(case, parked, work)?;
            work.step("P", "its feet", "b · Σ R", Ok(bow.load.times(&b)), Origin::derived("sum"))
        }),
        Working::of("roof", keys.moment, of(), "greatest bending moment", |work| {
            let b = factor(case, parked, work)?;
            let moment = bow.moment.times(&b).times(&gravity()).shown_in(shown(case.build).moment);
            work.step(
                "M",
                "greatest moment",
                "b · Σ R x",
                Ok(moment),
                Origin::derived("statics: two posts, feet between"),
            )
        }),
        Working::of("roof", keys.stress, of(), "greatest bending stress", |work| {
            stress(case, parked, bow, work)
        })
        .warned(STATICS),
        Working::of("roof", keys.sag, of(), "greatest deflection", |work| sag(case, parked, bow, work))
            .warned(STATICS),
    ]
}

fn of_all(case: &Case<'_>, keys: &Keys, on_bows: &Known<bool>, bows: &Known<Vec<Loaded>>) -> Vec<Working> {
    let parked = keys.parked;
    let over_all = |work: &mut Work, of: fn(&Case<'_>, bool, &Loaded, &mut Work) -> Known<Figure>| {
        if !on_bows.clone()? {
            return Ok(None);
        }
        let bows = bows.as_ref().map_err(Clone::clone)?;
        let found = bows.iter().map(|bow| of(case, parked, bow, &mut Work::default()));
        let most = greatest(found.collect::<Known<Vec<_>>>()?);
        most.map(|most| {
            work.step("x", "the greatest of all bows", "max", Ok(most), Origin::derived("comparison"))
        })
        .transpose()
    };
    let none = || Ok(Outcome::None("no rack's feet stand on bows".to_owned()));
    let working = |key, says, found: &dyn Fn(&mut Work) -> Known<Outcome>| {
        Working::of("roof", key, "the roof bows", says, found).warned(STATICS)
    };
    vec![
        working(keys.stress_most, "greatest bending stress of any bow", &|work| {
            over_all(work, stress)?.map_or_else(none, |most| Ok(Outcome::Figure(most)))
        }),
        working(keys.stress_use, "greatest bending stress against the allowable one", &|work| {
            let Some(most) = over_all(work, stress)? else { return none() };
            let [_, allowable] = material(case.build)?;
            let a = work.assume("σa", case, &assume::ROOF, allowable)?;
            let origin = Origin::derived("definition");
            work.step("u", "used", "max σ / σa", Ok(most.over(&a).as_share()), origin).map(Outcome::from)
        }),
        working(keys.sag_share, "greatest deflection as a share of the span", &|work| {
            let Some(most) = over_all(work, sag)? else { return none() };
            let l = work.take("L", "span", span(case.build))?;
            let origin = Origin::derived("definition; 1/240 is 0.417 %");
            work.step("d", "share", "max δ / L", Ok(most.over(&l).as_share()), origin).map(Outcome::from)
        }),
    ]
}
