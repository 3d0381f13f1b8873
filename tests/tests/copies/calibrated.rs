//! Whether what is stated of old or later comes true: pieces drawn from the pack, half of them later ones, whose looks hang
//! together within groups, examined as the page asks with six clues.

use consult::Guide;
use reason::{Answer, Model, Posterior, fit, weigh, with_fit};
use tests::{SEED, deep, packs};
use workshop::simulate::{Drawer, Form, Setting, numbers, run};

/// So many answers that say something. Basis: practice, what a stall has patience for.
const CLUES: usize = 6;
/// So many standard errors a bin may lie off. Published (any table of the standard normal, such as NIST/SEMATECH handbook
/// 1.3.6.7.1): chance alone lies beyond three 27 times in ten thousand.
const SIGMAS: f64 = 3.0;
/// Bins of the stated chance.
const BINS: usize = 10;

/// The pack with half of its pieces later ones.
///
/// Priors are multiplied by one factor for all period candidates and by another for all others, so that both sides weigh
/// the same; within a side every kind, make and form stays as common as it was. Pieces are drawn by the same priors, so
/// what is stated before the first look is what is drawn. The kind for everything unknown, the last, which is never drawn,
/// keeps its share of the whole and is halved in the same way.
fn half_and_half() -> Guide {
    let mut guide = packs::guide();
    let unknown = guide.core.kinds.len() - 1;
    let part = |kind: u16, make: u16| (usize::from(usize::from(kind) == unknown), usize::from(make != 0));
    let mut sums = [[0.0; 2]; 2];
    for c in &guide.core.candidates {
        let (known, side) = part(c.kind, c.make);
        sums[known][side] += f64::from(c.prior[0]);
    }
    for c in &mut guide.core.candidates {
        let (known, side) = part(c.kind, c.make);
        let half = sums[known].iter().sum::<f64>() / 2.0;
        // In thousands, so that the rare ones keep their digits.
        c.prior[0] = (f64::from(c.prior[0]) * half / sums[known][side] * 1000.0).round() as u32;
    }
    guide.model = Model::from_core(&guide.core).expect("the tables still fit together");
    guide
}

/// A chance that was stated, and what the piece was.
#[derive(Clone, Copy)]
struct Stated {
    later: f64,
    is: bool,
}

struct Bin {
    pieces: usize,
    /// Mean of what was stated, and share of copies.
    stated: f64,
    came: f64,
    /// Standard error of the share when the stated chances are right.
    error: f64,
}

impl Bin {
    fn of(list: &[Stated]) -> Bin {
        let n = list.len().max(1) as f64;
        let mean = |f: &dyn Fn(&Stated) -> f64| list.iter().map(f).sum::<f64>() / n;
        Bin {
            pieces: list.len(),
            stated: mean(&|s| s.later),
            came: mean(&|s| f64::from(u8::from(s.is))),
            error: (mean(&|s| s.later * (1.0 - s.later)) / n).sqrt(),
        }
    }

    /// By how many standard errors what came differs from what was stated.
    fn off(&self) -> f64 {
        if self.pieces == 0 { 0.0 } else { (self.came - self.stated) / self.error.max(1e-9) }
    }
}

/// Ten bins of the stated chance.
struct Bins(Vec<Bin>);

impl Bins {
    fn of(stated: &[Stated]) -> Bins {
        let at = |s: &&Stated, bin: usize| ((s.later * BINS as f64) as usize).min(BINS - 1) == bin;
        let bin = |bin: usize| {
            let inside: Vec<Stated> = stated.iter().filter(|s| at(s, bin)).copied().collect();
            Bin::of(&inside)
        };
        Bins((0..BINS).map(bin).collect())
    }

    fn worst(&self) -> f64 {
        self.0.iter().map(|b| b.off().abs()).fold(0.0, f64::max)
    }

    /// One line a bin: stated, came, pieces, standard errors.
    fn print(&self, what: &str) {
        println!("figure: old or later, {what}: worst bin {:.1} standard errors off", self.worst());
        for (i, b) in self.0.iter().enumerate() {
            println!(
                "  stated {:>3} to {:>3}: {:>5} pieces, mean {:.3}, copies {:.3} +- {:.3}, {:+.1}",
                10 * i,
                10 * (i + 1),
                b.pieces,
                b.stated,
                b.came,
                b.error,
                b.off()
            );
        }
    }
}

