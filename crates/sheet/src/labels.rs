//! Texts for labels, ready to copy: the figures are the topic road's; what is not known is left open and named.
//!
//! Where the law words a label its words are given as they are remembered or were read, and which of the two is said.

use maud::{Markup, html};
use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_calc::road::labels::printed;
use pintle_calc::weights::Weights;
use pintle_calc::{Known, Outcome};
use pintle_quantity::{Quantity, Unit, Units};
use pintle_spec::schema::build::head;
use pintle_spec::schema::trailer::{axle, tire};
use pintle_spec::schema::{record, trailer};

use crate::markup::{name, sentence, text};
use crate::worked::Worked;
use crate::{Sheet, frame};

/// What stands in a text for a figure that is not known.
const OPEN: &str = "________";

/// A text for a label.
struct Label {
    heading: &'static str,
    /// Where its words and figures come from.
    rests_on: String,
    lines: Vec<String>,
    /// What it says that is not known.
    missing: Vec<String>,
}

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let road = Worked::new(sheet, "road");
    let labels = [
        Some(cargo(sheet, &road)),
        water(sheet, &road),
        Some(tires(sheet, &road)),
        Some(height(&road)),
        Some(tongue(sheet)),
        corrected(&road),
        alterer(sheet, &road),
    ];
    let body = html! {
        div .caution role="note" {
            p {
                strong { "A label says what the weighed trailer says. " }
                "These figures are computed. Print none before the finished trailer was weighed, and correct them by the ticket. Which labels \
                 the law asks for, in which words, colours and sizes, and who may put them on, is for the law of the place and for whoever \
                 is licensed there: hold each text against the text of the day."
            }
        }
        (duties(&road))
        div .labels { @for label in labels.into_iter().flatten() { (one(&label)) } }
    };
    frame::section("labels", "Label texts", &body)
}

fn one(label: &Label) -> Markup {
    html! {
        article .label {
            h3 { (label.heading) }
            pre .copy tabindex="0" { @for (at, line) in label.lines.iter().enumerate() { @if at > 0 { "\n" } (text(line)) } }
            @for missing in &label.missing { p .missing { strong { "Not known: " } (sentence(missing)) } }
            p .what { (sentence(&label.rests_on)) }
        }
    }
}

/// What has to be labelled, as far as it is known.
fn duties(road: &Worked<'_>) -> Markup {
    let found = road.all("label_duties").next();
    html! {
        h3 { "What has to be labelled" }
        @match found.map(|found| &found.outcome) {
            Some(Ok(Outcome::Texts(duties))) if duties.is_empty() => p { "Nothing, as far as the spec tells." },
            Some(Ok(Outcome::Texts(duties))) => ul { @for duty in duties { li { (text(duty)) } } },
            Some(Ok(Outcome::None(why))) => p { (sentence(why)) },
            Some(Err(missing)) => p .missing { strong { "Not known: " } (text(&missing.what)) " is missing." },
            _ => p .missing { strong { "Not known. " } "No figure for it was worked out." },
        }
    }
}

/// A figure of the road's in a unit; what is missing goes on the list.
fn figure(road: &Worked<'_>, key: &'static str, units: Units, missing: &mut Vec<String>) -> String {
    let shown = road.quantity(key).map(|quantity| quantity.show(units));
    shown.unwrap_or_else(|| {
        missing.push(road.told(key).words());
        OPEN.to_owned()
    })
}

/// A weight in kilograms and pounds, as labels print both, each as it was worked out for it.
fn both(road: &Worked<'_>, keys: [&'static str; 2], missing: &mut Vec<String>) -> [String; 2] {
    let [kilograms, pounds] = keys;
    let mut one = |key, unit| {
        let spelt = road.quantity(key).map(|quantity| spelt(quantity, unit));
        spelt.unwrap_or_else(|| {
            missing.push(road.told(key).words());
            format!("{OPEN} {unit}")
        })
    };
    [one(kilograms, "kilograms"), one(pounds, "pounds")]
}

/// A weight in whole units, which are spelt out.
fn spelt(weight: Quantity, unit: &str) -> String {
    let symbol = if unit == "kilograms" { "kg" } else { "lb" };
    let whole = Unit::find(symbol).and_then(|unit| weight.value_in(unit).ok());
    whole.map_or_else(|| format!("{OPEN} {unit}"), |whole| format!("{whole:.0} {unit}"))
}

