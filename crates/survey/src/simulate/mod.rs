//! Pieces drawn from the pack's own tables, examined as the page has them examined, and how often it comes out right.

mod examine;
mod tally;

pub use examine::{About, Examined, Examiner, Shown};
pub use practice::{Drawer, Form, Piece, numbers};
pub use tally::{Figures, Mistaken, figures, mistaken};

use consult::Guide;
use std::ops::Range;
use std::thread;

/// How it is simulated.
#[derive(Debug, Clone)]
pub struct Setting {
    /// What every piece's own numbers are drawn from.
    pub seed: u64,
    /// Ids of the tools at hand; those that the pack does not know are left out; all, when it knows none.
    pub tools: Vec<String>,
    /// What is asked about, one after the other.
    pub about: Vec<About>,
    /// Whether the looks go on once all of that is settled.
    pub to_the_end: bool,
    /// With so many answers that say something it ends in any case.
    pub most: usize,
}

impl Setting {
    /// Ruler and magnet, what fits into a pocket; the kind is asked about, and all looks are taken.
    #[must_use]
    pub fn pocket(seed: u64) -> Setting {
        Setting {
            seed,
            tools: vec!["magnet".to_string(), "ruler".to_string()],
            about: vec![About::Kind],
            to_the_end: true,
            most: usize::MAX,
        }
    }

    /// The same tools, but old or later is asked about, and it ends with so many clues.
    #[must_use]
    pub fn old_or_later(seed: u64, clues: usize) -> Setting {
        Setting { about: vec![About::Make], most: clues, ..Setting::pocket(seed) }
    }

    /// Every tool of the pack at hand; these matters are asked about, and it ends when they are settled.
    #[must_use]
    pub fn all_tools(guide: &Guide, seed: u64, about: &[About]) -> Setting {
        let tools = guide.core.tools.iter().map(|t| t.id.clone()).collect();
        Setting { seed, tools, about: about.to_vec(), to_the_end: false, most: usize::MAX }
    }

    /// Who examines pieces in this way.
    #[must_use]
    pub fn examiner<'a>(&self, guide: &'a Guide) -> Examiner<'a> {
        Examiner::new(guide, self.indices(guide), &self.about, self.to_the_end, self.most)
    }

    pub(crate) fn indices(&self, guide: &Guide) -> Vec<usize> {
        let at = |id: &String| guide.core.tools.iter().position(|t| t.id == *id);
        let known: Vec<usize> = self.tools.iter().filter_map(at).collect();
        // A pack with other tools than a ruler and a magnet does not say which of them a pocket holds: all of them.
        if known.is_empty() { (0..guide.core.tools.len()).collect() } else { known }
    }
}

/// The entropy of the kind before any look, in bits, the unknown kind left out as it is among the pieces.
#[must_use]
pub fn entropy(guide: &Guide) -> f64 {
    let mut shares = vec![0.0; guide.core.kinds.len()];
    let drawer = Drawer::new(guide);
    drawer.weights().iter().zip(guide.model.kind_of()).for_each(|(w, k)| shares[*k] += w);
    let all: f64 = shares.iter().sum();
    shares.iter().filter(|s| **s > 0.0).map(|s| s / all * libm::log2(all / s)).sum()
}

/// `count` pieces as common as the pack says.
#[must_use]
pub fn run(guide: &Guide, setting: &Setting, form: Form, count: usize) -> Vec<Examined> {
    run_some(guide, setting, form, 0..count)
}

/// The pieces of these numbers out of those of [`run`].
#[must_use]
pub fn run_some(guide: &Guide, setting: &Setting, form: Form, which: Range<usize>) -> Vec<Examined> {
    let pieces: Vec<Numbered> = which.map(|at| (at, None)).collect();
    spread(guide, setting, form, &pieces)
}

/// `each` pieces of every kind that can be drawn, kind by kind.
#[must_use]
pub fn run_each(guide: &Guide, setting: &Setting, form: Form, each: usize) -> Vec<Examined> {
    let kinds = Drawer::new(guide).kinds();
    let pieces: Vec<Numbered> =
        kinds.into_iter().flat_map(|k| std::iter::repeat_n(Some(k), each)).enumerate().collect();
    spread(guide, setting, form, &pieces)
}

/// The number that a piece is drawn from, and its kind where that is given.
type Numbered = (usize, Option<usize>);

fn spread(guide: &Guide, setting: &Setting, form: Form, pieces: &[Numbered]) -> Vec<Examined> {
    let drawer = Drawer::new(guide);
    let examiner = setting.examiner(guide);
    let one =
        |(i, kind): &Numbered| examiner.examine(&drawer.draw(form, *kind, &mut numbers(setting.seed, *i)));
    let threads = thread::available_parallelism().map_or(1, usize::from).min(pieces.len().max(1));
    let all = |from: usize| -> Vec<(usize, Examined)> {
        pieces.iter().enumerate().skip(from).step_by(threads).map(|(at, p)| (at, one(p))).collect()
    };
    let mut done: Vec<(usize, Examined)> = thread::scope(|scope| {
        let all = &all;
        let others: Vec<_> = (1..threads).map(|t| scope.spawn(move || all(t))).collect();
        let mut done = all(0);
        // A thread that died has left its pieces out, which the caller sees by their number.
        done.extend(others.into_iter().filter_map(|t| t.join().ok()).flatten());
        done
    });
    done.sort_by_key(|d| d.0);
    done.into_iter().map(|d| d.1).collect()
}
