//! A pack looked over as a whole, for the command line and for the pack desk of the site alike: its faults, whether its
//! kinds are found by the pieces that are described, how far they stand apart, how pieces made up of its own tables fare; and
//! the small pack that newcomers begin with. Never in here: file access, a clock, a browser, the format of the files.

mod check;
mod kin;
pub mod quality;
pub mod simulate;
mod starter;

pub use check::{Checked, Fares, MADE_UP, sizes, told_by};
pub use starter::starter;
