//! Marks, kinds and makes together: P(kind, make, year | all) ~ P(kind, make | answers) f(year | kind, make) L(year | make).

use super::Reads;
use crate::guide::Guide;
use dating::{Curve, Measured, Read, Tables, Together};
use units::{Period, Year};

/// What a text says, and what that does to the candidates of a guide.
#[derive(Debug, Clone)]
pub(crate) struct Told {
    pub(crate) text: String,
    pub(crate) measured: Measured,
    pub(crate) read: Read,
    pub(crate) together: Together,
    /// By candidate: the factor for its odds.
    pub(crate) factors: Vec<f64>,
}

/// It follows from the text and the measurements, as long as one guide is read with.
impl PartialEq for Told {
    fn eq(&self, other: &Told) -> bool {
        self.text == other.text && self.measured == other.measured
    }
}

impl Eq for Told {}

/// The tables of marks, ready to read.
pub(crate) struct Reader(pub(crate) Tables);

impl Reads for Reader {
    fn tell(&self, guide: &Guide, text: &str, measured: Measured) -> Told {
        let read = self.0.read(text, measured);
        let together = self.0.together(&read.marks);
        let factors = factors(guide, &together);
        Told { text: text.to_string(), measured, read, together, factors }
    }

    fn tables(&self) -> &Tables {
        &self.0
    }
}

/// Years of a kind as each make, before any mark. A kind that was never a period piece, and what is in no guide, has the
/// period of all kinds together: a pattern, or a piece, of any of them.
struct Lives {
    all: Curve,
    this_year: Year,
}

impl Lives {
    fn new(guide: &Guide) -> Lives {
        let core = &guide.core;
        let parts: Vec<(f64, Period)> = (core.candidates.iter())
            .filter(|c| c.make == 0)
            .filter_map(|c| Some((f64::from(c.prior[0]), period(guide, c.kind, 0)?)))
            .collect();
        Lives { all: Curve::of_periods(&parts, guide.this_year), this_year: guide.this_year }
    }

    fn of(&self, guide: &Guide, kind: u16, make: u16) -> Option<Curve> {
        period(guide, kind, make).map(|p| Curve::of_periods(&[(1.0, p)], self.this_year))
    }
}

fn period(guide: &Guide, kind: u16, make: u16) -> Option<Period> {
    guide.core.kinds.get(usize::from(kind))?.makes.get(usize::from(make))?.as_ref().map(|f| f.period)
}

/// The factor and the years of one kind and make.
fn weighed(guide: &Guide, together: &Together, lives: &Lives, kind: u16, make: u16) -> (f64, Curve) {
    let old = lives.of(guide, kind, 0);
    let old = old.as_ref().unwrap_or(&lives.all);
    let own = lives.of(guide, kind, make);
    let w = together.weigh(old, own.as_ref().unwrap_or(old));
    if make == 0 { (w.period, w.period_years) } else { (w.later, w.later_years) }
}

fn factors(guide: &Guide, together: &Together) -> Vec<f64> {
    let lives = Lives::new(guide);
    let mut known: Vec<((u16, u16), f64)> = Vec::new();
    let of = |c: &pack::Candidate| {
        let pair = (c.kind, c.make);
        // Forms of one kind and make stand beside each other.
        if let Some((_, factor)) = known.iter().rev().take(4).find(|(p, _)| *p == pair) {
            return *factor;
        }
        let factor = weighed(guide, together, &lives, c.kind, c.make).0;
        known.push((pair, factor));
        factor
    };
    guide.core.candidates.iter().map(of).collect()
}

/// The mixture of the years of all candidates with these shares, marks taken in; what is in no guide is left out.
pub(crate) fn years_with(guide: &Guide, told: &Told, shares: &[f64]) -> Curve {
    let lives = Lives::new(guide);
    let mut by_pair: Vec<((u16, u16), f64)> = Vec::new();
    for (p, c) in shares.iter().zip(&guide.core.candidates) {
        if usize::from(c.kind) == guide.unknown() {
            continue;
        }
        match by_pair.iter_mut().find(|(pair, _)| *pair == (c.kind, c.make)) {
            Some((_, sum)) => *sum += p,
            None => by_pair.push(((c.kind, c.make), *p)),
        }
    }
    let mut years = vec![0.0; lives.all.p.len()];
    let total: f64 = by_pair.iter().map(|(_, p)| p).sum();
    for ((kind, make), p) in by_pair.into_iter().filter(|(_, p)| *p > total * 1e-4) {
        let (_, curve) = weighed(guide, &told.together, &lives, kind, make);
        years.iter_mut().zip(&curve.p).for_each(|(y, c)| *y += p * c);
    }
    let sum: f64 = years.iter().sum();
    if sum > 0.0 {
        years.iter_mut().for_each(|y| *y /= sum);
        Curve { p: years }
    } else {
        lives.all
    }
}
