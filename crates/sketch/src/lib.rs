//! Traits to shapes: line drawings of irons as paths with roles. No SVG text, no browser, no names of kinds, no art.

mod art;
mod drawing;
mod fill;
mod keys;
mod map;
mod misread;
mod pen;
mod piece;
mod scene;

pub use art::{Art, Figure};
pub use drawing::Drawing;
pub use keys::{KEYS, Key, SIZES};
pub use misread::Misread;

/// What a shape is for; the page gives it stroke and fill. Fills are opaque: later shapes cover earlier ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Look {
    /// A part of the iron: outline, filled light.
    Body,
    /// An outline or edge, no fill.
    Line,
    /// A fine line: texture, hatching, detail. Dots are lines of no length, so line ends are round.
    Thin,
    /// The asked feature as a line, in the accent.
    Asked,
    /// A fine line of the asked feature, in the accent.
    AskedThin,
    /// The asked feature as a part: outline in the accent, filled light.
    AskedBody,
    /// A hole or what is dark in itself: dark in every theme.
    Hole,
    /// Daylight through a hole, or a glint: light in every theme.
    Day,
    /// Yellow metal: yellow in every theme, and never told by its colour alone.
    Yellow,
    /// Rust or copper: red brown in every theme, and never told by its colour alone.
    Brown,
}

/// One path and its role.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shape {
    /// Path data: M L C Q Z, absolute, whole numbers in tenths of a drawing unit.
    pub path: String,
    /// What the shape is for.
    pub look: Look,
}

/// A drawing that is ready to be shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scene {
    /// Width and height in tenths of a drawing unit; the origin is the upper left corner.
    pub view_box: (i32, i32),
    /// The shapes, the hindmost first.
    pub shapes: Vec<Shape>,
}
