//! One axis of a drawing: from weights to places on the page, with marks at round figures.

/// One axis.
#[derive(Debug, Clone)]
pub(super) struct Axis {
    /// Where it begins.
    pub(super) least: f64,
    /// Where it ends.
    pub(super) most: f64,
    step: f64,
    begins: f64,
    ends: f64,
}

impl Axis {
    /// An axis over some values, which runs from one place on the page to another, with marks at about so many steps.
    pub(super) fn over(values: impl Iterator<Item = f64>, (begins, ends): (f64, f64), steps: f64) -> Self {
        let finite = values.filter(|value| value.is_finite());
        let (least, most) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| {
            (least.min(value), most.max(value))
        });
        let (least, most) = match (least.is_finite(), most - least > 1e-9) {
            (false, _) => (0.0, 1.0),
            (true, true) => (least, most),
            (true, false) => (least - 1.0, most + 1.0),
        };
        let step = round_step((most - least) / steps);
        Self { least: (least / step).floor() * step, most: (most / step).ceil() * step, step, begins, ends }
    }

    /// An axis from one value to another, with a mark at every step from the first.
    pub(super) fn stepped((least, most): (f64, f64), step: f64, (begins, ends): (f64, f64)) -> Self {
        Self { least, most: most.max(least + step), step, begins, ends }
    }

    /// Where a value lies on the page.
    pub(super) fn place(&self, value: f64) -> f64 {
        self.begins + (value - self.least) / (self.most - self.least) * (self.ends - self.begins)
    }

    /// The round figures along it, with how each is written.
    pub(super) fn marks(&self) -> Vec<(f64, String)> {
        let places = usize::from(self.step < 1.0);
        let mut marks = Vec::new();
        let mut at = self.least;
        while at <= self.most + self.step * 1e-6 && marks.len() < 40 {
            marks.push((at, grouped(at, places)));
            at += self.step;
        }
        marks
    }
}

/// A number with its thousands apart, and so many places behind its point.
pub fn grouped(value: f64, places: usize) -> String {
    // What rounds to nothing has no sign.
    let value =
        if value.abs() < 0.5 * 0.1_f64.powi(i32::try_from(places).unwrap_or(0)) { 0.0 } else { value };
    let plain = format!("{:.places$}", value.abs());
    let (whole, rest) =
        plain.split_once('.').map_or((plain.as_str(), None), |(whole, rest)| (whole, Some(rest)));
    let mut text = if value < 0.0 { "-".to_owned() } else { String::new() };
    for (at, digit) in whole.chars().enumerate() {
        if at > 0 && (whole.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    rest.map_or(text.clone(), |rest| format!("{text}.{rest}"))
}

/// The next of 1, 2, 5, 10, 20, 50 … that is no smaller.
fn round_step(wanted: f64) -> f64 {
    let power = 10_f64.powf(wanted.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|step| *step >= wanted)
        .unwrap_or(10.0 * power)
}
