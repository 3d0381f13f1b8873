//! The tests of this room as one program: linked once, and run beside one another.

mod brute;
mod fit;
mod gains;
mod laws;
mod naive_bayes;
mod slow;
mod small;
mod toy;
