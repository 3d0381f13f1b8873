//! Ordinary small irons stay at a few tens of dollars unless two independent strong signs speak for something dear.

use consult::{Body, Guide, Screen, State, from_text, view};
use reason::{Answer, Told, weigh};
use tests::{SEED, deep, packs};
use workshop::simulate::{Drawer, Form, Setting, numbers, run};

/// A period piece of an ordinary kind sells, at the top of its middle half, for this at most, in cents. Basis: memory, most
/// small irons are pieces of ten to fifty dollars.
const ORDINARY: i64 = 5_000;
/// A finding whose middle worth is beyond this calls a piece dear, in cents. Basis: the same.
const DEAR: i64 = 6_000;
/// The odds by which one look is a strong sign. Published: Kass and Raftery, Journal of the American Statistical Association
/// 90 (1995) 773-795, after Jeffreys: from ten on evidence is called strong.
const STRONG: f64 = 10.0;

/// Upper end of the middle half of a kind's period pieces, in cents.
fn top(guide: &Guide, kind: usize) -> Option<i64> {
    let worth = guide.core.kinds[kind].makes[0].as_ref()?.worth.as_ref()?;
    Some(worth.high.minor)
}

/// The piece as text, as a user would hand it over.
fn text(guide: &Guide, answers: &[Answer]) -> String {
    let line = |a: &Answer| {
        let q = &guide.core.questions[a.question];
        match &a.told {
            Told::OneOf(set) => format!("{} = {}\n", q.id, q.choices[set[0]].id),
            Told::Measured { value, .. } => format!("{} = {value} mm ruler\n", q.id),
            Told::Cannot => String::new(),
        }
    };
    answers.iter().map(line).collect()
}

/// How many groups of looks hold an answer that speaks strongly for one of two kinds against the other.
fn strong_signs(guide: &Guide, answers: &[Answer], dear: usize, own: usize) -> usize {
    let odds = |answers: &[Answer]| {
        let kinds = weigh(&guide.model, 0, answers).kinds(&guide.model);
        kinds[dear] / kinds[own]
    };
    let before = odds(&[]);
    let mut groups: Vec<usize> = answers
        .iter()
        .filter(|a| odds(std::slice::from_ref(a)) >= STRONG * before)
        .map(|a| guide.core.questions[a.question].group.map_or(1000 + a.question, usize::from))
        .collect();
    groups.sort_unstable();
    groups.dedup();
    groups.len()
}

/// The kind that makes it dear: of those whose pieces sell beyond [`DEAR`] the one with the greatest share.
fn dearest(guide: &Guide, answers: &[Answer]) -> usize {
    let kinds = weigh(&guide.model, 0, answers).kinds(&guide.model);
    let dear = (0..kinds.len()).filter(|k| top(guide, *k).is_some_and(|top| top > DEAR));
    dear.max_by(|a, b| kinds[*a].total_cmp(&kinds[*b])).expect("some kind is dear")
}

#[test]
fn ordinary_pieces_stay_ordinary() {
    let guide = packs::guide();
    let count = if deep() { 4000 } else { 400 };
    let setting = Setting::pocket(SEED);
    let drawer = Drawer::new(&guide);
    let (mut ordinary, mut dear, mut highest) = (0, Vec::new(), 0);
    for (i, examined) in run(&guide, &setting, Form::Hard, count).into_iter().enumerate() {
        let own = usize::from(guide.core.candidates[examined.candidate].kind);
        if top(&guide, own).is_none_or(|top| top > ORDINARY) {
            continue;
        }
        ordinary += 1;
        let piece = drawer.draw(Form::Hard, None, &mut numbers(SEED, i));
        let told = |q: &usize| Answer { question: *q, told: piece.told[*q].clone(), sure: true };
        let answers: Vec<Answer> = examined.asked.iter().map(told).collect();
        // The worth after each look, not only at the end: somebody may stop anywhere.
        for n in 1..=answers.len() {
            let so_far = &answers[..n];
            let Some(middle) = middle_worth(&guide, so_far) else { continue };
            highest = highest.max(middle);
            if middle > DEAR {
                let signs = strong_signs(&guide, so_far, dearest(&guide, so_far), own);
                dear.push((i, n, middle, signs));
            }
        }
    }
    println!(
        "figure: {ordinary} ordinary pieces, worth after each look: {} times beyond {} dollars in the middle, {} at most; \
         without two independent strong signs {} times",
        dear.len(),
        DEAR / 100,
        highest / 100,
        dear.iter().filter(|d| d.3 < 2).count()
    );
    assert!(ordinary * 2 > count, "most pieces are ordinary");
    let alone: Vec<_> = dear.iter().filter(|d| d.3 < 2).collect();
    assert!(alone.is_empty(), "piece, looks, cents, strong signs: {alone:?}");
}

/// The middle of what the finding says such pieces are worth, in cents.
fn middle_worth(guide: &Guide, answers: &[Answer]) -> Option<i64> {
    let mut state: State = from_text(guide, &text(guide, answers)).expect("drawn answers can be told");
    state.screen = Screen::Finding;
    match view(guide, &state).body {
        Body::Finding(found) => found.worth.ok().map(|w| w.quantiles[2]),
        _ => None,
    }
}
