//! The screens as components: views in, messages out. No effect, no browser, no decision about the piece.

mod bar;
pub(crate) mod charts;
mod clues;
pub(crate) mod drawing;
mod finding;
mod in_guide;
mod list;
pub(crate) mod look;
mod marks;
mod measures;
pub(crate) mod node;
mod photo;
mod place;
mod sale;
mod screen;
mod setup;
mod strip;
mod typing;

pub(crate) use drawing::learn;
pub use screen::{Around, Draw, FirstProps, FirstQuestion};
pub(crate) use screen::{every, of_opening, screen};
