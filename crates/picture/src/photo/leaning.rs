//! Every leaning of the plane that the taps allow. From far a card that leans one way looks nearly as one that leans the
//! other way, and one that hardly leans as one that does not: one best fit with its covariance would promise too much.
//! So a lattice of leanings is searched from the best fits outwards, all else fitted at each, and each is weighed.

use super::Placed;
use super::fit::{Fit, Taps, fit};
use super::view::View;

/// Leanings whose misfit is greater by this are left out: e^-4.5 of the best one's chance, three deviations.
const WORSE: f64 = 9.0;
/// Widest step of the lattice, radians, and its most nodes.
const WIDEST: f64 = 0.12;
const MOST: usize = 120;
/// Cosine of 60 degrees: nobody measures from lower.
const LOWEST: f64 = 0.5;

/// Fits from both guesses and weighs the leanings around them. All leanings count as equally likely beforehand.
pub(super) fn leanings(guesses: [View; 2], taps: Taps) -> Option<Placed> {
    let mut found: Vec<Fit> = guesses.into_iter().filter_map(|view| fit(view, taps, false)).collect();
    if found.len() == 2 && found[1].misfit < found[0].misfit {
        found.swap(0, 1);
    }
    let best = found.first()?.clone();
    let lattice = Lattice::of(&best);
    // Where to begin: the best leaning, and the node next to the other one.
    let mut open: Vec<([i32; 2], View)> = vec![([0, 0], best.view)];
    if let Some(other) = found.get(1).filter(|other| other.misfit < best.misfit + 2.0 * WORSE) {
        open.push((lattice.nearest(&other.view), other.view));
    }
    let mut met: Vec<[i32; 2]> = open.iter().map(|(node, _)| *node).collect();
    let mut all: Vec<(f64, Fit)> = Vec::new();
    let mut next = 0;
    while next < open.len() && all.len() < MOST {
        let (node, near) = open[next];
        next += 1;
        let view = View { turn: lattice.turned(node).turn, ..near };
        let Some(fit) = fit(view, taps, true) else { continue };
        // The second seed's node need not be a good one itself: its neighbours may be.
        let worse = fit.misfit - best.misfit;
        let (low, far) = (fit.view.upright() < LOWEST, worse > WORSE);
        if low && next > 1 || far && next > 2 {
            continue;
        }
        for step in [[1, 0], [-1, 0], [0, 1], [0, -1]] {
            let beside = [node[0] + step[0], node[1] + step[1]];
            if !met.contains(&beside) {
                met.push(beside);
                open.push((beside, fit.view));
            }
        }
        all.push((libm::exp(-0.5 * worse), fit));
    }
    let sum: f64 = all.iter().map(|(w, _)| w).sum();
    for (w, _) in &mut all {
        *w /= sum;
    }
    (sum > 0.0).then_some(Placed { best, all })
}

/// Leanings in steps of about one deviation, from the best one.
struct Lattice {
    origin: View,
    /// Turns about the plane's x and y axis for a step in either direction.
    steps: [[f64; 2]; 2],
}

impl Lattice {
    /// Steps along the two columns of the Cholesky factor of what is known about the leaning.
    fn of(best: &Fit) -> Lattice {
        let c = &best.covariance;
        let first = c[0][0].sqrt();
        let mixed = c[0][1] / first;
        let second = (c[1][1] - mixed * mixed).max(1e-12).sqrt();
        let limited = |v: [f64; 2]| {
            let size = (v[0] * v[0] + v[1] * v[1]).sqrt();
            let by = if size > WIDEST { WIDEST / size } else { 1.0 };
            v.map(|x| x * by)
        };
        Lattice { origin: best.view, steps: [limited([first, mixed]), limited([0.0, second])] }
    }

    fn turned(&self, node: [i32; 2]) -> View {
        let [a, b] = node.map(f64::from);
        let turn = |axis: usize| a * self.steps[0][axis] + b * self.steps[1][axis];
        self.origin.stepped(&[turn(0), turn(1), 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0])
    }

    /// The node that leans nearest to a view.
    fn nearest(&self, view: &View) -> [i32; 2] {
        // The other normal in the own axes: a turn by (a, b) about x and y moves the normal by (b, -a).
        let own = |axis: usize| (0..3).map(|i| self.origin.turn[i][axis] * view.turn[i][2]).sum::<f64>();
        let (a, b) = (-own(1) / own(2), own(0) / own(2));
        let along = a / self.steps[0][0];
        let node = [along, (b - along * self.steps[0][1]) / self.steps[1][1]];
        node.map(|x| libm::round(x.clamp(-1000.0, 1000.0)) as i32)
    }
}
