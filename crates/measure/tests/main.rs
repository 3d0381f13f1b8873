//! The tests of this room as one program: linked once, and run beside one another.

mod cases;
mod common;
mod laws;
mod monte_carlo;
mod possible;
mod recast;
mod tables;
