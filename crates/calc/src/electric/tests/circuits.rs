use super::bench::{CHARGER, PUMP, circuit, one};
use crate::electric::wire::FOOT;

/// Circular mils of 10 AWG: (5 · 92^(26/39))², to the digits of a public gauge table 10,383.
const TEN: f64 = 10_383.022_1;

#[test]
fn voltage_is_lost_both_ways() {
    let found = one(&circuit("fuse = \"15 A\"\nfuse_at = \"7 in\"\ninterrupts = \"5000 A\""));
    // NEC chapter 9 table 8: 40 ft of 1.24 Ω/kft at 10 A is 0.496 V.
    let lost = found.value("voltage_drop", PUMP, "V");
    assert!((lost - 0.496).abs() < 0.002, "{lost}");
    found.close("voltage_drop_share", PUMP, lost / 12.0, "");
    found.close("voltage_drop_round_trip", PUMP, 10.75 * 10.0 * 40.0 / TEN, "V");
    found.close("voltage_drop_one_way", PUMP, 2.0 * 12.9 * 10.0 * 20.0 / TEN, "V");
    let s = TEN * 5.067_074_790_974_977e-4;
    found.close("voltage_drop_metric", PUMP, 2.0 * 20.0 * FOOT * 10.0 / (56.0 * s), "V");
    // 4.1 % is more than 3 %: 8 AWG; what is not critical may lose 10 %, and 12 AWG carries it.
    found.close("gauge_needed", PUMP, 8.0, "AWG");
    let other = one(&circuit("critical = false"));
    other.close("gauge_needed", PUMP, 12.0, "AWG");
    assert!(found.flag("critical_circuit", PUMP) && !other.flag("critical_circuit", PUMP));
    found.close("voltage_drop_allowed", PUMP, 0.03, "");
    other.close("voltage_drop_allowed", PUMP, 0.10, "");
    let long = one(&circuit("").replace("20 ft", "2000 ft"));
    assert_eq!(long.none("gauge_needed", PUMP), "none: a single wire of 4/0 AWG is not enough");
}

#[test]
fn a_return_wire_of_another_gauge() {
    let same = one(&circuit(""));
    let thin = one(&circuit("return_gauge = \"14 AWG\""));
    assert!(!same.flag("wire_sizes_mixed", PUMP) && thin.flag("wire_sizes_mixed", PUMP));
    // Half of the loop is of 14 AWG, 2.53 times the resistance.
    let ratio = thin.value("wire_resistance", PUMP, "mΩ") / same.value("wire_resistance", PUMP, "mΩ");
    assert!((ratio - f64::midpoint(1.0, 92_f64.powf(8.0 / 39.0))).abs() < 1e-9, "{ratio}");
    thin.close("ampacity", PUMP, 35.0, "A");
    let automotive = one(&circuit("mils = \"SAE\""));
    let ratio = automotive.value("wire_resistance", PUMP, "mΩ") / same.value("wire_resistance", PUMP, "mΩ");
    assert!((ratio - TEN / 9343.0).abs() < 1e-6, "{ratio}");
    automotive.close("ampacity", PUMP, 60.0, "A");
    let odd = one(&circuit("mils = \"SAE\"").replace("10 AWG", "11 AWG"));
    assert_eq!(odd.missing("voltage_drop", PUMP), "a gauge of the SAE table for `gauge` of circuit `pump`");
}

#[test]
fn what_a_wire_may_carry() {
    let at = |insulation: &str, more: &str| one(&circuit(more).replace("105 °C", insulation));
    for (insulation, most) in [("60 °C", 30.0), ("75 °C", 35.0), ("90 °C", 40.0), ("105 °C", 60.0)] {
        at(insulation, "").close("ampacity", PUMP, most, "A");
    }
    at("90 °C", "bundled = 4").close("ampacity", PUMP, 32.0, "A");
    at("105 °C", "bundled = 4").close("ampacity", PUMP, 36.0, "A");
    let hot = at("105 °C", "\n[assume.electric]\nambient = \"50 °C\"");
    hot.close("ampacity", PUMP, 60.0 * (55.0_f64 / 75.0).sqrt(), "A");
    let too_hot = at("60 °C", "\n[assume.electric]\nambient = \"65 °C\"");
    assert_eq!(
        too_hot.missing("ampacity", PUMP),
        "insulation of circuit `pump` that stands the air round it"
    );
    let thin = one(&circuit("").replace("10 AWG", "18 AWG").replace("105 °C", "60 °C"));
    assert_eq!(thin.missing("ampacity", PUMP), "an ampacity of circuit `pump` in the 60 °C column");
    let bare = one(&circuit("").replace("insulation = \"105 °C\"\n", ""));
    assert_eq!(bare.missing("ampacity", PUMP), "`insulation` of circuit `pump`");
}

