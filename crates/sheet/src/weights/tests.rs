//! The weight page of demo builds, read as a reader would.

use super::section;
use super::trial::{demo, of, read};

fn page(spec: &str) -> String {
    of(spec, |sheet| section(sheet).into_string())
}

/// The rows of the tables of a class, each as its cells.
fn rows(page: &str, class: &str) -> Vec<Vec<String>> {
    let table = format!("<table class=\"{class}");
    let tables = page.split(&table).skip(1);
    let rows = tables.flat_map(|rest| rest.split("</table>").next().unwrap().split("<tr>").skip(1));
    let cell = |cell: &str| read(&format!("<{cell}"));
    let cells = |row: &str| -> Vec<String> {
        let starts = row.replace("<th", "\u{0}").replace("<td", "\u{0}");
        starts.split('\u{0}').skip(1).map(cell).collect()
    };
    rows.map(cells).collect()
}

#[test]
fn every_state_stands_with_its_figures_and_limits() {
    let page = page(&demo("overload-6x12"));
    let found = rows(&page, "state ");
    for what in ["gross weight", "tongue weight", "tongue share", "axle load", "left wheels", "right wheels"]
    {
        let states = of(&demo("overload-6x12"), |sheet| sheet.build.states.len());
        let own: Vec<_> = found.iter().filter(|row| row[0] == what).collect();
        assert_eq!(own.len(), states, "{what}");
        assert!(own.iter().all(|row| row[1].contains('±')), "{own:?}");
    }
    // Over its rating wet, in words.
    assert!(found.iter().any(|row| row[0] == "gross weight" && row[3].starts_with("over by ")), "{found:#?}");
}

#[test]
fn margins_are_limits_less_figures() {
    let number =
        |text: &str| -> f64 { text.split_whitespace().next().unwrap().replace(',', "").parse().unwrap() };
    let mut seen = 0;
    for row in rows(&page(&demo("sound-7x14-tandem")), "state ") {
        if ["gross weight", "tongue weight", "axle load", "left wheels", "right wheels"]
            .contains(&row[0].as_str())
            && row[2] != "parked"
        {
            let off = number(&row[2]) - number(&row[1]) - number(&row[3]);
            assert!(off.abs() <= 1.0, "to the pound: {row:?}");
            seen += 1;
        }
    }
    assert_eq!(seen, 15, "three road states");
}

#[test]
fn a_limit_in_another_unit_stands_in_that_of_its_figure_too() {
    // Its empty trailer was weighed in kilograms, its rating is a label's in pounds.
    let found = rows(&page(&demo("sound-6x12-round")), "state ");
    let gross = found.iter().find(|row| row[0] == "gross weight").unwrap();
    assert!(gross[1].contains("kg") && gross[2].starts_with("1,356 kg (2,990 lb)"), "{gross:?}");
}

#[test]
fn parked_the_limits_of_the_road_do_not_apply() {
    let found = page(&demo("sound-5x8-round"));
    let text = read(&found);
    assert!(text.contains("parked: the limits of the road do not apply"));
    assert_eq!(
        rows(&found, "state ").iter().filter(|row| row.get(2).is_some_and(|limit| limit == "parked")).count(),
        6
    );
}

#[test]
fn an_empty_window_is_told_in_words() {
    let empty = read(&page(&demo("slid-axle-5x8")));
    assert!(
        empty.contains("there is no place for the axle")
            && empty.contains("Sliding the axle trades one fault")
    );
    let sound = read(&page(&demo("sound-6x12-round")));
    assert!(sound.contains("a window 5.22 in wide") && sound.contains("It stands within:"), "{sound}");
    assert!(!sound.contains("there is no place for the axle"));
}

#[test]
fn tickets_stand_against_what_was_computed() {
    let page = page(&demo("slid-axle-5x8"));
    let found = rows(&page, "ticket ");
    let axles = found.iter().find(|row| row[0] == "axle load").unwrap();
    // 1,260 lb on the scale, 1,240 lb computed: by hand 20 lb more than 16.6 lb allow.
    assert!(axles[1].starts_with("1,260 lb") && axles[2] == "1,240 lb" && axles[3].starts_with("+19.7 lb"));
    assert!(axles[4].starts_with("no"), "{axles:?}");
    let gross = found.iter().find(|row| row[0] == "gross weight").unwrap();
    assert!(gross[4].starts_with("yes"), "{gross:?}");
    let text = read(&page);
    assert!(text.contains("Never on the scale: state `homeward, water empty`"), "{text}");
    let none = read(&self::page(&demo("sound-6x12-round")));
    assert!(none.contains("No scale ticket is recorded."), "{none}");
}

#[test]
fn the_ten_that_move_the_tongue_most_come_in_order() {
    let found = rows(&page(&demo("sound-7x14-tandem")), "movers ");
    let amounts: Vec<f64> = found
        .iter()
        .skip(1)
        .map(|row| row[2].trim_start_matches('+').split(' ').next().unwrap().parse::<f64>().unwrap().abs())
        .collect();
    assert_eq!(amounts.len(), 10);
    assert!(amounts.windows(2).all(|pair| pair[0] >= pair[1]), "{amounts:?}");
}

#[test]
fn what_is_not_known_is_said_with_what_is_missing() {
    let page = page(&demo("quote-6x12"));
    let text = read(&page);
    for said in ["`mass` of item `cabinet`", "None of it counts as a pass.", "None of them is known"] {
        assert!(text.contains(said), "{said}: {text}");
    }
    let states = rows(&page, "state ");
    assert!(
        states
            .iter()
            .filter(|row| row.len() == 4 && row[0] == "gross weight")
            .all(|row| row[1] == "not known")
    );
    let lacking = rows(&page, "lacking");
    assert!(lacking.len() > 1, "{lacking:?}");
    let whole = read(&self::page(&demo("sound-6x12-round")));
    assert!(whole.contains("Everything on this page could be worked out."), "{whole}");
}

#[test]
fn without_a_state_nothing_is_made_up() {
    let spec = demo("sound-5x8-round");
    let (before, _) = spec.split_once("[[state]]").unwrap();
    let text = read(&page(before));
    assert!(text.contains("The spec names no state"), "{text}");
    assert!(text.contains("None of it counts as a pass."), "{text}");
}

#[test]
fn hostile_names_stay_text() {
    let hostile = "</table><script>alert(1)</script>\\\"' onload=x";
    let long = "W".repeat(2000);
    let named =
        |name: &str| demo("stuffy-5x8").replace("name   = \"night\"", &format!("name   = \"{name}\""));
    let page = page(&named(hostile));
    assert!(page.contains("&lt;script&gt;") && !page.contains("<script"));
    assert!(!read(&self::page(&named(&long))).contains(&"W".repeat(200)), "cut");
}
