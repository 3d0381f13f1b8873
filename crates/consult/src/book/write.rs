//! Writing sheets by plain calls. Each is compiled once, and loops take closures by reference: what would be unrolled
//! for every page weighs a fifth of the program.

use super::sheet::{Block, Card, Line, Tone};
use units::descending;

/// A line.
#[inline(never)]
pub(super) fn line(to: String, strong: &str, says: &str) -> Line {
    Line { to, strong: strong.to_string(), says: says.to_string() }
}

/// A paragraph.
#[inline(never)]
pub(super) fn text(tone: Tone, says: &str) -> Block {
    Block::Text(tone, line(String::new(), "", says))
}

/// A paragraph with a strong beginning.
#[inline(never)]
pub(super) fn begun(tone: Tone, strong: &str, says: &str) -> Block {
    Block::Text(tone, line(String::new(), strong, says))
}

/// A name and what is said of it.
#[inline(never)]
pub(super) fn pair(name: &str, says: &str) -> (String, String) {
    (name.to_string(), says.to_string())
}

/// Adds blocks in a card under a heading, unless there are none.
#[inline(never)]
pub(super) fn card(to: &mut Vec<Block>, title: &str, blocks: Vec<Block>) {
    section(to, title, true, blocks);
}

/// Adds blocks under a heading, unless there are none.
#[inline(never)]
pub(super) fn group(to: &mut Vec<Block>, title: &str, blocks: Vec<Block>) {
    section(to, title, false, blocks);
}

fn section(to: &mut Vec<Block>, title: &str, boxed: bool, blocks: Vec<Block>) {
    if !blocks.is_empty() {
        to.push(Block::Section(title.to_string(), boxed, blocks));
    }
}

/// A list of those of `many` that have a line; no block where none has.
#[inline(never)]
pub(super) fn lines(many: usize, each: &mut dyn FnMut(usize) -> Option<Line>) -> Vec<Block> {
    let mut lines = Vec::new();
    for at in 0..many {
        lines.extend(each(at));
    }
    if lines.is_empty() { Vec::new() } else { vec![Block::Lines(lines)] }
}

/// Cards of those of `many` that have one; no block where none has.
#[inline(never)]
pub(super) fn cards(many: usize, each: &mut dyn FnMut(usize) -> Option<Card>) -> Vec<Block> {
    let mut cards = Vec::new();
    for at in 0..many {
        cards.extend(each(at));
    }
    if cards.is_empty() { Vec::new() } else { vec![Block::Cards(cards)] }
}

/// Those of `many` whose weight is above zero, the heaviest first, `most` at most.
#[inline(never)]
pub(super) fn ranked(many: usize, most: usize, weight: &mut dyn FnMut(usize) -> f64) -> Vec<usize> {
    let mut weights = Vec::new();
    for at in 0..many {
        weights.push(weight(at));
    }
    let mut order = descending(&weights);
    order.retain(|at| weights[*at] > 0.0);
    order.truncate(most);
    order
}

/// Index of the largest.
#[inline(never)]
pub(super) fn top(values: &[f64]) -> usize {
    descending(values).first().copied().unwrap_or(0)
}
