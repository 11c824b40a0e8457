use super::super::{ampacity, wire};
use super::column;

const KFT: f64 = 304.8;

/// Public page (seen): the resistances of solid wire at 20 °C under the name of a code table that holds at 75 °C.
#[test]
fn trap_t5_resistance_of_one_temperature_under_the_name_of_another() {
    let twelve = ampacity::section(12);
    let [cold, hot, stranded] =
        [(0.0, 293.15), (0.0, 348.15), (0.02, 348.15)].map(|(lay, t)| wire::resistance(twelve, lay, t) * KFT);
    // hyperphysics.phy-astr.gsu.edu; NEC chapter 9 table 8, solid and stranded (sfasoft.com/look/35).
    assert!((cold - 1.588).abs() < 0.001, "{cold}");
    assert!((hot - 1.93).abs() < 0.005, "{hot}");
    assert!((stranded - 1.98).abs() < 0.015, "{stranded}");
    assert!(cold / stranded < 0.82, "one is not the other");
}

/// The boat builders' length is that of both wires, the house wiring formula's that of one; each of the two would be twice
/// off with the other's length.
#[test]
fn trap_t6_round_trip_and_one_way() {
    let (i, one_way, s) = (20.0, 15.0 * wire::FOOT, ampacity::section(10));
    let by_boats = wire::drop_round_trip(i, 2.0 * one_way, s);
    let by_houses = wire::drop_one_way(i, one_way, s);
    // The same run by both: they differ by their K alone.
    assert!((by_houses / by_boats - 12.9 / 10.75).abs() < 1e-9, "{by_houses} {by_boats}");
    // Table 8: 2 · 15 ft of 1.24 Ω/kft.
    assert!((by_houses - 0.744).abs() < 0.005, "{by_houses}");
    assert!(wire::drop_round_trip(i, one_way, s) < by_boats * 0.51, "half, with the wrong length");
}

/// A published example (10 A, 21 ft both ways, 3 % of 12 V, so 10 gauge) comes out with the circular mils of SAE only.
#[test]
fn trap_t7_circular_mils_of_sae_are_a_choice_of_their_own() {
    let needed = wire::mils_needed(10.0, 21.0 * wire::FOOT, 0.36);
    assert!((needed - 6271.0).abs() < 0.5, "{needed}");
    let sae = wire::SAE_MILS.iter().find(|(_, mils)| *mils >= needed).unwrap().0;
    let awg = ampacity::gauges().find(|gauge| wire::awg_mils(f64::from(*gauge)) >= needed).unwrap();
    assert_eq!((sae, awg), (10, 12));
}

/// The chart that is widely copied is not its own formula everywhere; the examples that are printed with it are.
#[test]
fn trap_t8_the_examples_and_not_the_chart() {
    let gauge = |share: f64| {
        let needed = wire::mils_needed(10.0, 21.0 * wire::FOOT, share * 12.0);
        wire::SAE_MILS.iter().find(|(_, mils)| *mils >= needed).unwrap().0
    };
    assert_eq!([gauge(0.03), gauge(0.10)], [10, 16]);
    // No chart: the mils needed grow with the length, without plateaus such as the chart's between 25 and 30 ft.
    let at = |feet: f64| wire::mils_needed(10.0, feet * wire::FOOT, 0.36);
    assert!((at(30.0) / at(25.0) - 1.2).abs() < 1e-12);
}

/// A public page has 6.5 Ω for 1,000 ft of 12 AWG: its circular mils, in thousands.
#[test]
fn trap_t9_circular_mils_are_no_ohms() {
    let twelve = wire::resistance(ampacity::section(12), 0.0, 293.15) * KFT;
    assert!((twelve - 1.588).abs() < 0.001, "{twelve}");
    assert!((wire::awg_mils(12.0) / 1000.0 - 6.53).abs() < 0.001);
}

/// A wire between two gauges counts as the thinner; one thinner than a column goes down is not guessed at.
#[test]
fn gauges_between_and_below() {
    assert_eq!(ampacity::allowed(column("105 °C"), 6e-6), Some(60.0));
    assert_eq!(ampacity::allowed(column("105 °C"), 0.5e-6), None);
    assert_eq!(ampacity::allowed(column("60 °C"), ampacity::section(18)), None);
    assert_eq!(ampacity::allowed(column("60 °C"), ampacity::section(14)), Some(15.0));
    assert!(ampacity::warmth(333.15, 333.15).is_none(), "60 °C insulation at 60 °C");
}
