//! Packs that the reader lets in though no club would write them: tables of certainties, spreads of nothing or of
//! kilometres, years outside of the grid, no worth. They are consulted like any other, and nothing breaks.

use crate::common::{SEED, deep, legal, tiny, walked};
use consult::{Body, Guide, Msg, Screen, update, view};
use pack::{Core, Says, check_core};
use reason::Random;

/// One number in the pack set to a limit of what the reader lets in.
fn strained(core: &mut Core, random: &mut Random) {
    let question = random.below(core.questions.len());
    let kind = random.below(core.kinds.len());
    let candidate = random.below(core.candidates.len());
    let q = &mut core.questions[question];
    match random.below(17) {
        0 => (q.misread_sure, q.misread_unsure) = (0, 0),
        1 => (q.misread_sure, q.misread_unsure) = (999, 999),
        2 => q.seconds = [1, u16::MAX][random.below(2)],
        3 => q.tellable = 0,
        4 => q.tool = None,
        5 => q.choices.iter_mut().for_each(|c| c.confused.clear()),
        6 | 7 => {
            let row = random.below(q.rows.len());
            match &mut q.rows[row].says {
                Says::Shares(shares) => {
                    let certain = random.below(shares.len());
                    shares.iter_mut().enumerate().for_each(|(i, s)| *s = if i == certain { 1000 } else { 0 });
                }
                Says::Spread { mean, sd } => {
                    *mean = [-999_999, -1, 0, 1, 999_999][random.below(5)];
                    *sd = [1, 2, 999_999][random.below(3)];
                }
            }
        }
        8 => {
            if let Some(upper) = q.choices[0].upper.as_mut() {
                *upper = [1, 99_999][random.below(2)];
            }
        }
        9 => core.groups.iter_mut().for_each(|g| *g = [0, 999][random.below(2)]),
        10 => core.candidates[candidate]
            .prior
            .iter_mut()
            .for_each(|p| *p = [0, 1, 1_000_000_000][random.below(3)]),
        11 => core.fit_limits = vec![[i32::MIN, 0, i32::MAX][random.below(3)]; 1 + random.below(3)],
        12 => core.opening.clear(),
        13 => {
            let corners =
                [[800, 800, 800, 800], [2200, 2200, 2200, 2200], [800, 800, 2200, 2200]][random.below(3)];
            for facts in core.kinds[kind].makes.iter_mut().flatten() {
                let [earliest, likely_from, likely_to, latest] = corners;
                facts.period = units::Period { earliest, likely_from, likely_to, latest };
            }
        }
        14 => {
            for worth in core.kinds[kind].makes.iter_mut().flatten().filter_map(|f| f.worth.as_mut()) {
                (worth.low.minor, worth.high.minor) =
                    [(1, 2), (1, 999_999_999_999), (999_999_999_998, 999_999_999_999)][random.below(3)];
            }
        }
        15 => core.kinds[kind].makes.iter_mut().flatten().for_each(|f| f.worth = None),
        _ => core.kinds[kind].name.clear(),
    }
}

#[test]
fn what_the_reader_lets_in_can_be_consulted() {
    let sound = tiny().core;
    let mut random = Random::seeded(SEED);
    let mut consulted = 0;
    for _ in 0..if deep() { 20_000 } else { 1_000 } {
        let mut core = sound.clone();
        (0..1 + random.below(12)).for_each(|_| strained(&mut core, &mut random));
        if check_core(&core).is_err() {
            continue;
        }
        let year = [1600, 1900, 2026][random.below(3)];
        let guide = Guide::new(core, year).expect("what the reader lets in fits together");
        consulted += 1;
        for _ in 0..3 {
            let mut n = || random.bits() as u16;
            let taps: Vec<_> = (0..n() % 10).map(|_| ((n() % 20) as u8, n(), n(), n())).collect();
            let state = walked(&guide, &taps);
            assert_eq!(legal(&guide, &state), Ok(()));
            for screen in [Screen::Look, Screen::Finding, Screen::List, Screen::Setup] {
                let there = update(&guide, state.clone(), Msg::Show(screen)).0;
                let why = update(&guide, there, Msg::Why).0;
                let shown = view(&guide, &why);
                if let Body::Finding(f) = &shown.body {
                    assert!(f.share <= 1000 && f.years.heights.iter().all(|h| *h <= 1000));
                    assert!(f.years.to <= year, "{}", f.years.to);
                }
                let text = format!("{shown:?}");
                assert!(!text.contains("NaN"), "{text}");
            }
            // A chance that is no number would be read as "extremely unlikely" and never be seen.
            let posterior = reason::weigh(&guide.model, state.place, &state.answers());
            assert!(posterior.p.iter().all(|p| (0.0..=1.0).contains(p)), "{:?}", posterior.p);
        }
    }
    assert!(consulted > 300, "{consulted} packs were let in");
}
