//! `[assume.air]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{NotNegative, Positive, Share};

crate::schema! {
    /// `[assume.air]`.
    "the assumptions about air";
    SCREEN = "screen": Quantity(Dimension::NONE, Share); "share of an opening that an insect screen leaves free"
    LOUVRE = "louvre": Quantity(Dimension::NONE, Share); "share of an opening that a metal louvre leaves free"
    DISCHARGE = "discharge": Quantity(Dimension::NONE, Share); "share of the ideal flow that an opening passes (discharge coefficient)"
    INSIDE = "inside": Quantity(Dimension::TEMPERATURE, Positive); "temperature inside while people sleep"
    MILD_NIGHT = "mild_night": Quantity(Dimension::TEMPERATURE, Positive); "temperature outside on a mild, still night, when vents draw least"
    COLD_NIGHT = "cold_night": Quantity(Dimension::TEMPERATURE, Positive); "temperature outside on a cold, still night, when damp settles"
    NIGHT = "night": Quantity(Dimension::TIME, Positive); "how long people sleep"
    BASAL_RATE = "basal_rate": Quantity(Dimension::POWER, Positive); "heat that a person at complete rest gives off (basal metabolic rate)"
    ASLEEP = "asleep": Quantity(Dimension::NONE, Positive); "what a sleeper gives off, as a share of that"
    OUTDOOR_CO2 = "outdoor_co2": Quantity(Dimension::NONE, Share); "carbon dioxide in the air outside"
    OUTDOOR_HUMIDITY = "outdoor_humidity": Quantity(Dimension::NONE, Share); "relative humidity outside on the cold night"
    PERSON_MOISTURE = "person_moisture": Quantity(Dimension::MASS.over(Dimension::TIME), NotNegative); "water that a sleeper gives off"
    COOKING = "cooking": Quantity(Dimension::TIME, NotNegative); "how long flueless burners burn inside before people lie down"
    STEAM = "steam": Quantity(Dimension::MASS.over(Dimension::TIME), NotNegative); "water that pots give off while a flueless burner burns that cooks, or does not say what it is for"
    SURFACE = "surface": Quantity(Dimension::NONE, Share); "how far the coldest surface inside is from the temperature outside to that inside (temperature factor)"
}
