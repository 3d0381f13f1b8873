//! Curves as SVG.

use super::{Plot, html::escaped};

const WIDE: f64 = 380.0;
const HIGH: f64 = 240.0;
/// Room for numbers at the left, at the foot, and for names at the right.
const LEFT: f64 = 48.0;
const FOOT: f64 = 36.0;
const NAMES: f64 = 170.0;
const TOP: f64 = 10.0;
/// Told apart in grey too: by dashes. Colours that people with any colour vision can part (after Okabe and Ito 2008).
const PENS: [(&str, &str); 6] = [
    ("#0072b2", ""),
    ("#d55e00", "6 3"),
    ("#009e73", "2 3"),
    ("#cc79a7", "8 3 2 3"),
    ("#8c6d00", "4 4"),
    ("#56b4e9", "1 2"),
];

/// One figure.
pub(super) fn svg(plot: &Plot) -> String {
    let points = || plot.lines.iter().flat_map(|(_, p)| p).filter(|(x, y)| x.is_finite() && y.is_finite());
    let ends = |of: fn(&(f64, f64)) -> f64| {
        let (low, high) =
            points().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        if low < high { (low, high) } else { (low - 0.5, low + 0.5) }
    };
    if points().next().is_none() {
        return String::new();
    }
    let (xs, ys) = (ends(|p| p.0), ends(|p| p.1));
    let (right, foot) = (LEFT + WIDE, TOP + HIGH);
    let x = |v: f64| LEFT + (v - xs.0) / (xs.1 - xs.0) * WIDE;
    let y = |v: f64| foot - (v - ys.0) / (ys.1 - ys.0) * HIGH;
    let mut out = format!(
        "<figure><svg width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"{}\">\
         <rect class=\"frame\" x=\"{LEFT}\" y=\"{TOP}\" width=\"{WIDE}\" height=\"{HIGH}\"/>\n",
        escaped(&plot.caption),
        w = right + NAMES,
        h = foot + FOOT
    );
    for i in 0..=4 {
        let part = f64::from(i) / 4.0;
        let (at_x, at_y) = (xs.0 + part * (xs.1 - xs.0), ys.0 + part * (ys.1 - ys.0));
        out.push_str(&format!(
            "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{}</text>\
             <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{}</text>\n",
            x(at_x),
            foot + 15.0,
            short(at_x),
            LEFT - 5.0,
            y(at_y) + 4.0,
            short(at_y)
        ));
    }
    out.push_str(&format!(
        "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{}</text>\n",
        LEFT + WIDE / 2.0,
        foot + 31.0,
        escaped(&plot.x)
    ));
    for (i, (name, line)) in plot.lines.iter().enumerate() {
        let (colour, dashes) = PENS[i % PENS.len()];
        let path: Vec<String> = (line.iter().filter(|(a, b)| a.is_finite() && b.is_finite()))
            .map(|(a, b)| format!("{:.1},{:.1}", x(*a), y(*b)))
            .collect();
        let row = TOP + 12.0 + 18.0 * i as f64;
        out.push_str(&format!(
            "<polyline points=\"{}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"2\" stroke-dasharray=\"{dashes}\"/>\
             <line x1=\"{}\" x2=\"{}\" y1=\"{row}\" y2=\"{row}\" stroke=\"{colour}\" stroke-width=\"2\" stroke-dasharray=\"{dashes}\"/>\
             <text x=\"{}\" y=\"{}\">{}</text>\n",
            path.join(" "),
            right + 8.0,
            right + 30.0,
            right + 35.0,
            row + 4.0,
            escaped(name)
        ));
    }
    out.push_str(&format!(
        "</svg><figcaption>{} ({})</figcaption></figure>\n",
        escaped(&plot.caption),
        escaped(&plot.y)
    ));
    out
}

/// A number at an axis.
fn short(x: f64) -> String {
    let text = format!("{x:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_of_a_curve_stand_in_the_corners() {
        let plot = Plot {
            caption: "c".to_owned(),
            x: "x".to_owned(),
            y: "y".to_owned(),
            lines: vec![("one".to_owned(), vec![(0.0, 0.0), (2.0, 1.0)])],
        };
        let found = svg(&plot);
        assert!(found.contains("points=\"48.0,250.0 428.0,10.0\""), "{found}");
        assert_eq!(svg(&Plot::default()), "");
    }
}
