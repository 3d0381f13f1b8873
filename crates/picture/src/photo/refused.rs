//! Why a photograph gives no length. The sentences are written where they are shown.

/// Why nothing can be measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// The two taps of this edge (from 0) lie too near to each other to say where the edge runs.
    TapsTooNear(u8),
    /// The four edges do not close to a figure with four corners: taps on a wrong edge, or out of turn.
    NoFourCorners,
    /// A corner of the card lies outside of the picture.
    CutOff,
    /// The card or coin is too small in the picture for taps like these.
    TooSmall,
    /// The camera looks too much from the side.
    TooOblique,
    /// The four edges are not those of a flat card of this size: bent, lifted on one side, another format, or a tap astray.
    NotFlat,
    /// The taps do not lie on a round rim: too few, too near to each other, or one astray.
    NotRound,
    /// The taps do not tell where the camera was.
    Unclear,
    /// The piece stands so high that the camera is hardly above it.
    TooHigh,
    /// A tap on the piece lies outside of the picture, both are one, or the plane is not seen there.
    OffThePlane,
    /// The length would be known to no better than a third either way.
    TooUncertain,
}
