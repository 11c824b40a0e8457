//! The figures that users see, on whole specs.

use super::traps::{PLAIN, Spec, all_of, flag, missing, one, text, texts};
use crate::space::trial::{close, value};
use crate::working::Outcome;

#[test]
fn with_no_place_every_figure_of_a_place_asks_for_one() {
    let all = all_of(&text(&PLAIN).replace("places = [\"us\"]\n", ""));
    let keys = [
        "width_margin",
        "height_margin",
        "lamps_missing",
        "brakes_needed",
        "axle_share_margin",
        "tongue_share_margin",
    ];
    for key in keys {
        let missing = missing(&all, key, "the build");
        assert_eq!(missing.what, "a place where it will be registered or towed", "{key}");
        assert!(missing.help.contains("places = [\"us-tx\"]"));
    }
    let unknown = all_of(&text(&Spec { places: "\"us-zz\"", ..PLAIN }));
    assert_eq!(missing(&unknown, "brakes_needed", "the build").what, "anything about the place `us-zz`");
}

const CAMPER: &str =
    "[[berth]]\ntag = \"bed\"\npeople = 2\nmass = \"20 lb\"\nat = { ball = \"100 in\", centre = \"0 in\" }\n";

/// A converted trailer of 2,000 lb: a camp trailer by inference, and over California's threshold for one.
#[test]
fn a_conversion_lowers_the_threshold_where_the_place_tells_the_two_apart() {
    let spec = Spec { places: "\"us-ca\", \"us-tx\"", more: CAMPER, ..PLAIN };
    let trailer = "brakes = { kind = \"none\" }\nmass = \"2,000 lb\"";
    let with = |registered: &str| {
        let text = text(&spec).replace("mass = \"2,000 lb\"", trailer);
        all_of(&text.replace("stage = \"design\"", &format!("stage = \"design\"\n{registered}")))
    };
    let inferred = with("");
    assert!(
        matches!(&one(&inferred, "sort", "the build").outcome, Ok(Outcome::Text(text)) if text == "camp trailer, inferred from its berths")
    );
    assert!(one(&inferred, "sort", "the build").caution.contains("inference"));
    assert!(flag(&inferred, "brakes_needed", "place `us-ca`"));
    assert!(!flag(&inferred, "brakes_needed", "place `us-tx`"));
    assert_eq!(texts(&inferred, "brakes_lacking", "place `us-ca`"), ["brakes"]);
    assert!(texts(&inferred, "brakes_lacking", "place `us-tx`").is_empty());
    close(one(&inferred, "brake_margin", "place `us-ca`").figure().unwrap(), 1500.0 - 2020.0, "lb");
    close(one(&inferred, "threshold_lowered", "place `us-ca`").figure().unwrap(), 1500.0, "lb");
    assert!(matches!(one(&inferred, "threshold_lowered", "place `us-tx`").outcome, Ok(Outcome::None(_))));
    let other = with("registered = \"other trailer\"");
    assert!(!flag(&other, "brakes_needed", "place `us-ca`"));
    close(one(&other, "brake_margin", "place `us-ca`").figure().unwrap(), 980.0, "lb");
}

#[test]
fn a_threshold_is_compared_with_the_weight_that_its_text_names() {
    // 2,000 lb on the road, rated for 3,500 lb: above 750 kg by the one, and by the other too; by its axles 1,760 lb.
    let all = all_of(&text(&Spec { places: "\"eu\", \"au\", \"us-or\"", ..PLAIN }));
    let margin = |place: &str| value(one(&all, "brake_margin", place).figure().unwrap(), "lb");
    let limit = 750.0 / 0.453_592_37;
    assert!((margin("place `eu`") - (limit - 3500.0)).abs() < 1e-6);
    assert!((margin("place `au`") - (limit - 1760.0)).abs() < 1e-6);
    assert!(matches!(one(&all, "brake_margin", "place `us-or`").outcome, Ok(Outcome::None(_))));
    assert!(missing(&all, "brakes_needed", "place `us-or`").what.contains("stops in the distance"));
    // The heaviest arrangement counts, not the lightest.
    let load = "[[load]]\ntag = \"bags\"\nmass = \"1,200 lb\"\nleast = \"0 lb\"\nat = { ball = \"90 in\", centre = \"0 in\" }\n";
    let loaded = all_of(&text(&Spec { more: load, ..PLAIN }));
    close(one(&loaded, "brake_margin", "place `us`").figure().unwrap(), -200.0, "lb");
    assert!(flag(&loaded, "brakes_needed", "place `us`"));
}

