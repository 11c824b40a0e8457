//! Wrong rules that are easily made of the right texts, each shown not to be made here; through the figures that users see.

use pintle_spec::Missing;

use crate::assumed::{Assumption, Assumptions};
use crate::case::Case;
use crate::origin::Standing;
use crate::place::figures;
use crate::road::trial::places;
use crate::road::workings::workings;
use crate::space::trial::{close, read};
use crate::working::{Outcome, Working};
use pintle_quantity::Quantity;
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::schema::assume;

/// A trailer with its axle 100 in behind the ball, and what each test needs besides.
pub(super) struct Spec {
    pub(super) places: &'static str,
    pub(super) head: &'static str,
    pub(super) trailer: &'static str,
    pub(super) more: &'static str,
}

pub(super) const PLAIN: Spec = Spec { places: "\"us\"", head: "", trailer: "", more: "" };

const BARE: &str = "mass = \"2,000 lb\"\ngvwr = \"3,500 lb\"\ncg = { ball = \"88 in\", centre = \"0 in\", ground = \"30 in\" }\n\
                    axle = { ball = \"100 in\", count = 1, gawr = \"3,500 lb\", track = \"70 in\" }";

pub(super) fn text(spec: &Spec) -> String {
    let trailer = if spec.trailer.is_empty() { BARE } else { spec.trailer };
    format!(
        "[build]\nnumber = \"T-1\"\ntitle = \"an invented trailer\"\nstage = \"design\"\nplaces = [{}]\n{}\n[trailer]\n{trailer}\n{}\n\
         [[state]]\nname = \"away\"\nuse = \"road\"\n",
        spec.places, spec.head, spec.more
    )
}

/// The assumptions of the built-in table that are about the road.
fn assumed() -> Assumptions {
    use assume::road::{HOLD, LOCK, MAGNET_CURRENT, SPEED, TIRE_SPEED};
    let span = Span::new(Sources::new().add("assumptions", ""), 0, 0);
    let values = [
        (&MAGNET_CURRENT, "3 A"),
        (&HOLD, "15 min"),
        (&LOCK, "60°"),
        (&SPEED, "65 mph"),
        (&TIRE_SPEED, "65 mph"),
    ];
    let held = |(field, value): (&'static pintle_spec::field::Field, &str)| {
        let value = Spanned::new(Quantity::parse(value).unwrap(), span);
        (&assume::ROAD, field, Assumption::new(value, Standing::CommonPractice, String::new()))
    };
    Assumptions::from_list(values.map(held))
}

pub(super) fn all_of(text: &str) -> Vec<Working> {
    let build = read(text);
    let (assumptions, places) = (assumed(), places());
    workings(&Case { build: &build, assumptions: &assumptions, places: &places })
}

#[track_caller]
pub(super) fn one<'w>(all: &'w [Working], key: &str, of: &str) -> &'w Working {
    all.iter()
        .find(|working| working.key == key && working.of == of)
        .unwrap_or_else(|| panic!("no {key} of {of}"))
}

#[track_caller]
pub(super) fn flag(all: &[Working], key: &str, of: &str) -> bool {
    match &one(all, key, of).outcome {
        Ok(Outcome::Flag(flag)) => *flag,
        other => panic!("{key} of {of}: {other:?}"),
    }
}

#[track_caller]
pub(super) fn texts(all: &[Working], key: &str, of: &str) -> Vec<String> {
    match &one(all, key, of).outcome {
        Ok(Outcome::Texts(texts)) => texts.clone(),
        other => panic!("{key} of {of}: {other:?}"),
    }
}

#[track_caller]
pub(super) fn missing(all: &[Working], key: &str, of: &str) -> Missing {
    one(all, key, of).outcome.as_ref().unwrap_err().clone()
}

