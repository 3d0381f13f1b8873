//! Where the edges of a card may run: lines voted for by steep places of the picture, four of them that have such places
//! all along and close to a figure in the proportions of a card. A proposal only: the user sees it and moves it.

mod lines;
mod quads;
mod refine;
mod steep;

use crate::photo::{Lens, place_card};
use crate::{Pixels, Point};
use lines::{Line, Votes};
use quads::{Quad, quads};
use steep::Steep;

/// Rows at a call.
const ROWS: usize = 60;
/// Figures that are tried as cards.
const TRIED: usize = 24;
/// What an edge of a card is taken to be off in the coarse picture, pixels of it.
const ROUGH: f64 = 1.2;

enum Stage {
    Shrinking(usize),
    Steepening(usize),
    Voting(usize),
    Pairing,
    Trying(Vec<Quad>, usize),
    Done,
}

/// A search under way. Call [`Proposing::step`] with the same picture until it gives something.
pub struct Proposing {
    lens: Lens,
    steep: Steep,
    votes: Votes,
    best: Option<(f64, [[Point; 2]; 4])>,
    stage: Stage,
}

impl Proposing {
    /// Begins with a picture and what is known of its lens.
    #[must_use]
    pub fn new(pixels: Pixels<'_>, lens: Lens) -> Proposing {
        let steep = Steep::new(pixels.width(), pixels.height());
        let votes = Votes::new(&steep);
        Proposing { lens, steep, votes, best: None, stage: Stage::Shrinking(0) }
    }

    /// Does a little. When done, gives two places on each edge of a card, edges in turn, pixels of the picture; or nothing
    /// where no card was found.
    pub fn step(&mut self, pixels: Pixels<'_>) -> Option<Option<[[Point; 2]; 4]>> {
        let rows = self.steep.height;
        let stage = core::mem::replace(&mut self.stage, Stage::Done);
        self.stage = match stage {
            Stage::Shrinking(row) if row >= rows => Stage::Steepening(0),
            Stage::Shrinking(row) => {
                (row..(row + ROWS).min(rows)).for_each(|y| self.steep.shrink(&pixels, y));
                Stage::Shrinking(row + ROWS)
            }
            Stage::Steepening(row) if row >= rows => {
                self.steep.settle();
                Stage::Voting(0)
            }
            Stage::Steepening(row) => {
                (row..(row + ROWS).min(rows)).for_each(|y| self.steep.steepen(y));
                Stage::Steepening(row + ROWS)
            }
            Stage::Voting(row) if row >= rows => Stage::Pairing,
            Stage::Voting(row) => {
                (row..(row + ROWS).min(rows)).for_each(|y| self.votes.count(&self.steep, y));
                Stage::Voting(row + ROWS)
            }
            Stage::Pairing => {
                let lines: Vec<Line> = self.votes.best();
                Stage::Trying(quads(&lines, &self.steep), 0)
            }
            Stage::Trying(all, at) if at >= all.len().min(TRIED) => Stage::Done,
            Stage::Trying(all, at) => {
                self.attempt(pixels, &all[at]);
                Stage::Trying(all, at + 1)
            }
            Stage::Done => Stage::Done,
        };
        let found = self.best.map(|(_, edges)| edges);
        matches!(self.stage, Stage::Done).then_some(found)
    }

    /// How much of the work is done, per mille.
    #[must_use]
    pub fn done(&self) -> u32 {
        let rows = self.steep.height.max(1);
        let share = |row: usize, of: usize| (row.min(rows) * of / rows) as u32;
        match &self.stage {
            Stage::Shrinking(row) => share(*row, 400),
            Stage::Steepening(row) => 400 + share(*row, 200),
            Stage::Voting(row) => 600 + share(*row, 100),
            Stage::Pairing => 700,
            Stage::Trying(_, at) => 800 + (200 * at / TRIED) as u32,
            Stage::Done => 1000,
        }
    }

    /// Draws the edges finely and keeps them when they are a better card.
    fn attempt(&mut self, pixels: Pixels<'_>, quad: &Quad) {
        let Some(edges) = refine::refined(quad, &pixels, self.steep.by) else { return };
        let rough = ROUGH * self.steep.by as f64;
        let Ok(placed) = place_card(&self.lens, &edges, rough) else { return };
        let score = quad.support - 0.01 * placed.misfit();
        if self.best.is_none_or(|(best, _)| score > best) {
            self.best = Some((score, edges));
        }
    }
}
