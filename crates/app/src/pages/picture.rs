//! A drawing as a file of its own: with colours written in, since no style sheet goes with it.

use consult::book::Piece;
use sketch::{Art, Drawing, Look};

/// Text of an SVG file, and its size in pixels.
pub(crate) struct Picture {
    pub(crate) text: String,
    pub(crate) size: (u32, u32),
}

/// Pixels to a unit of the drawing.
const FINE: u32 = 5;

/// The drawing of a piece as a file; none where the art lacks a figure.
pub(crate) fn picture(piece: &Piece, art: &Art, head: &consult::book::Head) -> Option<Picture> {
    let drawing = Drawing::parse(&piece.draw).ok()?.around(piece.mm);
    let scene = drawing.shapes(art)?;
    let (wide, high) = scene.view_box;
    let size = (wide.unsigned_abs() * FINE / 10, high.unsigned_abs() * FINE / 10);
    let title = escaped(&piece.says);
    let says = escaped(&format!("{} {}, {}, {}", drawing.alt(art), head.name, head.edition, head.licence));
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\" width=\"{}\" height=\"{}\">\n\
         <title>{title}</title>\n<desc>{says}</desc>\n<rect width=\"{wide}\" height=\"{high}\" fill=\"#fff\"/>\n\
         <g fill=\"none\" stroke=\"#2a2520\" stroke-width=\"16\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n",
        size.0, size.1
    );
    for shape in &scene.shapes {
        let looks = match shape.look {
            Look::Body | Look::AskedBody => " fill=\"#e3ddd0\"",
            Look::Line | Look::Asked => "",
            Look::Thin | Look::AskedThin => " stroke-width=\"9\"",
            Look::Hole => " fill=\"#2a2520\" stroke-width=\"7\"",
            Look::Day => " fill=\"#fff\" stroke-width=\"7\"",
            Look::Yellow => " fill=\"#eccb63\" stroke-width=\"7\"",
            Look::Brown => " fill=\"#d99a6c\" stroke-width=\"7\"",
        };
        text.push_str(&format!("<path{looks} d=\"{}\"/>\n", shape.path));
    }
    text.push_str("</g>\n</svg>\n");
    Some(Picture { text, size })
}

/// A pack's text may hold anything that looks like markup; here it is text.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    #[test]
    fn text_of_a_pack_is_no_markup() {
        assert_eq!(super::escaped("<b>&amp;</b>"), "&lt;b&gt;&amp;amp;&lt;/b&gt;");
    }
}