/// T4: 40 % is the axle load of the axle loads, with the tongue on the tow vehicle, and only up to 3,000 lb gross.
#[test]
fn trap_forty_per_cent_is_of_axle_loads_and_only_for_light_trailers() {
    let of = |mass: &str, centre: &str, tow: &str| {
        let trailer = BARE.replace("2,000 lb", mass).replace("88 in", centre);
        let text = text(&PLAIN).replace(BARE, &trailer);
        all_of(&format!("{text}\n[tow]\nmass = \"{tow}\"\n"))
    };
    // 2,800 lb of which 450 lb are on the tongue: 2,350 of 6,000 lb. The rating, 3,500 lb, would say no.
    let light = of("2,800 lb", "83.928571428571431 in", "5,550 lb");
    close(one(&light, "axle_share", "state `away`").figure().unwrap(), 2350.0 / 6000.0 * 100.0, "%");
    assert!(flag(&light, "unbraked_by_share", "place `us`"));
    // The tow vehicle is weighed coupled: without the tongue on it 2,350 of 5,550 lb would be 42 %, and too much.
    // A pound over 3,000 lb, behind however much.
    let heavy = of("3,001 lb", "85 in", "20,000 lb");
    assert!(!flag(&heavy, "unbraked_by_share", "place `us`"));
    assert!(one(&heavy, "axle_share_margin", "place `us`").figure().unwrap().quantity.si() > 0.0);
    // Light enough, but too much on its axle: both must hold.
    let nose_light = of("2,800 lb", "89.285714285714292 in", "5,700 lb");
    assert!(!flag(&nose_light, "unbraked_by_share", "place `us`"));
    let none = all_of(&text(&PLAIN));
    assert_eq!(missing(&none, "axle_share", "state `away`").what, "the tow vehicle");
}

/// T5: 102 in binds States for commercial vehicles; the figure says so itself.
#[test]
fn trap_width_of_the_national_network_is_no_law_for_recreational_trailers() {
    let trailer = format!("{BARE}\noverall_width = \"103 in\"");
    let all = all_of(&text(&PLAIN).replace(BARE, &trailer));
    let margin = one(&all, "width_margin", "place `us`");
    close(margin.figure().unwrap(), -1.0, "in");
    let held = places();
    let (_, ground) = held.get("us").unwrap().figure(&figures::MOST_WIDTH).unwrap();
    let whom = ground.guideline.as_deref().unwrap();
    assert!(whom.contains("commercial") && whom.contains("recreational trailer's width is state law"));
    assert!(margin.caution.contains("verify"));
}

/// T6: rigid fenders count. A 78 in box whose fenders stand 82 in apart needs clearance and identification lamps.
#[test]
fn trap_rigid_fenders_count_for_the_lamps_of_wide_trailers() {
    let of = |width: &str| {
        let trailer = format!(
            "{BARE}\nwidth = \"76 in\"\nwall = \"1 in\"\noverall_width = \"{width}\"\noverall_length = \"16 ft\"\nlamps = [\"tail\"]"
        );
        let all = all_of(&text(&PLAIN).replace(BARE, &trailer));
        texts(&all, "lamps_missing", "place `us`").iter().any(|lamp| lamp == "rear clearance")
    };
    assert!(of("82 in"));
    assert!(!of("79 in"));
}

/// T9: four of six facilities, and not made to carry cargo; with fewer the cargo label of S9 is not asked for, the placard
/// is all the same.
#[test]
fn trap_a_camper_in_a_cargo_trailer_is_not_at_once_a_recreational_vehicle_trailer() {
    let four =
        "\"cooking\", \"refrigeration\", \"heating or air conditioning\", \"separate power or propane\"";
    let of = |facilities: &str, cargo_first: &str| {
        let head = format!("sale = \"new\"\nfacilities = [{facilities}]\n{cargo_first}");
        all_of(&text(&PLAIN).replace("places = [\"us\"]", &format!("places = [\"us\"]\n{head}")))
    };
    let labelled = |all: &[Working]| texts(all, "label_duties", "the build");
    let camper = of(four, "cargo_first = false");
    assert!(flag(&camper, "recreational", "the build"));
    assert!(labelled(&camper).iter().any(|duty| duty.contains("cargo capacity label")));
    let cargo = of(four, "cargo_first = true");
    assert!(!flag(&cargo, "recreational", "the build"));
    let three = of("\"cooking\", \"refrigeration\", \"separate power or propane\"", "");
    assert!(!flag(&three, "recreational", "the build"));
    for all in [&cargo, &three] {
        assert_eq!(labelled(all), ["49 CFR 571.110: tire placard with the cargo weight"]);
    }
    // The same one three times over is one; and with four of them somebody has to say what it is made for.
    let thrice = of("\"cooking\", \"cooking\", \"cooking\", \"refrigeration\"", "cargo_first = false");
    assert!(!flag(&thrice, "recreational", "the build"));
    assert!(missing(&of(four, ""), "recreational", "the build").what.contains("cargo_first"));
    assert!(missing(&all_of(&text(&PLAIN)), "recreational", "the build").what.contains("facilities"));
}

