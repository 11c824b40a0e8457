//! The fields of every table of specs and stock lists, one module a table.

pub mod anchors;
pub mod assume;
pub mod build;
pub mod electric;
pub mod gas;
pub mod item;
pub mod kinds;
pub mod moves;
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
    &build::water::pump::SCHEMA,
    &gas::SCHEMA,
    &gas::regulator::SCHEMA,
    &gas::line::SCHEMA,
    &gas::leak_test::SCHEMA,
    &electric::SCHEMA,
    &electric::bank::SCHEMA,
    &electric::array::SCHEMA,
    &electric::circuit::SCHEMA,
    &electric::usage::SCHEMA,
    &electric::mains::SCHEMA,
    &electric::mains::outlet::SCHEMA,
    &electric::connector::SCHEMA,
    &record::SCHEMA,
    &record::label::SCHEMA,
    &record::lugs::SCHEMA,
    &record::ticket::SCHEMA,
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
    &trailer::lugs::SCHEMA,
    &trailer::tire::SCHEMA,
    &trailer::coupler::SCHEMA,
    &trailer::jack::SCHEMA,
    &trailer::chains::SCHEMA,
    &trailer::brakes::SCHEMA,
    &trailer::roof_rating::SCHEMA,
    &trailer::lamp::SCHEMA,
    &trailer::wheel_box::SCHEMA,
    &trailer::bows::SCHEMA,
    &trailer::section::SCHEMA,
    &tow::SCHEMA,
    &tow::hitch::SCHEMA,
    &tow::hitch::pair::SCHEMA,
    &tow::hitch::bars::SCHEMA,
    &place::SCHEMA,
    &place::cg::SCHEMA,
    &item::SCHEMA,
    &moves::access::SCHEMA,
    &moves::swing::SCHEMA,
    &moves::folds::SCHEMA,
    &anchors::SCHEMA,
    &anchors::bolt::SCHEMA,
    &anchors::strength::SCHEMA,
    &anchors::track::SCHEMA,
    &anchors::strap::SCHEMA,
    &anchors::base::SCHEMA,
    &anchors::latch::SCHEMA,
    &kinds::module::SCHEMA,
    &kinds::equipment::SCHEMA,
    &kinds::rack::SCHEMA,
    &kinds::rack::feet_at::SCHEMA,
    &kinds::tent::SCHEMA,
    &kinds::ladder::SCHEMA,
    &kinds::cylinder::SCHEMA,
    &kinds::appliance::SCHEMA,
    &kinds::battery::SCHEMA,
    &kinds::inverter::SCHEMA,
    &kinds::charger::SCHEMA,
    &kinds::solar::SCHEMA,
    &kinds::alarm::SCHEMA,
    &kinds::tank::SCHEMA,
    &kinds::tank::on_road::SCHEMA,
    &kinds::locker::SCHEMA,
    &kinds::bulkhead::SCHEMA,
    &kinds::berth::SCHEMA,
    &kinds::vent::SCHEMA,
    &kinds::opening::SCHEMA,
    &kinds::extinguisher::SCHEMA,
    &kinds::load::SCHEMA,
    &state::SCHEMA,
    &state::load::SCHEMA,
    &state::people::SCHEMA,
    &stock::SCHEMA,
];
