//! The chain that holds a part, link by link: bolts, fittings, straps, track, its fasteners, and what they are fixed to.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::field::Field;
use pintle_spec::schema::anchors::{self, bolt, strap, strength, track};
use pintle_spec::schema::assume;
use pintle_spec::{Known, Missing, Record};

use super::bolts::{Sourced, Steel, Thread, steel};
use super::forces::{Against, HALF_COUNTED};
use super::held::{Held, gravity, lesser};
use super::tiedowns::{Tiedown, working_pounds};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::working::Work;

/// One link of the chain, with what all pieces of it hold together.
pub(super) struct Link {
    pub(super) name: &'static str,
    pub(super) holds: Figure,
}

/// A load rating as a force.
pub(super) fn force(mass: &Figure) -> Figure {
    mass.times(&gravity()).shown_in("lbf")
}

/// A whole number as a figure.
pub(super) fn number(count: f64) -> Figure {
    Figure::constant(Quantity::from_si(count, Dimension::NONE))
}

const WEAKEST: &str = "49 CFR 393.108(a): the lowest of any component or anchor";

/// The load that a record states, as a force. Where only the breaking load is given, the working load limit is a share of it.
pub(super) fn rating(
    work: &mut Work,
    case: &Case<'_>,
    record: &Record,
    [breaking, working]: [&'static Field; 2],
    (symbol, what): (&'static str, &'static str),
    against: Against,
) -> Known<Figure> {
    let straight = match against {
        Against::Breaking => Some(given(record, breaking)?),
        Against::Working if record.value(working.key).is_some() => Some(given(record, working)?),
        Against::Working => None,
    };
    let what = format!("{} of {what}", against.word());
    if let Some(mass) = straight {
        return work.take(symbol, what, Ok(force(&mass)));
    }
    let Ok(mass) = given(record, breaking) else { return Err(record.missing(working)) };
    let broken = work.take("B", format!("{} of it", Against::Breaking.word()), Ok(force(&mass)))?;
    let share = work.assume("k", case, &assume::ANCHOR, &assume::anchor::WORKING_SHARE)?;
    let limit = Ok(broken.times(&share).shown_in("lbf"));
    work.step(symbol, what, "k · B", limit, Origin::practice("where only the breaking load is known"))
}

/// The bolts of a part.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bolts {
    pub(super) thread: Thread,
    pub(super) steel: Steel,
    pub(super) sourced: Sourced,
    pub(super) count: f64,
    in_shank: bool,
}

impl Bolts {
    /// The bolts that an `anchors` table states; none where it states none.
    pub(super) fn of(held: &Held<'_>) -> Known<Option<Self>> {
        let anchors = held.anchors()?;
        let Some(record) = anchors.table(&anchors::BOLT) else { return Ok(None) };
        let unread = |field: &Field, help: &str| {
            let span = record.value(field.key).map_or(record.span, |value| value.span);
            Missing::new(format!("`{}` of {} that is known", field.key, record.what), Some(span), help)
        };
        let size = record.text(&bolt::SIZE).ok_or_else(|| record.missing(&bolt::SIZE))?;
        let thread = Thread::parse(size.value).ok_or_else(|| {
            unread(
                &bolt::SIZE,
                "write it as diameter and threads to the inch, `3/8-16`, or as `M10` or `M10x1.25`",
            )
        })?;
        let grade = record.need_word(&bolt::GRADE)?;
        let (steel, sourced) = steel(grade.value, thread.d)
            .ok_or_else(|| unread(&bolt::GRADE, "its standard has no bolts of this grade so thick"))?;
        let count = match record.count(&bolt::COUNT) {
            Some(count) => f64::from(count.value),
            None => anchor_count(held)?,
        };
        let in_shank = record.word(&bolt::SHEARED).is_some_and(|word| word.value == "shank");
        Ok(Some(Self { thread, steel, sourced, count, in_shank }))
    }

    pub(super) fn origin(&self) -> Origin {
        match self.sourced {
            Sourced::J429 => Origin::published("SAE J429, quoted on china-bolts.com (seen)"),
            Sourced::Iso898 => Origin::published("ISO 898-1, quoted on vibromera.eu and mem50212.com (seen)"),
            Sourced::A307 => Origin::memory("ASTM A307 grade A"),
        }
    }

