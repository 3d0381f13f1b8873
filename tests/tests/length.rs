//! How many answers it takes, with pieces drawn from the pack's own tables, opening included.

use consult::Guide;
use survey::simulate::{About, Form, Setting, entropy, figures, run};
use tests::{SEED, deep, packs};

/// Mean answers until all of this is settled or the looks are spent, printed with what else can be said.
fn simulated(guide: &Guide, name: &str, about: &[About]) -> f64 {
    let n = if deep() { 2000 } else { 200 };
    let f = figures(guide, &run(guide, &Setting::all_tools(guide, SEED, about), Form::Easy, n));
    println!(
        "figure: {name}, {n} pieces from the own tables: {:.2} answers until settled or spent, settled {:.3}; right in \
         the end: kind {:.3}, role {:.3}, period or not {:.3}",
        f.until, f.settled, f.first, f.role, f.period,
    );
    f.until
}

#[test]
fn few_answers_settle_a_piece() {
    let guide = packs::guide();
    println!("figure: entropy of the kind: {:.2} bits", entropy(&guide));
    let role_and_make = simulated(&guide, "role and make", &[About::Role, About::Make]);
    let kind = simulated(&guide, "kind", &[About::Kind]);
    assert!(role_and_make <= 8.0, "{role_and_make}");
    assert!(kind <= 10.0, "{kind}");
}
