//! The outline of a sole: cut out of the photograph at true size, measured, described for comparison.

mod background;
mod contour;
mod cut;
mod finer;
mod fourier;
mod hull;
mod mask;
mod measures;

pub use contour::Contour;
pub use cut::{Cutting, Mend, Uncut, Window};
pub use fourier::{Descriptors, HARMONICS};
pub use measures::Shape;
