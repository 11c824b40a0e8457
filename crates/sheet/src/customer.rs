//! One page for the customer, in plain words: what may be loaded, what must never be done, when to weigh and to tighten.
//!
//! It fits one page of Letter and of A4. Nothing is promised that is not known: what is missing is said to be.

mod loading;
mod never;

use maud::{Markup, html};
use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::Unit;
use pintle_report::{Outcome, outcome};
use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::kinds::opening;
use pintle_spec::schema::record::{self, lugs, recheck};
use pintle_spec::schema::trailer;
use pintle_spec::schema::trailer::{brakes, coupler, tire};
use pintle_spec::{Item, Table};

use crate::aboard::Aboard;
use crate::markup::{capital, name, text};
use crate::worked::{Worked, about, plainly};
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let page = Page {
        sheet,
        aboard: Aboard::of(sheet.build),
        road: Worked::new(sheet, "road"),
        tow: Worked::new(sheet, "tow"),
    };
    let body = html! {
        p .whose {
            strong { (name(&sheet.build.number.value)) } " " (name(&sheet.build.title.value))
            @if let Some(shop) = sheet.shop { " · " (name(shop)) } " · " (sheet.day)
        }
        (page.released())
        (loading::loads(&page))
        div .columns {
            (loading::not_together(&page))
            (never::section(&page))
            (page.towing())
            (page.ways_out())
            (page.weigh_again())
            (page.tighten())
            (page.lasts())
            (Page::add())
        }
        p .small {
            "These figures are worked out. Your scale ticket comes before them. The law of the place, the makers' papers and the labels on the \
             trailer come before this page."
        }
    };
    html! { div .customer { (frame::section("customer", "For the customer", &body)) } }
}

/// What the parts of the page share.
struct Page<'s> {
    sheet: &'s Sheet<'s>,
    aboard: Aboard<'s>,
    road: Worked<'s>,
    tow: Worked<'s>,
}

/// A part's tag in plain words.
fn plain(tag: &str) -> String {
    name(&tag.replace(['-', '_'], " ")).into_owned()
}

