//! Lamps and reflectors: which a trailer needs, and where they may sit (49 CFR 571.108 Table I-b).

mod hidden;

pub use hidden::hidden_lamps;

use pintle_quantity::Quantity;
use pintle_spec::record::Record;
use pintle_spec::schema::trailer::{self, lamp};
use pintle_spec::{Build, Known, Missing};

use super::{overall_length, overall_width};
use crate::space::alike;

/// Width from which a trailer needs clearance and identification lamps, in inches: 49 CFR 571.108 Table I-b.
const WIDE: f64 = 80.0;
/// Width below which one of a pair of rear lamps is enough, in inches: the same.
const NARROW: f64 = 30.0;
/// Length from which a trailer needs front side markers, in feet: the same; the tongue is counted.
const NOT_SHORT: f64 = 6.0;
/// Length from which a trailer needs side markers at its middle, in feet: the same, "30 feet or longer". 49 CFR 393.11
/// says "more than"; the stricter is used.
const LONG: f64 = 30.0;
/// Between the middles of neighbouring identification lamps, in inches, at least and at most. S4 of 571.108 prints 15.2
/// and 30.4 mm beside 6 and 12 in in its definition: a misprint for 152 and 305 mm, as table 1 of 49 CFR 393.11 has them.
const APART: (f64, f64) = (6.0, 12.0);

/// Heights between which a lamp may sit, from the ground to its middle, in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LampBand {
    /// The least.
    pub lowest: Option<f64>,
    /// The most.
    pub highest: Option<f64>,
}

/// A lamp or reflector that a trailer needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RequiredLamp {
    /// Its name, one of [`trailer::LAMP_NAMES`].
    pub name: &'static str,
    /// Why it is needed.
    pub why: &'static str,
    /// How many.
    pub count: u32,
    /// The colours that it may have.
    pub colours: &'static [&'static str],
    /// Where it may sit; clearance and identification lamps sit as high as is practicable, with no figure.
    pub band: LampBand,
}

impl RequiredLamp {
    /// In one line, such as `2 tail, red, 15 to 72 in up`.
    pub fn line(&self) -> String {
        let height = match (self.band.lowest, self.band.highest) {
            (Some(lowest), Some(highest)) => format!(", {lowest} to {highest} in up"),
            (Some(lowest), None) => format!(", {lowest} in up or more"),
            _ => String::new(),
        };
        format!("{} {}, {}{height}", self.count, self.name, self.colours.join(" or "))
    }
}