#[test]
fn what_is_there_of_brakes_and_what_the_place_asks() {
    let of = |brakes: &str, places: &'static str| {
        let text = text(&Spec { places, ..PLAIN })
            .replace("mass = \"2,000 lb\"", &format!("mass = \"5,000 lb\"\nbrakes = {{ {brakes} }}"))
            .replace("count = 1", "count = 2");
        all_of(&text)
    };
    let none = of("kind = \"none\"", "\"us-sd\"");
    assert_eq!(texts(&none, "brakes_lacking", "place `us-sd`"), ["brakes", "a breakaway switch"]);
    let half = of("kind = \"electric\", axles = 1, breakaway = false", "\"us-sd\", \"us-tx\", \"us-nv\"");
    assert_eq!(
        texts(&half, "brakes_lacking", "place `us-sd`"),
        ["brakes on all 2 axles", "a breakaway switch"]
    );
    assert!(missing(&half, "brakes_lacking", "place `us-tx`").what.starts_with("whether a breakaway switch"));
    assert!(missing(&half, "brakes_lacking", "place `us-nv`").what.starts_with("which wheels"));
    assert!(!flag(&half, "every_axle_braked", "the build"));
    let full =
        of("kind = \"electric\", axles = 2, breakaway = true", "\"us-sd\", \"us-tx\", \"us-nv\", \"us-ca\"");
    for place in ["place `us-sd`", "place `us-tx`", "place `us-nv`", "place `us-ca`"] {
        assert!(texts(&full, "brakes_lacking", place).is_empty(), "{place}");
    }
    assert!(flag(&full, "every_axle_braked", "the build"));
    let unsaid = of("kind = \"electric\", axles = 2", "\"us-sd\"");
    assert_eq!(
        missing(&unsaid, "brakes_lacking", "place `us-sd`").what,
        "`breakaway` of `brakes` of the trailer"
    );
    assert_eq!(missing(&all_of(&text(&PLAIN)), "braked_axles", "the build").what, "`brakes` of the trailer");
}

#[test]
fn how_long_a_breakaway_lasts() {
    let of = |brakes: &str, record: &str| {
        let text = text(&PLAIN)
            .replace("mass = \"2,000 lb\"", &format!("mass = \"2,000 lb\"\nbrakes = {{ {brakes} }}"));
        all_of(&format!("{text}\n{record}"))
    };
    let two = of(
        "kind = \"electric\", axles = 1, breakaway = true, battery = \"5 Ah\"",
        "[record]\nbreakaway_hold = \"14.9 min\"\n",
    );
    // Two magnets, 3 A each, for a quarter of an hour.
    close(one(&two, "breakaway_charge", "the build").figure().unwrap(), 1.5, "Ah");
    close(one(&two, "breakaway_charge_margin", "the build").figure().unwrap(), 3.5, "Ah");
    let short = value(one(&two, "breakaway_hold_margin", "the build").figure().unwrap(), "min");
    assert!((short + 0.1).abs() < 1e-9);
    let four = of("kind = \"electric\", axles = 1, magnets = 4", "");
    close(one(&four, "breakaway_charge", "the build").figure().unwrap(), 3.0, "Ah");
    assert_eq!(
        missing(&four, "breakaway_charge_margin", "the build").what,
        "`battery` of `brakes` of the trailer"
    );
    assert!(missing(&four, "breakaway_hold_margin", "the build").help.contains("breakaway_hold"));
    let surge = of("kind = \"surge\", axles = 1", "");
    assert!(matches!(one(&surge, "breakaway_charge", "the build").outcome, Ok(Outcome::None(_))));
    let none = of("kind = \"none\"", "");
    assert!(!none.iter().any(|working| working.key.starts_with("breakaway")));
}

