//! Labels and what they ask for.

use pintle_quantity::Quantity;
use pintle_spec::schema::build::head;
use pintle_spec::schema::{record, trailer};

use super::{Loaded, of_build};
use crate::arrange::{End, Extremum};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::ratings::{bare_mass, gawr_sum};
use crate::road::labels::{
    added_threshold, axle_sum_margin, gvwr_floor_margin, in_pounds, is_recreational, printed, standard,
    water_in_kilograms, water_in_pounds,
};
use crate::road::vin::wrong_with;
use crate::space::{alike, given};
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

const S9_3_2: Origin =
    Origin::published("49 CFR 571.110 S9.3.2, 2015 edition: full propane counted, potable water not");
const S10_1: Origin = Origin::published("49 CFR 571.110 S10.1, 571.120 S10.5.1, 2015 edition");
const S9_2: Origin = Origin::published(
    "49 CFR 571.110 S9.2, 571.120 S10.2, 2015 edition: tongue weight once, the least of a range",
);
const WEIGH: &str = "computed, not weighed: a label states what a scale said";

fn added(work: &mut Work, case: &Case<'_>) -> pintle_spec::Known<Figure> {
    let u = work.step("UVW", "unloaded weight", "", Weights::as_built(case.build).unloaded(), S9_3_2)?;
    let b = work.take("B", "the empty trailer as it came", bare_mass(case.build))?;
    work.step("a", "added weight", "UVW − B", alike(u.minus(&b)), Origin::derived("difference"))
}

fn weights(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let cargo = |work: &mut Work| {
        let u = work.step("UVW", "unloaded weight", "", Weights::as_built(build).unloaded(), S9_3_2)?;
        let g = work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
        let origin = Origin::published("49 CFR 571.110 S4.3.5, 2015 edition");
        work.step("CCC", "cargo capacity", "GVWR − UVW", alike(g.minus(&u)), origin)
    };
    let rounding =
        || Origin::published("49 CFR 571.110 S9.3.2, 2015 edition: nearest kilogram, then nearest pound");
    vec![
        of_build("unloaded_weight", "unloaded weight: full propane counted, water not", |work| {
            work.step("UVW", "unloaded weight", "", Weights::as_built(build).unloaded(), S9_3_2)
        })
        .warned(WEIGH),
        of_build("cargo_capacity", "cargo capacity: GVWR less the unloaded weight", cargo).warned(WEIGH),
        of_build("label_cargo_kilograms", "cargo on the label, in kilograms", |work| {
            let cargo = cargo(work)?;
            work.step("K", "to the nearest kilogram", "round(CCC)", Ok(printed(&cargo).0), rounding())
        })
        .warned(WEIGH),
        of_build("label_cargo_pounds", "cargo on the label, in pounds", |work| {
            let cargo = cargo(work)?;
            let k =
                work.step("K", "to the nearest kilogram", "round(CCC)", Ok(printed(&cargo).0), rounding())?;
            work.step(
                "P",
                "that, to the nearest pound",
                "round(K / 0.45359237)",
                Ok(printed(&k).1),
                rounding(),
            )
        })
        .warned(WEIGH),
        of_build("label_water_kilograms", "full fresh water on the label, in kilograms", |work| {
            let origin = Origin::published("49 CFR 571.110 S9.3.5(d), 2015 edition");
            work.step("W", "weight of full fresh water", "1 kg/L · V", water_in_kilograms(build), origin)
        }),
        of_build("label_water_pounds", "full fresh water on the label, in pounds", |work| {
            let origin = Origin::published("49 CFR 571.110 S9.3.5(d), 2015 edition");
            work.step("W", "weight of full fresh water", "8.3 lb/gal · V", water_in_pounds(build), origin)
        }),
        of_build("added_weight", "weight added to the trailer as it came", |work| added(work, case)),
        of_build("added_threshold", "weight that may be added without correcting the label", |work| {
            let g =
                work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
            work.step(
                "t",
                "threshold",
                "min(1.5 % · GVWR, 100 lb); 100 lb above 10,000 lb",
                added_threshold(&g),
                S10_1,
            )
        }),
        of_build("added_margin", "what may still be added without correcting the label", |work| {
            let g =
                work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
            let t = work.step("t", "threshold", "min(1.5 % · GVWR, 100 lb)", added_threshold(&g), S10_1)?;
            let a = added(work, case)?;
            let t = if build.trailer.quantity(&trailer::ADDED_LABEL).is_some() {
                let own = given(&build.trailer, &trailer::ADDED_LABEL);
                let l = work.take("l", "added weight already on a label", own)?;
                alike(t.plus(&l))?
            } else {
                t
            };
            work.step("m", "what is left", "t + l − a", alike(t.minus(&a)), Origin::derived("difference"))
        }),
    ]
}

