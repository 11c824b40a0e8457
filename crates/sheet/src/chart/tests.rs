//! The charts of demo builds: what is drawn, what is said of it, and what is not drawn.

use std::collections::BTreeSet;

use pintle_finding::Bound;
use pintle_quantity::Quantity;

use super::section;
use crate::weights::trial::{demo, of, read, with};

fn page(spec: &str) -> String {
    of(spec, |sheet| section(sheet).into_string())
}

/// The values of an attribute.
fn values<'p>(page: &'p str, attribute: &str) -> Vec<&'p str> {
    page.split(&format!(" {attribute}=\"")).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

fn lines(page: &str) -> Vec<&str> {
    values(page, "data-line")
}

#[test]
fn every_chart_has_a_name_a_sentence_and_a_table() {
    for build in ["sound-6x12-round", "sound-6x10-wedge", "overload-6x12", "stuffy-5x8"] {
        let page = page(&demo(build));
        let ids = values(&page, "id");
        assert_eq!(ids.len(), ids.iter().collect::<BTreeSet<_>>().len(), "{build}: {ids:?}");
        let drawings = page.matches("<svg").count();
        assert_eq!(page.matches("role=\"img\"").count(), drawings);
        for named in values(&page, "aria-labelledby") {
            assert!(named.split(' ').all(|id| ids.contains(&id)), "{build}: {named}");
        }
        let figures: Vec<&str> = page.split("<figure").skip(1).collect();
        assert_eq!(figures.len(), 3, "{build}");
        for figure in figures {
            let said =
                read(figure.split_once("<figcaption>").unwrap().1.split("</figcaption>").next().unwrap());
            assert!(said.ends_with('.') && said.len() > 60, "{said}");
            // Its figures stand beside it, before the next one.
            assert!(figure.split_once("</figure>").unwrap().1.contains("<table"), "{build}");
        }
        for never in [" style=", "<style", "<script", "http:", "https:", " href=", "<image", "<foreignObject"]
        {
            assert!(!page.contains(never), "{build}: {never}");
        }
    }
}

#[test]
fn every_arrangement_is_a_point() {
    let drawn = |page: &str, class: &str| -> usize {
        let of = |path: &str| path.split('"').next().unwrap().matches('M').count();
        page.split(&format!("class=\"{class}\" d=\"")).skip(1).map(of).sum()
    };
    let page_of = |build: &str| page(&demo(build));
    assert_eq!(drawn(&page_of("sound-6x12-round"), "within"), 320);
    let over = page_of("overload-6x12");
    assert_eq!((drawn(&over, "within"), drawn(&over, "outside")), (555, 21));
    let text = read(&over);
    assert!(text.contains("21 of 576 arrangements lie outside"), "{text}");
    for extreme in ["least gross weight", "most gross weight", "most tongue weight", "least tongue share"] {
        assert!(text.contains(extreme), "{extreme}");
    }
}

#[test]
fn too_many_arrangements_are_bounds() {
    let load = |number: u8| {
        format!(
            "\n[[load]]\ntag = \"bag-{number}\"\nmass = \"{number} lb\"\nmass_basis = \"weighed\"\nleast = \"0 lb\"\n\
             at = {{ front = \"50 in\", left = \"20 in\", floor = \"4 in\" }}\n"
        )
    };
    let page = page(&(demo("sound-5x8-round") + (1..=14).map(load).collect::<String>().as_str()));
    let text = read(&page);
    assert!(text.contains("too many to draw each"), "{text}");
    assert!(text.contains("bounds of all"), "{text}");
}

