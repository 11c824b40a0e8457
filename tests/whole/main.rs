//! The tool as its users meet it: the built program, real files, real exit codes.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]
#![expect(clippy::disallowed_methods, reason = "these tests make and read files of their own")]

mod arrangements;
mod checks;
mod compare;
mod demo;
mod edges;
mod figures;
mod files;
mod inspect;
mod layers;
mod mend;
mod mistakes;
mod output;
mod readme;
mod renamed;
mod rule_book;
mod script_page;
mod sheet;
mod sheet_record;
mod shop;
mod spec_page;
mod tool;
mod waivers;
mod walk;
mod weigh;
mod workshop;