#[test]
fn fuses_their_place_and_their_size() {
    let with = |more: &str| one(&circuit(&format!("fuse = \"30 A\"\n{more}")));
    // The 7-40-72 rule.
    with("fuse_at = \"7 in\"").close("fuse_distance_most", PUMP, 7.0, "in");
    with("sheathed = true").close("fuse_distance_most", PUMP, 72.0, "in");
    let from_panel = circuit("fuse = \"30 A\"\nsheathed = true").replace("\"bank\"", "\"main\"")
        + &circuit("").replace("pump", "main");
    one(&from_panel).close("fuse_distance_most", PUMP, 40.0, "in");
    let found = with("fuse_at = \"7.1 in\"\ninterrupts = \"1500 A\"");
    found.close("fuse_distance", PUMP, 7.1, "in");
    found.close("fuse_to_ampacity", PUMP, 0.5, "");
    found.close("fuse_to_load", PUMP, 3.0, "");
    found.close("fuse_most", PUMP, 60.0, "A");
    found.close("fuse_most_next_size", PUMP, 90.0, "A");
    found.close("fuse_interrupts", PUMP, 1500.0, "A");
    found.close("fault_current", PUMP, 2000.0, "A");
    assert_eq!(with("").missing("fuse_distance", PUMP), "`fuse_at` of circuit `pump`");
    assert_eq!(with("").missing("fuse_interrupts", PUMP), "`interrupts` of circuit `pump`");
    // House wire: 10 AWG at 90 °C carries 40 A and may have 30 A before it (NEC 240.4(D)).
    let house = one(&circuit("").replace("105 °C", "90 °C"));
    house.close("fuse_most", PUMP, 30.0, "A");
    let none = one(&circuit(""));
    assert!(!none.flag("fused", PUMP) && !none.flag("guarded", PUMP));
    assert_eq!(none.none("fuse_to_ampacity", PUMP), "no fuse guards this circuit");
    assert!(!none.has("fault_current", PUMP));
}

#[test]
fn branches_of_a_fuse_panel() {
    let panel = circuit("fuse = \"40 A\"\nfuse_at = \"5 in\"")
        .replace("pump", "panel")
        .replace("current = \"10 A\"\n", "")
        .replace("20 ft", "5 ft")
        .replace("10 AWG", "8 AWG");
    let pump = circuit("").replace("\"bank\"", "\"panel\"");
    let lamp = circuit("fuse = \"5 A\"")
        .replace("\"bank\"", "\"panel\"")
        .replace("pump", "lamp")
        .replace("10 A", "4 A");
    let found = one(&(panel.clone() + &pump + &lamp));
    found.close("circuit_load", "circuit `panel`", 14.0, "A");
    let (own, before) =
        (found.value("voltage_drop", PUMP, "V"), found.value("voltage_drop", "circuit `panel`", "V"));
    found.close("voltage_drop_total", PUMP, own + before, "V");
    // The pump's wire hangs on the panel's fuse, and is thinner than the wire to the panel.
    assert!(
        !found.flag("fused", PUMP) && found.flag("guarded", PUMP) && found.flag("wire_sizes_mixed", PUMP)
    );
    found.close("guarding_fuse", PUMP, 40.0, "A");
    found.close("fuse_to_ampacity", PUMP, 40.0 / 60.0, "");
    assert!(found.flag("fused", "circuit `lamp`") && !found.flag("wire_sizes_mixed", "circuit `lamp`"));
    // Behind the panel, 10 ft of cold 8 AWG, 0.6282 Ω/kft, stand in the way of a short circuit.
    let fault = found.value("fault_current", "circuit `lamp`", "A");
    assert!((fault - 12.0 / (0.006 + 10.0 * 0.628_2e-3)).abs() < 1.0, "{fault}");
    let idle = one(&panel);
    assert_eq!(idle.missing("circuit_load", "circuit `panel`"), "`current` of circuit `panel`");
}