#[test]
fn the_bank_is_drawn_with_and_without_sun() {
    assert_eq!(lines(&page(&demo("sound-6x12-round"))), ["held", "used", "vented", "shut"]);
    let sunny = page(&demo("sound-6x10-wedge"));
    assert_eq!(lines(&sunny), ["held", "dark", "used", "sun", "vented", "shut"]);
    let text = read(&sunny);
    for said in [
        "With the sun of ",
        "Without any sun it holds",
        "A bad day, on which the sun brings nothing, takes",
        "floor: ",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    // Of a long stay the bank is drawn to its end, its hours for three days only.
    let long = page(&demo("sound-6x10-wedge").replacen("days       = 2", "days       = 30", 1));
    let hours = |key: &str| {
        let (_, line) = long.split_once(&format!("data-line=\"{key}\"")).unwrap();
        line.split_once("points=\"").unwrap().1.split('"').next().unwrap().split(' ').count()
    };
    assert_eq!((hours("held"), hours("used"), hours("sun")), (30 * 24 + 1, 2 * 72, 2 * 72));
    assert!(read(&long).contains("in each hour of the first 3 days, which are as all others."));
    // A bank that falls below its floor says so.
    let hungry = demo("sound-5x8-round").replace("days       = ", "days       = 2 #");
    let hungry = hungry.replacen(
        "[[electric.use]]",
        "[[electric.use]]\nwhat = \"oven\"\npower = \"300 W\"\nhours = \"6 h\"\n\n[[electric.use]]",
        1,
    );
    let text = read(&page(&hungry));
    assert!(text.contains("what may be taken is gone in hour "), "{text}");
}

#[test]
fn without_a_battery_or_a_sleeper_nothing_is_drawn() {
    let quote = page(&demo("quote-6x12"));
    let text = read(&quote);
    assert!(text.contains("There is no battery aboard."), "{text}");
    assert!(text.contains("cannot be drawn: `mass` of item `cabinet` is missing."), "{text}");
    assert_eq!(lines(&quote), ["vented", "shut"]);
    assert!(
        text.contains("which no rule judges at this stage") && text.contains("5,000 ppm for 8 h at work"),
        "{text}"
    );
    let outside = demo("quote-6x12").replace("people = [{ berth = \"bed\", count = 2 }]", "");
    let text = read(&page(&outside));
    assert!(text.contains("Nobody sleeps inside in any state of this spec."), "{text}");
}

#[test]
fn what_is_there_but_not_known_is_said() {
    let spec = demo("sound-5x8-round");
    let unfed = spec.replacen("power     = ", "# power = ", 1);
    assert_ne!(unfed, spec);
    let text = read(&page(&unfed));
    assert!(text.contains("The bank without any sun cannot be drawn: `power`"), "{text}");
    let placeless = demo("stuffy-5x8").replacen(
        "at   = { front = \"50 in\", floor = \"1/2 in\" }",
        "at   = { front = \"50 in\" }",
        1,
    );
    assert_ne!(placeless, demo("stuffy-5x8"));
    let text = read(&page(&placeless));
    assert!(text.contains("Carbon dioxide in state `night` cannot be drawn"), "{text}");
}

#[test]
fn the_marks_are_the_limits_in_force() {
    let changed = |to: f64| {
        let change = |inspection: &mut pintle_finding::Inspection| {
            for reading in &mut inspection.readings {
                if reading.rule.id == "air/stale-air" {
                    reading.bound = Bound::AtMost(Quantity::share(to));
                }
            }
        };
        read(&with(&demo("sound-6x12-round"), change, |sheet| section(sheet).into_string()))
    };
    let text = changed(900e-6);
    assert!(
        text.contains("over the limit of 900 ppm in the morning") && text.contains("900 ppm in the morning"),
        "{text}"
    );
    let text = changed(1200e-6);
    assert!(text.contains("ppm after 8 h, within the limits in force"), "{text}");
}

#[test]
fn a_night_that_begins_in_foul_air_is_drawn_whole() {
    let page = page(&demo("stuffy-5x8"));
    let text = read(&page);
    assert!(
        text.contains("the fixed vents draw no air")
            && text.contains("which a flueless burner has left at bedtime")
    );
    // The line lies within the drawing: no place of it above the area's upper edge.
    let (_, line) = page.split_once("data-line=\"shut\"").unwrap();
    let points = line.split_once("points=\"").unwrap().1.split('"').next().unwrap();
    let heights = points.split(' ').map(|pair| pair.split_once(',').unwrap().1.parse::<f64>().unwrap());
    assert!(heights.fold(f64::INFINITY, f64::min) > 12.0);
}

#[test]
fn hostile_names_stay_text() {
    let hostile = "</svg><script>alert(1)</script>\\\"' onload=x";
    let spec = demo("stuffy-5x8").replace("name   = \"night\"", &format!("name   = \"{hostile}\""));
    let page = page(&spec);
    assert!(page.contains("&lt;script&gt;") && !page.contains("<script"));
    assert_eq!(page.matches("<svg").count(), page.matches("</svg>").count());
    let long =
        demo("stuffy-5x8").replace("name   = \"night\"", &format!("name   = \"{}\"", "W".repeat(2000)));
    assert_eq!(self::page(&long).matches("<svg").count(), 4);
}
