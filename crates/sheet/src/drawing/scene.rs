//! What is drawn, in the trailer's own metres: parts with their zones, what swings, and each road state with its centre
//! of gravity and loads. All figures come from `pintle_calc`.

use pintle_calc::space::{Swing, swings};
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::{Quantity, System, Units};
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Item, Table, Use, Zone};

use super::form::View;
use crate::Sheet;
use crate::worked::quantity_words;

/// A road state of the spec, weighed.
#[derive(Debug)]
pub(super) struct Weighed {
    /// An index of [`Build::states`].
    pub(super) state: usize,
    /// Its number among the road states, from 1.
    pub(super) number: usize,
    pub(super) x: Known<Figure>,
    pub(super) y: Known<Figure>,
    pub(super) z: Known<Figure>,
    pub(super) gross: Known<Figure>,
    pub(super) tongue: Known<Figure>,
    pub(super) axles: Known<Figure>,
}

/// All that the drawings share.
#[derive(Debug)]
pub(super) struct Scene<'s> {
    pub(super) sheet: &'s Sheet<'s>,
    pub(super) build: &'s Build,
    pub(super) swings: Vec<Swing>,
    pub(super) road: Vec<Weighed>,
}

impl<'s> Scene<'s> {
    pub(super) fn of(sheet: &'s Sheet<'s>) -> Self {
        let build = sheet.build;
        let states = build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road);
        let road = states.zip(1..).map(|((state, _), number)| {
            let weights = Weights::of_state(build, state);
            Weighed {
                state,
                number,
                x: weights.centre_x(),
                y: weights.centre_y(),
                z: weights.centre_z(),
                gross: weights.gross(),
                tongue: weights.tongue(),
                axles: weights.axles(),
            }
        });
        Self { sheet, build, swings: swings(build), road: road.collect() }
    }

    /// The road state that weighs most, of those whose weight is known.
    pub(super) fn heaviest(&self) -> Option<&Weighed> {
        let si =
            |weighed: &Weighed| weighed.gross.as_ref().map_or(f64::NEG_INFINITY, |gross| gross.quantity.si());
        let known = self.road.iter().filter(|weighed| weighed.gross.is_ok());
        known.max_by(|one, other| si(one).total_cmp(&si(other)).then(other.number.cmp(&one.number)))
    }

    /// A quantity in the units that are asked for; of one that nobody wrote, in the author's system.
    pub(super) fn shown(&self, quantity: Quantity) -> String {
        quantity_words(self.sheet, quantity)
    }

    /// A quantity without its ±.
    pub(super) fn plain(&self, quantity: Quantity) -> String {
        self.shown(Quantity::from_si(quantity.si(), quantity.dimension()).with_unit_of(quantity))
    }

    /// How far something reaches beyond what it lies on.
    pub(super) fn overhang(&self, past: &Figure) -> String {
        if past.quantity.si() < 0.0 {
            format!("ends {} short", self.shown(past.quantity.abs()))
        } else {
            format!("overhang {}", self.shown(past.quantity))
        }
    }

    /// How far it is from one place to another along an axis.
    pub(super) fn between(&self, from: &Coordinate, to: &Coordinate) -> String {
        self.shown(to.plus(-1.0, from).quantity())
    }

    /// Whether lengths are shown in metric units.
    pub(super) fn is_metric(&self) -> bool {
        match self.sheet.terms.look.units {
            Units::Metric => true,
            Units::Us => false,
            Units::AsWritten => {
                let length = self.build.trailer.quantity(&trailer::LENGTH);
                let unit = length.and_then(|length| length.value.unit());
                unit.is_some_and(|unit| unit.system() == System::Metric)
            }
        }
    }

    /// Parts, with their indices.
    pub(super) fn parts(&self) -> impl Iterator<Item = (usize, &'s Item)> {
        self.build.items.iter().enumerate()
    }

    /// The zone of the trailer itself that a part is in, also where it stands in a locker or on a rack.
    pub(super) fn root(&self, item: &Item) -> Zone {
        let mut zone = item.zone;
        // A locker can stand on a rack and a tent too; the loader refuses loops, and this bound would end one.
        for _ in 0..self.build.items.len() {
            let (Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host)) = zone else { break };
            match self.build.items.get(host) {
                Some(host) => zone = host.zone,
                None => break,
            }
        }
        zone
    }

    /// Whether a part is hidden from outside: in the box, in a locker or in a tent.
    pub(super) fn is_hidden(&self, item: &Item) -> bool {
        matches!(item.zone, Zone::Locker(_) | Zone::Tent(_))
            || matches!(self.root(item), Zone::Inside | Zone::Floor)
    }

    /// The side from which the elevation is taken: that with more doors, windows and hatches; the left, where there are
    /// as many.
    pub(super) fn side(&self) -> View {
        let count =
            |zone| self.build.of_table(Table::Opening).filter(|(_, opening)| opening.zone == zone).count();
        if count(Zone::RightWall) > count(Zone::LeftWall) { View::FromRight } else { View::FromLeft }
    }

    /// Where each axle is, in m behind the ball.
    pub(super) fn axles(&self) -> Known<Vec<f64>> {
        let middle = self.build.surfaces.axle.clone()?.metres;
        let group = self.build.trailer.need_table(&trailer::AXLE)?;
        let count = group.need_count(&axle::COUNT)?.value;
        if count <= 1 {
            return Ok(vec![middle]);
        }
        let spread = group.need(&axle::SPREAD)?.value.si();
        let first = middle - spread * f64::from(count - 1) / 2.0;
        Ok((0..count.min(MOST_AXLES)).map(|axle| first + spread * f64::from(axle)).collect())
    }
}

/// More axles than any trailer has.
const MOST_AXLES: u32 = 12;

/// Whether a part is an opening or a vent in a wall, the roof or the floor.
pub(super) fn is_through(item: &Item) -> bool {
    matches!(item.table, Table::Opening | Table::Vent)
}
