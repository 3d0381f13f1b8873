//! Lengths, masses, money, year spans, shares and basis as integers. Never in here: trade knowledge, floats
//! in print, a browser, a clock, a file.
#![no_std]
extern crate alloc;

mod basis;
mod decimal;
mod length;
mod mass;
mod money;
mod order;
mod typed;
mod years;

pub use basis::Basis;
pub use decimal::{decimal, scaled};
pub use length::{Length, LengthUnit};
pub use mass::Mass;
pub use money::{Currency, Money};
pub use order::{arranged, descending, order};
pub use typed::Misread;
pub use years::{Period, Year};
