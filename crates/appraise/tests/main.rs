//! The tests of this room as one program: linked once, and run beside one another.

mod cases;
mod common;
mod conditions;
mod fixture;
mod index;
mod laws;
mod ledger;
mod ledger_slips;
mod limit;
mod market;
mod mixtures;
mod public;
mod tables;
mod terms;
