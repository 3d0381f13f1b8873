//! A limit from what is known of a piece, line by line: what it is worth if it is right and if it is a copy, its
//! condition, repair, what is kept back, what a gap in the collection adds.

use crate::figure::Figure;
use crate::round::part;
use pack::prices::{Limit, Meaning};
use units::Basis;

/// What a bidder has to go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hopes {
    /// What it is worth if it is right. A quantile of the mixture over all candidates may stand here with no chance of a
    /// copy beside it: copies are in it already.
    pub right: Figure,
    /// What a copy is worth.
    pub copy: Figure,
    /// Of a thousand such pieces so many are copies.
    pub chance: u16,
    /// The factor of its condition, per mille.
    pub condition: u32,
    /// What chance and condition rest on.
    pub basis: Basis,
    /// What it takes to put it in order, minor units.
    pub repair: i64,
    /// Kept back and added.
    pub keeps: Limit,
    /// Whether the collection lacks it.
    pub gap: bool,
}

/// A line of the arithmetic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// What it stands for.
    pub why: Why,
    /// The share or factor behind it, per mille; none for an amount as it is.
    pub per_mille: Option<u32>,
    /// What it adds or takes, minor units. The lines sum to the limit.
    pub minor: i64,
}

/// What a line stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// The worth if right, times the chance of that.
    Right,
    /// The worth of a copy, times its chance.
    Copy,
    /// What condition adds or takes.
    Condition,
    /// Repair.
    Repair,
    /// Kept back for what cannot be seen.
    Margin,
    /// Added for a gap in the collection.
    Gap,
}

/// A limit and how it came about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggested {
    /// The most to spend, everything included.
    pub limit: Figure,
    /// The arithmetic; lines that change nothing are left out.
    pub lines: Vec<Line>,
}

/// The limit, never below nothing. Each line is rounded half up to the minor unit before the next. None when both worths
/// are not in one currency and of one year.
#[must_use]
pub fn suggest(hopes: &Hopes) -> Option<Suggested> {
    let Hopes { right, copy, keeps, .. } = *hopes;
    if right.money.currency != copy.money.currency || right.year != copy.year {
        return None;
    }
    let chance = u32::from(hopes.chance.min(1000));
    let of = |minor: i64, per_mille: u32| part(minor, u64::from(per_mille), 1000);
    let mut lines = Vec::new();
    let mut sum = 0_i64;
    let mut add = |why: Why, per_mille: Option<u32>, minor: i64, sum: &mut i64| {
        if minor != 0 {
            lines.push(Line { why, per_mille, minor });
            *sum = sum.saturating_add(minor);
        }
    };
    add(Why::Right, Some(1000 - chance), of(right.money.minor.max(0), 1000 - chance), &mut sum);
    add(Why::Copy, Some(chance), of(copy.money.minor.max(0), chance), &mut sum);
    add(Why::Condition, Some(hopes.condition), of(sum, hopes.condition).saturating_sub(sum), &mut sum);
    add(Why::Repair, None, -hopes.repair.clamp(0, sum.max(0)), &mut sum);
    let margin = u32::from(keeps.margin.min(1000));
    add(Why::Margin, Some(margin), -of(sum, margin), &mut sum);
    if hopes.gap {
        let more = u32::from(keeps.gap.max(1000));
        add(Why::Gap, Some(more), of(sum, more).saturating_sub(sum), &mut sum);
    }
    let copied = if chance > 0 { copy.basis } else { right.basis };
    let basis = right.basis.max(copied).max(hopes.basis).max(keeps.basis);
    let limit = Figure { basis, meaning: Meaning::Limit, ..right.with(sum) };
    Some(Suggested { limit, lines })
}