/// T10: full propane is in the unloaded weight, potable water is cargo; neither counts twice.
#[test]
fn trap_propane_is_in_the_unloaded_weight_and_water_is_cargo() {
    let more = "[[item]]\ntag = \"gas\"\nkind = \"cylinder\"\nmass = \"37 lb\"\ngas = \"20 lb\"\nzone = \"tongue\"\nat = { ball = \"20 in\" }\n\
                [[tank]]\ntag = \"fresh\"\nmass = \"10 lb\"\nholds = \"fresh\"\ncapacity = \"20 gal\"\nat = { ball = \"90 in\", centre = \"0 in\" }\n";
    let all = all_of(
        &text(&Spec { more, ..PLAIN })
            .replace("use = \"road\"", "use = \"road\"\nfill = { fresh = \"100 %\" }"),
    );
    close(one(&all, "unloaded_weight", "the build").figure().unwrap(), 2000.0 + 37.0 + 10.0, "lb");
    close(one(&all, "cargo_capacity", "the build").figure().unwrap(), 3500.0 - 2047.0, "lb");
    // The label's 8.3 lb/gal, not the 8.34 of the weights.
    close(one(&all, "label_water_pounds", "the build").figure().unwrap(), 166.0, "lb");
    close(one(&all, "label_water_kilograms", "the build").figure().unwrap(), 20.0 * 3.785_411_784, "kg");
    close(one(&all, "added_weight", "the build").figure().unwrap(), 47.0, "lb");
}

/// T11: the tongue weight counts once, and of a range of it the least.
#[test]
fn trap_the_least_of_a_range_of_tongue_weights_counts_once() {
    let of = |least: &str| {
        let trailer = format!(
            "mass = \"7,000 lb\"\ngvwr = \"7,700 lb\"\n{least}\ncg = {{ ball = \"87 in\" }}\n\
             axle = {{ ball = \"100 in\", count = 2, gawr = \"3,500 lb\" }}"
        );
        let all = all_of(&text(&PLAIN).replace(BARE, &trailer));
        crate::space::trial::value(one(&all, "axle_sum_margin", "the build").figure().unwrap(), "lb")
    };
    // As it stands 910 lb are on the tongue; its maker recommends 650 to 900 lb.
    assert!((of("") - 210.0).abs() < 1e-6);
    assert!((of("tongue_least = \"650 lb\"") + 50.0).abs() < 1e-6);
    assert!(of("tongue_least = \"700 lb\"").abs() < 1e-6);
}

/// T12: identification lamps are 6 to 12 in apart. The metric figures printed beside that in 571.108 S4 are a tenth of it.
#[test]
fn trap_identification_lamps_are_not_15_mm_apart() {
    let of = |apart: &str| {
        let trailer = format!(
            "{BARE}\noverall_width = \"84 in\"\noverall_length = \"16 ft\"\nlamp = [{{ name = \"rear identification\", count = 3, apart = \"{apart}\" }}]"
        );
        texts(&all_of(&text(&PLAIN).replace(BARE, &trailer)), "lamps_misplaced", "place `us`")
    };
    for right in ["152.4 mm", "6 in", "8 in", "12 in", "304.8 mm"] {
        assert!(of(right).is_empty(), "{right}");
    }
    for wrong in ["15.2 mm", "30.4 mm", "5.9 in", "12.1 in"] {
        assert_eq!(of(wrong), ["rear identification not 6 to 12 in apart"], "{wrong}");
    }
}

/// T8: Part 393 binds commercial vehicles; its figures say so.
#[test]
fn trap_part_393_is_a_guideline_for_a_private_camper() {
    let held = places();
    let federal = held.get("us").unwrap();
    for field in [&figures::MOST_AXLE_SHARE, &figures::BREAKAWAY_HOLD, &figures::UNMARKED_BEHIND] {
        assert_eq!(federal.figure(field).unwrap().1.guideline.as_deref(), Some("commercial motor vehicles"));
    }
    assert!(federal.brakes.iter().all(|need| need.ground.guideline.is_some()));
    assert!(
        federal.lamps.as_ref().unwrap().guideline.is_none(),
        "571.108 binds whoever makes or alters a trailer"
    );
}
