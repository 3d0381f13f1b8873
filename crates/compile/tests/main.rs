//! The tests of this room as one program: linked once, and run beside one another.

mod cases;
mod common;
mod corpus;
mod good;
mod hostile;
mod reference;
mod shape;
mod sheets;
