//! Where the host's functions are handed in to an engine: each is noted, so that it can be held against the table of
//! [`functions`](crate::functions).

use std::any::TypeId;

use rhai::{Engine, RhaiNativeFunc, Variant};

/// A function as it was handed in: its name, and the types that it takes.
pub(crate) type Handed = (&'static str, Vec<TypeId>);

/// An engine that is being taught.
pub(crate) struct Desk<'e> {
    engine: &'e mut Engine,
    handed: Vec<Handed>,
}

impl<'e> Desk<'e> {
    pub(crate) fn new(engine: &'e mut Engine) -> Self {
        Self { engine, handed: Vec::new() }
    }

    /// The engine itself, for lookups by name, which are no functions.
    pub(crate) fn engine(&mut self) -> &mut Engine {
        self.engine
    }

    /// All that was handed in.
    pub(crate) fn handed(self) -> Vec<Handed> {
        self.handed
    }

    pub(crate) fn register_type_with_name<T: Variant + Clone>(&mut self, name: &str) {
        self.engine.register_type_with_name::<T>(name);
    }

    pub(crate) fn register_fn<A, const N: usize, const X: bool, R, const F: bool, C>(
        &mut self,
        name: &'static str,
        function: C,
    ) where
        A: 'static,
        R: Variant + Clone,
        C: RhaiNativeFunc<A, N, X, R, F> + 'static,
    {
        self.handed.push((name, C::param_types().to_vec()));
        self.engine.register_fn(name, function);
    }
}
