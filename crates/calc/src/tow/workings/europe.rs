//! European coupling values, where coupler or hitch has them on its plate.

use pintle_quantity::Dimension;
use pintle_spec::schema::tow::{self, hitch};
use pintle_spec::schema::trailer::{self, axle, coupler};
use pintle_spec::{Build, Coordinate, Known, Record};

use super::{BUILD, figure, hitch_of, vehicle_of};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::ratings::gawr_sum;
use crate::space::{alike, constant, given, inside_length};
use crate::tow::europe::{HEAVY, d_value, least_on_ball, most_on_ball, v_value};
use crate::working::{Outcome, Work, Working};

const PAGES: Origin = Origin::published("UN R55 and 94/20/EC, as public calculator pages give them (seen)");
const LIGHT: &str = "up to 3,500 kg only D and S are on the plate";

fn plates(build: &Build) -> Vec<(&'static str, &Record, &'static pintle_spec::field::Field)> {
    let coupler = build.trailer.table(&trailer::COUPLER).map(|record| ("coupler", record, &coupler::D_VALUE));
    let hitch = hitch_of(build).map(|record| ("hitch", record, &hitch::D_VALUE));
    let stated = coupler.into_iter().chain(hitch);
    stated.filter(|(_, record, field)| record.value(field.key).is_some()).collect()
}

fn masses(work: &mut Work, build: &Build) -> Known<(Figure, Figure)> {
    let t = work.take("T", "greatest mass of the tow vehicle", given(vehicle_of(build)?, &tow::GVWR))?;
    let r = work.take("R", "greatest mass of the trailer", given(&build.trailer, &trailer::GVWR))?;
    Ok((t, r))
}

fn is_heavy(build: &Build) -> Known<bool> {
    Ok(given(&build.trailer, &trailer::GVWR)?.quantity.si() > HEAVY + 1e-9)
}

fn needed_v(work: &mut Work, build: &Build) -> Known<Figure> {
    let loads = work.take("C", "greatest loads of its axles together", gawr_sum(build))?;
    let inside = inside_length(build)?;
    let walls = given(&build.trailer, &trailer::WALL)?.scaled(2.0);
    let body = work.take("x", "length of its body", alike(inside.plus(&walls)))?;
    let length = Coordinate::of(build.trailer.need_table(&trailer::AXLE)?, &axle::BALL)?;
    let drawbar = work.take("l", "from the ball to the axle", Ok(Figure::coordinate(&length)))?;
    let heave = work.know("a", "heave of a trailer without air springs", constant(2.4, "m/s²")?, PAGES);
    let v =
        Figure::by(Dimension::FORCE, [&heave, &body, &drawbar, &loads], |[a, x, l, c]| v_value(a, x, l, c));
    work.step("V", "V-value", "a · (x² / l²) · C, x² / l² at least 1", Ok(v.shown_in("kN")), PAGES)
}

pub(super) fn workings(build: &Build) -> Vec<Working> {
    let plates = plates(build);
    if plates.is_empty() {
        return Vec::new();
    }
    vec![
        figure(BUILD, "d_value", "D-value of coupler and hitch, the lesser", |work| {
            let mut least: Option<Figure> = None;
            for (whose, record, field) in plates {
                let value = work.take("D", format!("D-value of the {whose}"), given(record, field))?;
                least = Some(match least {
                    None => value,
                    Some(before) => alike(before.lesser(&value))?,
                });
            }
            least.ok_or_else(|| pintle_spec::Missing::new("any D-value", None, "report this"))
        }),
        figure(BUILD, "d_needed", "D-value that vehicle and trailer need", |work| {
            let (t, r) = masses(work, build)?;
            let d = Figure::by(Dimension::FORCE, [&t, &r], |[t, r]| d_value(t, r)).shown_in("kN");
            work.step("D", "D-value", "g · T · R / (T + R), g = 9.81 m/s²", Ok(d), PAGES)
        }),
        figure(BUILD, "dc_needed", "Dc-value that vehicle and trailer need", |work| {
            if !is_heavy(build)? {
                return Ok(Outcome::None(LIGHT.to_owned()));
            }
            let (t, _) = masses(work, build)?;
            let c = work.take("C", "greatest loads of its axles together", gawr_sum(build))?;
            let d = Figure::by(Dimension::FORCE, [&t, &c], |[t, c]| d_value(t, c)).shown_in("kN");
            Ok(Outcome::Figure(work.step(
                "Dc",
                "Dc-value",
                "g · T · C / (T + C), g = 9.81 m/s²",
                Ok(d),
                PAGES,
            )?))
        }),
        figure(BUILD, "v_needed", "V-value that the trailer needs", |work| {
            if !is_heavy(build)? {
                return Ok(Outcome::None(LIGHT.to_owned()));
            }
            Ok(Outcome::Figure(needed_v(work, build)?))
        }),
        figure(
            BUILD,
            "s_least",
            "least weight on the ball that vehicle and coupling must be made for",
            |work| {
                let r =
                    work.take("R", "greatest mass of the trailer", given(&build.trailer, &trailer::GVWR))?;
                let s = Figure::by(Dimension::MASS, [&r], |[r]| least_on_ball(r)).shown_in("kg");
                let origin = Origin::published(
                    "Directive 92/21/EEC, quoted in a forum and a camping magazine's glossary (seen)",
                );
                work.step("S", "at least", "4 % of R, and 25 kg", Ok(s), origin)
            },
        ),
        figure(BUILD, "s_most", "most weight on the ball of a central-axle trailer", |work| {
            let r = work.take("R", "greatest mass of the trailer", given(&build.trailer, &trailer::GVWR))?;
            let s = Figure::by(Dimension::MASS, [&r], |[r]| most_on_ball(r)).shown_in("kg");
            work.step("S", "at most", "10 % of R, and 1,000 kg", Ok(s), PAGES)
        }),
    ]
}
