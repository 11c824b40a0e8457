//! Carbon dioxide through a night, as a course and not only as it ends.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::air as given_air;
use pintle_spec::{Known, Use};

use super::draught::draught;
use super::nights::{at_bedtime, sleeping, volume};
use crate::air::{mean_share, seconds_to_share, share_after};
use crate::case::Case;
use crate::working::Work;

/// The air of those who sleep inside, through a mild, still night: shares of carbon dioxide, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Night {
    /// How many sleep inside.
    pub sleepers: f64,
    /// The share when they lie down: that outside, or what flueless burners have left.
    pub bedtime: f64,
    /// The share outside.
    pub outside: f64,
    /// What the sleepers give off, in m³/s.
    pub given_off: f64,
    /// What the fixed vents draw, in m³/s.
    pub drawn: f64,
    /// Air in the room, in m³.
    pub volume: f64,
    /// How long the night is.
    pub length: Quantity,
}

impl Night {
    /// The share after a time in s, with the fixed vents as they are and all else shut.
    pub fn vented(&self, seconds: f64) -> f64 {
        share_after(self.bedtime, self.outside, self.given_off, self.drawn, self.volume, seconds)
    }

    /// The share after a time in s, with the vents shut as well, or covered, from the moment they lie down.
    pub fn shut(&self, seconds: f64) -> f64 {
        share_after(self.bedtime, self.outside, self.given_off, 0.0, self.volume, seconds)
    }

    /// The mean of the night, with the vents as they are and with them shut.
    pub fn means(&self) -> [f64; 2] {
        let mean =
            |q| mean_share(self.bedtime, self.outside, self.given_off, q, self.volume, self.length.si());
        [mean(self.drawn), mean(0.0)]
    }

    /// The time until the shut room reaches a share.
    pub fn shut_until(&self, share: f64) -> Quantity {
        let seconds = seconds_to_share(self.bedtime, share, self.given_off, self.volume);
        Quantity::from_si(seconds, Dimension::TIME)
    }
}

/// The night of each camp state by its name: none where nobody sleeps inside, or what is missing to know it.
pub fn nights(case: &Case<'_>) -> Vec<(String, Known<Option<Night>>)> {
    let camps = case.build.states.iter().filter(|state| state.used == Use::Camp);
    let night = |state| -> Known<Option<Night>> {
        let work = &mut Work::default();
        let Some(asleep) = sleeping(work, case, state)? else { return Ok(None) };
        let q = draught(work, case, &given_air::MILD_NIGHT)?;
        let v = volume(work, case)?;
        let bedtime = at_bedtime(work, case, &asleep, &q, &v)?;
        Ok(Some(Night {
            sleepers: asleep.n.quantity.si(),
            bedtime: bedtime.quantity.si(),
            outside: case.assumed(&assume::AIR, &given_air::OUTDOOR_CO2)?.0.quantity.si(),
            given_off: asleep.g.quantity.si(),
            drawn: q.quantity.si(),
            volume: v.quantity.si(),
            length: case.assumed(&assume::AIR, &given_air::NIGHT)?.0.quantity,
        }))
    };
    camps.map(|state| (state.name.value.clone(), night(state))).collect()
}

#[cfg(test)]
mod tests;