#[test]
fn what_the_labels_say_and_ask() {
    let more = "[[item]]\ntag = \"galley\"\nkind = \"module\"\nmass = \"60 lb\"\nat = { ball = \"90 in\", centre = \"0 in\" }\n";
    let of = |head: &str, trailer: &str| {
        let text = text(&Spec { more, ..PLAIN })
            .replace("mass = \"2,000 lb\"", &format!("mass = \"2,000 lb\"\n{trailer}"));
        all_of(&text.replace("stage = \"design\"", &format!("stage = \"design\"\n{head}")))
    };
    let new = of("sale = \"new\"\nfacilities = []", "");
    // 3,500 lb less 2,060 lb are 1,440 lb, 653.17 kg: 653 kg, and those 1,439.6 lb.
    close(one(&new, "label_cargo_kilograms", "the build").figure().unwrap(), 653.0, "kg");
    close(one(&new, "label_cargo_pounds", "the build").figure().unwrap(), 1440.0, "lb");
    close(one(&new, "added_threshold", "the build").figure().unwrap(), 52.5, "lb");
    close(one(&new, "added_margin", "the build").figure().unwrap(), -7.5, "lb");
    let duties = texts(&new, "label_duties", "the build");
    assert_eq!(
        duties,
        [
            "49 CFR 571.110: tire placard with the cargo weight",
            "49 CFR 571.110: label corrected for 60 lb added",
            "49 CFR 567.7: alterer's label"
        ]
    );
    let labelled = of("sale = \"new\"\nfacilities = []", "added_label = \"60 lb\"");
    close(one(&labelled, "added_margin", "the build").figure().unwrap(), 52.5, "lb");
    let used = of("sale = \"used\"", "label_gvwr = \"2,990 lb\"");
    assert!(
        matches!(&one(&used, "label_duties", "the build").outcome, Ok(Outcome::None(why)) if why.contains("GVWR stays"))
    );
    close(one(&used, "gvwr_change", "the build").figure().unwrap(), 510.0, "lb");
    assert!(missing(&of("facilities = []", ""), "label_duties", "the build").what.contains("sale"));
    let rated = of("", "rated_cargo = \"1,500 lb\"");
    close(one(&rated, "gvwr_floor_margin", "the build").figure().unwrap(), -60.0, "lb");
    assert!(!new.iter().any(|working| ["gvwr_change", "gvwr_floor_margin"].contains(&working.key)));
}

#[test]
fn tires_by_load_age_and_speed() {
    let of = |tire: &str, places: &'static str| {
        let text = text(&Spec { places, ..PLAIN });
        all_of(&text.replace("mass = \"2,000 lb\"", &format!("mass = \"2,000 lb\"\ntire = {{ {tire} }}")))
    };
    let trailer = "rating = \"1,760 lb\", made_for = \"trailers\", count = 2";
    let all = of(trailer, "\"us\"");
    // 2,000 lb with its centre at 88 of 100 in: 1,760 lb on the axle, 880 lb on each tire.
    close(one(&all, "tire_reserve", "state `away`").figure().unwrap(), 50.0, "%");
    close(one(&all, "least_tire_reserve", "the build").figure().unwrap(), 50.0, "%");
    close(one(&all, "tire_sum_margin", "the build").figure().unwrap(), 20.0, "lb");
    // 65 mph by assumption for the tire, and for how it is towed.
    close(one(&all, "tire_speed_margin", "the build").figure().unwrap(), 0.0, "mph");
    assert_eq!(missing(&all, "tire_age", "the build").what, "`age` of `tire` of the trailer");
    assert_eq!(missing(&all, "tires_alike", "the build").what, "`alike` of `tire` of the trailer");
    let marked = of(&format!("{trailer}, speed = \"81 mph\", age = \"260 wk\", alike = true"), "\"gb\"");
    close(one(&marked, "tire_speed_margin", "the build").figure().unwrap(), 21.0, "mph");
    assert!(flag(&marked, "tires_alike", "the build"));
    // In both, the faster of the two counts.
    let both = of(&format!("{trailer}, speed = \"81 mph\""), "\"gb\", \"us\"");
    close(one(&both, "tire_speed_margin", "the build").figure().unwrap(), 16.0, "mph");
    let passenger = of("rating = \"1,900 lb\", made_for = \"passenger cars\", count = 2", "\"us\"");
    assert!(value(one(&passenger, "tire_sum_margin", "the build").figure().unwrap(), "lb") < -45.0);
    assert_eq!(
        missing(&passenger, "tire_speed_margin", "the build").what,
        "`speed` of `tire` of the trailer"
    );
}

