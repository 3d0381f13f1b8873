//! The rule along the edge of the card: millimetres above, eighths of an inch below.

use std::fmt::Write;

/// Length of the rule: within A4 and letter paper with margins of 8 mm.
const MILLIMETRES: u32 = 190;
/// An inch is 25.4 mm exactly (published: international yard and pound agreement, 1959).
const INCH: f64 = 25.4;
/// The long side of a bank card (published: ISO/IEC 7810, ID-1).
const CARD: f64 = 85.6;

/// As a drawing whose units are millimetres.
pub(super) fn svg() -> String {
    let mut lines = String::new();
    let mut numbers = String::new();
    for mm in 0..=MILLIMETRES {
        let length = match mm % 10 {
            0 => 4.0,
            5 => 3.0,
            _ => 2.0,
        };
        let _ = write!(lines, "M{} 0v{length}", f64::from(mm) + 1.0);
        if mm % 10 == 0 && mm > 0 {
            let _ = write!(numbers, "<text x=\"{}\" y=\"6.4\">{mm}</text>", f64::from(mm) + 1.0);
        }
    }
    let eighths = (f64::from(MILLIMETRES) / INCH * 8.0) as u32;
    for eighth in 0..=eighths {
        let x = f64::from(eighth) * INCH / 8.0 + 1.0;
        let length = match eighth % 8 {
            0 => 4.0,
            4 => 3.0,
            2 | 6 => 2.4,
            _ => 1.6,
        };
        let _ = write!(lines, "M{x:.3} 14v-{length}");
        if eighth % 8 == 0 && eighth > 0 {
            let _ = write!(numbers, "<text x=\"{x:.3}\" y=\"9.4\">{} in</text>", eighth / 8);
        }
    }
    format!(
        "<svg class=\"rule\" xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"14mm\" viewBox=\"0 0 {0} 14\" role=\"img\" \
         aria-label=\"A rule in millimetres and inches\">\n<path d=\"{lines}\"/>\n{numbers}\n</svg>\n<p>At 100&nbsp;% the long side of a \
         bank card measures {CARD} mm here. If it does not, do not measure with this rule.</p>\n",
        MILLIMETRES + 4
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rule_is_true() {
        let svg = svg();
        // A unit of the drawing is a millimetre on paper.
        assert!(svg.contains("width=\"194mm\"") && svg.contains("viewBox=\"0 0 194 "));
        // Zero stands at 1; 100 mm at 101; 4 in = 101.6 mm at 102.6: arithmetic.
        for holds in [
            "M1 0v4",
            "M101 0v4",
            "M102.600 14v-4",
            "<text x=\"101\" y=\"6.4\">100<",
            "<text x=\"102.600\" y=\"9.4\">4 in<",
        ] {
            assert!(svg.contains(holds), "{holds}");
        }
    }
}
