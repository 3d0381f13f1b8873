//! The curve of years and the band of prices. Each has its numbers as text beneath and reads in grey.

use consult::{WorthView, YearsView};
use yew::prelude::*;

const WIDTH: i32 = 300;
const HEIGHT: i32 = 60;

/// The curve: dark inside even chances, light inside nine in ten, outline beyond.
pub(crate) fn years(view: &YearsView) -> Html {
    let (from, to) = (i32::from(view.from), i32::from(view.to));
    let x = |year: i32| (year - from) * WIDTH / (to - from).max(1);
    let y = |at: i32| {
        HEIGHT - i32::from(view.heights.get(at as usize).copied().unwrap_or(0)) * (HEIGHT - 4) / 1000
    };
    let area = |a: i32, b: i32| {
        let (a, b) = (a.max(from), b.min(to));
        let mut d = format!("M{} {HEIGHT}", x(a));
        (a..=b).for_each(|year| d.push_str(&format!("L{} {}", x(year), y(year - from))));
        d.push_str(&format!("L{} {HEIGHT}Z", x(b)));
        d
    };
    let runs = |runs: &[(i16, i16)], class: &'static str| {
        runs.iter()
            .map(|(a, b)| html! { <path {class} d={area(i32::from(*a), i32::from(*b))} /> })
            .collect::<Html>()
    };
    let step = [10, 20, 25, 50, 100]
        .into_iter()
        .find(|s| (to - from) / s <= 5)
        .unwrap_or(100);
    let ticks = ((from + step - 1) / step..=to / step).map(|i| {
        let year = i * step;
        let anchor = if x(year) < 16 {
            "start"
        } else if x(year) > WIDTH - 16 {
            "end"
        } else {
            "middle"
        };
        html! {
            <>
                <path class="axis" d={format!("M{} {HEIGHT}v5", x(year))} />
                <text x={x(year).to_string()} y="78" text-anchor={anchor}>{ year.to_string() }</text>
            </>
        }
    });
    html! {
        <svg class="chart" viewBox="-4 0 308 82" role="img" aria-label={format!("Years: even chances {}; 9 in 10 {}", view.half, view.nine)}>
            { runs(&view.nine_runs, "light") }
            { runs(&view.half_runs, "dark") }
            <path class="curve" d={area(from, to)} />
            { for ticks }
        </svg>
    }
}

/// The band on a scale of equal factors: half of such pieces dark, 8 in 10 light.
pub(crate) fn worth(view: &WorthView) -> Html {
    let [ten, quarter, _, three, ninety] = view.quantiles.map(|m| steps(m.max(1)));
    let (low, high) = (ten - 40, ninety + 40);
    let x = |s: i32| (s - low) * WIDTH / (high - low).max(1);
    let band = |class: &'static str, a: i32, b: i32, y: i32, h: i32| {
        html! { <rect {class} x={x(a).to_string()} y={y.to_string()} width={(x(b) - x(a)).max(2).to_string()} height={h.to_string()} /> }
    };
    html! {
        <svg class="chart" viewBox="-4 0 308 30" role="img" aria-label={format!("Half of such pieces {}; 8 in 10 {}", view.half, view.eight)}>
            <path class="axis" d={format!("M0 15H{WIDTH}")} />
            { band("light", ten, ninety, 6, 18) }
            { band("dark", quarter, three, 2, 26) }
        </svg>
    }
}

/// About 100 log2 of an amount, in whole numbers: halves of a doubling are straight lines, near enough for a picture.
fn steps(minor: i64) -> i32 {
    let whole = 63 - minor.leading_zeros() as i32;
    let part = ((minor - (1_i64 << whole)) * 100 >> whole) as i32;
    whole * 100 + part
}
