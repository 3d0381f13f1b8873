//! Signs drawn as strokes, ten units high on the line y = 0: the few figures and letters that the drawings need.
//! The letters only suggest lettering; no word is ever spelt with them.

/// The strokes of a sign, nothing for one that is not known.
pub(crate) fn glyph(sign: u8) -> &'static str {
    match sign {
        b'0' => "M3 -10Q6 -10 6 -5Q6 0 3 0Q0 0 0 -5Q0 -10 3 -10Z",
        b'1' => "M1 -8L3.5 -10V0M1 0H6",
        b'5' => "M6 -10H1L0.5 -6Q6 -7 6 -3.2Q6 0 3 0Q1 0 0 -1.5",
        b'6' => "M5 -10Q0 -8 0 -3.5Q0 0 3 0Q6 0 6 -3Q6 -6 3 -6Q1 -6 0 -3.5",
        b'7' => "M0 -10H6L2 0",
        b'8' => {
            "M3 -5.5Q0.5 -6 0.5 -8Q0.5 -10 3 -10Q5.5 -10 5.5 -8Q5.5 -6 3 -5.5Q0 -5 0 -2.5Q0 0 3 0Q6 0 6 -2.5Q6 -5 3 -5.5Z"
        }
        b'L' => "M0 -10V0H6",
        b'H' => "M0 0V-10M6 0V-10M0 -5H6",
        b'T' => "M0 -10H6M3 -10V0",
        b'N' => "M0 0V-10L6 0V-10",
        b'F' => "M0 0V-10H6M0 -5H5",
        b'K' => "M0 0V-10M6 -10L0 -4M2 -6L6 0",
        b'R' => "M0 0V-10H3Q6 -10 6 -7.2Q6 -4.5 3 -4.5H0M3 -4.5L6 0",
        b'D' => "M0 0V-10H2Q6 -10 6 -5Q6 0 2 0Z",
        b'C' => "M6 -8Q5 -10 3 -10Q0 -10 0 -5Q0 0 3 0Q5 0 6 -2",
        b'm' => "M0 0V-6.5M0 -4.5Q0 -6.5 1.5 -6.5Q3 -6.5 3 -4.5V0M3 -4.5Q3 -6.5 4.5 -6.5Q6 -6.5 6 -4.5V0",
        _ => "",
    }
}
