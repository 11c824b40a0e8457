//! A build with all that its calculation needs besides.

use pintle_spec::field::Field;
use pintle_spec::{Build, Known};

use crate::assumed::Assumptions;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::place::Places;

/// A build, what is assumed about it, and the places it may go to.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The build.
    pub build: &'a Build,
    /// What is assumed where it does not say.
    pub assumptions: &'a Assumptions,
    /// The places there are, and those that a shop reckons with.
    pub places: &'a Places,
}

impl Case<'_> {
    /// What is assumed of the build, and where that comes from; see [`Assumptions::of`].
    ///
    /// # Errors
    /// The assumption, where neither the build nor the rulebook states it.
    pub fn assumed(&self, topic: &'static Field, field: &'static Field) -> Known<(Figure, Origin)> {
        self.assumptions.of(self.build, topic, field)
    }
}
