//! Placeholder until the first version stands.
