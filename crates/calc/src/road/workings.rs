//! Every figure of the topic, with how it came about.

mod brakes;
mod labels;
mod lamps;
mod size;
mod tires;

use std::rc::Rc;

use pintle_spec::field::Field;
use pintle_spec::{Build, Known, Missing};

use crate::arrange::{Arrangements, End, Extremum};
use crate::case::Case;
use crate::figure::Figure;
use crate::place::Place;
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

/// What goes with every figure of a place.
const VERIFY: &str = "figures of a place are data with a date: verify them with the place's own authority";

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let loaded = Loaded::of(case.build);
    [
        size::workings(case),
        lamps::workings(case),
        brakes::workings(case, &loaded),
        super::nose::workings(case),
        tires::workings(case, &loaded),
        labels::workings(case, &loaded),
    ]
    .concat()
}

/// The topic's name.
const TOPIC: &str = "road";
/// What figures of the whole build are of.
const BUILD: &str = "the build";

/// A figure of the whole build.
fn of_build<O: Into<Outcome>>(
    key: &'static str,
    says: &'static str,
    work: impl FnOnce(&mut Work) -> Known<O>,
) -> Working {
    Working::of(TOPIC, key, BUILD, says, work)
}

/// A figure for each place of a build; of the build itself, saying that a place is missing, where it has none.
fn by_place<O: Into<Outcome>>(
    case: &Case<'_>,
    key: &'static str,
    says: &'static str,
    work: impl Fn(&mut Work, &Place) -> Known<O>,
) -> Vec<Working> {
    match case.places.of(case.build) {
        Err(missing) => vec![of_build(key, says, |_| Err::<Outcome, Missing>(missing))],
        Ok(places) => {
            let one = |place: &Place| {
                Working::of(TOPIC, key, place.called(), says, |under_way| work(under_way, place))
                    .warned(VERIFY)
            };
            places.into_iter().map(one).collect()
        }
    }
}

/// Takes a figure of a place into a calculation.
fn take_of(work: &mut Work, symbol: &'static str, place: &Place, field: &'static Field) -> Known<Figure> {
    let (figure, ground) = place.figure(field)?;
    let what = if ground.note.is_empty() {
        format!("{} in {}", field.doc, place.title)
    } else {
        format!("{} in {} ({})", field.doc, place.title, ground.note)
    };
    Ok(work.know(symbol, what, figure, ground.origin.clone()))
}

/// The trailer as it is loaded on the road, over all arrangements.
struct Loaded<'b> {
    build: &'b Build,
    arrangements: Known<Arrangements<'b>>,
}

impl<'b> Loaded<'b> {
    fn of(build: &'b Build) -> Self {
        Self { build, arrangements: Arrangements::of(build) }
    }

    /// A figure of the arrangement in which another is least or most.
    fn at(&self, what: Extremum, end: End, figure: fn(&Rc<Weights>) -> Known<Figure>) -> Known<Figure> {
        let arrangements = self.arrangements.as_ref().map_err(Clone::clone)?;
        figure(&Weights::of(self.build, &arrangements.extreme(what, end)?))
    }
}
