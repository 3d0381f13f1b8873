//! Is a piece a casting of a casting? Lengths by calipers against those of a known piece of the same pattern: pressed into
//! sand and cast again, it shrinks, each time anew.

mod lengths;
mod model;

use crate::fine::FineLength;
use crate::instrument::Instrument;
use lengths::sorted;
use model::Model;
use pack::metals::{Metal, Metals};

/// A length and what it was read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// The length.
    pub length: FineLength,
    /// What it was read from.
    pub by: Instrument,
}

/// The same length on the piece and on the reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pair {
    /// On the piece.
    pub piece: Reading,
    /// On a known piece of the same pattern.
    pub reference: Reading,
    /// It ends at a ground, filed or worn face, such as the outline of the sole.
    pub worked: bool,
    /// It runs along the draw: straight across the seam, the way the pattern left the sand. Rapping does not widen it.
    pub along_draw: bool,
}

/// Why a pair, or all of them, prove nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// The piece was not measured with calipers: the doubt of a ruler or a picture is as large as the shrinkage.
    RoughPiece,
    /// The reference was not.
    RoughReference,
    /// The length ends at a face that was worked.
    Worked,
    /// A length is nothing, or more than two metres.
    NoLength,
    /// There is no pair at all.
    NoPairs,
    /// No shrinkage of this metal is in the table.
    NoShrinkage,
    /// Together the lengths are still less certain than half of the metal's shrinkage, in the middle of its range (practice:
    /// a difference of two standard uncertainties): take longer ones, or more.
    TooShort,
    /// The lengths do not share one ratio, as one in a thousand true sets would not: one is misread, bent or repaired.
    Disagree,
}

/// Which of two is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Smaller than the last generation that is reckoned with.
    Smaller,
    /// Larger than castings of one pattern differ.
    Larger,
}

/// Which way a likelihood ratio points. Below two either way it points nowhere (the verbal scale of the ENFSI guideline for
/// evaluative reporting, 2015, begins at two).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lean {
    /// Towards a casting of a casting.
    Recast,
    /// Towards a casting of the same pattern as the reference.
    Original,
    /// Neither way. Lengths that have not shrunk do not acquit: rapping may have made up for it.
    Neither,
}

/// What the lengths say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// Nothing, and why.
    ProvesNothing(Why),
    /// Neither a casting of the reference's pattern nor a recast of it: another size or pattern.
    OtherPattern(Side),
    /// They lean.
    Leans(Lean),
}

/// A ratio of lengths, piece to reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// In parts of 100 000: 99 000 is one per cent smaller.
    pub ratio: u32,
    /// Its relative standard uncertainty in the same parts, rounded up: reading, and what each length has for itself.
    pub u: u32,
    /// From so many lengths.
    pub lengths: usize,
}

/// What the test found.
#[derive(Debug, Clone, PartialEq)]
pub struct Recast {
    /// What it says.
    pub says: Says,
    /// Likelihood ratio of recast to original; 1 when nothing is proved. Never above the cap of the table, never below one
    /// over it, since the spread of castings rests on memory.
    pub ratio: f64,
    /// Of lengths across the draw.
    pub across: Option<Size>,
    /// Of lengths along the draw.
    pub along: Option<Size>,
    /// If it is a recast: the shares of the generations, the first is a cast of an original; they make one. Empty when
    /// nothing is proved.
    pub generations: Vec<f64>,
    /// Pairs that were passed over, by index.
    pub passed_over: Vec<(usize, Why)>,
}

/// The recast test. The metal is that of the piece, since that is what shrank.
#[must_use]
pub fn recast(metals: &Metals, metal: &Metal, pairs: &[Pair]) -> Recast {
    let sorted = sorted(pairs, f64::from(metals.recast.alone) / 1e5);
    let mut found = Recast {
        says: Says::ProvesNothing(Why::NoPairs),
        ratio: 1.0,
        across: sorted.across.as_ref().map(lengths::Group::size),
        along: sorted.along.as_ref().map(lengths::Group::size),
        generations: Vec::new(),
        passed_over: sorted.passed_over,
    };
    let nothing = |why| Says::ProvesNothing(why);
    let groups: Vec<_> = sorted.across.iter().chain(&sorted.along).collect();
    if groups.is_empty() {
        found.says = nothing(found.passed_over.iter().map(|(_, why)| *why).min().unwrap_or(Why::NoPairs));
        return found;
    }
    let Some(model) = Model::new(metals, metal) else {
        found.says = nothing(Why::NoShrinkage);
        return found;
    };
    if groups.iter().all(|g| g.u > model.middle() / 2.0) {
        found.says = nothing(Why::TooShort);
    } else if groups.iter().any(|g| g.disagrees) {
        found.says = nothing(Why::Disagree);
    } else if let Some(side) = groups.iter().find_map(|g| model.beyond(g)) {
        found.says = Says::OtherPattern(side);
    } else {
        let likelihoods = model.likelihoods(&groups);
        let sum: f64 = likelihoods.iter().sum();
        let cap = f64::from(metals.recast.cap);
        // `clamp` would bring the printer of floats into the page: it names its bounds when it panics.
        found.ratio = sum.max(1.0 / cap).min(cap);
        found.generations = likelihoods.iter().map(|l| l / sum).collect();
        found.says = Says::Leans(match found.ratio {
            r if r >= 2.0 => Lean::Recast,
            r if r <= 0.5 => Lean::Original,
            _ => Lean::Neither,
        });
    }
    found
}
