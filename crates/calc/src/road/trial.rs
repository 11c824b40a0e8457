//! The built-in places for tests, read by a few lines of their own: the reader that users meet is the rulebook's.

use pintle_quantity::Quantity;
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::field::Field;
use toml::{Table, Value};

use crate::origin::{Origin, Standing};
use crate::place::{BrakeNeed, From, Ground, Place, PlaceFigure, Places, Sort, Weighed, figures};

const FILES: &[(&str, &str)] = &[
    ("au", include_str!("../../../../rules/places/au.toml")),
    ("eu", include_str!("../../../../rules/places/eu.toml")),
    ("gb", include_str!("../../../../rules/places/gb.toml")),
    ("us-ak", include_str!("../../../../rules/places/us-ak.toml")),
    ("us-az", include_str!("../../../../rules/places/us-az.toml")),
    ("us-ca", include_str!("../../../../rules/places/us-ca.toml")),
    ("us-co", include_str!("../../../../rules/places/us-co.toml")),
    ("us-dc", include_str!("../../../../rules/places/us-dc.toml")),
    ("us-de", include_str!("../../../../rules/places/us-de.toml")),
    ("us-fl", include_str!("../../../../rules/places/us-fl.toml")),
    ("us-ga", include_str!("../../../../rules/places/us-ga.toml")),
    ("us-id", include_str!("../../../../rules/places/us-id.toml")),
    ("us-ky", include_str!("../../../../rules/places/us-ky.toml")),
    ("us-ma", include_str!("../../../../rules/places/us-ma.toml")),
    ("us-md", include_str!("../../../../rules/places/us-md.toml")),
    ("us-mi", include_str!("../../../../rules/places/us-mi.toml")),
    ("us-mn", include_str!("../../../../rules/places/us-mn.toml")),
    ("us-ms", include_str!("../../../../rules/places/us-ms.toml")),
    ("us-nc", include_str!("../../../../rules/places/us-nc.toml")),
    ("us-ne", include_str!("../../../../rules/places/us-ne.toml")),
    ("us-nh", include_str!("../../../../rules/places/us-nh.toml")),
    ("us-nj", include_str!("../../../../rules/places/us-nj.toml")),
    ("us-nv", include_str!("../../../../rules/places/us-nv.toml")),
    ("us-ny", include_str!("../../../../rules/places/us-ny.toml")),
    ("us-oh", include_str!("../../../../rules/places/us-oh.toml")),
    ("us-or", include_str!("../../../../rules/places/us-or.toml")),
    ("us-pa", include_str!("../../../../rules/places/us-pa.toml")),
    ("us-ri", include_str!("../../../../rules/places/us-ri.toml")),
    ("us-sd", include_str!("../../../../rules/places/us-sd.toml")),
    ("us-tn", include_str!("../../../../rules/places/us-tn.toml")),
    ("us-tx", include_str!("../../../../rules/places/us-tx.toml")),
    ("us-va", include_str!("../../../../rules/places/us-va.toml")),
    ("us-wa", include_str!("../../../../rules/places/us-wa.toml")),
    ("us-wy", include_str!("../../../../rules/places/us-wy.toml")),
    ("us", include_str!("../../../../rules/places/us.toml")),
];

fn word<'t>(table: &'t Table, key: &str) -> &'t str {
    table[key].as_str().unwrap()
}

fn ground(table: &Table, name: &str) -> Ground {
    Ground {
        origin: Origin {
            standing: Standing::from_word(word(table, "basis")).unwrap(),
            text: word(table, "source").to_owned().into(),
        },
        seen: word(table, "seen").to_owned(),
        verify: table["verify"].as_bool().unwrap(),
        guideline: table.get("guideline").map(|whom| whom.as_str().unwrap().to_owned()),
        note: table.get("note").map(|note| note.as_str().unwrap().to_owned()).unwrap_or_default(),
        stated_by: name.to_owned(),
    }
}

fn need(table: &Table, name: &str, span: Span) -> BrakeNeed {
    let threshold = |key| {
        let held = table.get(key)?.as_str().unwrap();
        Some(Spanned::new(Quantity::parse(held).unwrap(), span))
    };
    BrakeNeed {
        sort: table.get("sort").map(|sort| Sort::from_word(sort.as_str().unwrap()).unwrap()),
        threshold: threshold("more_than").or_else(|| threshold("at_least")),
        from: if table.contains_key("more_than") { From::MoreThan } else { From::AtLeast },
        weighed: match word(table, "by") {
            "rating" => Weighed::Rating,
            "axle load" => Weighed::Axles,
            _ => Weighed::Gross,
        },
        wheels: table.get("wheels").map(|wheels| {
            let words = ["all wheels", "two wheels", "one axle"];
            words.into_iter().find(|word| Some(*word) == wheels.as_str()).unwrap()
        }),
        breakaway: table.get("breakaway").map(|asked| asked.as_bool().unwrap()),
        ground: ground(table, name),
    }
}

fn figure(key: &str, table: &Value, name: &str, span: Span) -> (&'static Field, PlaceFigure) {
    let table = table.as_table().unwrap();
    let value = Spanned::new(Quantity::parse(word(table, "value")).unwrap(), span);
    (figures::SCHEMA.find(key).unwrap(), PlaceFigure { value, ground: ground(table, name) })
}

/// The built-in places.
pub(crate) fn places() -> Places {
    let span = Span::new(Sources::new().add("places", ""), 0, 0);
    let read = |(name, text): &(&str, &str)| -> Place {
        let file: Table = toml::from_str(text).unwrap();
        let held = file.get("figure").and_then(Value::as_table);
        let brakes = file.get("brakes").and_then(Value::as_array);
        Place {
            name: (*name).to_owned(),
            title: word(&file, "title").to_owned(),
            within: file.get("within").map(|within| within.as_str().unwrap().to_owned()),
            figures: held.into_iter().flatten().map(|(key, table)| figure(key, table, name, span)).collect(),
            brakes: brakes
                .into_iter()
                .flatten()
                .map(|need_of| need(need_of.as_table().unwrap(), name, span))
                .collect(),
            lamps: file.get("lamps").map(|table| ground(table.as_table().unwrap(), name)),
        }
    };
    let mut all: Vec<Place> = FILES.iter().map(read).collect();
    let federal = all.iter().find(|place| place.name == "us").unwrap().clone();
    for place in all.iter_mut().filter(|place| place.within.as_deref() == Some("us")) {
        for held in &federal.figures {
            if !place.figures.iter().any(|(field, _)| field.key == held.0.key) {
                place.figures.push(held.clone());
            }
        }
        if place.lamps.is_none() {
            place.lamps.clone_from(&federal.lamps);
        }
    }
    Places::from_list(all, Vec::new())
}
