//! The tests of this room as one program: linked once, and run beside one another.

mod common;
mod edtf;
mod find;
mod hostile;
mod linked_art;
mod merge;
mod round;
mod sheets;
mod table;
