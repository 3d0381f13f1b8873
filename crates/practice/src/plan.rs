//! What to ask next: what is due, else something new; every second task is a look; new kinds in blocks, then mixed.
//!
//! Look-alikes are learned better mixed and side by side (Kang and Pashler 2012, 10.1002/acp.1801), a new class better in a
//! block first (Carvalho and Goldstone 2014, 10.3389/fpsyg.2014.00936).

use crate::item::Item;
use crate::pieces::apart;
use crate::progress::{Day, Progress};
use crate::task::{Sort, Task, Trainer, seeded};
use pack::Standing;
use reason::Random;
use units::descending;

/// So many kinds make a block where the pack names none.
const BLOCK: usize = 4;
/// A kind has been met when it was answered so often.
const MET: u32 = 2;
/// A look that tells the kinds in hand apart by less, in bits, is not asked. Basis: practice.
const TELLS: f64 = 0.03;
/// A new look is drawn from so many of the most telling.
const NEW_LOOKS: usize = 16;
/// Seeds that are tried for a task that the words alone can answer.
const TRIES: u64 = 12;

impl Trainer<'_> {
    /// The blocks in which kinds are met: those of the pack, then what they leave, in the order of the pack.
    #[must_use]
    pub fn blocks(&self) -> Vec<Vec<usize>> {
        self.named_blocks().into_iter().map(|b| b.1).collect()
    }

    /// The same with their names, for a teacher to choose from.
    #[must_use]
    pub fn named_blocks(&self) -> Vec<(String, Vec<usize>)> {
        let taught = self.guide.book.iter().flat_map(|b| &b.lessons.blocks);
        let handed = self.maker.kinds();
        let mut blocks: Vec<(String, Vec<usize>)> = Vec::new();
        let mut placed: Vec<usize> = Vec::new();
        for block in taught {
            let fresh = |k: &usize| handed.contains(k) && !placed.contains(k);
            let kinds: Vec<usize> = block.kinds.iter().map(|k| usize::from(*k)).filter(fresh).collect();
            placed.extend(&kinds);
            blocks.push((block.name.clone(), kinds));
        }
        let inside =
            |k: &usize| self.guide.core.kinds[*k].standing == Standing::Inside && !placed.contains(k);
        let rest: Vec<usize> = handed.iter().copied().filter(inside).collect();
        let name = |k: &usize| self.guide.core.kinds[*k].short.clone();
        blocks.extend(
            rest.chunks(BLOCK).map(|b| (b.iter().map(name).collect::<Vec<_>>().join("; "), b.to_vec())),
        );
        blocks.retain(|b| !b.1.is_empty());
        blocks
    }

    /// The kinds that are in play: of all blocks met so far, and whether the newest is still being met, which is then
    /// the first list alone.
    #[must_use]
    pub fn in_play(&self, progress: &Progress) -> (Vec<usize>, Vec<usize>) {
        let mut before: Vec<usize> = Vec::new();
        for block in self.blocks() {
            let fresh: Vec<usize> =
                block.iter().copied().filter(|k| self.answers(progress, *k) < MET).collect();
            let learned =
                block.iter().all(|k| progress.card(self.kind_item(*k)).is_some_and(|c| c.stands > 0));
            if !fresh.is_empty() {
                return (fresh, before);
            }
            before.extend(block);
            if !learned {
                return (Vec::new(), before);
            }
        }
        (Vec::new(), before)
    }

    fn answers(&self, progress: &Progress, kind: usize) -> u32 {
        progress.card(self.kind_item(kind)).map_or(0, |c| c.right.saturating_add(c.wrong))
    }

    fn kind_item(&self, kind: usize) -> Item {
        Item::Kind(self.guide.core.kinds[kind].code)
    }

    /// The next task. The same progress, day and seed give the same task. With `by_words` only what can be answered
    /// without seeing the drawing. None only for a pack that has nothing to ask.
    #[must_use]
    pub fn next_task(&self, progress: &Progress, today: Day, seed: u64, by_words: bool) -> Option<Task> {
        (0..TRIES).find_map(|at| {
            let task = self.chosen(progress, today, seeded(seed, at), at > TRIES / 2)?;
            (task.by_words || !by_words).then_some(task)
        })
    }

    fn chosen(&self, progress: &Progress, today: Day, seed: u64, anything: bool) -> Option<Task> {
        let (fresh, met) = self.in_play(progress);
        // While a block is new its pieces come one kind after the other; then all are mixed.
        let kinds: Vec<usize> = match fresh.first() {
            Some(kind) => vec![*kind],
            None => met.clone(),
        };
        let due = if anything { Vec::new() } else { progress.due(today) };
        if progress.asked.is_multiple_of(2) {
            return self.a_look(progress, &due, &kinds, seed);
        }
        let asked = due.into_iter().find_map(|item| self.again(item, progress, &kinds, seed));
        asked
            .or_else(|| self.fresh(progress, &kinds, &met, seed))
            .or_else(|| self.a_look(progress, &[], &kinds, seed))
    }

    /// A look: one that is due, else one that is new and tells the kinds in hand from what they are taken for.
    fn a_look(&self, progress: &Progress, due: &[Item], kinds: &[usize], seed: u64) -> Option<Task> {
        let due = due.iter().filter(|i| matches!(i, Item::Look(_)));
        if let Some(task) = due.into_iter().find_map(|i| self.task(Sort::Look, *i, kinds, seed)) {
            return Some(task);
        }
        let core = &self.guide.core;
        let tells = |q: usize| -> f64 {
            let of = |k: &usize| -> f64 {
                let table = &self.tables[*k][q];
                self.alike[*k].iter().map(|o| apart(table, &self.tables[*o][q])).fold(0.0, f64::max)
            };
            kinds.iter().map(of).fold(0.0, f64::max)
        };
        let weights: Vec<f64> = (0..core.questions.len()).map(tells).collect();
        let mut best: Vec<usize> =
            descending(&weights).into_iter().filter(|q| weights[*q] >= TELLS).collect();
        best.truncate(NEW_LOOKS);
        let mut random = Random::seeded(seed);
        let turn = random.below(best.len());
        best.rotate_left(turn);
        let item = |q: &usize| Item::Look(core.questions[*q].code);
        let (new, old): (Vec<usize>, Vec<usize>) =
            best.into_iter().partition(|q| progress.card(item(q)).is_none());
        new.iter().chain(&old).find_map(|q| self.task(Sort::Look, item(q), kinds, seed))
    }

    /// An item that is due.
    fn again(&self, item: Item, progress: &Progress, kinds: &[usize], seed: u64) -> Option<Task> {
        let sort = match item {
            Item::Look(_) => return None,
            Item::Kind(_) => Sort::Name,
            Item::Pair(..) if progress.asked % 4 == 1 => Sort::Next,
            Item::Pair(..) => Sort::Pair,
            Item::Make(_) => Sort::Old,
            Item::Proof(_) => Sort::Proof,
        };
        let task = self.task(sort, item, kinds, seed);
        task.or_else(|| if sort == Sort::Next { self.task(Sort::Pair, item, kinds, seed) } else { None })
    }

    /// Something new: the name of a kind while it is being met, else one sort after the other.
    fn fresh(&self, progress: &Progress, kinds: &[usize], met: &[usize], seed: u64) -> Option<Task> {
        let mut random = Random::seeded(seed);
        let kind = *kinds.get(random.below(kinds.len()))?;
        let code = |k: usize| self.guide.core.kinds[k].code;
        let name = || self.task(Sort::Name, self.kind_item(kind), kinds, seed);
        if kinds.len() == 1 {
            return name();
        }
        let alike = &self.alike[kind];
        // A look-alike that was met already, else any.
        let other = alike.iter().find(|k| met.contains(k)).or(alike.first()).copied();
        let pair = other.map(|o| Item::pair(code(kind), code(o)));
        let first = (progress.asked / 2) as usize;
        (0..6).find_map(|turn| match (first + turn) % 6 {
            0 | 3 => name(),
            1 => self.task(Sort::Pair, pair?, kinds, seed),
            2 => self.task(Sort::Old, Item::Make(code(kind)), kinds, seed),
            4 => self.task(Sort::Next, pair?, kinds, seed),
            _ => {
                let proofs = &self.guide.book.as_ref()?.lessons.proofs;
                let proof = proofs.get(random.below(proofs.len()))?;
                self.task(Sort::Proof, Item::Proof(proof.code), kinds, seed)
            }
        })
    }
}
