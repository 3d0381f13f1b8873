//! The view that explains the taps best, and how well it is known: least squares with what was known before (Gauss and
//! Newton; the covariance is the inverse of the normal matrix).

use super::rim::Rim;
use super::view::{Step, UNKNOWNS, View};
use crate::Point;
use crate::linear::inverse_of_symmetric;

/// A tap on an edge.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tap {
    pub(crate) edge: usize,
    pub(crate) at: Point,
}

/// A view with what the taps and the lens tell of it.
#[derive(Debug, Clone)]
pub(crate) struct Fit {
    pub(crate) view: View,
    /// Of the steps of [`View::stepped`].
    pub(crate) covariance: [Step; UNKNOWNS],
    /// Sum of squares of what the taps and the foreknowledge are off, in standard uncertainties.
    pub(crate) misfit: f64,
}

/// Rounds at most; from the corners' own map four are usual.
const ROUNDS: usize = 25;
/// Holds an unknown where it is.
const HELD: f64 = 1e12;

/// What was tapped, and how well.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Taps<'a> {
    pub(crate) rim: Rim,
    pub(crate) at: &'a [Tap],
    /// Standard uncertainty of a tap in each direction, pixels.
    pub(crate) u: f64,
}

/// Fits from a first guess. With `held` the plane keeps its leaning. Nothing when the taps do not tell where the camera is.
pub(crate) fn fit(first: View, taps: Taps, held: bool) -> Option<Fit> {
    let precision = foreknown(&first, taps.rim, held);
    let mut view = first;
    let mut last = None;
    for _ in 0..ROUNDS {
        let pixels = pixels(&view, taps);
        let misfit = cost(&view, taps, &pixels, &precision);
        let (normal, pull) = normal(&view, taps, &pixels, &precision);
        let covariance = inverse_of_symmetric(&normal)?;
        let step = covariance.map(|row| -row.iter().zip(pull).map(|(c, p)| c * p).sum::<f64>());
        // Half the way as often as the whole makes it worse.
        let mut share = 1.0;
        let better = (0..8).find_map(|_| {
            let next = view.stepped(&step.map(|s| s * share));
            let found = cost(&next, taps, &pixels, &precision);
            share *= 0.5;
            (found <= misfit).then_some((next, misfit - found))
        });
        last = Some((covariance, misfit));
        let Some((next, gained)) = better else { break };
        view = next;
        if gained < 1e-5 {
            last = Some((covariance, misfit - gained));
            break;
        }
    }
    let (covariance, misfit) = last.filter(|(_, misfit)| *misfit < f64::MAX)?;
    Some(Fit { view, covariance, misfit })
}

/// One over the variances of focal length, distortion and sizes; a coin's turn about its own middle tells nothing and is
/// held softly.
fn foreknown(view: &View, rim: Rim, held: bool) -> Step {
    let mut precision = [0.0; UNKNOWNS];
    let within = rim.within();
    for (at, u) in [(6, view.lens.focal_share), (7, view.lens.bend), (8, within[0]), (9, within[1])] {
        precision[at] = 1.0 / (u * u).max(1e-12);
    }
    if matches!(rim, Rim::Coin(_)) {
        precision[2] = 1.0;
    }
    if held {
        (precision[0], precision[1]) = (HELD, HELD);
    }
    precision
}

/// How far the view is from what was known before.
fn departed(view: &View) -> Step {
    [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, view.focal, view.bend, view.size[0], view.size[1]]
}

/// What one standard uncertainty of each tap is in the plane, across its edge, mm (Sampson's first-order distance).
fn pixels(view: &View, taps: Taps) -> Vec<f64> {
    let across = |tap: &Tap| {
        let outside = |dx: f64, dy: f64| {
            let p = Point::new(tap.at.x + dx, tap.at.y + dy);
            taps.rim.outside(tap.edge, view.seen(p, 0.0), view.size)
        };
        let (gx, gy) = (outside(0.5, 0.0) - outside(-0.5, 0.0), outside(0.0, 0.5) - outside(0.0, -0.5));
        (gx * gx + gy * gy).sqrt() * taps.u
    };
    taps.at.iter().map(across).collect()
}

/// How many standard uncertainties a tap is off its edge.
fn off(view: &View, rim: Rim, tap: &Tap, pixel: f64) -> f64 {
    rim.outside(tap.edge, view.seen(tap.at, 0.0), view.size) / pixel
}

fn cost(view: &View, taps: Taps, pixels: &[f64], precision: &Step) -> f64 {
    let known: f64 = departed(view).iter().zip(precision).map(|(d, p)| d * d * p).sum();
    let told = taps.at.iter().zip(pixels).map(|(tap, pixel)| off(view, taps.rim, tap, *pixel));
    let sum = known + told.map(|r| r * r).sum::<f64>();
    if sum.is_finite() { sum } else { f64::MAX }
}

/// The normal matrix, and the gradient of half the cost.
fn normal(view: &View, taps: Taps, pixels: &[f64], precision: &Step) -> ([Step; UNKNOWNS], Step) {
    let beside = neighbours(view);
    let departed = departed(view);
    let mut matrix = [[0.0; UNKNOWNS]; UNKNOWNS];
    let mut pull = [0.0; UNKNOWNS];
    for i in 0..UNKNOWNS {
        matrix[i][i] = precision[i];
        pull[i] = departed[i] * precision[i];
    }
    for (tap, pixel) in taps.at.iter().zip(pixels) {
        let own = off(view, taps.rim, tap, *pixel);
        let slope = slopes(&beside, &|view| off(view, taps.rim, tap, *pixel));
        for i in 0..UNKNOWNS {
            pull[i] += slope[i] * own;
            for j in 0..UNKNOWNS {
                matrix[i][j] += slope[i] * slope[j];
            }
        }
    }
    (matrix, pull)
}

/// How far a neighbour is: small beside any uncertainty, large beside rounding.
const NEAR: f64 = 1e-5;

/// A view a little less and a little more in each unknown.
pub(crate) fn neighbours(view: &View) -> [[View; 2]; UNKNOWNS] {
    core::array::from_fn(|i| {
        let step = |by: f64| core::array::from_fn(|j| if i == j { by } else { 0.0 });
        [view.stepped(&step(-NEAR)), view.stepped(&step(NEAR))]
    })
}

/// What `of` gains with each unknown.
pub(crate) fn slopes(beside: &[[View; 2]; UNKNOWNS], of: &dyn Fn(&View) -> f64) -> Step {
    core::array::from_fn(|i| (of(&beside[i][1]) - of(&beside[i][0])) / (2.0 * NEAR))
}