/// What has to be labelled, by whether the trailer was sold at retail before.
fn duties(case: &Case<'_>) -> pintle_spec::Known<Vec<String>> {
    let build = case.build;
    if build.head.need_word(&head::SALE)?.value == "used" {
        return Ok(Vec::new());
    }
    let gvwr = given(&build.trailer, &trailer::GVWR)?;
    let of = standard(gvwr.quantity)?;
    let added = alike(Weights::as_built(build).unloaded()?.minus(&bare_mass(build)?))?;
    let mut duties = vec![format!("{of}: tire placard with the cargo weight")];
    if is_recreational(build)? {
        duties.push(format!("{of}: cargo capacity label for a recreational vehicle trailer"));
    }
    let threshold = added_threshold(&gvwr)?;
    if !alike(added.quantity.at_most(threshold.quantity))? {
        duties.push(format!("{of}: label corrected for {} added", in_pounds(&added)));
    }
    if added.quantity.si() > 0.0 {
        duties.push("49 CFR 567.7: alterer's label".to_owned());
    }
    Ok(duties)
}

fn sums(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    let build = case.build;
    let gvwr = |work: &mut Work| {
        work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))
    };
    let mut all = vec![of_build(
        "axle_sum_margin",
        "what axles and least tongue weight carry beyond the GVWR",
        |work| {
            let a = work.take("ΣGAWR", "axle ratings together", gawr_sum(build))?;
            let t = if build.trailer.quantity(&trailer::TONGUE_LEAST).is_some() {
                work.take(
                    "T",
                    "least tongue weight that its maker recommends",
                    given(&build.trailer, &trailer::TONGUE_LEAST),
                )?
            } else {
                let least = loaded.at(Extremum::Tongue, End::Least, Weights::tongue);
                work.step(
                    "T",
                    "least tongue weight of any road arrangement",
                    "",
                    least,
                    Origin::derived("over all road arrangements"),
                )?
            };
            let g = gvwr(work)?;
            work.step("m", "what is left", "ΣGAWR + T − GVWR", axle_sum_margin(&a, &t, &g), S9_2)
        },
    )];
    if build.trailer.quantity(&trailer::RATED_CARGO).is_some() {
        all.push(of_build(
            "gvwr_floor_margin",
            "what the GVWR is beyond unloaded weight and rated cargo",
            |work| {
                let g = gvwr(work)?;
                let u =
                    work.step("UVW", "unloaded weight", "", Weights::as_built(build).unloaded(), S9_3_2)?;
                let c = work.take("C", "rated cargo", given(&build.trailer, &trailer::RATED_CARGO))?;
                let origin = Origin::published("49 CFR 567.4(g)(3), 2015 edition; a trailer has no seats");
                work.step(
                    "m",
                    "what is left",
                    "GVWR − (UVW + C + 150 lb · seats)",
                    gvwr_floor_margin(&g, &u, &c, 0.0),
                    origin,
                )
            },
        ));
    }
    if build.trailer.quantity(&trailer::LABEL_GVWR).is_some() {
        all.push(
            of_build("gvwr_change", "how far the GVWR reckoned with is from that of its label", |work| {
                let g = gvwr(work)?;
                let l = work.take("L", "GVWR of its label", given(&build.trailer, &trailer::LABEL_GVWR))?;
                work.step("Δ", "change", "GVWR − L", alike(g.minus(&l)), Origin::derived("difference"))
            })
            .warned("nobody but its maker, or an alterer before the first retail sale, may change a GVWR"),
        );
    }
    all
}

pub(super) fn workings(case: &Case<'_>, loaded: &Loaded<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = weights(case);
    all.extend(sums(case, loaded));
    all.push(of_build("standard", "the federal standard that it is under", |work| {
        let g = work.take("GVWR", "gross vehicle weight rating", given(&build.trailer, &trailer::GVWR))?;
        let origin = Origin::published("49 CFR 571.110 S2, 571.120 S3, 2015 edition");
        work.know(
            "b",
            "GVWR up to which 571.110 applies",
            Figure::constant(Quantity::pounds(10_000.0)),
            origin,
        );
        Ok(standard(g.quantity)?.to_owned())
    }));
    if let Some(record) = &build.record
        && let Some(number) = record.text(&record::VIN)
    {
        let number = number.value.to_owned();
        all.push(of_build("vin_wrong", "what is wrong with its identification number", |_| {
            Ok(wrong_with(&number).into_iter().collect::<Vec<String>>())
        }));
    }
    all.push(
        of_build("recreational", "whether it is a recreational vehicle trailer", |_| is_recreational(build))
            .warned("49 CFR 571.3(b), 2015 edition: four of six facilities, and not designed primarily to carry cargo"),
    );
    all.push(
        of_build("label_duties", "what has to be labelled", |_| {
            let duties = duties(case)?;
            Ok(if duties.is_empty() {
                Outcome::None("it was sold at retail before: none of these is asked for, and its GVWR stays as it is".to_owned())
            } else {
                duties.into()
            })
        })
        .warned("49 CFR 567.7 from memory: whoever changes more than what is readily attached before the first retail sale; ask the registry"),
    );
    all
}
