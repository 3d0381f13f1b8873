//! From pairs of lengths to one ratio for each direction.

use super::{Pair, Size, Why};
use crate::fine::FineLength;
use crate::instrument::Instrument;
use crate::normal::one_in_a_thousand;
use units::{arranged, order};

/// Lengths of one direction, together.
pub(super) struct Group {
    /// Natural logarithm of the ratio, piece to reference.
    pub(super) log: f64,
    /// Its standard uncertainty.
    pub(super) u: f64,
    /// Whether the lengths differ by more than they may.
    pub(super) disagrees: bool,
    /// Whether they run along the draw.
    pub(super) along: bool,
    lengths: usize,
}

/// Pairs by direction, and those of no use.
pub(super) struct Sorted {
    pub(super) across: Option<Group>,
    pub(super) along: Option<Group>,
    pub(super) passed_over: Vec<(usize, Why)>,
}

impl Group {
    /// In whole parts of 100 000.
    pub(super) fn size(&self) -> Size {
        Size {
            ratio: libm::round(libm::exp(self.log) * 1e5) as u32,
            u: libm::ceil(self.u * 1e5) as u32,
            lengths: self.lengths,
        }
    }
}

/// Sorts pairs; each length has its own spread of `alone` beside its readings.
pub(super) fn sorted(pairs: &[Pair], alone: f64) -> Sorted {
    let mut passed_over = Vec::new();
    let mut used = Vec::new();
    for (i, pair) in pairs.iter().enumerate() {
        match useless(pair) {
            Some(why) => passed_over.push((i, why)),
            None => used.push(*pair),
        }
    }
    // Sums depend on the order of their terms in the last bit; the order of the pairs must change nothing.
    let key = |p: &Pair| (p.reference.length, p.piece.length);
    let by_key = order(used.len(), &|a, b| key(&used[a]).cmp(&key(&used[b])));
    let used = arranged(used, &by_key);
    Sorted { across: group(&used, alone, false), along: group(&used, alone, true), passed_over }
}

fn useless(pair: &Pair) -> Option<Why> {
    let sound = |l: FineLength| l.0 > 0 && l <= FineLength::LONGEST;
    match pair {
        p if p.piece.by != Instrument::Calipers => Some(Why::RoughPiece),
        p if p.reference.by != Instrument::Calipers => Some(Why::RoughReference),
        p if p.worked => Some(Why::Worked),
        p if !sound(p.piece.length) || !sound(p.reference.length) => Some(Why::NoLength),
        _ => None,
    }
}

/// Logarithm of the ratio and its standard uncertainty. Both readings count as parts of the reference, since pieces that
/// are compared hardly differ (GUM 5.1.6 at a ratio of one).
fn log_ratio(pair: &Pair, alone: f64) -> (f64, f64) {
    let (piece, reference) = (pair.piece.length.mm(), pair.reference.length.mm());
    let read = |by: Instrument, mm: f64| by.uncertainty(mm) / reference;
    let parts = [read(pair.piece.by, piece), read(pair.reference.by, reference), alone];
    (libm::log(piece / reference), crate::combined(&parts))
}

/// The mean weighted by one over the square of the uncertainty.
fn group(pairs: &[Pair], alone: f64, along: bool) -> Option<Group> {
    let each: Vec<(f64, f64)> =
        pairs.iter().filter(|p| p.along_draw == along).map(|p| log_ratio(p, alone)).collect();
    if each.is_empty() {
        return None;
    }
    let weight: f64 = each.iter().map(|(_, u)| 1.0 / (u * u)).sum();
    let log = each.iter().map(|(log, u)| log / (u * u)).sum::<f64>() / weight;
    let squares: f64 = each.iter().map(|(one, u)| (one - log) * (one - log) / (u * u)).sum();
    let disagrees = each.len() > 1 && squares > one_in_a_thousand(each.len() - 1);
    Some(Group { log, u: 1.0 / weight.sqrt(), disagrees, along, lengths: each.len() })
}
