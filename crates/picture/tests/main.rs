//! The tests of this room as one program: linked once, and run beside one another.

mod ask;
mod common;
mod coverage;
mod fixture;
mod hostile;
mod photo;
mod rendered;
mod shape;
mod strip;
