//! What can be asked of the trailer beyond its fields.

use super::{Gives, Property};
use pintle_quantity::Dimension;

/// What can be asked of the trailer.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "gawr",
        says: "axle rating",
        doc: "gross axle weight rating of each axle",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(pintle_calc::ratings::gawr(&run.build)?.into()),
    },
    Property {
        name: "gawr_sum",
        says: "sum of axle ratings",
        doc: "sum of the gross axle weight ratings",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(pintle_calc::ratings::gawr_sum(&run.build)?.into()),
    },
    Property {
        name: "tire_rating",
        says: "tire rating on a trailer",
        doc: "what one tire may carry on a trailer; a passenger-car tire counts for its rating divided by 1.10",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(pintle_calc::ratings::tire_rating(&run.build)?.into()),
    },
    Property {
        name: "tires_of_axle",
        says: "sum of tire ratings of an axle",
        doc: "what all tires of one axle may carry",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, _| Ok(pintle_calc::ratings::tires_of_axle(&run.build)?.into()),
    },
];
