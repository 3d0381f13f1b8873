//! The tests of this room as one program: linked once, and run beside one another.

mod checks;
mod come_back;
mod common;
mod corpus;
mod golden;
mod header;
mod hostile;
mod whole;
