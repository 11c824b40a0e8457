//! Sameness as data: two quantities are `==` when every stored part of them is the same, bit for bit.
//!
//! This serves tests and de-duplication. Limits are never compared with it; `compare.rs` is for that.

use crate::quantity::Quantity;

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        let bits = |tolerance: Option<f64>| tolerance.map(f64::to_bits);
        self.si.to_bits() == other.si.to_bits()
            && self.dimension == other.dimension
            && self.unit.map(crate::Unit::name) == other.unit.map(crate::Unit::name)
            && self.style == other.style
            && bits(self.tolerance) == bits(other.tolerance)
    }
}
