//! Figures of each cylinder.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::kinds::cylinder;
use pintle_spec::schema::{assume, item};
use pintle_spec::{Item, Known, Missing};

use super::{GAS, burn_time, energy, known, temperature};
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::boil::{BTU_PER_HOUR, HUNDRED_POUND_DIAMETER, POUND, hundred_pound_draw, small_draw, wetted};
use crate::gas::burning::{gas_in, input, propane};
use crate::gas::near::{
    behind_axle, ignition_in_same_air, locker_of, nearest_ignition, nearest_opening, to_rear,
};
use crate::gas::propane::{
    ATMOSPHERE, BUTANE_BOILS, DIP_TUBE, NEVER_FULL_AT, PROPANE_BOILS, WATER, filling_density, liquid_density,
    liquid_share, vapour_pressure,
};
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::{Outcome, Work, Working};

const COOLPROP: Origin =
    Origin::published("saturated propane, CoolProp 8.0.0 (computed), between rows 10 K apart");
const TABLE: &str = "flameengineering.com, tank vaporisation table of the 100 lb cylinder (seen)";
const WEIGHT: &str = "weight of a mass, standard gravity 9.80665 m/s²";
const STANDARD_GRAVITY: f64 = 9.806_65;

pub(super) fn workings(case: &Case<'_>, at: usize, body: &Item) -> Vec<Working> {
    let mut all = vec![
        stored_energy(case, body),
        filling(body),
        legal_filling(body),
        liquid(body, "liquid_share", "how much of it the liquid fills at 40 °F", DIP_TUBE),
        liquid(body, "liquid_share_hot", "how much of it the liquid fills at 131 °F", NEVER_FULL_AT),
        pressure(case, body),
        margin(case, body),
        draw(case, body),
        alone(case, body),
    ];
    all.extend(held(body));
    all.extend(near(case, at, body));
    all
}

fn stored_energy(case: &Case<'_>, body: &Item) -> Working {
    Working::of(GAS, "stored_energy", body.called(), "heat in it when full", |work| {
        let m = work.take("m", "gas when full", gas_in(body))?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let energy = Ok(energy(&m, &h).shown_in("Btu"));
        work.step("E", "heat in it", "m · H", energy, Origin::derived("definition of the heating value"))
    })
}

fn filling(body: &Item) -> Working {
    Working::of(GAS, "filling_density", body.called(), "gas when full against its water capacity, by weight", |work| {
        let m = work.take("m", "gas when full", gas_in(body))?;
        let w = work.take("W", "water capacity", given(&body.record, &cylinder::WATER_CAPACITY))?;
        let share = Ok(m.over(&w).as_share());
        work.step("f", "filling density", "m / W", share, Origin::derived("definition of the filling density"))
    })
    .warned("the nominal weight is the legal fill already, 42 % of the water capacity for commercial propane: 80 % of it would be short")
}

/// Weight of commercial propane against water at 60 °F: 0.504, as printed; anything from there to 0.510 comes to the same.
const COMMERCIAL: f64 = 0.504;

fn legal_filling(body: &Item) -> Working {
    Working::of(
        GAS,
        "filling_legal",
        body.called(),
        "the most it may hold against its water capacity, by weight",
        |work| {
            propane(body)?;
            let most = filling_density(COMMERCIAL)
                .ok_or_else(|| Missing::new("a filling density", None, "report this"))?;
            let source =
                "WAC 296-307-41037, table U-4 (seen): 42 % for a weight of 0.504 to 0.510 against water";
            let most = Figure::constant(Quantity::share(most));
            Ok(work.know("f", "filling density for commercial propane", most, Origin::published(source)))
        },
    )
    .warned("of tanks above ground; cylinders go by 49 CFR 173.304a(d), which was not read")
}

