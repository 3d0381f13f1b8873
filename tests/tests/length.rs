//! How many answers it takes, with pieces drawn from the pack's own tables, opening included.

use consult::{Aim, Guide};
use reason::{Goal, Plan, Random};
use tests::simulate::{Outcome, entropy, lead};
use tests::{SEED, deep, packs};

/// Mean answers for these aims, printed with what else can be said.
fn simulated(guide: &Guide, name: &str, aims: &[Aim], tools: &[usize]) -> f64 {
    let n = if deep() { 2000 } else { 200 };
    let mut random = Random::seeded(SEED);
    let all: Vec<Outcome> = (0..n).map(|_| lead(guide, aims, tools, &mut random)).collect();
    let mean = |f: &dyn Fn(&Outcome) -> f64| all.iter().map(f).sum::<f64>() / all.len() as f64;
    let share = |f: &dyn Fn(&Outcome) -> bool| mean(&|o| f64::from(u8::from(f(o))));
    let answers = mean(&|o| o.answers as f64);
    println!(
        "figure: {name}, {n} pieces from the own tables: {answers:.2} answers until settled or spent, settled {:.3}; right in \
         the end: kind {:.3}, role {:.3}, period or not {:.3}",
        share(&|o| o.settled),
        share(&|o| o.kind_right),
        share(&|o| o.role_right),
        share(&|o| o.make_right),
    );
    answers
}

#[test]
fn few_answers_settle_a_piece() {
    let guide = packs::guide();
    let tools: Vec<usize> = (0..guide.core.tools.len()).collect();
    let bits = entropy(&guide, &Plan::new(&guide.model, Goal::kind(&guide.model)));
    println!("figure: entropy of the kind: {bits:.2} bits");
    let role_and_make = simulated(&guide, "role and make", &[Aim::Role, Aim::Make], &tools);
    let kind = simulated(&guide, "kind", &[Aim::Kind], &tools);
    assert!(role_and_make <= 8.0, "{role_and_make}");
    assert!(kind <= 10.0, "{kind}");
}
