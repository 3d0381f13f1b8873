//! The tests of this room as one program: linked once, and run beside one another.

mod copies;
mod drawings;
mod length;
mod museum;
mod quality;
mod simulated;
mod sizes;
mod trade;