    /// Notes the tensile stress area.
    pub(super) fn stress_area(&self, work: &mut Work) -> Figure {
        let length = |metres: f64| Figure::constant(Quantity::from_si(metres, Dimension::LENGTH));
        let unit = if self.thread.inch { "in" } else { "mm" };
        work.know("d", "diameter of the bolt", length(self.thread.d).shown_in(unit), Origin::WRITTEN);
        work.know("p", "pitch of its thread", length(self.thread.p).shown_in(unit), Origin::WRITTEN);
        let area = Figure::constant(Quantity::from_si(self.thread.stress_area(), Dimension::AREA));
        let area = area.shown_in(if self.thread.inch { "in²" } else { "mm²" });
        let (formula, source) = if self.thread.inch {
            ("π/4 · (d − 0.9743 p)²", "stress area of inch threads, ASME B1.1")
        } else {
            ("π/4 · (d − 0.9382 p)²", "stress area of metric threads, ISO 898-1")
        };
        let step = work.step("At", "its stress area", formula, Ok(area.clone()), Origin::memory(source));
        step.unwrap_or(area)
    }

    fn stress(&self, pascals: f64) -> Figure {
        let figure = Figure::constant(Quantity::from_si(pascals, Dimension::PRESSURE));
        figure.shown_in(if self.thread.inch { "psi" } else { "MPa" })
    }

    fn shown(&self, figure: &Figure) -> Figure {
        figure.shown_in(if self.thread.inch { "lbf" } else { "kN" })
    }

    /// Notes the pull that one bolt springs back from.
    pub(super) fn proof(&self, work: &mut Work) -> Known<Figure> {
        let area = self.stress_area(work);
        let Some(proof) = self.steel.proof else {
            return Err(Missing::new(
                "a proof load of bolts of grade A307",
                None,
                "their standard has none: take bolts of SAE grade 2 or better",
            ));
        };
        let stress = work.know("Sp", "proof stress of the grade", self.stress(proof), self.origin());
        let load = Ok(self.shown(&stress.times(&area)));
        work.step("Fp", "proof load of one bolt", "Sp · At", load, Origin::derived("stress times area"))
    }

    /// Notes the pull that one bolt breaks at.
    pub(super) fn tension(&self, work: &mut Work) -> Known<Figure> {
        let area = self.stress_area(work);
        let stress =
            work.know("Su", "tensile strength of the grade", self.stress(self.steel.tensile), self.origin());
        let load = Ok(self.shown(&stress.times(&area)));
        work.step("T", "pull that breaks one bolt", "Su · At", load, Origin::derived("stress times area"))
    }

    /// Notes the shear that one bolt breaks at.
    pub(super) fn shear(&self, work: &mut Work, case: &Case<'_>) -> Known<Figure> {
        let mut area = self.stress_area(work);
        if self.in_shank {
            let shank = Figure::constant(Quantity::from_si(self.thread.shank_area(), Dimension::AREA));
            let shank = Ok(shank.shown_in(if self.thread.inch { "in²" } else { "mm²" }));
            area = work.step(
                "At",
                "area of its shank, where it is sheared",
                "π/4 · d²",
                shank,
                Origin::derived("circle"),
            )?;
        }
        let stress =
            work.know("Su", "tensile strength of the grade", self.stress(self.steel.tensile), self.origin());
        let share = work.assume("q", case, &assume::ANCHOR, &assume::anchor::SHEAR_SHARE)?;
        let load = Ok(self.shown(&stress.times(&area).times(&share)));
        work.step(
            "V",
            "shear that breaks one bolt",
            "q · Su · At",
            load,
            Origin::derived("stress times area"),
        )
    }

    /// Notes what one bolt may carry in shear or pull: it breaks at that, or a share of it is its working load limit.
    pub(super) fn may(
        &self,
        work: &mut Work,
        case: &Case<'_>,
        breaks: Figure,
        against: Against,
    ) -> Known<Figure> {
        if against == Against::Breaking {
            return Ok(breaks);
        }
        let share = work.assume("k", case, &assume::ANCHOR, &assume::anchor::WORKING_SHARE)?;
        let limit = Ok(self.shown(&share.times(&breaks)));
        work.step(
            "w",
            "working load limit of one bolt",
            "k · breaking load",
            limit,
            Origin::practice("bolts have none of their own"),
        )
    }
}

fn straps(anchors: &Record) -> &[Record] {
    anchors.tables(&anchors::STRAPS)
}

