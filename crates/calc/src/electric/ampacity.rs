//! How much current a wire may carry: the tables, and what warmth and company take off.

use super::wire::{CIRCULAR_MIL, awg_mils};

/// A table that ampacities are read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// The 60 °C column of NEC table 310.16.
    Nec60,
    /// Its 75 °C column.
    Nec75,
    /// Its 90 °C column.
    Nec90,
    /// The 105 °C column that boat builders use.
    Boat105,
}

impl Table {
    /// The table for a word of [`circuit::INSULATIONS`](pintle_spec::schema::electric::circuit::INSULATIONS).
    #[must_use]
    pub fn of(insulation: &str) -> Option<Self> {
        Some(match insulation {
            "60 °C" => Self::Nec60,
            "75 °C" => Self::Nec75,
            "90 °C" => Self::Nec90,
            "105 °C" => Self::Boat105,
            _ => return None,
        })
    }

    /// Where its figures come from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Nec60 => "NEC 2023 table 310.16, copper, 60 °C column, as quoted on intrysys.com (seen)",
            Self::Nec75 => "NEC 2023 table 310.16, copper, 75 °C column, as quoted on intrysys.com (seen)",
            Self::Nec90 => "NEC 2023 table 310.16, copper, 90 °C column, as quoted on intrysys.com (seen)",
            Self::Boat105 => {
                "ABYC-style column for 105 °C insulation outside engine spaces, as commonly published (seen in public code)"
            }
        }
    }

    /// What its insulation stands, in K.
    #[must_use]
    pub const fn insulation(self) -> f64 {
        match self {
            Self::Nec60 => 333.15,
            Self::Nec75 => 348.15,
            Self::Nec90 => 363.15,
            Self::Boat105 => 378.15,
        }
    }

    /// The air that it holds in, in K: 30 °C.
    pub const HOLDS_AT: f64 = 303.15;
}

/// Gauges and what each column allows, in A; a dash of the table is none.
type Row = (i32, Option<f64>, Option<f64>, Option<f64>, f64);

/// NEC 2023 table 310.16 at 60, 75 and 90 °C, and the ABYC-style column at 105 °C.
const ROWS: &[Row] = &[
    (18, None, None, Some(14.0), 20.0),
    (16, None, None, Some(18.0), 25.0),
    (14, Some(15.0), Some(20.0), Some(25.0), 35.0),
    (12, Some(20.0), Some(25.0), Some(30.0), 45.0),
    (10, Some(30.0), Some(35.0), Some(40.0), 60.0),
    (8, Some(40.0), Some(50.0), Some(55.0), 80.0),
    (6, Some(55.0), Some(65.0), Some(75.0), 120.0),
    (4, Some(70.0), Some(85.0), Some(95.0), 160.0),
    (2, Some(95.0), Some(115.0), Some(130.0), 210.0),
    (0, Some(125.0), Some(150.0), Some(170.0), 285.0),
    (-1, Some(145.0), Some(175.0), Some(195.0), 330.0),
    (-3, Some(195.0), Some(230.0), Some(260.0), 445.0),
];

/// How much thinner than a row's gauge a wire may be and still count as that gauge.
const SAME: f64 = 1.0 - 1e-3;

/// The gauges of the tables, thinnest first; 1/0 to 4/0 are 0 to −3.
pub fn gauges() -> impl Iterator<Item = i32> {
    ROWS.iter().map(|row| row.0)
}

/// Section of a gauge by ASTM B258, in m².
#[must_use]
pub fn section(gauge: i32) -> f64 {
    awg_mils(f64::from(gauge)) * CIRCULAR_MIL
}

/// The thickest gauge of the tables that a section of `s` m² is no thinner than.
#[must_use]
pub fn row_of(s: f64) -> Option<i32> {
    gauges().filter(|gauge| s >= section(*gauge) * SAME).last()
}

