//! Measures of probabilities against what was true.

use reason::Random;

/// Predictions with their truths, summed up.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Score {
    /// Share of leaders that were right.
    pub accuracy: f64,
    /// Mean number of questions.
    pub questions: f64,
    /// Mean of -ln P(truth).
    pub log_loss: f64,
    /// Mean of the summed squares of the differences (several classes, 0 to 2).
    pub brier: f64,
    /// Expected calibration error over ten equal bins of the leader's probability.
    pub ece: f64,
    /// 5 % and 95 % points of that error for a perfectly calibrated model with the same confidences.
    pub ece_range: (f64, f64),
}

/// A prediction: questions asked, P(class), the true class.
pub type Prediction<'a> = (usize, &'a [f64], usize);

/// The leader: the first of the most probable.
#[must_use]
pub fn leader(p: &[f64]) -> usize {
    (0..p.len()).fold(0, |a, b| if p[b] > p[a] { b } else { a })
}

/// Scores predictions.
#[must_use]
pub fn score(all: &[Prediction]) -> Score {
    let n = all.len() as f64;
    let mean = |of: &dyn Fn(&Prediction) -> f64| all.iter().map(of).sum::<f64>() / n;
    let sure: Vec<(f64, bool)> = all.iter().map(|(_, p, t)| (p[leader(p)], leader(p) == *t)).collect();
    Score {
        accuracy: mean(&|(_, p, t)| f64::from(u8::from(leader(p) == *t))),
        questions: mean(&|a| a.0 as f64),
        log_loss: mean(&|(_, p, t)| -libm::log(p[*t].max(1e-15))),
        brier: mean(&|(_, p, t)| {
            let off = |(c, x): (usize, &f64)| if c == *t { (1.0 - x) * (1.0 - x) } else { x * x };
            p.iter().enumerate().map(off).sum()
        }),
        ece: ece(&sure),
        ece_range: ece_range(&sure),
    }
}

/// Expected calibration error: by bin, the distance of mean confidence and accuracy, weighted by the bin's share.
#[must_use]
pub fn ece(sure: &[(f64, bool)]) -> f64 {
    let mut bins = [(0.0, 0.0); 10];
    for (p, right) in sure {
        let bin = &mut bins[((p * 10.0) as usize).min(9)];
        bin.0 += p;
        bin.1 += f64::from(u8::from(*right));
    }
    bins.iter().map(|(p, right)| (p - right).abs()).sum::<f64>() / sure.len().max(1) as f64
}

/// The middle nine tenths of the error when each leader is right with exactly its own probability: 500 draws.
fn ece_range(sure: &[(f64, bool)]) -> (f64, f64) {
    let mut random = Random::seeded(3);
    let mut drawn: Vec<f64> = (0..500)
        .map(|_| ece(&sure.iter().map(|(p, _)| (*p, random.unit() < *p)).collect::<Vec<_>>()))
        .collect();
    drawn.sort_by(f64::total_cmp);
    (drawn[25], drawn[474])
}

/// P(a score drawn from `high` is above one from `low`), ties half: the area under the receiver's curve.
#[must_use]
pub fn auc(high: &[f64], low: &[f64]) -> f64 {
    let mut all: Vec<(f64, bool)> =
        high.iter().map(|x| (*x, true)).chain(low.iter().map(|x| (*x, false))).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut below, mut sum, mut i) = (0.0, 0.0, 0);
    while i < all.len() {
        let tied: Vec<bool> = all[i..].iter().take_while(|x| x.0 == all[i].0).map(|x| x.1).collect();
        let lows = tied.iter().filter(|h| !**h).count() as f64;
        sum += (tied.len() as f64 - lows) * (below + lows / 2.0);
        below += lows;
        i += tied.len();
    }
    sum / (high.len() as f64 * low.len() as f64)
}
