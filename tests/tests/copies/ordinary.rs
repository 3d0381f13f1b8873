//! Ordinary small irons stay at a few tens of dollars: one look that speaks for something dear does not make them dear,
//! whatever it is.

use consult::{Body, Guide, Screen, State, from_text, view};
use reason::Random;
use tests::{SEED, deep, packs};

/// A period piece of an ordinary kind sells, at the top of its middle half, for this at most, in cents. Basis: memory, most
/// small irons are pieces of ten to fifty dollars.
const ORDINARY: i64 = 5_000;
/// A middle worth beyond this is more than a few tens of dollars, in cents. Basis: the rule itself, common practice, read
/// as seven tens.
const FEW_TENS: i64 = 7_000;

/// Not among them: an altered piece carries parts of another kind, and one look at such a part may well say which.
const ALTERED: &str = "altered";

/// Kinds that are met, whose period pieces are ordinary and not longer than the last class of lengths begins.
fn ordinary(guide: &Guide) -> Vec<usize> {
    let core = &guide.core;
    let met = |k: &usize| core.candidates.iter().any(|c| usize::from(c.kind) == *k && c.prior[0] > 0);
    let top = |k: usize| Some(core.kinds[k].makes[0].as_ref()?.worth.as_ref()?.high.minor);
    let length = core.questions.iter().position(|q| q.id == "length").expect("the pack asks for the length");
    let longest = core.questions[length].choices.len() - 1;
    let met = |k: &usize| met(k) && core.kinds[*k].id != ALTERED;
    let kinds = (0..core.kinds.len()).filter(met).filter(|k| top(*k).is_some_and(|top| top <= ORDINARY));
    kinds.filter(|k| typical(guide, plainest(guide, *k), length) != longest).collect()
}

/// The candidate that stands for a kind: its commonest period form.
fn plainest(guide: &Guide, kind: usize) -> usize {
    let all = guide.core.candidates.iter().enumerate();
    let own = all.filter(|(_, c)| usize::from(c.kind) == kind && c.make == 0);
    own.max_by_key(|(_, c)| c.prior[0]).map(|(at, _)| at).expect("an ordinary kind has period pieces")
}

/// What a typical piece shows when a question is asked: the likeliest choice.
fn typical(guide: &Guide, candidate: usize, question: usize) -> usize {
    let table = guide.model.truth(question, candidate);
    (0..table.len()).max_by(|a, b| table[*a].total_cmp(&table[*b])).unwrap_or(0)
}

/// The looks that are still asked: one behind a gate only when what opens it was answered.
fn open(guide: &Guide, looks: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let mut open = looks.to_vec();
    loop {
        let before = open.clone();
        open.retain(|(q, _)| match &guide.core.questions[*q].gate {
            None => true,
            Some(gate) => before.iter().any(|(q, c)| {
                *q == usize::from(gate.question) && gate.choices.iter().any(|o| usize::from(*o) == *c)
            }),
        });
        if open.len() == before.len() {
            return open;
        }
    }
}

/// The middle of what the finding says such pieces are worth, in cents.
fn middle_worth(guide: &Guide, looks: &[(usize, usize)]) -> Option<i64> {
    let core = &guide.core;
    let line = |(q, c): &(usize, usize)| {
        format!("{} = {}\n", core.questions[*q].id, core.questions[*q].choices[*c].id)
    };
    let text: String = open(guide, looks).iter().map(line).collect();
    let mut state: State = from_text(guide, &text).expect("looks that are asked can be told");
    state.screen = Screen::Finding;
    match view(guide, &state).body {
        Body::Finding(found) => found.worth.ok().map(|w| w.quantiles[2]),
        _ => None,
    }
}

/// A typical piece with some looks taken; then each of them in turn says something else.
#[test]
fn one_look_makes_no_ordinary_piece_dear() {
    let guide = packs::guide();
    let core = &guide.core;
    let kinds = ordinary(&guide);
    assert!(kinds.len() > 20, "most kinds are ordinary: {}", kinds.len());
    let opening: Vec<usize> = core.opening.iter().map(|q| usize::from(*q)).collect();
    let mut random = Random::seeded(SEED);
    let (mut tried, mut highest, mut dear) = (0, (0, String::new()), Vec::new());
    for kind in kinds {
        let candidate = plainest(&guide, kind);
        // Besides the opening, looks at random: what somebody else would have taken.
        let mut others: Vec<usize> = (0..core.questions.len()).filter(|q| !opening.contains(q)).collect();
        while others.len() > if deep() { 12 } else { 3 } {
            others.swap_remove(random.below(others.len()));
        }
        let asked: Vec<usize> = opening.iter().chain(&others).copied().collect();
        let looks: Vec<(usize, usize)> = asked.iter().map(|q| (*q, typical(&guide, candidate, *q))).collect();
        for at in 0..looks.len() {
            for choice in 0..core.questions[looks[at].0].choices.len() {
                let mut changed = looks.clone();
                changed[at].1 = choice;
                let Some(middle) = middle_worth(&guide, &changed) else { continue };
                tried += 1;
                let question = &core.questions[looks[at].0];
                let says =
                    format!("{}: {} = {}", core.kinds[kind].id, question.id, question.choices[choice].id);
                if middle > FEW_TENS {
                    dear.push(format!("{says}: {} dollars", middle / 100));
                }
                if middle > highest.0 {
                    highest = (middle, says);
                }
            }
        }
    }
    println!(
        "figure: ordinary pieces with one look that says something else, {tried} times: {} dollars in the middle at most ({})",
        highest.0 / 100,
        highest.1
    );
    assert!(tried > 1000, "nearly nothing was tried: {tried}");
    assert!(dear.is_empty(), "{}", dear.join("\n"));
}