/// The lamps and reflectors that 49 CFR 571.108 Table I-b asks of a trailer by its overall width and length, rigid
/// fenders and the tongue counted, each with its number, colours and band of heights. GVWR decides none of them; see
/// [`needs_tape`].
///
/// ```
/// use pintle_calc::road::required_lamps;
/// use pintle_quantity::Quantity;
///
/// let lamps = required_lamps(Quantity::inches(79.9), Quantity::feet(5.99))?;
/// let names: Vec<&str> = lamps.iter().map(|lamp| lamp.name).collect();
/// assert_eq!(names, [
///     "tail", "stop", "turn", "plate", "rear reflex", "rear side marker", "rear side reflex",
/// ]);
/// assert_eq!(lamps[0].line(), "2 tail, red, 15 to 72 in up");
/// # Ok::<(), pintle_spec::Missing>(())
/// ```
///
/// # Errors
/// A width or length that is no length.
pub fn required_lamps(width: Quantity, length: Quantity) -> Known<Vec<RequiredLamp>> {
    let wide = alike(width.at_least(Quantity::inches(WIDE)))?;
    let narrow = !alike(width.at_least(Quantity::inches(NARROW)))?;
    let not_short = alike(length.at_least(Quantity::feet(NOT_SHORT)))?;
    let long = alike(length.at_least(Quantity::feet(LONG)))?;
    let pair = if narrow { 1 } else { 2 };
    let every = "every trailer has it";
    let front = "the trailer is 6 ft long or longer";
    let middle = "the trailer is 30 ft long or longer";
    let over_wide = "the trailer is 80 in wide or wider";
    let (red, amber): (&[_], &[_]) = (&["red"], &["amber"]);
    let rear_marker = if wide { Some(60.0) } else { None };
    let row = |name, why, count, colours, lowest, highest| {
        let band = LampBand { lowest, highest };
        RequiredLamp { name, why, count, colours, band }
    };
    let table = [
        (true, row("tail", every, pair, red, Some(15.0), Some(72.0))),
        (true, row("stop", every, pair, red, Some(15.0), Some(72.0))),
        (true, row("turn", every, 2, &["red", "amber"], Some(15.0), Some(83.0))),
        (true, row("plate", every, 1, &["white"], None, None)),
        (true, row("rear reflex", every, pair, red, Some(15.0), Some(60.0))),
        (not_short, row("front side marker", front, 2, amber, Some(15.0), None)),
        (not_short, row("front side reflex", front, 2, amber, Some(15.0), Some(60.0))),
        (true, row("rear side marker", every, 2, red, Some(15.0), rear_marker)),
        (true, row("rear side reflex", every, 2, red, Some(15.0), Some(60.0))),
        (long, row("middle side marker", middle, 2, amber, Some(15.0), None)),
        (long, row("middle side reflex", middle, 2, amber, Some(15.0), Some(60.0))),
        (wide, row("front clearance", over_wide, 2, amber, None, None)),
        (wide, row("rear clearance", over_wide, 2, red, None, None)),
        (wide, row("rear identification", over_wide, 3, red, None, None)),
    ];
    Ok(table.into_iter().filter(|(asked, _)| *asked).map(|(_, lamp)| lamp).collect())
}

/// Whether a trailer needs conspicuity tape: 80 in wide or wider and a GVWR of more than 10,000 lb (49 CFR 393.11(b),
/// 571.108; not one that is only lived or worked in).
///
/// # Errors
/// A width that is no length, or a GVWR that is no mass.
pub fn needs_tape(width: Quantity, gvwr: Quantity) -> Known<bool> {
    let heavy = !alike(gvwr.at_most(Quantity::pounds(10_000.0)))?;
    Ok(alike(width.at_least(Quantity::inches(WIDE)))? && heavy)
}

/// The lamps that this build needs.
pub(super) fn required_of(build: &Build) -> Known<Vec<RequiredLamp>> {
    required_lamps(overall_width(build)?.quantity, overall_length(build)?.quantity)
}

/// What the spec says of one sort of lamp. Where `lamps` is given it says what is fitted, so that a spec that restates it
/// can leave out what a stock trailer has; `lamp` then only says where those lamps are.
struct Fitted<'b> {
    there: bool,
    tables: Vec<&'b Record>,
}

fn fitted<'b>(build: &'b Build, name: &str) -> Known<Fitted<'b>> {
    let words = build.trailer.words(&trailer::LAMPS);
    let tables = build.trailer.tables(&trailer::LAMP);
    if words.is_none() && tables.is_empty() {
        return Err(build.trailer.missing(&trailer::LAMPS));
    }
    let of_name = |table: &&Record| table.word(&lamp::NAME).is_some_and(|word| word.value == name);
    let tables: Vec<&Record> = tables.iter().filter(of_name).collect();
    let there = words.map_or(!tables.is_empty(), |words| words.iter().any(|word| word.value == name));
    Ok(Fitted { there, tables: if there { tables } else { Vec::new() } })
}

/// What must be written of a lamp that is only listed by its name.
fn untold(name: &str, build: &Build, what: &str) -> Missing {
    let span = build.trailer.value(trailer::LAMPS.key).map(|value| value.span);
    Missing::new(
        format!("{what} of the {name} lamps"),
        span,
        format!(
            "add a table to `lamp` of the trailer, such as `lamp = [{{ name = \"{name}\", count = 2, height = \"24 in\" }}]`"
        ),
    )
}

