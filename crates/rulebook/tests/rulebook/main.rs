//! The rulebook as a whole: its files, a shop's settings, what findings point at, and the built-in packs.

#[cfg(test)]
mod arranged;
#[cfg(test)]
mod backlog;
#[cfg(test)]
mod bench;
#[cfg(test)]
mod builtin;
#[cfg(test)]
mod kept;
#[cfg(test)]
mod labels;
#[cfg(test)]
mod layers;
#[cfg(test)]
mod own_subjects;
#[cfg(test)]
mod packs;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod remedies;
#[cfg(test)]
mod renamed;
#[cfg(test)]
mod rule_files;
#[cfg(test)]
mod sameness;
mod sandbox;
#[cfg(test)]
mod settings;
#[cfg(test)]
mod tight;
#[cfg(test)]
mod tolerances;
#[cfg(test)]
mod verdicts;
#[cfg(test)]
mod waivers;
