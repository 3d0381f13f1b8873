//! The curve of years and the band of prices. Each has its numbers as text beneath and reads in grey.

use super::node::{Node, el, text};
use consult::{WorthView, YearsView};

pub(crate) const WIDTH: i32 = 300;
const HEIGHT: i32 = 60;
/// Height of the strip of one mark.
const STRIP: i32 = 11;

/// The curve: dark inside even chances, light inside nine in ten, outline beyond; dashed what it would be without marks,
/// beneath it a strip for each mark, the darker the better the mark goes with the year.
pub(crate) fn years(view: &YearsView) -> Node {
    let (from, to) = (i32::from(view.from), i32::from(view.to));
    let x = |year: i32| (year - from) * WIDTH / (to - from).max(1);
    let over = |heights: &[u16], at: i32| {
        let height = heights.get(at as usize).copied().unwrap_or(0);
        HEIGHT - i32::from(height) * (HEIGHT - 4) / 1000
    };
    let y = |at: i32| over(&view.heights, at);
    let area = |class: &'static str, a: i32, b: i32| {
        let (a, b) = (a.max(from), b.min(to));
        let mut d = format!("M{} {HEIGHT}", x(a));
        (a..=b).for_each(|year| d.push_str(&format!("L{} {}", x(year), y(year - from))));
        d.push_str(&format!("L{} {HEIGHT}Z", x(b)));
        el("path", class).set("d", &d)
    };
    let runs = |runs: &[(i16, i16)], class: &'static str| -> Vec<Node> {
        runs.iter().map(|(a, b)| area(class, i32::from(*a), i32::from(*b))).collect()
    };
    let low = HEIGHT + STRIP * view.marks.len() as i32;
    let says = format!("Years: even chances {}; 9 in 10 {}", view.half, view.nine);
    let mut svg = chart(&format!("-4 0 308 {}", low + 22), &says)
        .all(runs(&view.nine_runs, "light"))
        .all(runs(&view.half_runs, "dark"))
        .put(area("curve", from, to));
    if !view.without.is_empty() {
        let mut d = format!("M0 {HEIGHT}");
        (from..=to)
            .for_each(|year| d.push_str(&format!("L{} {}", x(year), over(&view.without, year - from))));
        svg = svg.put(el("path", "without").set("d", &d));
    }
    for (i, mark) in view.marks.iter().enumerate() {
        svg = svg.all(strip(&mark.heights, HEIGHT + STRIP * i as i32 + 3, &|at| x(from + at)));
    }
    ticks(svg, (from, to), low)
}

/// Runs of years that a mark allows: well, and hardly.
fn strip(heights: &[u16], y: i32, x: &dyn Fn(i32) -> i32) -> Vec<Node> {
    let step = |h: &u16| match h {
        500.. => 2,
        20.. => 1,
        _ => 0,
    };
    let (mut nodes, mut from) = (Vec::new(), 0);
    for at in 1..=heights.len() {
        let this = heights.get(from).map_or(0, step);
        if heights.get(at).map(step) == Some(this) {
            continue;
        }
        let class = if this == 2 { "dark" } else { "light" };
        let (a, b) = (x(from as i32), x(at as i32 - 1));
        if this > 0 {
            nodes.push(
                el("rect", class)
                    .number("x", a)
                    .number("y", y)
                    .number("width", (b - a).max(2))
                    .number("height", STRIP - 4),
            );
        }
        from = at;
    }
    nodes
}

/// Marks under a chart of years, with numbers that do not collide.
pub(crate) fn ticks(mut svg: Node, (from, to): (i32, i32), y: i32) -> Node {
    let step = [10, 20, 25, 50, 100].into_iter().find(|s| (to - from) / s <= 5).unwrap_or(100);
    for i in (from + step - 1) / step..=to / step {
        let at = (i * step - from) * WIDTH / (to - from).max(1);
        let anchor = match at {
            at if at < 16 => "start",
            at if at > WIDTH - 16 => "end",
            _ => "middle",
        };
        svg = svg.put(el("path", "axis").set("d", &format!("M{at} {y}v5"))).put(
            text("text", "", &(i * step).to_string())
                .number("x", at)
                .number("y", y + 18)
                .set("text-anchor", anchor),
        );
    }
    svg
}

/// The band on a scale of equal factors: half of such pieces dark, 8 in 10 light.
pub(crate) fn worth(view: &WorthView) -> Node {
    let [ten, quarter, _, three, ninety] = view.quantiles.map(|m| steps(m.max(1)));
    let (low, high) = (ten - 40, ninety + 40);
    let x = |s: i32| (s - low) * WIDTH / (high - low).max(1);
    let band = |class: &'static str, a: i32, b: i32, y: i32, h: i32| {
        el("rect", class)
            .number("x", x(a))
            .number("y", y)
            .number("width", (x(b) - x(a)).max(2))
            .number("height", h)
    };
    chart("-4 0 308 30", &format!("Half of such pieces {}; 8 in 10 {}", view.half, view.eight))
        .put(el("path", "axis").set("d", &format!("M0 15H{WIDTH}")))
        .put(band("light", ten, ninety, 6, 18))
        .put(band("dark", quarter, three, 2, 26))
}

pub(crate) fn chart(view_box: &str, says: &str) -> Node {
    el("svg", "chart").set("viewBox", view_box).set("role", "img").set("aria-label", says)
}

/// About 100 log2 of an amount, in whole numbers: halves of a doubling are straight lines, near enough for a picture.
fn steps(minor: i64) -> i32 {
    let whole = 63 - minor.leading_zeros();
    let part = ((minor - (1_i64 << whole)) * 100) >> whole;
    whole as i32 * 100 + part as i32
}
