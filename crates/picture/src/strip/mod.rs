//! What a JPEG file says about itself: read what measuring needs, and leave out what a stranger should not learn.

mod exif;
mod jpeg;

pub use exif::{About, about};
pub use jpeg::{Spoiled, stripped};
