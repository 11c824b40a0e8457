//! How the trailer follows at speed: its yaw inertia, and a linear model of tow vehicle and trailer with its damping and
//! the speeds at which it turns unstable. A tool for trends: what is better than what, and what makes it so.

mod arranged;
mod inertia;
mod model;
mod vehicle;
mod workings;

pub use inertia::{Yaw, box_inertia, yaw};
pub use model::{Crossing, Kind, Root, Roots, TOP_SPEED, TrailerAxle, Train, heavy_vehicle};
pub use workings::workings;

#[cfg(test)]
mod tests;
