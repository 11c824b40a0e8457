//! Moments, centres of gravity and reactions: the arithmetic under every weight that Pintle states.
//!
//! Stations are distances from a datum, positive aft; any consistent units. The method is that of the weight and
//! balance handbooks (FAA-H-8083-1): moment = weight × arm, centre of gravity = total moment / total weight.

/// Weights and their moments about a datum, added up.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Sum {
    /// Total weight.
    pub weight: f64,
    /// Total moment about the datum, weight × station.
    pub moment: f64,
}

impl Sum {
    /// Adds up weights at stations.
    ///
    /// ```
    /// use pintle_calc::balance::Sum;
    /// let rod = Sum::of([(4.0, 2.0), (6.0, 5.0), (10.0, 7.0)]);
    /// assert_eq!(rod.centre(), Some(5.4)); // Nicholls's Seamanship, p. 498
    /// ```
    pub fn of(loads: impl IntoIterator<Item = (f64, f64)>) -> Self {
        loads.into_iter().fold(Self::default(), |sum, (weight, station)| sum.with(weight, station))
    }

    /// With a weight added at a station; a negative weight takes one away.
    #[must_use]
    pub fn with(self, weight: f64, station: f64) -> Self {
        Self { weight: self.weight + weight, moment: self.moment + weight * station }
    }

    /// With a weight moved from one station to another.
    #[must_use]
    pub fn moved(self, weight: f64, from: f64, to: f64) -> Self {
        Self { moment: self.moment + weight * (to - from), ..self }
    }

    /// The centre of gravity's station; none without weight.
    pub fn centre(self) -> Option<f64> {
        (self.weight > 0.0).then(|| self.moment / self.weight)
    }

    /// The reactions of two supports at stations `fore` and `aft` that carry the whole weight, fore one first.
    /// For a trailer with the ball as datum: the weight on the tongue and the weight on the axle. A support can be
    /// pulled on: its reaction is then negative. None when the supports coincide.
    pub fn reactions(self, fore: f64, aft: f64) -> Option<(f64, f64)> {
        let apart = aft - fore;
        if apart.abs() < f64::EPSILON {
            return None;
        }
        let on_aft = (self.moment - self.weight * fore) / apart;
        Some((self.weight - on_aft, on_aft))
    }

    /// The weight that, moved from one station to another, brings the centre of gravity to `centre`.
    /// None when no such weight exists: the stations coincide, or it would have to be negative.
    pub fn weight_to_move(self, centre: f64, from: f64, to: f64) -> Option<f64> {
        let wanted = (centre * self.weight - self.moment) / (to - from);
        (wanted.is_finite() && wanted >= 0.0).then_some(wanted)
    }

    /// How far a weight must be moved for the centre of gravity to come to `centre`; positive aft. None without a weight
    /// to move. Weight shift of FAA-H-8083-25: distance moved = total weight × shift of the centre / weight moved.
    pub fn distance_to_move(self, weight: f64, centre: f64) -> Option<f64> {
        let wanted = (centre * self.weight - self.moment) / weight;
        (weight > 0.0 && wanted.is_finite()).then_some(wanted)
    }

    /// The weight that, taken away at `station`, brings the centre of gravity to `centre`: [`Sum::ballast`] the other way
    /// about. None when no weight can.
    pub fn weight_to_take(self, centre: f64, station: f64) -> Option<f64> {
        let wanted = (centre * self.weight - self.moment) / (centre - station);
        (wanted.is_finite() && wanted >= 0.0).then_some(wanted)
    }

    /// Where the aft support must stand for a fore one at the datum to carry a share of the weight: x / (1 − share), the
    /// inverse of [`Sum::reactions`]. None without weight, or for a share of all of it.
    pub fn aft_support(self, share: f64) -> Option<f64> {
        let wanted = self.centre()? / (1.0 - share);
        (wanted.is_finite() && wanted > 0.0).then_some(wanted)
    }

    /// The weight that, added at `station`, brings the centre of gravity to `centre` (FAA permanent ballast formula:
    /// loaded weight × distance out of limits / distance from ballast to the limit). None when no weight can.
    pub fn ballast(self, centre: f64, station: f64) -> Option<f64> {
        let wanted = (centre * self.weight - self.moment) / (station - centre);
        (wanted.is_finite() && wanted >= 0.0).then_some(wanted)
    }
}

#[cfg(test)]
mod tests;
