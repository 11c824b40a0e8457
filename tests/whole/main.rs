//! The tool as its users meet it: the built program, real files, real exit codes.

mod edges;
mod files;
mod inspect;
mod output;
mod readme;
mod shop;
mod tool;
mod weigh;
