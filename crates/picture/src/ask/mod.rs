//! What a page asks of the program that works on a photograph, and what it is told: whole numbers in a list, each
//! message with its own number in front, its size checked before anything is read. Units: tenths of a pixel of the
//! working picture, tenths of a millimetre, per mille.

mod asked;
mod told;
mod words;

pub use asked::{Asked, Patch};
pub use told::{Outline, Told, Valued};
pub use words::{MOST_WORDS, Spot, strokes};
