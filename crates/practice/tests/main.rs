//! The tests of this room as one program: linked once, and run beside one another.

mod common;
mod pieces;
mod progress;
mod room;
mod tasks;
mod teaching;