fn vin(sheet: &Sheet<'_>, missing: &mut Vec<String>) -> String {
    let vin = sheet.build.record.as_ref().and_then(|held| held.text(&record::VIN));
    let shown = vin.map(|vin| name(vin.value).into_owned());
    shown.unwrap_or_else(|| {
        missing.push("the identification number: `vin` of `[record]` is missing".to_owned());
        OPEN.to_owned()
    })
}

fn cargo(sheet: &Sheet<'_>, road: &Worked<'_>) -> Label {
    let mut missing = Vec::new();
    let [kilograms, pounds] = both(road, ["label_cargo_kilograms", "label_cargo_pounds"], &mut missing);
    missing.dedup();
    let vin = vin(sheet, &mut missing);
    Label {
        heading: "Cargo capacity",
        rests_on: "49 CFR 571.110 S4.3.5 and S9.3, words from memory, to be compared; rounding by S9.3.2: GVWR less the unloaded weight, \
                   to the nearest kilogram, and that to the nearest pound"
            .to_owned(),
        lines: vec![
            format!("The weight of cargo should never exceed {kilograms} or {pounds}."),
            format!("VIN: {vin}"),
        ],
        missing,
    }
}

fn water(sheet: &Sheet<'_>, road: &Worked<'_>) -> Option<Label> {
    let tanks = sheet.build.of_kind("tank").next().is_some();
    let mut missing = Vec::new();
    let [kilograms, pounds] = both(road, ["label_water_kilograms", "label_water_pounds"], &mut missing);
    missing.dedup();
    tanks.then(|| Label {
        heading: "Water",
        rests_on: "49 CFR 571.110 S9.3.5(d): 1 kg a litre and 8.3 lb a gallon, each where its unit is; words from memory, to be compared"
            .to_owned(),
        lines: vec![format!(
            "Caution: a full load of water equals {kilograms} or {pounds} of cargo, at 1 kg/L (8.3 lb/gal)."
        )],
        missing,
    })
}

fn tires(sheet: &Sheet<'_>, road: &Worked<'_>) -> Label {
    let build = sheet.build;
    let mut missing = Vec::new();
    let mut open = |what: &str| {
        missing.push(what.to_owned());
        OPEN.to_owned()
    };
    let group = build.trailer.table(&trailer::AXLE);
    let gawr = group.and_then(|group| group.quantity(&axle::GAWR)).map(|gawr| in_both(gawr.value));
    let gawr = gawr.unwrap_or_else(|| open("the axle's rating: `gawr` of `axle` of the trailer is missing"));
    let count = group.and_then(|group| group.count(&axle::COUNT)).map(|count| count.value.to_string());
    let count = count
        .unwrap_or_else(|| open("how many axles there are: `count` of `axle` of the trailer is missing"));
    let gross = build.trailer.quantity(&trailer::GVWR).map(|gross| in_both(gross.value));
    let gross = gross.unwrap_or_else(|| open("the gross rating: `gvwr` of the trailer is missing"));
    let held = build.trailer.table(&trailer::TIRE);
    let rating = held.and_then(|held| held.quantity(&tire::RATING)).map(|rating| in_both(rating.value));
    let rating = rating
        .unwrap_or_else(|| open("what each tire carries: `rating` of `tire` of the trailer is missing"));
    let size = open(
        "size of tire and rim, and the cold pressure: a spec has no field for them; read them off the maker's placard and the sidewalls",
    );
    let standard = road
        .told("standard")
        .known()
        .unwrap_or_else(|| "49 CFR 571.110, or 571.120 above 10,000 lb".to_owned());
    Label {
        heading: "Tire placard",
        rests_on: format!(
            "{standard}; the maker's placard stays, and what is printed there comes before this"
        ),
        lines: vec![
            format!("GVWR {gross}"),
            format!("GAWR {gawr} each, axles: {count}"),
            format!("Tire size {size}   Rim {OPEN}"),
            format!("Cold pressure {OPEN} kPa ({OPEN} psi)"),
            format!("Each tire carries at most {rating}"),
        ],
        missing,
    }
}

/// A weight in kilograms and pounds.
fn in_both(quantity: Quantity) -> String {
    format!("{} ({})", quantity.show(Units::Metric), quantity.show(Units::Us))
}

