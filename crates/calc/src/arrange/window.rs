//! Where the axle may stand so that every arrangement rests on the ball with a share between two limits.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Known, Missing, State};

use super::{Arrangements, End, Extremum};

/// Places of the axle line behind the ball at which a share of tongue weight is kept in every arrangement.
#[derive(Debug, Clone)]
pub struct Window {
    /// The foremost of them: further ahead, `aft` rests too lightly on the ball.
    pub least: Quantity,
    /// The rearmost of them: further back, `fore` rests too heavily on the ball.
    pub most: Quantity,
    /// The arrangement whose centre of gravity lies furthest aft.
    pub aft: State,
    /// The arrangement whose centre of gravity lies furthest ahead.
    pub fore: State,
}

impl Window {
    /// Whether there is no such place: the two arrangements exclude each other, wherever the axle stands.
    pub fn is_empty(&self) -> bool {
        !self.least.at_most(self.most).unwrap_or_default()
    }
}

impl Arrangements<'_> {
    /// Where the axle line may stand so that `least` ≤ tongue weight / gross weight ≤ `most` in every arrangement.
    ///
    /// With the centre of gravity x behind the ball and the axle L behind it the share is 1 − x/L (statics of a beam on
    /// two supports), so L must be no less than x/(1 − `least`) and no more than x/(1 − `most`), for the greatest x and
    /// for the least. Only the axle moves: the bare trailer's centre of gravity is held where it is, also where it was
    /// worked out from the tongue weight, and so is every part, also one that was measured from the axle.
    ///
    /// # Errors
    /// What [`Arrangements::extreme`] needs for the centre of gravity; limits that are no shares below 100 %.
    pub fn axle_window(&self, least: Quantity, most: Quantity) -> Known<Window> {
        let below_one = |share: Quantity| -> Known<f64> {
            if share.dimension() == Dimension::NONE && share.si() < 1.0 {
                return Ok(1.0 - share.si());
            }
            let what = format!("a share of tongue weight below 100 %, instead of {}", share.show_both());
            Err(Missing::new(what, None, "correct the limit"))
        };
        let aft = self.best(Extremum::CentreX, End::Most)?;
        let fore = self.best(Extremum::CentreX, End::Least)?;
        let group = self.build.trailer.table(&trailer::AXLE);
        let written = group.and_then(|group| group.quantity(&axle::BALL));
        let place = |metres: f64| {
            let plain = Quantity::from_si(metres, Dimension::LENGTH);
            written.map_or(plain, |written| plain.with_unit_of(written.value))
        };
        Ok(Window {
            least: place(aft.value / below_one(least)?),
            most: place(fore.value / below_one(most)?),
            aft: self.state(&aft),
            fore: self.state(&fore),
        })
    }
}
