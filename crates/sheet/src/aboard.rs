//! What a build has, by the words that checks are asked of: so that a sheet asks for no gas test where there is no gas.

use pintle_finding::Stage;
use pintle_spec::record::Record;
use pintle_spec::schema::kinds::{appliance, battery, equipment, opening};
use pintle_spec::schema::trailer::brakes;
use pintle_spec::schema::{electric, record, tow, trailer};
use pintle_spec::{Build, Item, Table, Zone};

/// What a build has. Nothing that is not stated counts as absent where it may well be there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Aboard<'b> {
    build: &'b Build,
}

impl<'b> Aboard<'b> {
    pub(crate) fn of(build: &'b Build) -> Self {
        Self { build }
    }

    /// Whether the build has what a word stands for; nothing for a word that is none of [`pintle_finding::ASKED_OF`].
    pub(crate) fn has(self, word: &str) -> Option<bool> {
        Some(match word {
            "brakes" => self.brakes(),
            "breakaway" => self.breakaway(),
            "spring bars" => self.spring_bars(),
            "removable" => self.build.items.iter().any(|item| item.removable && item.table != Table::Load),
            "roof" => self.build.items.iter().any(|item| matches!(item.zone, Zone::Roof | Zone::Rack(_))),
            "gas" => self.gas(),
            "gas appliance" => self.appliance(|record| burns(record, &["propane", "butane"])),
            "flame inside" => self.appliance(|record| is(record, &appliance::USED, "inside")),
            "diesel" => self.appliance(|record| burns(record, &["diesel", "petrol"])),
            "engine" => self.build.items.iter().any(|item| item.record.word(&equipment::ENGINE).is_some()),
            "lithium battery" => self
                .of_kind("battery")
                .any(|item| is(&item.record, &battery::CHEMISTRY, "lithium iron phosphate")),
            "mains" => self.mains(),
            "door" => self.opening(&["door", "barn doors"]),
            "ramp" => self.opening(&["ramp"]),
            "window" => self.opening(&["window"]),
            "hatch" => self.opening(&["hatch"]),
            "bar lock" => self.of_kind("opening").any(|item| {
                item.record
                    .word(&opening::OUTSIDE_LOCK)
                    .is_some_and(|word| matches!(word.value, "bar" | "hasp"))
            }),
            "change" => self.changed(),
            "module" | "rack" | "tent" | "ladder" | "cylinder" | "battery" | "inverter" | "charger"
            | "solar" | "tank" | "berth" | "locker" | "bulkhead" | "vent" | "alarm" | "extinguisher"
            | "load" => self.of_kind(word).next().is_some(),
            _ => return None,
        })
    }

    /// Whether it has any of several; always where none is named.
    pub(crate) fn any(self, words: &[String]) -> bool {
        words.is_empty() || words.iter().any(|word| self.has(word).unwrap_or(true))
    }

    fn of_kind(self, kind: &str) -> impl Iterator<Item = &'b Item> {
        self.build.items.iter().filter(move |item| item.kind == kind)
    }

    fn appliance(self, wanted: impl Fn(&Record) -> bool) -> bool {
        self.of_kind("appliance").any(|item| wanted(&item.record))
    }

    fn opening(self, sorts: &[&str]) -> bool {
        self.of_kind("opening")
            .any(|item| item.record.word(&opening::SORT).is_none_or(|sort| sorts.contains(&sort.value)))
    }

    /// Whether its brakes are to be tried: also where nobody said whether it has any.
    pub(crate) fn brakes(self) -> bool {
        let brakes = self.build.trailer.table(&trailer::BRAKES);
        brakes.and_then(|brakes| brakes.word(&brakes::KIND)).is_none_or(|kind| kind.value != "none")
    }

    fn breakaway(self) -> bool {
        let brakes = self.build.trailer.table(&trailer::BRAKES);
        self.brakes()
            && brakes.and_then(|brakes| brakes.flag(&brakes::BREAKAWAY)).is_none_or(|flag| flag.value)
    }

    fn spring_bars(self) -> bool {
        let hitch = self.build.tow.as_ref().and_then(|tow| tow.table(&tow::HITCH));
        let fitted = hitch.and_then(|hitch| hitch.word(&tow::hitch::FITTED));
        fitted.is_some_and(|fitted| fitted.value == "distributing")
    }

    /// Whether there is gas: a cylinder, a line, or something that burns it.
    pub(crate) fn gas(self) -> bool {
        self.build.gas.is_some()
            || self.of_kind("cylinder").next().is_some()
            || self.appliance(|record| burns(record, &["propane", "butane"]))
    }

    /// Whether it can be plugged into the mains.
    pub(crate) fn mains(self) -> bool {
        self.build.electric.as_ref().is_some_and(|electric| electric.table(&electric::MAINS).is_some())
    }

    /// Whether there is anything on 12 volts.
    pub(crate) fn low_voltage(self) -> bool {
        self.build.electric.is_some() || self.of_kind("battery").next().is_some()
    }

    /// Whether it came back, or something was changed after it was handed over.
    pub(crate) fn changed(self) -> bool {
        let record = self.build.record.as_ref();
        self.build.stage.value >= Stage::Service
            || record.is_some_and(|found| !found.tables(&record::CHANGES).is_empty())
    }
}

/// Whether a word is given and is this; also where it is not given: then it may well be.
fn is(record: &Record, field: &'static pintle_spec::field::Field, word: &str) -> bool {
    record.word(field).is_none_or(|found| found.value == word)
}

fn burns(record: &Record, fuels: &[&str]) -> bool {
    record.word(&appliance::FUEL).is_none_or(|fuel| fuels.contains(&fuel.value))
}

/// Where a part's bolts are drawn up: on the roof, or not.
pub(crate) fn is_on_roof(item: &Item) -> bool {
    matches!(item.zone, Zone::Roof | Zone::Rack(_) | Zone::Tent(_)) || matches!(item.kind, "rack" | "tent")
}
