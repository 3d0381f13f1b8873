//! The outline as a few numbers that a record keeps: how wide the sole is along its length. Two soles of one shape have the
//! same numbers whatever their size, however they lay, and whichever side was seen.

use picture::ask::{Outline, Spot};

/// Places along the length at which the width is taken. Basis: practice; the point of a small sole is a fifth of it.
const PLACES: usize = 20;

/// Widths across, per mille of the length, from the narrower end to the wider; nothing where the line encloses nothing.
pub(super) fn profile(outline: &Outline) -> Vec<i32> {
    let length = i64::from(outline.size[0]);
    if length <= 0 || outline.true_size.len() < 3 {
        return Vec::new();
    }
    let mut widths: Vec<i32> = (0..PLACES).map(|at| width(&outline.true_size, length, at)).collect();
    let (left, right) = widths.split_at(PLACES / 2);
    if left.iter().sum::<i32>() > right.iter().sum() {
        widths.reverse();
    }
    widths
}

/// How far the line reaches across at the middle of one of the places, per mille of the length.
fn width(line: &[Spot], length: i64, at: usize) -> i32 {
    // In units of a fortieth of a tenth, so that the middle of a place is a whole number.
    let scale = 2 * PLACES as i64;
    let x = (2 * at as i64 + 1) * length;
    let (mut least, mut most) = (i64::MAX, i64::MIN);
    for (i, a) in line.iter().enumerate() {
        let b = line[(i + 1) % line.len()];
        let (ax, bx) = (i64::from(a.x) * scale, i64::from(b.x) * scale);
        if (ax <= x) == (bx <= x) {
            continue;
        }
        let (ay, by) = (i64::from(a.y) * 1000, i64::from(b.y) * 1000);
        let y = ay + (by - ay) * (x - ax) / (bx - ax);
        (least, most) = (least.min(y), most.max(y));
    }
    if most < least { 0 } else { ((most - least + length / 2) / length) as i32 }
}