/// What each of three ways of reckoning states of the same pieces after the same answers.
struct Run {
    /// The guide's own.
    own: Vec<Stated>,
    /// Without the make: each kind counts as a copy as often as its pieces are copies.
    makeless: Vec<Stated>,
    /// Without the groups: every look as if it stood alone, and as if every look were the piece's own.
    groupless: Vec<Stated>,
}

fn examined(seed: u64, count: usize) -> Run {
    let guide = half_and_half();
    let mut core = guide.core.clone();
    core.groups.iter_mut().for_each(|overlap| *overlap = 0);
    core.mixed = 0;
    let groupless = Model::from_core(&core).expect("the tables still fit together");
    let shares = copies_of_kinds(&guide);
    let setting = Setting::old_or_later(seed, CLUES);
    let drawer = Drawer::new(&guide);
    let mut all = Run { own: Vec::new(), makeless: Vec::new(), groupless: Vec::new() };
    for (i, shown) in run(&guide, &setting, Form::Together, count).into_iter().enumerate() {
        let piece = drawer.draw(Form::Together, None, &mut numbers(seed, i));
        assert_eq!(piece.candidate, shown.candidate, "the same piece is drawn again");
        let told = |q: &usize| Answer { question: *q, told: piece.told[*q].clone(), sure: true };
        let answers: Vec<Answer> = shown.asked.iter().map(told).collect();
        let is = guide.core.candidates[piece.candidate].make != 0;
        let own = found(&guide.model, &answers);
        let later = 1.0 - own.makes(&guide.model)[0];
        assert!((later - (1.0 - shown.shown.period)).abs() < 1e-12, "and the page states it so");
        let by_kind = own.kinds(&guide.model).iter().zip(&shares).map(|(p, share)| p * share).sum();
        let alone = 1.0 - found(&groupless, &answers).makes(&groupless)[0];
        all.own.push(Stated { later, is });
        all.makeless.push(Stated { later: by_kind, is });
        all.groupless.push(Stated { later: alone, is });
    }
    all
}

/// As the finding reckons, the fit taken in.
fn found(model: &Model, answers: &[Answer]) -> Posterior {
    let bare = weigh(model, 0, answers);
    let fit = fit(model, &bare, answers);
    with_fit(model, bare, fit)
}

/// By kind the share of its pieces that are copies.
fn copies_of_kinds(guide: &Guide) -> Vec<f64> {
    let mut sums = vec![(0.0, 0.0); guide.core.kinds.len()];
    for c in &guide.core.candidates {
        let (later, all) = &mut sums[usize::from(c.kind)];
        *all += f64::from(c.prior[0]);
        *later += if c.make == 0 { 0.0 } else { f64::from(c.prior[0]) };
    }
    sums.into_iter().map(|(later, all)| if all > 0.0 { later / all } else { 0.0 }).collect()
}

#[test]
fn stated_chances_of_a_copy_come_true() {
    let (seed, count) = if deep() { (FINAL, 20_000) } else { (SEED, 3000) };
    let all = examined(seed, count);
    let copies = all.own.iter().filter(|s| s.is).count() as f64 / count as f64;
    let right = all.own.iter().filter(|s| (s.later >= 0.5) == s.is).count() as f64 / count as f64;
    println!("figure: old or later with {CLUES} clues: right {right:.3} of {count}, {copies:.3} of them copies");
    let own = Bins::of(&all.own);
    own.print("as stated");
    assert!(own.0.iter().all(|b| b.pieces >= 30), "no bin is judged by a handful");
    assert!(own.worst() <= SIGMAS, "a bin is {:.1} standard errors off", own.worst());
    // Of those called 80 to 90 per cent later, 80 to 90 per cent are.
    let called = &own.0[8];
    let within = 0.8 - SIGMAS * called.error..=0.9 + SIGMAS * called.error;
    assert!(within.contains(&called.came), "called 80 to 90: {:.3}", called.came);
    let makeless = Bins::of(&all.makeless);
    makeless.print("control: without the make");
    assert!(makeless.worst() > SIGMAS, "a model without makes would pass");
    let groupless = Bins::of(&all.groupless);
    groupless.print("control: without groups");
    assert!(groupless.worst() > SIGMAS, "a model without groups would pass");
}

/// The seed of full counts: used for nothing while tables were written.
const FINAL: u64 = 6_022_140;
