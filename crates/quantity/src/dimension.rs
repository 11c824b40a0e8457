//! What a quantity measures, as whole powers of seven base dimensions.
//!
//! Angle and money count as dimensions, so that degrees do not pass for shares nor dollars for counts.

use thiserror::Error;

/// Whole powers of length, mass, time, current, temperature, angle and money.
///
/// ```
/// use pintle_quantity::Dimension;
///
/// assert_eq!(Dimension::FORCE.over(Dimension::AREA), Dimension::PRESSURE);
/// assert_eq!(Dimension::PRESSURE.noun(), "a pressure");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dimension {
    length: i8,
    mass: i8,
    time: i8,
    current: i8,
    temperature: i8,
    angle: i8,
    money: i8,
}

impl Dimension {
    /// A share: a plain ratio, such as tongue weight over total weight.
    pub const NONE: Self =
        Self { length: 0, mass: 0, time: 0, current: 0, temperature: 0, angle: 0, money: 0 };
    /// Length; m in SI.
    pub const LENGTH: Self = Self { length: 1, ..Self::NONE };
    /// Mass, which the trade calls weight; kg in SI.
    pub const MASS: Self = Self { mass: 1, ..Self::NONE };
    /// Time; s in SI.
    pub const TIME: Self = Self { time: 1, ..Self::NONE };
    /// Electric current; A in SI.
    pub const CURRENT: Self = Self { current: 1, ..Self::NONE };
    /// Temperature, or a difference of two temperatures; K in SI.
    pub const TEMPERATURE: Self = Self { temperature: 1, ..Self::NONE };
    /// Plane angle; rad in SI.
    pub const ANGLE: Self = Self { angle: 1, ..Self::NONE };
    /// Money; dollars.
    pub const MONEY: Self = Self { money: 1, ..Self::NONE };
    /// Area; m² in SI.
    pub const AREA: Self = Self::LENGTH.times(Self::LENGTH);
    /// Volume; m³ in SI.
    pub const VOLUME: Self = Self::AREA.times(Self::LENGTH);
    /// Speed; m/s in SI.
    pub const SPEED: Self = Self::LENGTH.over(Self::TIME);
    /// Acceleration; m/s² in SI.
    pub const ACCELERATION: Self = Self::SPEED.over(Self::TIME);
    /// Force; N in SI.
    pub const FORCE: Self = Self::MASS.times(Self::ACCELERATION);
    /// Energy, and torque, which has the same powers; J or N·m in SI.
    pub const ENERGY: Self = Self::FORCE.times(Self::LENGTH);
    /// Power; W in SI.
    pub const POWER: Self = Self::ENERGY.over(Self::TIME);
    /// Pressure; Pa in SI.
    pub const PRESSURE: Self = Self::FORCE.over(Self::AREA);
    /// Electric charge; C in SI, Ah in the shop.
    pub const CHARGE: Self = Self::CURRENT.times(Self::TIME);
    /// Voltage; V in SI.
    pub const VOLTAGE: Self = Self::POWER.over(Self::CURRENT);
    /// Electric resistance; Ω in SI.
    pub const RESISTANCE: Self = Self::VOLTAGE.over(Self::CURRENT);
    /// Volume flow; m³/s in SI.
    pub const FLOW: Self = Self::VOLUME.over(Self::TIME);
    /// Density; kg/m³ in SI.
    pub const DENSITY: Self = Self::MASS.over(Self::VOLUME);
    /// Moment of a weight about a line: mass times length; kg·m in SI.
    pub const MOMENT: Self = Self::MASS.times(Self::LENGTH);
    /// Frequency, or a rate such as air changes; Hz in SI.
    pub const FREQUENCY: Self = Self::NONE.over(Self::TIME);

    /// The dimension of a product. Powers stop at ±127 rather than wrap round.
    #[must_use]
    pub const fn times(self, o: Self) -> Self {
        Self {
            length: self.length.saturating_add(o.length),
            mass: self.mass.saturating_add(o.mass),
            time: self.time.saturating_add(o.time),
            current: self.current.saturating_add(o.current),
            temperature: self.temperature.saturating_add(o.temperature),
            angle: self.angle.saturating_add(o.angle),
            money: self.money.saturating_add(o.money),
        }
    }

