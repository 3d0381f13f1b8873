//! The tests of this room as one program: linked once, and run beside one another.

mod mutants;
