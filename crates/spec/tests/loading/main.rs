//! Specs and stock lists, sound and unsound: what is said of them, where, and what comes of them.

#[cfg(test)]
mod aboard;
#[cfg(test)]
mod all_at_once;
#[cfg(test)]
mod bench;
#[cfg(test)]
mod electric;
#[cfg(test)]
mod footings;
#[cfg(test)]
mod gas;
#[cfg(test)]
mod grammar;
#[cfg(test)]
mod hostile;
#[cfg(test)]
mod keeping;
#[cfg(test)]
mod keys;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod papers;
#[cfg(test)]
mod patches;
#[cfg(test)]
mod places;
#[cfg(test)]
mod stock;
#[cfg(test)]
mod tickets;
#[cfg(test)]
mod ties;
#[cfg(test)]
mod together;
#[cfg(test)]
mod values;
#[cfg(test)]
mod variants;
#[cfg(test)]
mod zones;
