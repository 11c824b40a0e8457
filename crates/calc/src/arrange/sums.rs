//! Sums over what is aboard, linear aims at them, and what varies of one part: the water in a tank, a load's weight.

/// Sums over bodies, or the coefficients of an aim at them: kg, kg·m about ball, centreline and ground.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Sums {
    /// Total mass.
    pub(super) mass: f64,
    /// Moment about the ball.
    pub(super) x: f64,
    /// Moment about the centreline.
    pub(super) y: f64,
    /// Moment about the ground.
    pub(super) z: f64,
    /// Mass of the trailer and its fitted parts.
    pub(super) fitted: f64,
}

impl Sums {
    fn each(self, other: Self, with: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            mass: with(self.mass, other.mass),
            x: with(self.x, other.x),
            y: with(self.y, other.y),
            z: with(self.z, other.z),
            fitted: with(self.fitted, other.fitted),
        }
    }

    /// The sum of both.
    #[must_use]
    pub(super) fn plus(self, other: Self) -> Self {
        self.each(other, |a, b| a + b)
    }

    /// So many times these.
    #[must_use]
    pub(super) fn times(self, factor: f64) -> Self {
        self.each(self, |a, _| a * factor)
    }

    /// What an aim makes of the sums.
    pub(super) fn dot(self, aim: Self) -> f64 {
        let Self { mass, x, y, z, fitted } = self.each(aim, |a, b| a * b);
        mass + x + y + z + fitted
    }

    /// The size of the terms of [`Sums::dot`], by which its rounding goes.
    pub(super) fn size(self, aim: Self) -> f64 {
        let Self { mass, x, y, z, fitted } = self.each(aim, |a, b| (a * b).abs());
        mass + x + y + z + fitted
    }
}

/// A linear aim: the more the better.
#[derive(Debug, Clone, Copy)]
pub(super) struct Aim {
    /// What each sum counts for.
    pub(super) of: Sums,
    /// What is less than this apart counts as equal.
    pub(super) slack: f64,
    /// Of equal arrangements, whether that with the most aboard is taken, or that with the least.
    pub(super) fullest: bool,
}

/// What varies of a part that is aboard: how full a tank is, or how much of a load rides along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Amount {
    /// The least: a share of a tank, kilograms of a load.
    pub(super) from: f64,
    /// The most.
    pub(super) to: f64,
    /// Mass of one of it.
    pub(super) mass: f64,
    /// Its place behind the ball.
    pub(super) x: f64,
    /// Its place right of the centreline.
    pub(super) y: f64,
    /// Its bottom above the ground.
    pub(super) z: f64,
    /// How much higher its top is when there is one of it; its centre is half way.
    pub(super) rise: f64,
}

impl Amount {
    /// The sums of so much of it.
    pub(super) fn sums(self, amount: f64) -> Sums {
        let mass = self.mass * amount;
        let z = self.z + self.rise * amount / 2.0;
        Sums { mass, x: mass * self.x, y: mass * self.y, z: mass * z, fitted: 0.0 }
    }

    /// Whether it can be more or less at all.
    pub(super) fn varies(self) -> bool {
        self.from < self.to
    }

    /// Where between its ends an aim is best served, if anywhere: the top of a parabola that opens downward. Water
    /// that is filled in lifts the centre of gravity only once its surface is above it.
    fn crest(self, aim: Aim) -> Option<f64> {
        let linear = Self { rise: 0.0, ..self }.sums(1.0).dot(aim.of);
        let square = aim.of.z * self.mass * self.rise / 2.0;
        let crest = -linear / (2.0 * square);
        (square < 0.0 && self.from < crest && crest < self.to).then_some(crest)
    }

    /// The amount that serves an aim best, and how well.
    pub(super) fn best(self, aim: Aim) -> (f64, f64) {
        let ends = if aim.fullest { [self.to, self.from] } else { [self.from, self.to] };
        let [first, last] = ends.map(|amount| (amount, self.sums(amount).dot(aim.of)));
        let crest = self.crest(aim).map(|amount| (amount, self.sums(amount).dot(aim.of)));
        crest.into_iter().chain([last]).fold(
            first,
            |best, next| {
                if next.1 > best.1 + aim.slack { next } else { best }
            },
        )
    }
}

/// Of tanks that are emptied one after another, how full each is where an aim is served best, and how well.
pub(super) fn best_in_order(tanks: &[Amount], aim: Aim) -> (Vec<f64>, f64) {
    let worth = |tank: &Amount, fill: f64| tank.sums(fill).dot(aim.of);
    // What the tanks before the one being emptied, and those after it, are worth.
    let (mut before, mut after) = (0.0, tanks.iter().map(|tank| worth(tank, tank.to)).sum::<f64>());
    let mut ways: Vec<(usize, f64, f64)> = Vec::new();
    for (at, tank) in tanks.iter().enumerate() {
        after -= worth(tank, tank.to);
        let fills = [Some(tank.to), tank.crest(aim), Some(tank.from)].into_iter().flatten();
        ways.extend(fills.map(|fill| (at, fill, before + worth(tank, fill) + after)));
        before += worth(tank, tank.from);
    }
    if !aim.fullest {
        ways.reverse();
    }
    let better = |best: (usize, f64, f64), next: (usize, f64, f64)| {
        if next.2 > best.2 + aim.slack { next } else { best }
    };
    let best = ways.into_iter().reduce(better);
    best.map(|(at, fill, worth)| (in_order(tanks, at, fill), worth)).unwrap_or_default()
}

/// How full each tank is when the one at `at` is being emptied.
fn in_order(tanks: &[Amount], at: usize, share: f64) -> Vec<f64> {
    let emptied = tanks.iter().take(at).map(|tank| tank.from);
    let untouched = tanks.iter().skip(at + 1).map(|tank| tank.to);
    emptied.chain([share]).chain(untouched).collect()
}

/// How full the tanks can be with each at one of its ends, fullest first.
pub(super) fn corners_in_order(tanks: &[Amount]) -> Vec<Vec<f64>> {
    let mut corners: Vec<Vec<f64>> = vec![tanks.iter().map(|tank| tank.to).collect()];
    let varied = tanks.iter().enumerate().filter(|(_, tank)| tank.varies());
    corners.extend(varied.map(|(at, tank)| in_order(tanks, at, tank.from)));
    corners
}
