//! Years of making by make, on one scale: dark where most were made, light to the ends.

use crate::ui::charts::{WIDTH, chart, ticks};
use crate::ui::node::{Node, el, text};
use consult::book::reach;
use units::Period;

/// Height of a make's line: its name, and the bar under it.
const LINE: i32 = 34;

pub(super) fn years(makes: &[(String, Period)]) -> Node {
    let (from, to) = reach(makes);
    let (from, to) = (i32::from(from), i32::from(to));
    let bottom = makes.len() as i32 * LINE;
    let x = |year: i16| (i32::from(year) - from) * WIDTH / (to - from);
    let bar = |class: &'static str, from: i16, to: i16, y: i32, height: i32| {
        el("rect", class)
            .number("x", x(from))
            .number("y", y)
            .number("width", (x(to) - x(from)).max(2))
            .number("height", height)
    };
    // The words beneath say the same.
    let mut svg = chart(&format!("-4 0 308 {}", bottom + 22), "Years of making, by make");
    for (i, (name, p)) in makes.iter().enumerate() {
        let y = i as i32 * LINE;
        svg = svg
            .put(text("text", "", name).set("x", "0").number("y", y + 12))
            .put(bar("light", p.earliest, p.latest, y + 19, 10))
            .put(bar("dark", p.likely_from, p.likely_to, y + 17, 14));
    }
    ticks(svg.put(el("path", "axis").set("d", &format!("M0 {bottom}H{WIDTH}"))), (from, to), bottom)
}