#[test]
fn a_line_from_the_tow_vehicle() {
    let road = CHARGER.replace("\"mains\"", "\"DC to DC\"").replace("30 A", "18 A");
    let line = "
[[electric.circuit]]
name = \"line\"
from = \"tow vehicle\"
to = \"m\"
length = \"25 ft\"
gauge = \"10 AWG\"
insulation = \"105 °C\"
";
    let found = one(&(road.clone() + line));
    let (of, r) = ("circuit `line`", found.value("wire_resistance", "circuit `line`", "Ω"));
    let (end, i) = (found.value("line_voltage", of, "V"), found.value("circuit_load", of, "A"));
    // 13.8 V less what the current loses, and the power that the charger takes: 18 A · 14 V / 0.84 = 300 W.
    assert!((end - (13.8 - i * r)).abs() < 1e-9 && (end * i - 300.0).abs() < 1e-6, "{end} {i}");
    let thin = one(&(road.clone() + &line.replace("10 AWG", "18 AWG")));
    assert_eq!(thin.missing("line_voltage", of), "a line of circuit `line` that carries what item `m` takes");
    let straight = one(&line.replace("to = \"m\"", "to = \"bank\"\ncurrent = \"10 A\""));
    straight.close("line_voltage", of, 13.8 - straight.value("voltage_drop", of, "V"), "V");
    let unsaid = one(&line.replace("to = \"m\"", "to = \"bank\""));
    assert_eq!(unsaid.missing("line_voltage", of), "`current` of circuit `line`");
}

#[test]
fn a_charger_and_its_lead_to_the_bank() {
    let lead = circuit("to = \"m\"").replace("current = \"10 A\"\n", "");
    one(&(CHARGER.to_owned() + &lead)).close("circuit_load", PUMP, 30.0, "A");
    let cord = "
[electric.mains]
voltage = \"120 V\"
inlet = \"15 A\"
load = \"1,200 W\"
neutral_bonded = true
outlet = [{ name = \"left\", gfci = false }, { name = \"right\", gfci = true }]
";
    let found = one(&(CHARGER.to_owned() + cord));
    let of = "the mains side";
    // 1,200 W and 30 A · 14 V / 0.84 = 500 W at 120 V.
    found.close("mains_load", of, 1700.0 / 120.0, "A");
    found.close("mains_to_inlet", of, 1700.0 / 120.0 / 15.0, "");
    assert!(found.flag("neutral_bonded", of));
    assert_eq!(found.texts("outlets_without_gfci", of), ["outlet `left`"]);
    assert_eq!(found.none("frame_bond", of), "the frame is not bonded");
    assert_eq!(found.missing("panel_clear_width", of), "`clear_width` of `mains` of `electric` of the spec");
    let bare = one(CHARGER);
    assert_eq!(bare.missing("mains_load", of), "[electric] of the spec");
    let none = one(&(CHARGER.to_owned() + cord.split("outlet").next().unwrap()));
    assert_eq!(none.missing("outlets_without_gfci", of), "`outlet` of `mains` of `electric` of the spec");
    let unsaid = one(&(CHARGER.to_owned() + &cord.replace(", gfci = false", "")));
    assert_eq!(unsaid.missing("outlets_without_gfci", of), "`gfci` of outlet `left`");
}

#[test]
fn how_sure_a_figure_is_follows_from_what_was_written() {
    let run = circuit("").replace("\"20 ft\"", "\"20 ft ± 1 ft\"");
    let found = one(&run);
    let lost = found.working("voltage_drop", PUMP).figure().unwrap().clone();
    let slopes = lost.trace.gradient().unwrap();
    let by_length = slopes.iter().find(|term| term.input.key == "length").unwrap();
    // Twice the length loses twice the voltage.
    assert!((by_length.times * 20.0 * FOOT - lost.quantity.si()).abs() < 1e-6 * lost.quantity.si());
    let lowest = one("
[electric]
days = 1
[[electric.use]]
what = \"lamp\"
power = \"10 W\"
hours = \"5 h\"
");
    let lowest = lowest.working("lowest_charge", "without sun").figure().unwrap().clone();
    let slopes = lowest.trace.gradient().unwrap();
    let by_power = slopes.iter().find(|term| term.input.key == "power").unwrap();
    // Each watt more takes 5 Wh of 1,200.
    assert!((by_power.times + 5.0 / 1200.0).abs() < 1e-9, "{}", by_power.times);
}

#[test]
fn what_no_circuit_leads_to() {
    let lead = circuit("to = \"m\"");
    let lamp = "\n[[electric.use]]\nwhat = \"lamp\"\ncurrent = \"2 A\"\nhours = \"3 h\"\n";
    let found = one(&(CHARGER.to_owned() + &lead + lamp));
    assert!(found.flag("has_circuit", "item `m`") && !found.flag("has_circuit", "use `lamp`"));
    // 2 A at 12 V for three hours.
    found.close("use_energy", "use `lamp`", 72.0, "Wh");
    let lit =
        one(&(CHARGER.to_owned() + &circuit("to = \"lamp\"").replace("current = \"10 A\"\n", "") + lamp));
    assert!(!lit.flag("has_circuit", "item `m`") && lit.flag("has_circuit", "use `lamp`"));
    lit.close("circuit_load", PUMP, 2.0, "A");
    assert_eq!(one("\n[electric]\n").missing("fused", "the circuits"), "`circuit` of `electric` of the spec");
}