#[test]
fn tongue_weight_against_each_places_least() {
    // 240 of 2,000 lb: 12 %.
    let all = all_of(&text(&Spec { places: "\"us\", \"eu\", \"gb\", \"au\"", ..PLAIN }));
    for (place, points) in [("us", 2.0), ("eu", 8.0), ("gb", 7.0), ("au", 4.0)] {
        close(one(&all, "tongue_share_margin", &format!("place `{place}`")).figure().unwrap(), points, "%");
    }
    let kilograms = value(one(&all, "tongue_weight_margin", "place `eu`").figure().unwrap(), "kg");
    assert!((kilograms - (240.0 * 0.453_592_37 - 25.0)).abs() < 1e-9);
    assert!(matches!(one(&all, "tongue_weight_margin", "place `us`").outcome, Ok(Outcome::None(_))));
}

#[test]
fn size_against_each_places_greatest() {
    let trailer = "overall_width = \"100 in\"\noverall_length = \"20 ft\"";
    let text = text(&Spec { places: "\"us-tx\", \"eu\", \"gb\", \"au\"", ..PLAIN });
    let all = all_of(&text.replace("mass = \"2,000 lb\"", &format!("mass = \"2,000 lb\"\n{trailer}")));
    close(one(&all, "width_margin", "place `us-tx`").figure().unwrap(), 2.0, "in");
    let metres = value(one(&all, "width_margin", "place `eu`").figure().unwrap(), "m");
    assert!((metres - (2.55 - 2.54)).abs() < 1e-9);
    let metres = value(one(&all, "length_margin", "place `gb`").figure().unwrap(), "m");
    assert!((metres - (7.0 - 6.096)).abs() < 1e-9);
    close(one(&all, "length_margin", "place `us-tx`").figure().unwrap(), 20.0, "ft");
    // No figure is held for the length in Australia: that is not known, and never fine.
    assert_eq!(missing(&all, "length_margin", "place `au`").what, "the greatest length in place `au`");
    assert!(
        missing(&all, "lamps_missing", "place `eu`").what.contains("lamps that are asked for in place `eu`")
    );
    assert!(one(&all, "width_margin", "place `us-tx`").steps[0].origin.text.contains("23 CFR 658.15"));
}

#[test]
fn what_reaches_beyond_the_body() {
    let box_of = "overall_width = \"80 in\"\nball_to_box = \"36 in\"\nlength = \"144 in\"\nwidth = \"72 in\"\nheight = \"75 in\"\n\
                  wall = \"1.5 in\"\nroof = \"2 in\"\nfloor_height = \"20 in\"\nnose = { shape = \"flat\" }\nmass = \"2,000 lb\"";
    // Bicycles 60 in long, 6 in behind the door; planks on the roof 90 in wide, set 2 in to the right.
    let more = "[[load]]\ntag = \"bikes\"\nmass = \"60 lb\"\nleast = \"0 lb\"\nzone = \"rear door\"\nlength = \"60 in\"\nwidth = \"20 in\"\n\
                height = \"40 in\"\nat = { gap = \"6 in\", floor = \"0 in\" }\n\
                [[load]]\ntag = \"planks\"\nmass = \"60 lb\"\nleast = \"0 lb\"\nzone = \"roof\"\nlength = \"60 in\"\nwidth = \"90 in\"\n\
                height = \"4 in\"\nat = { ball = \"60 in\", centre = \"2 in\" }\n";
    let all = all_of(
        &text(&Spec { places: "\"us-tx\", \"eu\"", more, ..PLAIN }).replace("mass = \"2,000 lb\"", box_of),
    );
    close(one(&all, "load_behind", "the build").figure().unwrap(), 66.0, "in");
    close(one(&all, "behind_margin", "place `us-tx`").figure().unwrap(), -18.0, "in");
    // 45 + 2 in to the right, the fenders 40 in out.
    close(one(&all, "load_aside", "the build").figure().unwrap(), 7.0, "in");
    close(one(&all, "aside_margin", "place `us-tx`").figure().unwrap(), -3.0, "in");
    assert!(matches!(one(&all, "aside_margin", "place `eu`").outcome, Ok(Outcome::None(_))));
    // The box itself ends 183 in behind the ball, and the loads are no part of the trailer's own length.
    close(one(&all, "overall_length", "the build").figure().unwrap(), 183.0, "in");
}
