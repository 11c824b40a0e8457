use super::super::{ampacity, bank, fuse, inverter, sun, wire};
use super::column;
use crate::checks;
use crate::figure::Figure;
use pintle_quantity::{Dimension, Quantity};

fn number(of: f64) -> u32 {
    (0..1000).find(|whole| f64::from(*whole) >= of - 0.5).unwrap()
}

#[test]
fn checks_from_outside() {
    checks::run("electric", |of, given| {
        let section = || wire::awg_mils(given.si("n")) * wire::CIRCULAR_MIL;
        let figure = |name, dimension| Figure::constant(Quantity::from_si(given.si(name), dimension));
        let plain = |name| figure(name, Dimension::NONE);
        vec![match of {
            "diameter" => wire::awg_mils(given.si("n")).sqrt() * 25.4e-6,
            "mils" => wire::awg_mils(given.si("n")),
            "section" => section(),
            "sae mils" => wire::sae_section(given.si("n")).unwrap() / wire::CIRCULAR_MIL,
            "resistance" => wire::resistance(section(), given.si("lay"), given.si("T")),
            "rise" => wire::resistance(1.0, 0.0, given.si("T")) / wire::resistance(1.0, 0.0, 293.15),
            "drop one way" => wire::drop_one_way(given.si("I"), given.si("L"), section()),
            "drop one way share" => {
                wire::drop_one_way(given.si("I"), given.si("L"), section()) / given.si("V")
            }
            "drop round trip" => wire::drop_round_trip(given.si("I"), given.si("L"), section()),
            "drop round trip share" => {
                wire::drop_round_trip(given.si("I"), given.si("L"), section()) / given.si("V")
            }
            "drop short" => wire::drop_short(given.si("I"), given.si("L"), given.si("S")),
            "drop by resistance" => {
                let s = Figure::constant(Quantity::from_si(section(), Dimension::AREA));
                let (lay, t) = (plain("lay"), figure("T", Dimension::TEMPERATURE));
                let both = wire::loop_resistance(&figure("L", Dimension::LENGTH), &s, &s, &lay, &t);
                both.times(&figure("I", Dimension::CURRENT)).quantity.si()
            }
            "section metric" => wire::section_metric(given.si("I"), given.si("L"), given.si("e")),
            "mils needed" => wire::mils_needed(given.si("I"), given.si("L"), given.si("e")),
            "gauge by SAE" => {
                let needed = wire::mils_needed(given.si("I"), given.si("L"), given.si("e"));
                let enough = wire::SAE_MILS.iter().find(|(_, mils)| *mils >= needed);
                f64::from(enough.unwrap().0)
            }
            "ampacity" => {
                let columns: Vec<&str> = given.word("columns").split(", ").collect();
                return columns
                    .iter()
                    .map(|word| ampacity::allowed(column(word), section()).unwrap())
                    .collect();
            }
            "small wire fuse" => ampacity::small_wire_fuse(section()).unwrap(),
            "low voltage" => ampacity::low_voltage(section()).unwrap(),
            "warmth" => ampacity::warmth(given.si("insulation"), given.si("ambient")).unwrap(),
            "company" => ampacity::company(column(given.word("column")), number(given.si("wires"))),
            "bundled" => {
                let table = column(given.word("column"));
                ampacity::allowed(table, section()).unwrap()
                    * ampacity::company(table, number(given.si("wires")))
            }
            "farthest fuse" => {
                fuse::farthest(given.word("sheathed") == "yes", given.word("battery") == "yes")
            }
            "stretched" => fuse::STRETCHED,
            "inverter current" | "inverter fuse" => {
                let (power, share) = (figure("P", Dimension::POWER), plain("eta"));
                let current = inverter::current(&power, &share, &figure("V", Dimension::VOLTAGE));
                current.quantity.si() * if given.has("k") { given.si("k") } else { 1.0 }
            }
            "usable energy" => {
                let (charge, voltage) = (figure("C", Dimension::CHARGE), figure("V", Dimension::VOLTAGE));
                bank::usable(&charge.times(&voltage), &plain("u")).quantity.si()
            }
            "rate" => {
                bank::rate(&figure("I", Dimension::CURRENT), &figure("C", Dimension::CHARGE)).quantity.si()
            }
            "losses" => sun::losses(&given.list("L")),
            "panel power" => sun::power(given.si("P"), given.si("E"), given.si("T"), given.si("fall")),
            "daily yield" => sun::daily(given.si("P"), given.si("h"), given.si("L"), 1.0),
            "above" => sun::above(given.si("phi"), given.si("J")),
            "ground" => {
                let shine = plain("shine");
                sun::hours(&figure("phi", Dimension::ANGLE), &shine, given.si("J")).quantity.si() * 1000.0
            }
            "ground hours" => {
                let daylight = 24.0 / std::f64::consts::PI * sun::sunset(given.si("phi"), given.si("J"));
                let shine = Figure::constant(Quantity::share(given.si("n") / 3600.0 / daylight));
                sun::hours(&figure("phi", Dimension::ANGLE), &shine, given.si("J")).quantity.si() * 1000.0
            }
            "noon height" => std::f64::consts::FRAC_PI_2 - given.si("phi") + sun::declination(given.si("J")),
            "nearness" => sun::nearness(given.si("J")),
            other => panic!("nothing is called `{other}`"),
        }]
    });
}
