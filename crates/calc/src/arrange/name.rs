//! Arrangements as states, with names that a builder would give them.

use pintle_quantity::{Dimension, Quantity, Units};
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{load, tank};
use pintle_spec::{Item, Known, Missing, Spanned, State, Table, Use};

use super::held::MOST_WORK;
use super::plan::host_of;
use super::search::Choice;
use super::sums::{Aim, Sums};
use super::{Arrangements, Best, Family};

/// Of more removable parts than these, no arrangements are named.
const MOST_NAMED: usize = 256;

/// How full tanks are and how much is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Trip {
    /// Fresh water full, waste empty, all loads.
    Departure,
    /// Fresh water empty, waste full, what is used up used up.
    Homeward,
    /// Everything at its least.
    Bare,
}

impl Arrangements<'_> {
    /// Arrangements that a builder thinks of, each once: the departure with everything aboard, fresh water full, waste
    /// empty and loads at their most; the way home with fresh water empty, waste full and what is used up at its least;
    /// the departure without each removable part; and everything out, with tanks and loads at their least. Full and empty are as far
    /// as `on_road` of each tank allows.
    ///
    /// # Errors
    /// `holds` of a tank, where it is not given; more removable parts than anybody names; or the same as [`Arrangements::extreme`] for parts that hang on each
    /// other. Masses and places are not needed.
    pub fn named(&self) -> Known<Vec<State>> {
        Ok(self.named_choices()?.iter().map(|best| self.state(best)).collect())
    }

    pub(super) fn named_choices(&self) -> Known<Vec<Best>> {
        let mut named = Vec::new();
        for (at, family) in self.families.iter().enumerate() {
            let mut choices: Vec<Choice> = Vec::new();
            let mut add = |choice: Choice| {
                if !choices.contains(&choice) {
                    choices.push(choice);
                }
            };
            add(self.on(Trip::Departure, &family.fullest)?);
            add(self.on(Trip::Homeward, &family.fullest)?);
            let removable = self.comes_out(family);
            if removable.len() > MOST_NAMED {
                return Err(Missing::new(
                    format!("the arrangements by name: more than {MOST_NAMED} parts can be taken out"),
                    Some(self.build.number.span),
                    "mark fewer parts as `removable`",
                ));
            }
            let work = 16 * MOST_WORK / (1 + removable.len());
            for out in removable {
                if let Some(without) = self.without(family, out, work)? {
                    add(self.on(Trip::Departure, &without)?);
                }
            }
            let aim = Aim { of: Sums::default(), slack: 0.0, fullest: false };
            let emptiest = self.search(&self.root(family)?, &family.pieces, aim)?;
            add(self.on(Trip::Bare, &emptiest)?);
            named.extend(choices.into_iter().map(|choice| Best { family: at, choice, value: 0.0 }));
        }
        Ok(named)
    }

    /// Removable parts that may be in or out.
    fn comes_out(&self, family: &Family) -> Vec<usize> {
        let items = self.build.items.iter().zip(&family.settled).enumerate();
        let out = items
            .filter(|(_, (item, settled))| item.removable && item.table != Table::Load && settled.is_none());
        out.map(|(at, _)| at).collect()
    }

    /// The most that can be aboard without a part; nothing where it cannot stay at home.
    fn without(&self, family: &Family, out: usize, work: usize) -> Known<Option<Choice>> {
        let mut root = self.root(family)?.allowing(work);
        if !root.decide(out, false) {
            return Ok(None);
        }
        let open = root.undecided(0..self.plan.units.len());
        let pieces = root.pieces(&open);
        let aim = Aim { of: Sums::default(), slack: 0.0, fullest: true };
        super::search::best(&root, &pieces, aim).map_err(|_| self.tangled())
    }

    /// The same parts, filled and loaded for a trip.
    fn on(&self, trip: Trip, choice: &Choice) -> Known<Choice> {
        let mut filled = choice.clone();
        let units = self.plan.units.iter().zip(&self.build.items).enumerate();
        for (at, (unit, item)) in units {
            let (true, false, Some(amount)) = (choice.has(at), unit.in_order, unit.amount) else { continue };
            let fuller = !amount.varies() || fuller(trip, item)?;
            filled.set(at, if fuller { amount.to } else { amount.from });
        }
        self.fill_in_order(trip, &mut filled)?;
        Ok(filled)
    }

    /// Of tanks that are emptied one after another, the way that comes nearest to what the trip asks for.
    fn fill_in_order(&self, trip: Trip, choice: &mut Choice) -> Known<()> {
        let tank = |at: &usize| {
            let amount = self.plan.units.get(*at).and_then(|unit| unit.amount);
            Some((*at, amount?, self.build.items.get(*at)?))
        };
        let aboard = self.plan.order.iter().filter(|at| choice.has(**at));
        let tanks: Vec<_> = aboard.filter_map(tank).collect();
        let (mut gain, mut most, mut emptied) = (0.0, 0.0, 0);
        for (number, (_, amount, item)) in tanks.iter().enumerate() {
            if amount.varies() {
                let fuller = fuller(trip, item)?;
                gain += (amount.to - amount.from) * if fuller { -1.0 } else { 1.0 };
            }
            if gain > most {
                (most, emptied) = (gain, number + 1);
            }
        }
        for (number, (at, amount, _)) in tanks.iter().enumerate() {
            choice.set(*at, if number < emptied { amount.from } else { amount.to });
        }
        Ok(())
    }

    /// An arrangement as a state of the build.
    pub(super) fn state(&self, best: &Best) -> State {
        let (family, choice) = (self.families.get(best.family), &best.choice);
        let here = self.build.number.span;
        let at = |value: Quantity| Spanned::new(value, here);
        let own = family.and_then(|family| self.build.states.get(family.state));
        let mut state = State {
            name: Spanned::new(family.map_or_else(String::new, |family| self.called(family, choice)), here),
            used: Use::Road,
            fill: Vec::new(),
            carry: Vec::new(),
            loads: own.map(|own| own.loads.clone()).unwrap_or_default(),
            out: Vec::new(),
            people: Vec::new(),
        };
        for (unit, item) in self.build.items.iter().enumerate() {
            match (item.table, choice.has(unit)) {
                (Table::Load, true) => state.carry.push((unit, at(self.load_mass(unit, choice)))),
                (Table::Load, false) => {}
                (_, false) => state.out.push(unit),
                (Table::Tank, true) => state.fill.push((unit, at(Quantity::share(choice.amount(unit))))),
                _ => {}
            }
        }
        state
    }

    /// How much of a load is aboard, in its author's unit.
    fn load_mass(&self, unit: usize, choice: &Choice) -> Quantity {
        let plain = Quantity::from_si(choice.amount(unit), Dimension::MASS);
        let written = self.build.items.get(unit).and_then(|item| item.record.quantity(&item::MASS));
        written.map_or(plain, |written| plain.with_unit_of(written.value))
    }

    /// What an arrangement is called: whether it is one that a builder thinks of, and what is in it of all that varies.
    fn called(&self, family: &Family, choice: &Choice) -> String {
        let trips = [(Trip::Departure, "departure"), (Trip::Homeward, "homeward")];
        let is = |trip: Trip| self.on(trip, &family.fullest).is_ok_and(|named| named == *choice);
        let trip = trips.into_iter().find(|(trip, _)| is(*trip)).map(|(_, word)| word);
        let mut words = self.parts_in_words(family, choice);
        words.extend(self.amounts_in_words(family, choice));
        if self.families.len() > 1 {
            let state = self.build.states.get(family.state);
            words.extend(state.map(|state| format!("loads of {}", state.name.value)));
        }
        match (trip, words.is_empty()) {
            (None, true) => "as built".to_owned(),
            (Some(trip), true) => trip.to_owned(),
            (None, false) => words.join(", "),
            (Some(trip), false) => format!("{trip}: {}", words.join(", ")),
        }
    }

    fn is_grouped(&self, unit: usize) -> bool {
        self.plan.units.get(unit).is_some_and(|unit| !unit.groups.is_empty())
    }

    /// Whether what a part stands on is aboard, if it stands on any.
    fn host_is_aboard(item: &Item, choice: &Choice) -> bool {
        host_of(item.zone).is_none_or(|host| choice.has(host))
    }

    fn parts_in_words(&self, family: &Family, choice: &Choice) -> Vec<String> {
        let loose: Vec<usize> =
            self.comes_out(family).into_iter().filter(|at| !self.is_grouped(*at)).collect();
        let out: Vec<usize> = loose.iter().copied().filter(|at| !choice.has(*at)).collect();
        let mut words = Vec::new();
        match (out.len(), loose.len()) {
            (_, 0) => {}
            (0, _) => words.push("everything aboard".to_owned()),
            (out, all) if out == all && all > 1 => words.push("everything out".to_owned()),
            _ => {
                let items = out.iter().filter_map(|at| self.build.items.get(*at));
                let own = items.filter(|item| Self::host_is_aboard(item, choice));
                words.extend(own.map(|item| format!("{} out", item.tag.value)));
            }
        }
        for (either, group) in self.build.eithers.iter().zip(&self.plan.groups) {
            if group.of.iter().all(|at| family.settled.get(*at).is_some_and(Option::is_some)) {
                continue;
            }
            let member = group.of.iter().find(|at| choice.has(**at)).and_then(|at| {
                let item = self.build.items.get(*at)?;
                // A load of which there is none is none.
                let nothing = item.table == Table::Load && self.load_mass(*at, choice).si() <= 0.0;
                if nothing {
                    return None;
                }
                let mass = || self.load_mass(*at, choice).show(Units::AsWritten);
                Some(match item.table {
                    Table::Load => format!("{} {}", item.tag.value, mass()),
                    _ => item.tag.value.clone(),
                })
            });
            words.push(format!("{}: {}", either.name.value, member.as_deref().unwrap_or("none")));
        }
        words
    }

    fn amounts_in_words(&self, family: &Family, choice: &Choice) -> Vec<String> {
        let mut words = Vec::new();
        for (at, (unit, item)) in self.plan.units.iter().zip(&self.build.items).enumerate() {
            let Some(amount) = unit.amount else { continue };
            let settled = family.settled.get(at).copied().flatten();
            let tag = &item.tag.value;
            if item.table == Table::Tank {
                if amount.varies() && choice.has(at) {
                    words.push(format!("{tag} {}", how_full(choice.amount(at))));
                }
            } else if self.is_grouped(at) || !Self::host_is_aboard(item, choice) {
                // Named with its group, or gone with what it stands on.
            } else if settled.is_none() || (settled == Some(true) && amount.varies()) {
                let mass = self.load_mass(at, choice);
                words.push(if choice.has(at) && mass.si() > 0.0 {
                    format!("{tag} {}", mass.show(Units::AsWritten))
                } else {
                    format!("no {tag}")
                });
            }
        }
        words
    }
}

/// Whether a trip begins with the most of a tank or a load.
fn fuller(trip: Trip, item: &Item) -> Known<bool> {
    Ok(match (trip, item.table) {
        (Trip::Bare, _) => false,
        (Trip::Departure, Table::Load) => true,
        (Trip::Homeward, Table::Load) => !item.record.flag(&load::USED_UP).is_some_and(|flag| flag.value),
        (trip, _) => {
            let fresh = item.record.need_word(&tank::HOLDS)?.value == "fresh";
            fresh == (trip == Trip::Departure)
        }
    })
}

fn how_full(share: f64) -> String {
    match share {
        share if share <= 0.0 => "empty".to_owned(),
        share if share >= 1.0 => "full".to_owned(),
        // Not so few digits that it reads as empty or full.
        share if !(0.005..0.995).contains(&share) => format!("{:.2} % full", share * 100.0),
        share => format!("{:.0} % full", share * 100.0),
    }
}