fn liquid(body: &Item, key: &'static str, says: &'static str, at: f64) -> Working {
    Working::of(GAS, key, body.called(), says, |work| {
        let m = work.take("m", "gas when full", gas_in(body))?;
        let w = work.take("W", "water capacity", given(&body.record, &cylinder::WATER_CAPACITY))?;
        let t = work.know(
            "T",
            "temperature of the liquid",
            temperature(at),
            Origin::published(if at > 300.0 {
                "49 CFR 173.304(b), read in a summary: liquid may not fill a cylinder at or below 55 °C"
            } else {
                "29 CFR 1910.110(b)(19): a fixed dip tube is set for 40 °F"
            }),
        );
        let si = t.quantity.si();
        let rho = known(liquid_density(si)?, Dimension::DENSITY, "lb/gal");
        work.know("ρ", "liquid propane's weight", rho, COOLPROP);
        let rho_w = known(WATER, Dimension::DENSITY, "lb/gal");
        work.know(
            "ρw",
            "water's weight",
            rho_w,
            Origin::published("water at 60 °F, CoolProp 8.0.0 (computed)"),
        );
        liquid_share(m.quantity.si(), w.quantity.si(), si)?;
        let share =
            Figure::by(Dimension::NONE, [&m, &w], |[m, w]| liquid_share(m, w, si).unwrap_or(f64::NAN));
        let origin = Origin::derived("all of the gas reckoned as liquid");
        work.step("s", "share of the volume", "(m / ρ) / (W / ρw)", Ok(share.as_share()), origin)
    })
}

fn coldest(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    work.assume("T", case, &assume::GAS, &assume::gas::COLDEST_USE)
}

fn pressure(case: &Case<'_>, body: &Item) -> Working {
    Working::of(GAS, "pressure_cold", body.called(), "gauge pressure in it in the coldest use", |work| {
        propane(body)?;
        let t = coldest(work, case)?;
        vapour_pressure(t.quantity.si())?;
        let p = Figure::by(Dimension::PRESSURE, [&t], |[t]| vapour_pressure(t).unwrap_or(f64::NAN)).shown_in("psi");
        let p = work.step("p", "vapour pressure", "log p straight in 1/T", Ok(p), COOLPROP)?;
        let air = known(ATMOSPHERE, Dimension::PRESSURE, "psi");
        let air = work.know("p₀", "the atmosphere", air, Origin::derived("standard atmosphere, at sea level"));
        work.step("pg", "above the atmosphere", "p − p₀", alike(p.minus(&air)), Origin::derived("what a gauge shows"))
    })
    .warned("of pure propane; tables of commercial propane print 122 and 127 psi at 70 °F where pure propane has 110 psi")
}

fn margin(case: &Case<'_>, body: &Item) -> Working {
    Working::of(GAS, "boiling_margin", body.called(), "coldest use above the gas's boiling point", |work| {
        let fuel = body.record.need_word(&cylinder::FUEL)?.value;
        let t = coldest(work, case)?;
        let boils = temperature(if fuel == "butane" { BUTANE_BOILS } else { PROPANE_BOILS });
        let source = "normal boiling point, CoolProp 8.0.0 (computed)";
        let tb = work.know("Tb", format!("{fuel} boils"), boils, Origin::published(source));
        work.step(
            "ΔT",
            "margin",
            "T − Tb",
            alike(t.minus(&tb)),
            Origin::derived("no vapour is drawn below the boiling point"),
        )
    })
}

/// The diameter of a cylinder: the lesser of its length and width, standing; lying ones give no figure.
fn diameter(body: &Item) -> Known<Figure> {
    let upright = body.record.need_flag(&cylinder::UPRIGHT)?;
    if !upright.value {
        let help = "a cylinder that lies gives liquid, not vapour: stand it upright";
        return Err(Missing::new(format!("{} standing upright", body.called()), Some(upright.span), help));
    }
    let (length, width) = (given(&body.record, &item::LENGTH)?, given(&body.record, &item::WIDTH)?);
    alike(length.lesser(&width))
}

