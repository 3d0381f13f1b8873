//! Groups of questions whose answers hang together within a kind.

use super::tables::Groups;
use crate::data::{Set, Value};

/// Puts questions into one group where, within kinds, one tells at least `share` of what the other could (information
/// of the pair given the kind, over the smaller of the two entropies given the kind; chains are followed).
#[must_use]
pub fn groups(set: &Set, train: &[usize], share: f64, overlap: f64) -> Groups {
    let n = set.columns.len();
    let mut root: Vec<usize> = (0..n).collect();
    let find = |root: &[usize], mut q: usize| {
        while root[q] != q {
            q = root[q];
        }
        q
    };
    for a in 0..n {
        for b in a + 1..n {
            if told(set, train, a, b) >= share {
                let (x, y) = (find(&root, a), find(&root, b));
                root[x.max(y)] = x.min(y);
            }
        }
    }
    let tops: Vec<usize> = (0..n).map(|q| find(&root, q)).collect();
    let large: Vec<usize> = (0..n).filter(|q| tops.iter().filter(|t| *t == q).count() > 1).collect();
    Groups {
        of: tops.iter().map(|t| large.iter().position(|l| l == t)).collect(),
        overlaps: vec![overlap; large.len()],
    }
}

fn told(set: &Set, train: &[usize], a: usize, b: usize) -> f64 {
    let (ka, kb) = (set.columns[a].states.len(), set.columns[b].states.len());
    if ka == 0 || kb == 0 {
        return 0.0;
    }
    let mut joint = vec![0.0; set.kinds.len() * ka * kb];
    let mut all = 0.0;
    for i in train {
        let piece = &set.pieces[*i];
        if let (Value::State(x), Value::State(y)) = (piece.values[a], piece.values[b]) {
            joint[(piece.kind * ka + x) * kb + y] += 1.0;
            all += 1.0;
        }
    }
    let (mut h_a, mut h_b, mut h_ab, mut h_kind) = (0.0, 0.0, 0.0, 0.0);
    for kind in joint.chunks(ka * kb) {
        h_ab -= kind.iter().map(|n| x_ln_x(n / all)).sum::<f64>();
        h_a -= kind.chunks(kb).map(|r| x_ln_x(r.iter().sum::<f64>() / all)).sum::<f64>();
        h_b -= (0..kb).map(|y| x_ln_x(kind.iter().skip(y).step_by(kb).sum::<f64>() / all)).sum::<f64>();
        h_kind -= x_ln_x(kind.iter().sum::<f64>() / all);
    }
    let less = (h_a - h_kind).min(h_b - h_kind);
    if less > 1e-9 { (h_a + h_b - h_ab - h_kind) / less } else { 0.0 }
}

fn x_ln_x(x: f64) -> f64 {
    if x > 0.0 { x * libm::log(x) } else { 0.0 }
}
