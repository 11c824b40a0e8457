//! Numbers that are the same in every run.

/// A linear congruential generator with the multiplier and increment of D. E. Knuth's MMIX (from memory), of which the
/// upper half is used.
pub(super) struct Random(u64);

impl Random {
    pub(super) fn new(seed: u64) -> Self {
        let mut random = Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x1234_5678);
        for _ in 0..4 {
            random.bits();
        }
        random
    }

    fn bits(&mut self) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u32::try_from(self.0 >> 32).unwrap()
    }

    /// A whole number below another.
    pub(super) fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.bits()).unwrap() % end
    }

    /// Once in so many times.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// Between two numbers.
    pub(super) fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * f64::from(self.bits()) / f64::from(u32::MAX)
    }
}