/// A short row of names: `a, b and c`.
fn row(names: &[String]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A time that something lasts, in whole days or hours, never more than it is.
fn lasting(figures: &Worked<'_>, key: &'static str) -> Option<String> {
    let time = figures.quantity(key)?;
    let whole = |unit: &str| Unit::find(unit).and_then(|unit| time.value_in(unit).ok()).map(f64::floor);
    let (days, hours) = (whole("d")?, whole("h")?);
    Some(if days >= 2.0 { format!("{days:.0} days") } else { format!("{hours:.0} hours") })
}

/// Part of the page under a heading.
fn part(heading: &str, body: &Markup) -> Markup {
    html! { section .part { h3 { (heading) } (body) } }
}

impl Page<'_> {
    /// A trailer that is held is not to be used, whatever else the page says.
    fn released(&self) -> Markup {
        html! {
            @match outcome(std::slice::from_ref(self.sheet.inspection), self.sheet.hold) {
                Outcome::Released => {},
                Outcome::CannotJudge => p .stop {
                    strong { "Not released yet. " } "Something about this trailer is not known. Do not tow it or sleep in it until the shop says so."
                },
                Outcome::Held | Outcome::InputWrong => p .stop {
                    strong { "Not released. " } "Faults were found on this trailer. Do not tow it or sleep in it until the shop says so."
                },
            }
        }
    }

    /// A figure in plain words, or what is missing.
    fn known(&self, figure: &Known<Figure>) -> Result<String, String> {
        match figure {
            Ok(figure) => Ok(about(self.sheet, figure)),
            Err(missing) => Err(missing.what.clone()),
        }
    }

    /// The most or least of something over every arrangement on the road.
    fn extreme(&self, what: Extremum, end: End) -> Known<Figure> {
        let build = self.sheet.build;
        let state = Arrangements::of(build)?.extreme(what, end)?;
        let weights = Weights::of(build, &state);
        if what == Extremum::Gross { weights.gross() } else { weights.tongue() }
    }

    fn of_trailer(&self, table: &'static Field, field: &'static Field) -> Option<String> {
        let held = self.sheet.build.trailer.table(table).and_then(|held| held.quantity(field));
        held.map(|held| plainly(self.sheet, held.value))
    }

    fn towing(&self) -> Markup {
        let gross = self.known(&self.extreme(Extremum::Gross, End::Most));
        let tongue = self.known(&self.extreme(Extremum::Tongue, End::Most));
        let kind = self.sheet.build.trailer.table(&trailer::BRAKES).and_then(|held| held.word(&brakes::KIND));
        let body = html! {
            ul {
                @match (&gross, &tongue) {
                    (Ok(gross), Ok(tongue)) => li { "A vehicle that may tow " (gross) " and more, and whose ball may carry " (tongue) " and more." },
                    (Err(missing), _) | (_, Err(missing)) => li { "Ask the shop which vehicle may tow it: " (text(missing)) " is not known." },
                }
                @match self.of_trailer(&trailer::COUPLER, &coupler::BALL) {
                    Some(ball) => li { "A ball of " (ball) ". No other size." },
                    None => li { "Read the size of the ball off the coupler: it is not written down." },
                }
                @match kind.map(|kind| kind.value) {
                    Some("electric") => li { "It has electric brakes: the vehicle needs a brake controller. Try the brakes before each trip." },
                    Some("surge") => li { "Its brakes work by themselves when you slow down. Try them before each trip." },
                    Some(_) => li { "It has no brakes of its own: you need more room to stop." },
                    None => li { "Ask the shop whether it has brakes: it is not written down." },
                }
                @if let Some(speed) = self.of_trailer(&trailer::TIRE, &tire::SPEED) { li { "Its tires are made for " (speed) " at most." } }
                @match self.road.about("overall_height") {
                    Some(height) => li { "It is about " (height) " high with the roof loaded and tents shut. Measure it, and leave a hand's breadth." },
                    None => li { "Measure how high it is before you drive under anything: it is not known." },
                }
            }
        };
        part("What tows it, and how high it is", &body)
    }

    fn ways_out(&self) -> Markup {
        let exit = |item: &Item| item.record.flag(&opening::EXIT).is_some_and(|flag| flag.value);
        let exits: Vec<&Item> = self
            .sheet
            .build
            .of_table(Table::Opening)
            .map(|(_, item)| item)
            .filter(|item| exit(item))
            .collect();
        let shut = |item: &Item| item.record.flag(&opening::INSIDE_RELEASE).is_none_or(|flag| !flag.value);
        let doubtful: Vec<String> =
            exits.iter().filter(|item| shut(item)).map(|item| plain(&item.tag.value)).collect();
        let names: Vec<String> = exits.iter().map(|item| plain(&item.tag.value)).collect();
        let body = html! {
            @if names.is_empty() {
                p { strong { "No way out is written down. " } "Ask the shop before anybody sleeps in it." }
            } @else {
                p {
                    "Way" @if names.len() > 1 { "s" } " out: " strong { (row(&names)) } ". Keep them free. Open each one from inside, in the dark, before the first night, \
                     and show everybody who sleeps in it."
                }
                @if !doubtful.is_empty() { p { strong { "Not shown to open from inside: " } (row(&doubtful)) ". Ask the shop." } }
            }
        };
        part("How you get out", &body)
    }

    fn weigh_again(&self) -> Markup {
        let most = self.sheet.in_force.limit("record/change-unweighed", "most");
        let most = most.map(|limit| plainly(self.sheet, limit.value));
        let body = html! {
            p {
                "When you have added or taken off " @match most { Some(most) => { "more than " (most) " in all" }, None => "anything heavy" }
                ", when it pulls or sways unlike before, and once a year."
            }
            ol {
                li { "Load it as you travel, water and all. Stand it level." }
                li { "Weigh the whole trailer, unhitched, on a truck scale." }
                li { "Weigh the ball's load by itself, on a small scale at the ball's height. Chock the wheels first. Keep feet out from under it." }
                li { "Hold both against the table above. If they do not fit, ask the shop before you drive on." }
            }
        };
        part("When and how to weigh again", &body)
    }

    fn tighten(&self) -> Markup {
        let record = self.sheet.build.record.as_ref();
        let held = record.and_then(|record| record.table(&record::LUGS));
        let again: Vec<String> = held
            .and_then(|held| held.words(&lugs::AGAIN))
            .unwrap_or_default()
            .iter()
            .map(|word| word.value.to_owned())
            .collect();
        let torque = held
            .and_then(|held| held.quantity(&lugs::TORQUE))
            .map(|torque| plainly(self.sheet, torque.value));
        let planned = record.map(|record| record.tables(&record::RECHECKS)).unwrap_or_default();
        let open = planned.iter().filter(|table| table.text(&recheck::DONE).is_none());
        let body = html! {
            ul {
                li {
                    "Wheel nuts: after " @if again.is_empty() { "10 mi, 25 mi and 50 mi" } @else { (row(&again)) }
                    ", after every change of a wheel, and before each trip"
                    @match torque { Some(torque) => { ", with a torque wrench, to " strong { (torque) } "." }, None => ". Ask the shop how tight: it is not written down." }
                }
                @if self.aboard.has("removable") == Some(true) { li { "Bolts and fittings of what you take in and out: each time, and after the first trip." } }
                @for table in open { (self.recheck(table)) }
                @if self.aboard.has("alarm") == Some(true) { li { "Press the button of every alarm before each trip." } }
            }
        };
        part("What to tighten and to look at, and when", &body)
    }

    fn recheck(&self, table: &Record) -> Markup {
        let what = table.word(&recheck::WHAT).map_or("", |word| word.value);
        let due = table.text(&recheck::DUE).map(|due| due.value);
        let after = table.quantity(&recheck::AFTER).map(|after| plainly(self.sheet, after.value));
        html! {
            li {
                (capital(what)) ": "
                @match (due, after) {
                    (Some(due), Some(after)) => { "by " (name(due)) " or after " (after) },
                    (Some(due), None) => { "by " (name(due)) },
                    (None, Some(after)) => { "after " (after) },
                    (None, None) => "ask the shop when",
                }
                @if what == "gas" { ", by a qualified person" } "."
            }
        }
    }

    fn lasts(&self) -> Markup {
        let battery = Worked::new(self.sheet, "electric");
        let gas = Worked::new(self.sheet, "gas");
        let water = Worked::new(self.sheet, "water");
        let has = |word| self.aboard.has(word) == Some(true);
        let one = |asked: bool, what: &str, found: Option<String>| {
            html! {
                @if asked {
                    li {
                        (what) ": "
                        @match found { Some(found) => { "about " (found) " if you use it as you told the shop" }, None => "not known" }
                        "."
                    }
                }
            }
        };
        if !has("battery") && !self.aboard.gas() && !has("tank") {
            return html! {};
        }
        let body = html! {
            ul {
                (one(has("battery"), "Battery, with no sun and no plug", lasting(&battery, "days_of_autonomy")))
                (one(self.aboard.gas(), "Gas, from full", lasting(&gas, "days")))
                (one(has("tank"), "Water, from full", lasting(&water, "days_of_water")))
            }
        };
        part("How long it lasts", &body)
    }

    fn add() -> Markup {
        let body = html! {
            p {
                "Ask the shop first. Say what it is, what it weighs and where it shall go. Whatever touches gas, mains, water, heating, roof, frame, \
                 brakes or a bed must be looked at again before you use it."
            }
        };
        part("May I add something?", &body)
    }
}

#[cfg(test)]
mod tests;
