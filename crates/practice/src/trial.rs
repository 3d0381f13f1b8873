//! The test of twelve, before and after: any two are equally hard.
//!
//! How hard a piece is follows from the engine. It is the share, per mille, that the wrong answers of the task keep when
//! all that is shown of the piece has been told by somebody who is unsure of each look and misreads as often as the pack says of
//! unsure answers; the answers are as likely beforehand as each other. 0: the right one stands out whatever is misread; 750: the
//! four answers are as good as each other.
//!
//! Every twelve asks about the same kinds, the first of all blocks that can be about so hard, in another order and with other pieces. For each
//! kind several pieces are drawn, and the one is taken that brings the sum so far nearest to what it should be.

use crate::item::Item;
use crate::task::{Sort, Task, Trainer, seeded};
use reason::Random;

/// Pieces of a test.
pub const TWELVE: usize = 12;
/// The mean difficulty of a twelve, per mille. Basis: measured on the bundled pack, about the middle of its tasks.
pub const MEANT: i32 = 40;
/// The mean difficulties of two twelves differ by no more, per mille. Held by a test.
pub const TOLERANCE: i32 = 5;
/// Pieces drawn for each place.
const DRAWN: u64 = 10;

impl Trainer<'_> {
    /// How hard a task about a kind is, per mille.
    #[must_use]
    pub fn difficulty(&self, task: &Task) -> i32 {
        let Some(piece) = &task.piece else { return 0 };
        let kinds: Vec<usize> = task.offers.iter().map(|o| o.stands).collect();
        let looks: Vec<usize> = task.views.iter().flat_map(|v| v.looks.iter().copied()).collect();
        let shares = self.shares(&piece.answers(self.guide, &looks, false), &kinds);
        let right = shares.get(task.right).copied().unwrap_or(0.0);
        ((1.0 - right) * 1000.0 + 0.5) as i32
    }

    /// The task at a place of a test, from 0; `carried` is what the tasks before it were harder in all than meant. None
    /// behind the end. Second, what is to be carried on.
    #[must_use]
    pub fn trial(&self, seed: u64, place: usize, carried: i32) -> Option<(Task, i32)> {
        let kind = self.turned(self.tried(), seed).get(place).copied()?;
        let item = Item::Kind(self.guide.core.kinds[kind].code);
        let of = |at: u64| self.task(Sort::Name, item, &[], seeded(seed, place as u64 * DRAWN + at));
        let mut best: Option<(Task, i32)> = None;
        for task in (0..DRAWN).filter_map(of) {
            let now = carried + self.difficulty(&task) - MEANT;
            if best.as_ref().is_none_or(|b| now.abs() < b.1.abs()) {
                best = Some((task, now));
            }
        }
        best
    }

    /// All twelve.
    #[must_use]
    pub fn twelve(&self, seed: u64) -> Vec<Task> {
        let mut carried = 0;
        let mut all = Vec::new();
        for place in 0..TWELVE {
            if let Some((task, on)) = self.trial(seed, place, carried) {
                carried = on;
                all.push(task);
            }
        }
        all
    }

    /// The kinds of every test: the first of all blocks of which tasks about as hard as meant can be made.
    fn tried(&self) -> &[usize] {
        self.tried.get_or_init(|| {
            let fair = |k: &usize| {
                let item = Item::Kind(self.guide.core.kinds[*k].code);
                let tasks = (0..DRAWN / 2).filter_map(|at| self.task(Sort::Name, item, &[], seeded(1, at)));
                let hard: Vec<i32> = tasks.map(|t| self.difficulty(&t)).collect();
                hard.iter().any(|h| *h <= MEANT) && hard.iter().any(|h| *h >= MEANT / 2)
            };
            self.blocks().into_iter().flatten().filter(fair).take(TWELVE).collect()
        })
    }

    fn turned(&self, kinds: &[usize], seed: u64) -> Vec<usize> {
        let mut random = Random::seeded(seed);
        let mut left = kinds.to_vec();
        let mut order = Vec::new();
        while !left.is_empty() {
            order.push(left.swap_remove(random.below(left.len())));
        }
        order
    }
}