    /// The dimension of a quotient. Powers stop at ±127 rather than wrap round.
    #[must_use]
    pub const fn over(self, o: Self) -> Self {
        Self {
            length: self.length.saturating_sub(o.length),
            mass: self.mass.saturating_sub(o.mass),
            time: self.time.saturating_sub(o.time),
            current: self.current.saturating_sub(o.current),
            temperature: self.temperature.saturating_sub(o.temperature),
            angle: self.angle.saturating_sub(o.angle),
            money: self.money.saturating_sub(o.money),
        }
    }

    /// The dimension of a whole power, or `None` where a power would leave ±127.
    ///
    /// ```
    /// use pintle_quantity::Dimension;
    ///
    /// assert_eq!(Dimension::LENGTH.power(3), Some(Dimension::VOLUME));
    /// assert_eq!(Dimension::VOLUME.power(100), None);
    /// ```
    pub fn power(self, n: i8) -> Option<Self> {
        Some(Self {
            length: self.length.checked_mul(n)?,
            mass: self.mass.checked_mul(n)?,
            time: self.time.checked_mul(n)?,
            current: self.current.checked_mul(n)?,
            temperature: self.temperature.checked_mul(n)?,
            angle: self.angle.checked_mul(n)?,
            money: self.money.checked_mul(n)?,
        })
    }

    /// The dimension as a noun with its article: "a length", "an area", "a share" for a plain
    /// ratio, "a quantity in kg·m²/s" where the trade has no word.
    pub fn noun(self) -> String {
        match self.usual() {
            Some(usual) => usual.noun.to_owned(),
            None => format!("a quantity in {}", self.si_symbol()),
        }
    }

    /// The dimension that a shop's word means, such as "mass"; the words are the nouns without their article.
    ///
    /// ```
    /// use pintle_quantity::Dimension;
    ///
    /// assert_eq!(Dimension::named("area"), Some(Dimension::AREA));
    /// assert_eq!(Dimension::named("heft"), None);
    /// ```
    pub fn named(word: &str) -> Option<Self> {
        USUAL.iter().find(|usual| bare(usual.noun) == word).map(|usual| usual.dimension)
    }

    /// All such words.
    pub fn names() -> impl Iterator<Item = &'static str> + Clone {
        USUAL.iter().map(|usual| bare(usual.noun))
    }

    /// One example of how a shop would write it, always one that [`crate::Quantity::parse`] takes;
    /// empty where a shop has no usual way to write such a quantity.
    ///
    /// ```
    /// use pintle_quantity::Dimension;
    ///
    /// assert_eq!(Dimension::LENGTH.example(), "22 3/8 in");
    /// ```
    pub fn example(self) -> &'static str {
        self.usual().map_or("", |usual| usual.example)
    }

    fn usual(self) -> Option<&'static Usual> {
        USUAL.iter().find(|usual| usual.dimension == self)
    }

    /// The SI unit spelled in base units, such as `kg·m²/s`.
    pub(crate) fn si_symbol(self) -> String {
        let powers = [
            ("kg", self.mass),
            ("m", self.length),
            ("A", self.current),
            ("K", self.temperature),
            ("rad", self.angle),
            ("$", self.money),
            ("s", self.time),
        ];
        let list = |sign: i8| {
            let part: Vec<String> = powers
                .iter()
                .filter(|(_, power)| power.signum() == sign)
                .map(|(symbol, power)| format!("{symbol}{}", exponent(power.unsigned_abs())))
                .collect();
            part.join("·")
        };
        match (list(1), list(-1)) {
            (above, below) if below.is_empty() => above,
            (above, below) if above.is_empty() => format!("1/{below}"),
            (above, below) => format!("{above}/{below}"),
        }
    }
}

