use super::energy;
use crate::checks;
use crate::figure::Figure;
use pintle_quantity::{Dimension, Quantity};

#[test]
fn checks_from_outside() {
    checks::run("gas", |of, given| match of {
        "energy" => {
            let figure = |name, dimension| Figure::constant(Quantity::from_si(given.si(name), dimension));
            let per_mass = Dimension::ENERGY.over(Dimension::MASS);
            vec![energy(&figure("m", Dimension::MASS), &figure("H", per_mass)).quantity.si()]
        }
        other => panic!("nothing is called `{other}`"),
    });
}
