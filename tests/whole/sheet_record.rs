//! The inspection sheet's pages of the record and of the rulebook, made by the built program of the demo shop's specs.

use std::path::Path;

use crate::tool::{demo_shop, edit, pintle_in};

fn sheet(folder: &Path, spec: &str) -> String {
    let ran = pintle_in(folder, &["sheet", spec, "-o", "-", "--date", "2026-11-26"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.out
}

/// One section of a page.
fn part<'p>(page: &'p str, id: &str) -> &'p str {
    let (_, after) = page.split_once(&format!("<section id=\"{id}\"")).unwrap_or_else(|| panic!("no {id}"));
    let ends = ["<section id=", "</main>"].into_iter().filter_map(|end| after.find(end));
    after.split_at(ends.min().unwrap()).0
}

fn add(folder: &Path, text: &str) {
    let path = folder.join("pintle.toml");
    let rulebook = std::fs::read_to_string(&path).unwrap();
    std::fs::write(path, rulebook + text).unwrap();
}

#[test]
fn waivers_and_who_set_what_are_those_of_the_rulebook() {
    let shop = demo_shop();
    let page = sheet(shop.path(), "builds/tall-rack-6x10.toml");
    assert!(page.contains("company/pintle.toml → pintle.toml; "), "the head names the layers");
    let rulebook = part(&page, "rulebook");
    assert!(
        rulebook.contains("2039-12-31") && rulebook.contains("in force; accepts 1 finding"),
        "{rulebook}"
    );
    assert!(rulebook.contains("2025-10-31") && rulebook.contains("run out: "), "{rulebook}");
    assert!(rulebook.contains("over 15 % (the rule's own)"), "{rulebook}");
    assert!(!rulebook.contains("<strong>yes</strong>"), "the demo shop loosens nothing");
    let other = sheet(shop.path(), "builds/sound-6x10-wedge.toml");
    assert!(
        part(&other, "rulebook").contains("nobody accepts a fault of it"),
        "waivers are of the other build"
    );
}

#[test]
fn what_a_shop_loosens_is_said_and_its_limit_stands_beside_the_box() {
    let shop = demo_shop();
    add(
        shop.path(),
        "\n[[limit]]\nrule = \"electric/skin-voltage\"\nlimit = \"most\"\nvalue = \"8 V\"\nreason = \"our yard's post\"\n",
    );
    let page = sheet(shop.path(), "builds/sound-6x10-wedge.toml");
    let rulebook = part(&page, "rulebook");
    assert!(
        rulebook.contains("5 V (the rule's own)") && rulebook.contains("<strong>yes</strong>"),
        "{rulebook}"
    );
    assert!(rulebook.contains("record/limit-loosened"), "{rulebook}");
    let built = part(&page, "built");
    assert!(built.contains("at most 8 V") && built.contains("from 30 V stop"), "{built}");
}

#[test]
fn a_shops_own_check_by_eye_is_printed_and_a_wrong_one_is_refused_at_its_line() {
    let shop = demo_shop();
    add(
        shop.path(),
        "\n[[by_eye]]\nstation = \"body\"\nfrom = \"build\"\nlook = \"the <b>shop's</b> plate is on\"\nhow = \"look left\"\nbasis = \"shop\"\n",
    );
    let page = sheet(shop.path(), "builds/sound-6x10-wedge.toml");
    let eyes = part(&page, "eyes");
    assert!(
        eyes.contains("The &lt;b&gt;shop's&lt;/b&gt; plate is on.") && eyes.contains("Set by pintle.toml")
    );
    assert!(!eyes.contains("regulator is fixed"), "this build has no gas");
    let gas = sheet(shop.path(), "builds/slid-axle-5x8.toml");
    assert!(part(&gas, "eyes").contains("regulator is fixed"));
    edit(shop.path(), "pintle.toml", "station = \"body\"", "station = \"boddy\"");
    let ran = pintle_in(shop.path(), &["sheet", "builds/sound-6x10-wedge.toml", "-o", "-"]);
    let said = format!("{}{}", ran.out, ran.err);
    assert!(said.contains("pintle.toml:") && said.contains("did you mean `body`?"), "{said}");
}

/// The record of the demo build, and boxes for what it lacks; none of gas, which it does not have.
#[test]
fn the_record_of_a_delivered_build_is_on_its_sheet() {
    let shop = demo_shop();
    let page = sheet(shop.path(), "builds/sound-6x10-wedge.toml");
    let built = part(&page, "built");
    for recorded in [
        "105 lbf·ft",
        "1ZZBW10C3NM000108",
        "0.8 V",
        "OT-26-00417",
        "photos/OM-108/scale.jpg",
        "2033-01-31",
        "R. Sallow",
    ] {
        assert!(built.contains(recorded), "{recorded}");
    }
    assert!(built.contains("1,900 lb ± 12 lb"), "the ticket as weighed");
    assert!(!built.contains("Leak test") && built.contains("Road states that no ticket is recorded of"));
    let drawn = sheet(shop.path(), "builds/sound-6x12-round.toml");
    assert!(part(&drawn, "built").contains("Nothing is recorded: this build is at the stage"));
}

/// One page of Letter or A4 is what the customer's page fits for every demo build; a browser's print was looked at. Here
/// only that it is short enough for that not to change unseen.
#[test]
fn the_customers_page_stays_short() {
    let shop = demo_shop();
    for entry in std::fs::read_dir(shop.path().join("builds")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let page = sheet(shop.path(), &format!("builds/{name}"));
        let customer = part(&page, "customer");
        let mut words = String::new();
        let mut tag = false;
        for letter in customer.chars() {
            match letter {
                '<' => tag = true,
                '>' => tag = false,
                letter if !tag => words.push(letter),
                _ => {}
            }
        }
        assert!(words.len() < 5_500, "{name}: {} letters", words.len());
        assert!(words.len() > 1_500, "{name}: {} letters", words.len());
    }
}
