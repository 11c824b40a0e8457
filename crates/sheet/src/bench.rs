//! A small trailer of an invented shop for the tests, and what a sheet needs besides it. No part or figure is a real one.

use jiff::civil::{Date, date};
use pintle_calc::case::Case;
use pintle_calc::uncertainty::Tolerances;
use pintle_calc::{Assumptions, Known, Places};
use pintle_finding::{Grade, Inspection};
use pintle_quantity::Quantity;
use pintle_report::Look;
use pintle_report::weights::{Band, Limit, Terms};
use pintle_source::Sources;
use pintle_spec::{Build, Stock, read_build};

use crate::Sheet;
use crate::in_force::InForce;

/// A trailer with one of each: gas, mains, an alarm, a tank, a berth, a rack, what is taken out.
pub(crate) const SPEC: &str = r#"
[build]
number = "T-1"
title  = "an invented trailer"
stage  = "delivery"
sale   = "used"

[trailer]
mass = "1000 lb"
mass_basis = "weighed"
gvwr = "2990 lb"
ball_to_box = "40 in"
length = "120 in"
width = "70 in"
height = "70 in"
wall = "1 in"
roof = "1 in"
floor_height = "18 in"
cg = { ball = "90 in", centre = "0 in", ground = "30 in" }
axle = { ball = "100 in", count = 1, gawr = "3500 lb", track = "80 in" }
tire = { rating = "1760 lb", made_for = "trailers", count = 2 }
nose = { shape = "flat" }
brakes = { kind = "electric", axles = 1, breakaway = true, battery = "5 Ah" }
coupler = { ball = "2 in", rating = "3500 lb", tongue_rating = "350 lb" }
lamps = ["tail", "stop", "turn", "plate"]

[[item]]
tag = "galley"
kind = "module"
mass = "200 lb"
length = "20 in"
width = "40 in"
height = "36 in"
at = { front = "10 in", left = "0 in", floor = "0 in" }
removable = true

[[item]]
tag = "cylinder"
kind = "cylinder"
fuel = "propane"
zone = "tongue"
mass = "25 lb"
length = "12 in"
width = "12 in"
height = "18 in"
at = { ball = "20 in", centre = "0 in" }

[[item]]
tag = "alarm"
kind = "alarm"
mass = "1 lb"
length = "4 in"
width = "2 in"
height = "4 in"
senses = ["propane"]
at = { front = "60 in", left = "0 in", floor = "4 in" }

[[item]]
tag = "rack"
kind = "rack"
zone = "roof"
mass = "40 lb"
length = "60 in"
width = "60 in"
height = "4 in"
at = { front = "20 in", centre = "0 in" }

[[tank]]
tag = "fresh"
holds = "fresh"
capacity = "6 gal"
mass = "5 lb"
length = "20 in"
width = "12 in"
height = "12 in"
at = { front = "50 in", right = "0 in", floor = "0 in" }

[[berth]]
tag = "bed"
people = 2
mass = "20 lb"
length = "54 in"
width = "60 in"
height = "4 in"
at = { rear = "0 in", centre = "0 in", floor = "14 in" }

[[opening]]
tag = "rear-doors"
zone = "rear door"
sort = "barn doors"
width = "60 in"
height = "60 in"
exit = true
inside_release = true
outside_lock = "bar"
at = { centre = "0 in", floor = "0 in" }

[[load]]
tag = "bags"
mass = "90 lb"
least = "0 lb"
at = { front = "30 in", centre = "0 in", floor = "4 in" }

[electric]
disconnect = true

[electric.mains]
voltage = "120 V"
outlet = [{ name = "by the door", gfci = true }]

[[state]]
name = "outward"
use = "road"
fill = { fresh = "100 %" }
carry = { bags = "90 lb" }
"#;

/// A build and all that its sheet needs.
pub(crate) struct Bench {
    pub(crate) sources: Sources,
    pub(crate) build: Build,
    pub(crate) inspection: Inspection,
    pub(crate) rulebook: Option<Inspection>,
    pub(crate) in_force: InForce,
    pub(crate) shop: Option<String>,
    pub(crate) day: Date,
}

impl Bench {
    /// The build of a spec that must be free of problems.
    pub(crate) fn of(spec: &str) -> Self {
        let mut sources = Sources::new();
        let file = sources.add("t-1.toml", spec);
        let mut problems = Vec::new();
        let build = read_build(&sources, file, &Stock::default(), &mut problems);
        assert!(problems.is_empty(), "{problems:#?}\n{spec}");
        Self {
            sources,
            build: build.expect("a build"),
            inspection: Inspection {
                spec: "t-1.toml".to_owned(),
                number: "T-1".to_owned(),
                ..Inspection::default()
            },
            rulebook: None,
            in_force: InForce::default(),
            shop: None,
            day: date(2026, 11, 26),
        }
    }

    /// The build of the usual spec with something of it written otherwise.
    pub(crate) fn with(changes: &[(&str, &str)]) -> Self {
        let mut spec = SPEC.to_owned();
        for (was, now) in changes {
            assert!(spec.contains(was), "{was} is not in the spec");
            spec = spec.replace(was, now);
        }
        Self::of(&spec)
    }

    /// The usual spec with a record.
    pub(crate) fn recorded(record: &str) -> Self {
        Self::of(&format!("{SPEC}\n{record}"))
    }

    /// What is made of its sheet.
    pub(crate) fn sheet<R>(&self, made: impl FnOnce(&Sheet<'_>) -> R) -> R {
        let (assumptions, places, tolerances) =
            (Assumptions::default(), Places::default(), Tolerances::default());
        let limit = |rule: &str, share| Limit { rule: rule.to_owned(), share: Quantity::share(share) };
        let band: Known<Band> =
            Ok(Band { least: limit("towing/light-tongue", 0.10), most: limit("towing/heavy-tongue", 0.15) });
        made(&Sheet {
            build: &self.build,
            inspection: &self.inspection,
            rulebook: self.rulebook.as_ref(),
            in_force: &self.in_force,
            sources: &self.sources,
            case: Case { build: &self.build, assumptions: &assumptions, places: &places },
            terms: Terms { look: Look::default(), tolerances: &tolerances, band: &band },
            shop: self.shop.as_deref(),
            hold: Grade::Major,
            rules: 0,
            day: self.day,
        })
    }
}