fn height(road: &Worked<'_>) -> Label {
    let mut missing = Vec::new();
    let us = figure(road, "overall_height", Units::Us, &mut missing);
    let metric = figure(road, "overall_height", Units::Metric, &mut Vec::new());
    Label {
        heading: "Overall height",
        rests_on: "computed with the roof's load and tents closed; measure it, with the tires at their pressure, and round up; that a driver \
                   reads it from the seat is common practice, no source"
            .to_owned(),
        lines: vec![format!("HEIGHT {us} ({metric})"), "with tents closed and the roof loaded".to_owned()],
        missing,
    }
}

/// The range of the weight on the ball over every arrangement.
fn tongue(sheet: &Sheet<'_>) -> Label {
    let build = sheet.build;
    let end = |end| -> Known<Quantity> {
        let state = Arrangements::of(build)?.extreme(Extremum::Tongue, end)?;
        Ok(Weights::of(build, &state).tongue()?.quantity)
    };
    let mut missing = Vec::new();
    let mut told = |found: Known<Quantity>| match found {
        Ok(quantity) => in_both(quantity),
        Err(gone) => {
            missing.push(format!("the weight on the ball: {} is missing", gone.what));
            OPEN.to_owned()
        }
    };
    let (least, most) = (told(end(End::Least)), told(end(End::Most)));
    missing.dedup();
    let tow = Worked::new(sheet, "tow");
    let limit = tow.quantity("tongue_limit").map(in_both);
    let mut lines = vec![format!("Weight on the ball: {least} to {most}")];
    match limit {
        Some(limit) => lines.push(format!("Never more than {limit}")),
        None => missing.push(format!("the most that is allowed: {}", tow.told("tongue_limit").words())),
    }
    Label {
        heading: "Weight on the ball",
        rests_on: "least and most over every arrangement on the road; the limit is the least rating of coupler, jack, hitch and vehicle; \
                   no law asks for this label as far as is known here"
            .to_owned(),
        lines,
        missing,
    }
}

/// The label that what was added has to be disclosed by, where more was added than may be without it.
fn corrected(road: &Worked<'_>) -> Option<Label> {
    let duties = road.told("label_duties").known()?;
    if !duties.contains("label corrected") {
        return None;
    }
    let mut missing = Vec::new();
    let added = road.all("added_weight").next().and_then(|found| found.figure().ok());
    let weight = added.map(printed).map(|(kilograms, pounds)| {
        format!("{} or {}", spelt(kilograms.quantity, "kilograms"), spelt(pounds.quantity, "pounds"))
    });
    let weight = weight.unwrap_or_else(|| {
        missing.push(road.told("added_weight").words());
        format!("{OPEN} kilograms or {OPEN} pounds")
    });
    Some(Label {
        heading: "Load carrying capacity reduced",
        rests_on: "49 CFR 571.110 S10: weight added before the first retail sale beyond the lesser of 1.5 % of the GVWR and 100 lb; words \
                   from memory, to be compared; correcting the original labels does as well"
            .to_owned(),
        lines: vec![
            "Caution: load carrying capacity reduced".to_owned(),
            format!("Modifications to this vehicle have reduced the original load carrying capacity by {weight}."),
        ],
        missing,
    })
}

/// The label of who altered a trailer before its first retail sale.
fn alterer(sheet: &Sheet<'_>, road: &Worked<'_>) -> Option<Label> {
    let rests_on = "49 CFR 567.7 (published; read in a copy of the section): beside the maker's label, which stays; changed ratings and a \
                    changed type are stated with it"
        .to_owned();
    match (road.told("label_duties").known(), sheet.build.head.word(&head::SALE)) {
        (Some(duties), _) if duties.contains("567.7") => {
            let shop = name(sheet.shop.unwrap_or(OPEN));
            Some(Label {
                heading: "Who altered it",
                rests_on,
                lines: vec![
                    format!(
                        "This vehicle was altered by {shop} in {OPEN} (month, year) and as altered it conforms to all applicable Federal \
                         Motor Vehicle Safety, Bumper and Theft Prevention Standards affected by the alteration and in effect in {OPEN} \
                         (month, year)."
                    ),
                ],
                missing: vec!["month and year of the alteration, and of the standards it was held against".to_owned()],
            })
        }
        (None, None) => Some(Label {
            heading: "Who altered it",
            rests_on,
            lines: vec![OPEN.to_owned()],
            missing: vec![
                "whether one is asked for: `sale` of `[build]` is missing: one altered before its first retail sale needs it".to_owned(),
            ],
        }),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