/// How many anchors, tie-downs or bolts hold a part.
pub(super) fn anchor_count(held: &Held<'_>) -> Known<f64> {
    let anchors = held.anchors()?;
    let strapped: u32 =
        straps(anchors).iter().filter_map(|strap| strap.count(&strap::COUNT)).map(|count| count.value).sum();
    let bolted = anchors.table(&anchors::BOLT).and_then(|bolt| bolt.count(&bolt::COUNT));
    match (strapped, anchors.count(&anchors::COUNT), bolted) {
        (1.., _, _) => Ok(f64::from(strapped)),
        (0, Some(count), _) | (0, None, Some(count)) => Ok(f64::from(count.value)),
        (0, None, None) => Err(anchors.missing(&anchors::COUNT)),
    }
}

/// Notes what one strap may carry, as a force.
fn strap_load(work: &mut Work, case: &Case<'_>, record: &Record, against: Against) -> Known<Figure> {
    let names = ("s", "one strap");
    let fields: [&'static Field; 2] = [&strap::BREAKING, &strap::WORKING];
    let marked = record.value(strap::WORKING.key).is_some() || record.value(strap::SIZE.key).is_none();
    if against == Against::Breaking || marked {
        return rating(work, case, record, fields, names, against);
    }
    let si = |field| record.quantity(field).map(|length| length.value.si());
    let tiedown = Tiedown {
        sort: record.need_word(&strap::SORT)?.value,
        size: record.need(&strap::SIZE)?.value.si(),
        thickness: si(&strap::THICKNESS),
        grade: record.word(&strap::GRADE).map(|word| word.value),
        made_of: record.word(&strap::MADE_OF).map(|word| word.value),
    };
    let pounds = working_pounds(tiedown).ok_or_else(|| {
        let span = record.value(strap::SIZE.key).map(|value| value.span);
        let help = "the table has no such size: give `working`, as marked on it";
        Missing::new(format!("`working` of {}", record.what), span, help)
    })?;
    let limit = force(&Figure::constant(Quantity::pounds(pounds)));
    let origin = Origin::published("49 CFR 393.108, tables, for what is not marked");
    Ok(work.know("s", "working load limit of one strap", limit, origin))
}

fn total(
    work: &mut Work,
    symbol: &'static str,
    what: &'static str,
    (count, each): (f64, &Figure),
) -> Known<Figure> {
    let n = work.know("n", format!("how many carry {what}"), number(count), Origin::WRITTEN);
    let all = Ok(n.times(each).shown_in("lbf"));
    work.step(
        symbol,
        format!("{what}, all together"),
        "n · one of them",
        all,
        Origin::derived("shared evenly"),
    )
}

/// Every link of the chain that holds a part, each with its steps.
pub(super) fn links(work: &mut Work, case: &Case<'_>, held: &Held<'_>, against: Against) -> Known<Vec<Link>> {
    let anchors = held.anchors()?;
    let mut links = Vec::new();
    let mut push = |name, holds| links.push(Link { name, holds });
    let bolts = Bolts::of(held)?;
    let each = anchors.table(&anchors::EACH);
    let tied = straps(anchors);
    let track = anchors.table(&anchors::TRACK);
    if bolts.is_none() && each.is_none() {
        let (what, told) = if tied.is_empty() {
            (
                "`bolt`, `each` or `straps` of",
                "say what holds it: the size and grade of its bolts, or what each anchor may carry",
            )
        } else {
            ("`each` of", "say what each ring or fitting that a strap hooks into may carry")
        };
        return Err(Missing::new(format!("{what} {}", anchors.what), Some(anchors.span), told));
    }
    let count = anchor_count(held)?;
    if let Some(bolts) = bolts {
        let breaks = bolts.shear(work, case)?;
        let one = bolts.may(work, case, breaks, against)?;
        push("bolts", total(work, "F₁", "the bolts", (bolts.count, &one))?);
    }
    let strengths: [&'static Field; 2] = [&strength::BREAKING, &strength::WORKING];
    if let Some(record) = each {
        let one = rating(work, case, record, strengths, ("f", "each anchor or fitting"), against)?;
        push("fittings", total(work, "F₂", "the fittings", (count, &one))?);
    }
    if !tied.is_empty() {
        let mut all = Vec::new();
        for record in tied {
            let one = strap_load(work, case, record, against)?;
            let number = f64::from(record.need_count(&strap::COUNT)?.value);
            all.push(total(work, "F₃", "the straps", (number, &one))?);
        }
        push("straps", sum(Dimension::FORCE, all)?.shown_in("lbf"));
    }
    if let Some(record) = track {
        let fields: [&'static Field; 2] = [&track::BREAKING, &track::WORKING];
        let one = rating(work, case, record, fields, ("f", "the track at each fitting"), against)?;
        push("track", total(work, "F₄", "the track", (count, &one))?);
        let fastener = record.need_table(&track::FASTENER)?;
        let one = rating(work, case, fastener, strengths, ("f", "each fastener of the track"), against)?;
        let number = f64::from(record.need_count(&track::FASTENERS)?.value);
        push("fasteners of the track", total(work, "F₅", "the fasteners of the track", (number, &one))?);
    }
    let into = anchors.need_word(&anchors::FIXED_TO)?;
    match anchors.table(&anchors::MEMBER) {
        Some(record) => {
            let one = rating(work, case, record, strengths, ("f", "what it is fixed to"), against)?;
            push("what it is fixed to", total(work, "F₆", "what it is fixed to", (count, &one))?);
        }
        None if matches!(into.value, "plywood" | "skin") && track.is_none() => {
            return Err(Missing::new(
                format!("`member` of {}", anchors.what),
                Some(into.span),
                format!(
                    "say what {} holds at each anchor, from a test or from a maker, or fix it to the frame",
                    into.value
                ),
            ));
        }
        None => {}
    }
    Ok(links)
}

/// The link that holds least.
pub(super) fn weakest(work: &mut Work, links: Vec<Link>, against: Against) -> Known<Link> {
    let mut all = links.into_iter();
    let Some(first) = all.next() else {
        return Err(Missing::new("anything that holds the part", None, "say how it is held"));
    };
    let mut least = first;
    for link in all {
        let name = if link.holds.quantity.si() < least.holds.quantity.si() { link.name } else { least.name };
        least = Link { name, holds: lesser(&least.holds, &link.holds)? };
    }
    let what = format!("{} of the weakest link, {}", against.word(), least.name);
    work.step("F", what, "least of F₁ …", Ok(least.holds.clone()), Origin::published(WEAKEST))?;
    Ok(least)
}

/// Working load limit of all tie-downs as 49 CFR 393.106(d) counts it: half of what goes from the vehicle to the part, all of what
/// goes over it to the other side.
pub(super) fn aggregate(work: &mut Work, case: &Case<'_>, held: &Held<'_>) -> Known<Figure> {
    const COUNTED: &str = "49 CFR 393.106(d): half of what goes from the vehicle to the part or to the same side, all of what goes across";
    let anchors = held.anchors()?;
    let half = work.know(
        "h",
        "share that counts from vehicle to part",
        Figure::constant(Quantity::share(HALF_COUNTED)),
        Origin::published(COUNTED),
    );
    if straps(anchors).is_empty() {
        let all = links(work, case, held, Against::Working)?;
        let least = weakest(work, all, Against::Working)?;
        let counted = Ok(least.holds.times(&half).shown_in("lbf"));
        return work.step(
            "A",
            "working load limit as it counts",
            "h · F",
            counted,
            Origin::published(COUNTED),
        );
    }
    // The chain is known as a whole before it is taken apart strap by strap.
    links(&mut Work::default(), case, held, Against::Working)?;
    let strengths: [&'static Field; 2] = [&strength::BREAKING, &strength::WORKING];
    let tracked: [&'static Field; 2] = [&track::BREAKING, &track::WORKING];
    let mut ends = Vec::new();
    for (field, fields, what) in [
        (&anchors::EACH, strengths, "each anchor or fitting"),
        (&anchors::TRACK, tracked, "the track at each fitting"),
        (&anchors::MEMBER, strengths, "what it is fixed to"),
    ] {
        if let Some(record) = anchors.table(field) {
            ends.push(rating(work, case, record, fields, ("f", what), Against::Working)?);
        }
    }
    let mut all = Vec::new();
    for record in straps(anchors) {
        let mut one = strap_load(work, case, record, Against::Working)?;
        for end in &ends {
            one = lesser(&one, end)?;
        }
        one = work.step(
            "s",
            "one strap with its anchors",
            "least of s and f",
            Ok(one),
            Origin::published(WEAKEST),
        )?;
        let across = record.word(&strap::RUNS).is_some_and(|word| word.value == "across");
        let count = f64::from(record.need_count(&strap::COUNT)?.value);
        let n = work.know("n", "how many", number(count), Origin::WRITTEN);
        let whole = n.times(&one);
        let (formula, counted) = if across { ("n · s", whole) } else { ("h · n · s", whole.times(&half)) };
        all.push(work.step(
            "Aᵢ",
            "as they count",
            formula,
            Ok(counted.shown_in("lbf")),
            Origin::published(COUNTED),
        )?);
    }
    let all = sum(Dimension::FORCE, all)?.shown_in("lbf");
    work.step("A", "working load limit as it counts", "Σ Aᵢ", Ok(all), Origin::published(COUNTED))
}
