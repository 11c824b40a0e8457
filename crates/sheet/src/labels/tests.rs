//! Label texts: their figures against arithmetic by hand, and that what is not known is left open and named.

use super::*;
use crate::bench::{Bench, SPEC};

fn html(bench: &Bench) -> String {
    bench.sheet(|sheet| section(sheet).into_string())
}

/// The text of the label under a heading.
fn label(page: &str, heading: &str) -> String {
    let (_, after) =
        page.split_once(&format!("<h3>{heading}</h3>")).unwrap_or_else(|| panic!("no {heading}: {page}"));
    after.split_once("</article>").unwrap().0.to_owned()
}

/// By hand: 2,990 lb less 1,000 + 200 + 25 + 1 + 40 + 5 + 20 = 1,291 lb leaves 1,699 lb; by 1 lb = 0.453 592 37 kg
/// (NIST SP 811, exact) that is 770.65 kg, printed as 771 kg; and 771 kg are 1,699.76 lb, printed as 1,700 lb
/// (49 CFR 571.110 S9.3.2: the nearest kilogram, and that converted to the nearest pound).
#[test]
fn the_cargo_is_rounded_as_the_law_says() {
    let cargo = label(&html(&Bench::of(SPEC)), "Cargo capacity");
    assert!(
        cargo.contains("The weight of cargo should never exceed 771 kilograms or 1700 pounds."),
        "{cargo}"
    );
    assert!(cargo.contains("VIN: ________") && cargo.contains("`vin`"), "{cargo}");
    assert!(cargo.contains("words from memory"), "{cargo}");
}

/// By hand: 6 gal × 3.785 411 784 L × 1 kg/L = 22.71 kg; 6 gal × 8.3 lb/gal = 49.8 lb (571.110 S9.3.5(d)).
#[test]
fn the_water_is_counted_as_the_law_counts_it() {
    let water = label(&html(&Bench::of(SPEC)), "Water");
    assert!(water.contains("a full load of water equals 23 kilograms or 50 pounds"), "{water}");
    // 30 gal: 113.56 kg and 249 lb, of which neither is the other converted: 249 lb are 112.9 kg.
    let water = label(&html(&Bench::with(&[("6 gal", "30 gal")])), "Water");
    assert!(water.contains("equals 114 kilograms or 249 pounds"), "{water}");
}

#[test]
fn without_tanks_there_is_no_label_for_water() {
    let (before, after) = SPEC.split_once("[[tank]]").unwrap();
    let (_, rest) = after.split_once("[[berth]]").unwrap();
    let spec = format!("{before}[[berth]]{rest}").replace("fill = { fresh = \"100 %\" }\n", "");
    assert!(!html(&Bench::of(&spec)).contains("<h3>Water</h3>"));
}

#[test]
fn what_is_not_known_is_left_open_and_named() {
    let page = html(&Bench::with(&[("gvwr = \"2990 lb\"\n", "")]));
    let cargo = label(&page, "Cargo capacity");
    assert!(cargo.contains("________ kilograms or ________ pounds"), "{cargo}");
    assert!(cargo.contains("Not known:") && cargo.contains("gvwr"), "{cargo}");
    let tires = label(&page, "Tire placard");
    assert!(tires.contains("GVWR ________") && tires.contains("Cold pressure ________"), "{tires}");
    assert!(tires.contains("1,588 kg (3,500 lb)"), "{tires}");
    assert!(page.contains("Print none before the finished trailer was weighed"));
}

/// By hand, with moments about the ball, in lb and in: the axle at 100 in carries a part at x with x/100 of its weight.
/// Always aboard: the trailer 1,000 at 90, cylinder 25 at 26, alarm 1 at 103, rack 40 at 90 (on the roof the tape starts
/// at the outside of the nose), empty tank 5 at 101, bed 20 at 134 (it ends at the rear, 40 + 1 + 120 in behind the
/// ball): tongue 100 + 18.5 − 0.03 + 4 − 0.05 − 6.8 = 115.62 lb. The galley, 200 at 61, adds 78 lb; bags, 90 at 71, add
/// 26.1 lb; 6 gal of water, 50.07 lb at 101, take off 0.5 lb. So the least is 115.12 lb, and the most 219.72 lb.
#[test]
fn the_range_on_the_ball_is_that_of_every_arrangement() {
    let ball = label(&html(&Bench::of(SPEC)), "Weight on the ball");
    assert!(ball.contains("(115 lb) to") && ball.contains("(220 lb)"), "{ball}");
}

#[test]
fn an_alterers_label_is_asked_for_before_the_first_sale_and_not_after() {
    assert!(!html(&Bench::of(SPEC)).contains("was altered by"));
    let mut new =
        Bench::with(&[("sale   = \"used\"", "sale   = \"new\"\nfacilities = []\ncargo_first = true")]);
    new.shop = Some("An <Invented> Shop".to_owned());
    let page = html(&new);
    let altered = label(&page, "Who altered it");
    assert!(
        altered.contains("This vehicle was altered by An &lt;Invented&gt; Shop in ________"),
        "{altered}"
    );
    let reduced = label(&page, "Load carrying capacity reduced");
    // 291 lb were added to the 1,000 lb that it came with: 131.995 kg, printed as 132 kg, which are 291.01 lb.
    assert!(reduced.contains("by 132 kilograms or 291 pounds"), "{reduced}");
    let unknown = html(&Bench::with(&[("sale   = \"used\"\n", "")]));
    assert!(label(&unknown, "Who altered it").contains("`sale`"), "{unknown}");
}

#[test]
fn a_long_number_is_cut_and_never_the_words_of_the_label() {
    let vin = "X".repeat(500);
    let page = html(&Bench::recorded(&format!("[record]\nvin = \"{vin}\"\n")));
    let cargo = label(&page, "Cargo capacity");
    assert!(cargo.contains("(380 more letters)") && cargo.contains("pounds."), "{cargo}");
}
