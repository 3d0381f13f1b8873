//! Bids rise by steps: a limit between two of them is a limit at the lower.

use pack::prices::Step;

/// The highest bid on the steps that is not above the amount. Minor units; below the first step, nothing.
#[must_use]
pub fn on_step(steps: &[Step], minor: i64) -> i64 {
    let step = steps.iter().rev().find(|s| s.from <= minor && s.by > 0);
    step.map_or(0, |s| s.from + (minor - s.from) / s.by * s.by)
}

/// The next bid above the amount.
#[must_use]
pub fn next_bid(steps: &[Step], minor: i64) -> i64 {
    let now = on_step(steps, minor);
    let by = steps.iter().rev().find(|s| s.from <= now).map_or(1, |s| s.by.max(1));
    now.saturating_add(by)
}
