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

/// The search for the task at a place of a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Search {
    seed: u64,
    place: usize,
    carried: i32,
    drawn: u64,
    /// The best of what was drawn, and what is to be carried on with it.
    pub(crate) best: Option<(Task, i32)>,
}

/// How far the search for the kinds of the tests has come.
#[derive(Debug, Default)]
pub(crate) struct Tried {
    kinds: Vec<usize>,
    /// Kinds of all blocks that were looked at.
    behind: usize,
    /// Of the kind that is looked at: pieces drawn, and what they were.
    drawn: u64,
    easy: bool,
    hard: bool,
    complete: bool,
}

impl Search {
    /// For a place, from 0; `carried` is what the tasks before it were harder in all than meant.
    #[must_use]
    pub fn new(seed: u64, place: usize, carried: i32) -> Search {
        Search { seed, place, carried, drawn: 0, best: None }
    }
}

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

    /// Draws one piece more for a place of a test; whether there is more to draw. A slow phone can do something else between
    /// two calls. The first search also finds out which kinds the tests are about.
    pub fn draw_on(&self, search: &mut Search) -> bool {
        let mut tried = self.tried.borrow_mut();
        if !tried.complete {
            self.try_on(&mut tried);
            return true;
        }
        let Some(kind) = self.turned(&tried.kinds, search.seed).get(search.place).copied() else {
            return false;
        };
        if search.drawn < DRAWN {
            let item = Item::Kind(self.guide.core.kinds[kind].code);
            let seed = seeded(search.seed, search.place as u64 * DRAWN + search.drawn);
            search.drawn += 1;
            if let Some(task) = self.task(Sort::Name, item, &[], seed) {
                let now = search.carried + self.difficulty(&task) - MEANT;
                if search.best.as_ref().is_none_or(|b| now.abs() < b.1.abs()) {
                    search.best = Some((task, now));
                }
            }
        }
        search.drawn < DRAWN
    }

    /// The task at a place of a test, from 0; `carried` is what the tasks before it were harder in all than meant. None
    /// behind the end. Second, what is to be carried on.
    #[must_use]
    pub fn trial(&self, seed: u64, place: usize, carried: i32) -> Option<(Task, i32)> {
        let mut search = Search::new(seed, place, carried);
        while self.draw_on(&mut search) {}
        search.best
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

    /// One piece more towards the kinds of every test: the first of all blocks of which tasks about as hard as meant can
    /// be made.
    fn try_on(&self, tried: &mut Tried) {
        let mut kinds = self.blocks().into_iter().flatten().skip(tried.behind);
        let Some(kind) = kinds.next().filter(|_| tried.kinds.len() < TWELVE) else {
            tried.complete = true;
            return;
        };
        let item = Item::Kind(self.guide.core.kinds[kind].code);
        let hard = self.task(Sort::Name, item, &[], seeded(1, tried.drawn)).map(|t| self.difficulty(&t));
        tried.drawn += 1;
        tried.easy |= hard.is_some_and(|h| h <= MEANT);
        tried.hard |= hard.is_some_and(|h| h >= MEANT / 2);
        let fair = tried.easy && tried.hard;
        if fair || tried.drawn == DRAWN / 2 {
            tried.kinds.extend(fair.then_some(kind));
            (tried.behind, tried.drawn, tried.easy, tried.hard) = (tried.behind + 1, 0, false, false);
        }
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