/// What a table allows a wire of `s` m², in A, by the thickest gauge that the wire is no thinner than; none for a wire thinner than any
/// in the table.
///
/// ```
/// use pintle_calc::electric::ampacity::{Table, allowed, section};
///
/// assert_eq!(allowed(Table::Nec75, section(10)), Some(35.0));
/// assert_eq!(allowed(Table::Boat105, 6e-6), Some(60.0));   // 6 mm² lies between 10 and 8 AWG
/// assert_eq!(allowed(Table::Nec60, section(16)), None);
/// ```
#[must_use]
pub fn allowed(table: Table, s: f64) -> Option<f64> {
    let gauge = row_of(s)?;
    let (_, nec60, nec75, nec90, boat105) = ROWS.iter().find(|row| row.0 == gauge)?;
    match table {
        Table::Nec60 => *nec60,
        Table::Nec75 => *nec75,
        Table::Nec90 => *nec90,
        Table::Boat105 => Some(*boat105),
    }
}

/// What air of another warmth makes of an ampacity: `√((T_i − T_a)/(T_i − 30 °C))`, temperatures in K (the formula of NEC
/// 310.15(B)(2); the boat builders' 0.85 for engine spaces at 50 °C comes out of it). None where the air is as warm as the insulation
/// stands.
///
/// ```
/// use pintle_calc::electric::ampacity::warmth;
///
/// assert!((warmth(378.15, 323.15).unwrap() - 0.85).abs() < 0.01);
/// ```
#[must_use]
pub fn warmth(insulation: f64, ambient: f64) -> Option<f64> {
    let left = (insulation - ambient) / (insulation - Table::HOLDS_AT);
    (left > 0.0).then(|| left.sqrt())
}

/// What so many current-carrying wires in one bundle make of an ampacity.
///
/// For the NEC columns: table 310.15(C)(1), 4 to 6 80 %, 7 to 9 70 %, 10 to 20 50 %, 21 to 30 45 %, 31 to 40 40 %, more 35 %. For the 105 °C column the
/// boat builders' steps, 3 70 %, 4 to 6 60 %, 7 to 24 50 %, more 40 %: from memory of ABYC E-11.
#[must_use]
pub const fn company(table: Table, wires: u32) -> f64 {
    match table {
        Table::Boat105 => match wires {
            0..=2 => 1.0,
            3 => 0.7,
            4..=6 => 0.6,
            7..=24 => 0.5,
            _ => 0.4,
        },
        Table::Nec60 | Table::Nec75 | Table::Nec90 => match wires {
            0..=3 => 1.0,
            4..=6 => 0.8,
            7..=9 => 0.7,
            10..=20 => 0.5,
            21..=30 => 0.45,
            31..=40 => 0.4,
            _ => 0.35,
        },
    }
}

/// The greatest fuse before a thin wire of house wiring, in A: NEC 240.4(D). None for other gauges.
#[must_use]
pub fn small_wire_fuse(s: f64) -> Option<f64> {
    match row_of(s)? {
        14 => Some(15.0),
        12 => Some(20.0),
        10 => Some(30.0),
        _ => None,
    }
}

/// What a low-voltage wire of a recreational vehicle may carry, in A: from memory of NEC 552.10(E). None for other gauges.
#[must_use]
pub fn low_voltage(s: f64) -> Option<f64> {
    match row_of(s)? {
        18 => Some(6.0),
        16 => Some(8.0),
        14 => Some(15.0),
        12 => Some(20.0),
        10 => Some(30.0),
        _ => None,
    }
}

/// The thinnest gauge of the tables that carries `i` A with a share `left` of the table's ampacity, and has `least` m² or more of copper;
/// none where even 4/0 is not enough.
///
/// ```
/// use pintle_calc::electric::ampacity::{Table, smallest};
///
/// assert_eq!(smallest(Table::Boat105, 30.0, 1.0, 5e-6), Some(10));   // 14 AWG would carry it, and lose too much
/// ```
#[must_use]
pub fn smallest(table: Table, i: f64, left: f64, least: f64) -> Option<i32> {
    let enough = |gauge: &i32| {
        let s = section(*gauge);
        s >= least * (1.0 - 1e-9) && allowed(table, s).is_some_and(|most| most * left >= i * (1.0 - 1e-9))
    };
    gauges().find(enough)
}