/// Greatest lasting draw of a cylinder at the coldest use and the least fill.
pub(super) fn drawn(work: &mut Work, case: &Case<'_>, body: &Item) -> Known<Figure> {
    let full = work.take("m", "gas when full", gas_in(body))?;
    let share = work.assume("s", case, &assume::GAS, &assume::gas::LEAST_FILL)?;
    let least = full.times(&share);
    let least =
        work.step("m₁", "gas in it at the least", "s · m", Ok(least), Origin::derived("share of a weight"))?;
    let coldest = coldest(work, case)?;
    let hundred = Quantity::pounds(100.0);
    if alike(full.quantity.compare(hundred))? == std::cmp::Ordering::Equal {
        return by_table(work, &least, &coldest);
    }
    let width = work.take("d", "width of the cylinder", diameter(body))?;
    by_wetted_surface(work, &least, &coldest, &width)
}

fn by_table(work: &mut Work, least: &Figure, coldest: &Figure) -> Known<Figure> {
    let at = |m: f64, t: f64| Ok(hundred_pound_draw(m / POUND, fahrenheit(t))? * BTU_PER_HOUR);
    at(least.quantity.si(), coldest.quantity.si())?;
    let draw = Figure::by(Dimension::POWER, [least, coldest], |[m, t]| at(m, t).unwrap_or(f64::NAN));
    let draw = Ok(draw.shown_in("Btu/h"));
    work.step("P", "greatest lasting draw", "table at m₁ and T", draw, Origin::published(TABLE))
}

fn by_wetted_surface(work: &mut Work, least: &Figure, coldest: &Figure, width: &Figure) -> Known<Figure> {
    let at = coldest.quantity.si();
    let full = hundred_pound_draw(100.0, fahrenheit(at))? * BTU_PER_HOUR;
    let full = known(full, Dimension::POWER, "Btu/h");
    work.know("P₁₀₀", "draw of a full 100 lb cylinder at T", full, Origin::published(TABLE));
    let rho = known(liquid_density(at)?, Dimension::DENSITY, "lb/gal");
    work.know("ρ", "liquid propane's weight at T", rho, COOLPROP);
    let hundred = known(wetted(100.0 * POUND, HUNDRED_POUND_DIAMETER, at)?, Dimension::AREA, "in²");
    let source = "πD²/4 + 4M/(ρD) with M = 100 lb, and D = 14 1/2 in from memory";
    work.know("A₁₀₀", "wetted surface of the full 100 lb cylinder", hundred, Origin::memory(source));
    let surface = |m: f64, d: f64| wetted(m, d, at).unwrap_or(f64::NAN);
    let surface = Figure::by(Dimension::AREA, [least, width], |[m, d]| surface(m, d)).shown_in("in²");
    let upright = Origin::derived("upright round cylinder with a flat bottom");
    work.step("A", "wetted surface", "πd²/4 + 4m₁/(ρd)", Ok(surface), upright)?;
    let inputs = [least, width, coldest];
    let draw = Figure::by(Dimension::POWER, inputs, |[m, d, t]| small_draw(m, d, t).unwrap_or(f64::NAN));
    let origin = Origin::derived("heat through the wetted surface; no table of smaller cylinders was found");
    work.step("P", "greatest lasting draw", "P₁₀₀ · A / A₁₀₀", Ok(draw.shown_in("Btu/h")), origin)
}

fn fahrenheit(kelvin: f64) -> f64 {
    kelvin * 1.8 - 459.67
}

fn draw(case: &Case<'_>, body: &Item) -> Working {
    Working::of(
        GAS,
        "draw_cold",
        body.called(),
        "greatest lasting draw in the coldest use at the least fill",
        |work| drawn(work, case, body),
    )
    .warned("an estimate: frost, wind and damp change it, and no table of cylinders below 100 lb was found")
}

fn alone(case: &Case<'_>, body: &Item) -> Working {
    Working::of(GAS, "burn_time", body.called(), "how long it feeds every appliance at full flame", |work| {
        let m = work.take("m", "gas when full", gas_in(body))?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let p = work.take("P", "heat input of all propane appliances", input(case.build))?;
        if p.quantity.si() <= 0.0 {
            return Ok(Outcome::None("nothing burns propane".to_owned()));
        }
        let time = Ok(burn_time(&m, &h, &p));
        work.step("t", "time", "m · H / P", time, Origin::derived("definition of the heating value"))
            .map(Outcome::Figure)
    })
}

