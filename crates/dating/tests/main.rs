//! The tests of this room as one program: linked once, and run beside one another.

mod calibration;
mod cases;
mod common;
mod edtf;
mod hostile;
mod laws;
mod mutants;
