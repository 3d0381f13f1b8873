//! The outline as a drawing at true size, in millimetres, with a bar of 50 mm to check the printer by.

use picture::ask::{Outline, Spot};

/// Tenths of a millimetre round the outline, and below it for the bar.
const MARGIN: i32 = 50;
const FOOT: i32 = 140;
/// The bar, tenths of a millimetre.
const BAR: i32 = 500;

/// Width and height of the drawing, tenths of a millimetre.
pub(super) fn size(outline: &Outline) -> [i32; 2] {
    [outline.size[0].max(BAR) + 2 * MARGIN, outline.size[1] + MARGIN + FOOT]
}

/// The line, as strokes in tenths of a millimetre.
pub(super) fn line(outline: &Outline) -> String {
    path(&outline.true_size, MARGIN)
}

/// The bar with its ends.
pub(super) fn bar(outline: &Outline) -> String {
    let y = outline.size[1] + MARGIN + 60;
    format!(
        "M{MARGIN} {}V{}M{MARGIN} {y}H{}M{} {}V{}",
        y - 15,
        y + 15,
        MARGIN + BAR,
        MARGIN + BAR,
        y - 15,
        y + 15
    )
}

/// Points as a closed path.
pub(super) fn path(points: &[Spot], shift: i32) -> String {
    let mut d = String::new();
    for (i, p) in points.iter().enumerate() {
        d.push_str(if i == 0 { "M" } else { "L" });
        d.push_str(&format!("{} {}", p.x + shift, p.y + shift));
    }
    d.push('Z');
    d
}

/// `64.5mm`.
pub(super) fn in_mm(tenths: i32) -> String {
    format!("{}.{}mm", tenths / 10, tenths % 10)
}

/// The whole drawing as a file.
pub(super) fn svg(outline: &Outline) -> String {
    let [w, h] = size(outline);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {w} {h}\"><title>Outline of \
         a sole at true size</title><path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"3\"/><path d=\"{}\" \
         fill=\"none\" stroke=\"#000\" stroke-width=\"3\"/><text x=\"{MARGIN}\" y=\"{}\" font-size=\"32\" \
         font-family=\"sans-serif\">50 mm</text></svg>",
        in_mm(w),
        in_mm(h),
        line(outline),
        bar(outline),
        h - 30
    )
}
