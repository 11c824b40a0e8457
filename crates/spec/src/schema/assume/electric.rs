//! `[assume.electric]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{NotNegative, Positive, Share};

crate::schema! {
    /// `[assume.electric]`.
    "the assumptions about electric";
    USABLE_LITHIUM = "usable_lithium": Quantity(Dimension::NONE, Share); "share of its energy that a lithium iron phosphate battery may give"
    USABLE_FLOODED = "usable_flooded": Quantity(Dimension::NONE, Share); "share of its energy that a flooded lead battery may give"
    USABLE_MAT = "usable_mat": Quantity(Dimension::NONE, Share); "share of its energy that an absorbed-glass-mat battery may give"
    USABLE_GEL = "usable_gel": Quantity(Dimension::NONE, Share); "share of its energy that a gel battery may give"
    CHARGED_LITHIUM = "charged_lithium": Quantity(Dimension::NONE, Share); "share of what goes into a lithium iron phosphate battery that can be taken out again"
    CHARGED_LEAD = "charged_lead": Quantity(Dimension::NONE, Share); "share of what goes into a lead battery that can be taken out again"
    INVERTER_EFFICIENCY = "inverter_efficiency": Quantity(Dimension::NONE, Share); "share of what an inverter takes that it gives, where its maker says nothing"
    LOWEST_VOLTAGE = "lowest_voltage": Quantity(Dimension::NONE, Share); "lowest voltage at which an inverter still runs, as a share of its nominal voltage, where its maker says nothing"
    INVERTER_FUSE = "inverter_fuse": Quantity(Dimension::NONE, Positive); "fuse and cable of an inverter, as a share of its current at the lowest voltage"
    CHARGER_EFFICIENCY = "charger_efficiency": Quantity(Dimension::NONE, Share); "share of what a charger takes that it gives, where its maker says nothing"
    AMBIENT = "ambient": Quantity(Dimension::TEMPERATURE, Positive); "warmth of the air round wires"
    WIRE_TEMPERATURE = "wire_temperature": Quantity(Dimension::TEMPERATURE, Positive); "warmth of copper that carries current, for its resistance"
    STRANDING = "stranding": Quantity(Dimension::NONE, NotNegative); "resistance that the lay of strands adds, as a share"
    DROP_CRITICAL = "drop_critical": Quantity(Dimension::NONE, Share); "voltage that may be lost on the way to what is critical"
    DROP_OTHER = "drop_other": Quantity(Dimension::NONE, Share); "voltage that may be lost on the way to anything else"
    ALTERNATOR_VOLTAGE = "alternator_voltage": Quantity(Dimension::VOLTAGE, Positive); "voltage at the tow vehicle's battery, engine running"
    SUNSHINE = "sunshine": Quantity(Dimension::NONE, Share); "share of daylight hours in which the sun shines"
    PANEL_TEMPERATURE = "panel_temperature": Quantity(Dimension::TEMPERATURE, Positive); "warmth of a panel in the sun"
    COLDEST = "coldest": Quantity(Dimension::TEMPERATURE, Positive); "coldest morning on which the sun meets the panels"
    POWER_FALL = "power_fall": Quantity(Dimension::NONE, Share); "share of its power that a panel loses for each kelvin above 25 °C, where its maker says nothing"
    VOLTAGE_RISE = "voltage_rise": Quantity(Dimension::NONE, Share); "share of its open-circuit voltage that a panel gains for each kelvin below 25 °C, where its maker says nothing"
    SOLAR_LOSSES = "solar_losses": Quantity(Dimension::NONE, Share); "share that dirt, shade, wires and mismatch take of a panel's power"
    ARRIVAL = "arrival": Quantity(Dimension::TIME, NotNegative); "hour of the day at which the bank is full and charging ends, in hours after midnight"
    AWAY = "away": Quantity(Dimension::TIME, Positive); "how long it is used without any charge but the sun's, where the build does not say"
}
