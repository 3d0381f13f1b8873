//! The tests of this room as one program: linked once, and run beside one another.

mod buttons;
mod club;
mod common;
mod consult;
mod marks;
mod quality;
mod schema;
mod sheet;
mod simulate;
mod verbs;
