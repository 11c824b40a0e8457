//! The fields of every table of specs and stock lists, one module a table.

pub mod assume;
pub mod build;
pub mod electric;
pub mod gas;
pub mod item;
pub mod kinds;
pub mod place;
pub mod record;
pub mod state;
pub mod stock;
pub mod tow;
pub mod trailer;

use crate::field::Schema;

/// Every schema a spec or stock list is read by, for documentation and nearest names.
pub static ALL: &[&Schema] = &[
    &build::SCHEMA,
    &build::head::SCHEMA,
    &build::people::SCHEMA,
    &build::either::SCHEMA,
    &build::water::SCHEMA,
    &gas::SCHEMA,
    &gas::regulator::SCHEMA,
    &gas::line::SCHEMA,
    &gas::leak_test::SCHEMA,
    &electric::SCHEMA,
    &record::SCHEMA,
    &assume::SCHEMA,
    &assume::space::SCHEMA,
    &assume::roof::SCHEMA,
    &assume::anchor::SCHEMA,
    &assume::gas::SCHEMA,
    &assume::air::SCHEMA,
    &assume::electric::SCHEMA,
    &assume::water::SCHEMA,
    &assume::road::SCHEMA,
    &assume::tow::SCHEMA,
    &assume::sway::SCHEMA,
    &assume::scale::SCHEMA,
    &trailer::SCHEMA,
    &trailer::cg::SCHEMA,
    &trailer::nose::SCHEMA,
    &trailer::axle::SCHEMA,
    &trailer::tire::SCHEMA,
    &trailer::coupler::SCHEMA,
    &trailer::jack::SCHEMA,
    &trailer::chains::SCHEMA,
    &trailer::brakes::SCHEMA,
    &trailer::roof_rating::SCHEMA,
    &tow::SCHEMA,
    &place::SCHEMA,
    &place::cg::SCHEMA,
    &item::SCHEMA,
    &item::anchors::SCHEMA,
    &kinds::module::SCHEMA,
    &kinds::equipment::SCHEMA,
    &kinds::rack::SCHEMA,
    &kinds::tent::SCHEMA,
    &kinds::ladder::SCHEMA,
    &kinds::cylinder::SCHEMA,
    &kinds::appliance::SCHEMA,
    &kinds::battery::SCHEMA,
    &kinds::alarm::SCHEMA,
    &kinds::tank::SCHEMA,
    &kinds::tank::on_road::SCHEMA,
    &kinds::locker::SCHEMA,
    &kinds::bulkhead::SCHEMA,
    &kinds::berth::SCHEMA,
    &kinds::vent::SCHEMA,
    &kinds::opening::SCHEMA,
    &kinds::load::SCHEMA,
    &state::SCHEMA,
    &state::load::SCHEMA,
    &state::people::SCHEMA,
    &stock::SCHEMA,
];
