//! Traits to shapes: line drawings of irons as paths with roles. No SVG text, no browser, no names of kinds.

mod words;

pub use words::{At, KEYS, Key, SIZES, Word, words};