fn exponent(power: u8) -> String {
    match power {
        1 => String::new(),
        2 => "²".to_owned(),
        3 => "³".to_owned(),
        more => format!("^{more}"),
    }
}

/// A dimension the trade has a word for.
struct Usual {
    dimension: Dimension,
    noun: &'static str,
    example: &'static str,
}

/// A noun without its article.
fn bare(noun: &'static str) -> &'static str {
    noun.split_once(' ').map_or(noun, |(_, bare)| bare)
}

const fn usual(dimension: Dimension, noun: &'static str, example: &'static str) -> Usual {
    Usual { dimension, noun, example }
}

static USUAL: &[Usual] = &[
    usual(Dimension::NONE, "a share", "10 %"),
    usual(Dimension::LENGTH, "a length", "22 3/8 in"),
    usual(Dimension::AREA, "an area", "7.5 in²"),
    usual(Dimension::VOLUME, "a volume", "20 gal"),
    usual(Dimension::MASS, "a mass", "150 lb"),
    usual(Dimension::TIME, "a time", "8 h"),
    usual(Dimension::CURRENT, "a current", "15 A"),
    usual(Dimension::TEMPERATURE, "a temperature", "40 °F"),
    usual(Dimension::ANGLE, "an angle", "75 °"),
    usual(Dimension::MONEY, "a price", "$1,500"),
    usual(Dimension::FORCE, "a force", "500 lbf"),
    usual(Dimension::ENERGY, "an energy or torque", "600 Wh"),
    usual(Dimension::PRESSURE, "a pressure", "11 inH2O"),
    usual(Dimension::POWER, "a power", "1500 W"),
    usual(Dimension::CHARGE, "a charge", "56 Ah"),
    usual(Dimension::VOLTAGE, "a voltage", "12.8 V"),
    usual(Dimension::RESISTANCE, "a resistance", "20 mΩ"),
    usual(Dimension::SPEED, "a speed", "55 mph"),
    usual(Dimension::ACCELERATION, "an acceleration", "4 m/s²"),
    usual(Dimension::FLOW, "a flow", "30 cfm"),
    usual(Dimension::DENSITY, "a density", "8.34 lb/gal"),
    usual(Dimension::MOMENT, "a moment", "4200 lb·in"),
    usual(Dimension::FREQUENCY, "a rate", "60 Hz"),
    usual(Dimension::MASS.over(Dimension::AREA), "a mass per area", "2.5 lb/ft²"),
    usual(Dimension::MASS.over(Dimension::LENGTH), "a mass per length", "1.8 lb/ft"),
    usual(Dimension::MASS.over(Dimension::TIME), "a mass per time", "0.5 lb/h"),
    usual(Dimension::FORCE.over(Dimension::LENGTH), "a spring rate", "200 lbf/in"),
    usual(Dimension::RESISTANCE.over(Dimension::LENGTH), "a resistance per length", "1.6 mΩ/ft"),
    usual(Dimension::ENERGY.over(Dimension::MASS), "an energy per mass", "21,548 Btu/lb"),
    usual(Dimension::AREA.times(Dimension::AREA), "a second moment of area", "0.33 in⁴"),
    usual(Dimension::MOMENT.times(Dimension::LENGTH), "a moment of inertia", "1500 kg·m²"),
    usual(Dimension::FORCE.over(Dimension::ANGLE), "a force per angle", "80,000 N/rad"),
    usual(Dimension::NONE.over(Dimension::ANGLE), "a share per angle", "8.5 /rad"),
];

/// Two quantities that measure different things were added or compared.
///
/// ```
/// use pintle_quantity::Quantity;
///
/// let mismatch = Quantity::pounds(5.0).try_add(Quantity::inches(5.0)).unwrap_err();
/// assert_eq!(mismatch.to_string(), "a mass and a length cannot be added or compared");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("{} and {} cannot be added or compared", left.noun(), right.noun())]
pub struct DimensionMismatch {
    /// What the left-hand quantity measures.
    pub left: Dimension,
    /// What the right-hand quantity measures.
    pub right: Dimension,
}

#[cfg(test)]
mod tests;