/// Force in N that so many times its weight makes of a mass in kg: F = n · m · g.
pub(super) fn force(m: f64, times: f64) -> f64 {
    times * m * STANDARD_GRAVITY
}

fn held(body: &Item) -> [Working; 3] {
    let weight =
        |work: &mut Work, times: f64, symbol: &'static str, formula: &'static str, origin: Origin| {
            let m = work.take("m", "full weight", given(&body.record, &item::MASS))?;
            let force = Figure::by(Dimension::FORCE, [&m], |[m]| force(m, times)).shown_in("lbf");
            work.step(symbol, "force", formula, Ok(force), origin)
        };
    [
        Working::of(GAS, "restraint_needed", body.called(), "what its restraint should hold in every direction", |work| {
            let source = "AS/NZS 5601.2 section 3, read in trade pages: four times the full weight in every direction";
            weight(work, 4.0, "F", "4 · m · g", Origin::published(source))
        })
        .warned("a guideline: the text binds builders in Australia and New Zealand"),
        Working::of(GAS, "restraint_stop", body.called(), "what pulls at it in a hard stop", |work| {
            weight(work, 0.8, "F", "0.8 · m · g", Origin::published("49 CFR 393.102: 0.8 g forward"))
        })
        .warned("a guideline: the text binds commercial carriers"),
        Working::of(GAS, "restraint_held", body.called(), "what its restraint holds in its weakest direction", |work| {
            let r = work.take("R", "load its restraint holds", given(&body.record, &cylinder::RESTRAINT))?;
            let force = Figure::by(Dimension::FORCE, [&r], |[r]| force(r, 1.0)).shown_in("lbf");
            work.step("F", "force", "R · g", Ok(force), Origin::derived(WEIGHT))
        }),
    ]
}

fn near(case: &Case<'_>, at: usize, body: &Item) -> Vec<Working> {
    let build = case.build;
    let of = || body.called();
    let called = |to: usize| build.items.get(to).map_or_else(String::new, Item::called);
    let plain = Origin::derived("from box to box, by the places of the spec");
    let places = plain.clone();
    vec![
        Working::of(
            GAS,
            "opening_gap",
            of(),
            "level distance to the nearest opening that begins below its top",
            |work| match nearest_opening(build, at)? {
                None => Ok(Outcome::None("no opening begins below its top".to_owned())),
                Some(found) => {
                    let what = format!("to {}", called(found.to));
                    work.step("d", what, "boxes seen from above", Ok(found.gap), plain).map(Outcome::Figure)
                }
            },
        )
        .warned("its relief valve is taken to open at its top, anywhere within its width"),
        Working::of(
            GAS,
            "ignition_gap",
            of(),
            "distance to the nearest part in the same air that can set gas alight",
            |work| match nearest_ignition(build, at)? {
                None => Ok(Outcome::None("nothing in the same air can set gas alight".to_owned())),
                Some(found) => {
                    let what = format!("to {}", called(found.to));
                    work.step("d", what, "boxes in space", Ok(found.gap), places).map(Outcome::Figure)
                }
            },
        )
        .warned("parts that the spec knows of only: lamps, switches and a tow vehicle are not in it"),
        Working::of(GAS, "ignition_beside", of(), "what can set gas alight in the same locker", |_| {
            if locker_of(build, at)?.is_none() {
                return Ok(Outcome::None("it stands in no locker".to_owned()));
            }
            let beside = ignition_in_same_air(build, at)?;
            Ok(Outcome::Texts(beside.into_iter().map(called).collect()))
        }),
        Working::of(GAS, "behind_axle", of(), "its rear behind the axle", |work| {
            let d = behind_axle(build, at);
            work.step(
                "d",
                "its rear behind the axle",
                "x of its rear − x of the axle",
                d,
                Origin::derived("places of the spec"),
            )
        }),
        Working::of(GAS, "rear_gap", of(), "from its rear to the outside of the rear door", |work| {
            let d = to_rear(build, at);
            work.step(
                "d",
                "to the rear",
                "x of the rear − x of its rear",
                d,
                Origin::derived("places of the spec"),
            )
        }),
    ]
}