/// The lamps and reflectors that [`required_lamps`] asks for and `lamps` of the trailer does not list, or `lamp` where there
/// is no `lamps`.
///
/// # Errors
/// `lamps`, `overall_width`, or what [`overall_length`] needs, where it is not given.
pub fn missing_lamps(build: &Build) -> Known<Vec<&'static str>> {
    // That nothing is said of lamps goes before a size that is not given.
    fitted(build, "tail")?;
    let mut lacking = Vec::new();
    for lamp in required_of(build)? {
        if !fitted(build, lamp.name)?.there {
            lacking.push(lamp.name);
        }
    }
    Ok(lacking)
}

/// Of the required lamps that are fitted, those of which there are fewer than asked for.
///
/// # Errors
/// The number of a lamp that is fitted, and what [`missing_lamps`] needs.
pub fn lamps_too_few(build: &Build) -> Known<Vec<String>> {
    let mut few = Vec::new();
    for required in required_of(build)? {
        let fitted = fitted(build, required.name)?;
        if !fitted.there {
            continue;
        }
        let counts = fitted.tables.iter().map(|table| table.count(&lamp::COUNT));
        let count = counts.sum::<Option<CountOf>>().filter(|_| !fitted.tables.is_empty());
        let count = count.ok_or_else(|| untold(required.name, build, "the number"))?.0;
        if count < required.count {
            few.push(format!("{count} {} of {}", required.name, required.count));
        }
    }
    Ok(few)
}

/// A sum of counts.
struct CountOf(u32);

impl std::iter::Sum<pintle_spec::Spanned<u32>> for CountOf {
    fn sum<I: Iterator<Item = pintle_spec::Spanned<u32>>>(counts: I) -> Self {
        Self(counts.fold(0, |sum, count| sum.saturating_add(count.value)))
    }
}

/// Of the required lamps that are fitted, those of another colour than asked for.
///
/// # Errors
/// The colour of a lamp that is fitted, and what [`missing_lamps`] needs.
pub fn lamps_wrong_colour(build: &Build) -> Known<Vec<String>> {
    let mut wrong = Vec::new();
    for required in required_of(build)? {
        let fitted = fitted(build, required.name)?;
        if fitted.there && fitted.tables.is_empty() {
            return Err(untold(required.name, build, "the colour"));
        }
        for table in &fitted.tables {
            let colour = table.need_word(&lamp::COLOUR)?.value;
            if !required.colours.contains(&colour) {
                wrong.push(format!("{} is {colour}, not {}", required.name, required.colours.join(" or ")));
            }
        }
    }
    Ok(wrong)
}

/// Of the required lamps that are fitted, those outside their band of heights; and identification lamps that are nearer
/// to each other than 6 in or farther apart than 12 in.
///
/// # Errors
/// The height of a lamp that has a band, the distance between identification lamps, and what [`missing_lamps`] needs.
pub fn lamps_misplaced(build: &Build) -> Known<Vec<String>> {
    let mut off = Vec::new();
    for required in required_of(build)? {
        let fitted = fitted(build, required.name)?;
        let (name, LampBand { lowest, highest }) = (required.name, required.band);
        let row = name == "rear identification";
        let told = lowest.is_some() || highest.is_some() || row;
        if fitted.there && fitted.tables.is_empty() && told {
            return Err(untold(name, build, if row { "the distance apart" } else { "the height" }));
        }
        for table in &fitted.tables {
            if lowest.is_some() || highest.is_some() {
                let height = table.need(&lamp::HEIGHT)?.value;
                if lowest.is_some_and(|lowest| height.at_least(Quantity::inches(lowest)) == Ok(false)) {
                    off.push(format!("{name} below {} in", lowest.unwrap_or_default()));
                }
                if highest.is_some_and(|highest| height.at_most(Quantity::inches(highest)) == Ok(false)) {
                    off.push(format!("{name} above {} in", highest.unwrap_or_default()));
                }
            }
            if row {
                let apart = table.need(&lamp::APART)?.value;
                let (least, most) = (Quantity::inches(APART.0), Quantity::inches(APART.1));
                if !alike(apart.at_least(least))? || !alike(apart.at_most(most))? {
                    off.push(format!("{name} not {} to {} in apart", APART.0, APART.1));
                }
            }
        }
    }
    Ok(off)
}
