//! What is known of the camera before the card is looked at.

use crate::Point;

/// A picture's size and what its camera is taken to be. Square pixels, the axis through the middle of the picture: a
/// picture that was cropped off the middle breaks this.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// Pixels across.
    pub width: f64,
    /// Pixels down.
    pub height: f64,
    /// Focal length in pixels.
    pub focal: f64,
    /// Standard uncertainty of the focal length as a share of it.
    pub focal_share: f64,
    /// Standard uncertainty of the radial distortion k in r (1 + k r2), r in focal lengths.
    pub bend: f64,
}

/// Diagonal of a frame of 36 x 24 mm: what an equivalent focal length refers to (CIPA DCG-001; the figure is arithmetic).
const DIAGONAL_35: f64 = 43.266_615_305_567_87;
/// The main camera of a telephone without a word from it: 26 mm within a fifth or so. Practice.
const USUAL: (f64, f64) = (26.0, 0.12);
/// A stated equivalent is a whole number, and focusing near lengthens it a little. Practice.
const STATED_SHARE: f64 = 0.025;
/// Telephones straighten their pictures; what is left is taken to be within 0.02. Practice.
const BEND: f64 = 0.012;

impl Lens {
    /// The lens of a picture of this size; `equivalent` is the focal length for 35 mm film in mm that its EXIF states.
    #[must_use]
    pub fn of(width: u32, height: u32, equivalent: Option<u16>) -> Lens {
        let (width, height) = (f64::from(width.max(1)), f64::from(height.max(1)));
        let stated = equivalent.filter(|mm| (8..=300).contains(mm));
        let (mm, focal_share) = stated.map_or(USUAL, |mm| (f64::from(mm), STATED_SHARE));
        let diagonal = (width * width + height * height).sqrt();
        Lens { width, height, focal: mm / DIAGONAL_35 * diagonal, focal_share, bend: BEND }
    }

    /// From pixels to focal lengths from the middle.
    pub(crate) fn centred(&self, p: Point) -> Point {
        Point::new((p.x - 0.5 * self.width) / self.focal, (p.y - 0.5 * self.height) / self.focal)
    }

    /// And back.
    pub(crate) fn pixel(&self, p: Point) -> Point {
        Point::new(p.x * self.focal + 0.5 * self.width, p.y * self.focal + 0.5 * self.height)
    }

    /// Whether a point lies on the picture, or outside by no more than `margin` pixels.
    pub(crate) fn holds(&self, p: Point, margin: f64) -> bool {
        let within = |x: f64, size: f64| x >= -margin && x <= size + margin;
        within(p.x, self.width) && within(p.y, self.height)
    }
}
