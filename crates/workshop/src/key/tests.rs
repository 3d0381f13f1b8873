//! What a printed key must hold to.

use super::*;

/// The golden pack with every text of the question path replaced by one that means harm; its figures are invented.
fn hostile(text: &str) -> Guide {
    let core = include_bytes!("../../../../tests/golden/format-4/core.pack");
    let book = include_bytes!("../../../../tests/golden/format-4/book.pack");
    let guide = Guide::from_bytes(core, book, 2026).expect("the golden pack");
    let mut core = guide.core;
    let head = &mut core.head;
    for t in [&mut head.name, &mut head.edition, &mut head.licence, &mut head.notice, &mut head.language] {
        *t = text.to_string();
    }
    for q in &mut core.questions {
        (q.ask, q.look) = (text.to_string(), text.to_string());
        q.choices.iter_mut().for_each(|c| c.label = text.to_string());
    }
    core.kinds.iter_mut().for_each(|k| k.name = text.to_string());
    // Both kinds as common as each other, so that something must be asked.
    core.candidates.iter_mut().for_each(|c| c.prior.fill(1000));
    Guide::new(core, 2026).expect("a sound core")
}

#[test]
fn nothing_of_a_pack_becomes_markup() {
    let plain = Key::of(&hostile("Plain")).html(&hostile("Plain"));
    for (text, shown) in [
        ("<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;"),
        ("</li><img src=x onerror=alert(1)>", "&lt;/li&gt;&lt;img src=x onerror=alert(1)&gt;"),
        ("\"><b onclick=\"x", "&quot;&gt;&lt;b onclick=&quot;x"),
        ("&lt;b&gt; & <!--", "&amp;lt;b&amp;gt; &amp; &lt;!--"),
        ("</main></body>", "&lt;/main&gt;&lt;/body&gt;"),
    ] {
        let guide = hostile(text);
        let page = Key::of(&guide).html(&guide);
        assert!(page.contains("<h2>1. ") && page.contains("<li>"), "something is asked:\n{page}");
        // Escaped wherever it stands, and the page is otherwise the one of a pack that means well.
        assert_eq!(page, plain.replace("Plain", shown));
        assert!(!page.contains(text), "{page}");
    }
}

#[test]
fn a_pack_that_needs_no_question_says_so() {
    let mut core = hostile("Plain").core;
    core.candidates.iter_mut().for_each(|c| c.prior.fill(if c.kind == 0 { 1000 } else { 1 }));
    let guide = Guide::new(core, 2026).expect("a sound core");
    let page = Key::of(&guide).html(&guide);
    assert!(page.contains("is known beforehand: <b>Plain</b>, over 99 in 100. Kinds are leanings"), "{page}");
    assert!(!page.contains("Begin at 1.") && !page.contains("<h2>"), "{page}");
}

/// Eight kinds of one make, seven questions of two or three choices with tables drawn from a seed; all invented.
fn drawn(seed: u64) -> Guide {
    let mut core = hostile("Plain").core;
    let mut random = reason::Random::seeded(seed);
    let unknown = core.kinds.len() - 1;
    let question = core.questions.iter().find(|q| q.form == pack::Form::Choice && q.gate.is_none());
    let question = question.expect("a question with choices").clone();
    let (kind, last) = (core.kinds[0].clone(), core.kinds[unknown].clone());
    let candidate = core.candidates[0].clone();
    const KINDS: usize = 8;
    core.questions = (0..7_u16)
        .map(|code| {
            let n = 2 + random.below(2);
            let mut q = pack::Question { code: code + 1, id: format!("q{code}"), ..question.clone() };
            (q.group, q.tool, q.misread_sure, q.seconds, q.tellable) = (None, None, 10, 5, 1000);
            q.choices = (0..n)
                .map(|c| pack::Choice {
                    code: c as u16 + 1,
                    id: format!("c{c}"),
                    ..question.choices[0].clone()
                })
                .collect();
            q.choices.iter_mut().for_each(|c| c.confused.clear());
            q.rows = (0..=KINDS)
                .map(|_| {
                    let mut shares = vec![20_u16; n];
                    shares[random.below(n)] = 1000 - 20 * (n as u16 - 1);
                    pack::Row { says: pack::Says::Shares(shares), ..question.rows[0].clone() }
                })
                .collect();
            q
        })
        .collect();
    core.kinds =
        (0..KINDS).map(|k| pack::Kind { code: k as u16 + 1, id: format!("k{k}"), ..kind.clone() }).collect();
    core.kinds.push(pack::Kind { code: 99, ..last });
    core.candidates = (0..=KINDS as u16)
        .map(|k| pack::Candidate {
            kind: k,
            rows: vec![k; 7],
            prior: vec![if usize::from(k) == KINDS { 1 } else { 1000 }; candidate.prior.len()],
            ..candidate.clone()
        })
        .collect();
    core.opening = vec![0];
    core.cautions.iter_mut().for_each(|c| c.raised_by.clear());
    core.kinds.iter_mut().for_each(|k| k.either.clear());
    core.fit_limits = vec![-3000; 7];
    Guide::new(core, 2026).expect("a sound core")
}

/// Mean number of questions of the shortest key there can be that ends where a printed one does.
fn shortest(guide: &Guide, answers: &mut Vec<reason::Answer>, joint: &[f64], share: f64) -> f64 {
    let model = &guide.model;
    let top = reason::weigh(model, 0, answers).kinds(model).into_iter().fold(0.0, f64::max);
    if top >= 0.85 || share < 1.0 / 300.0 {
        return 0.0;
    }
    let mut least = f64::INFINITY;
    for question in 0..guide.core.questions.len() {
        if answers.iter().any(|a| a.question == question) {
            continue;
        }
        let mut steps = share;
        for choice in 0..guide.core.questions[question].choices.len() {
            let after: Vec<f64> =
                joint.iter().enumerate().map(|(c, p)| p * model.truth(question, c)[choice]).collect();
            answers.push(reason::Answer { question, told: reason::Told::OneOf(vec![choice]), sure: true });
            steps += shortest(guide, answers, &after, after.iter().sum());
            answers.pop();
        }
        least = least.min(steps);
    }
    // Nothing is left to ask.
    if least.is_finite() { least } else { 0.0 }
}

#[test]
fn a_key_is_nearly_as_short_as_can_be() {
    let (mut all, mut best, mut bound) = (0.0, 0.0, 0.0);
    for seed in 1..=6 {
        let guide = drawn(seed);
        let key = Key::of(&guide);
        let prior = reason::weigh(&guide.model, 0, &[]).p;
        let least = shortest(&guide, &mut Vec::new(), &prior, 1.0);
        assert!(key.fewest <= key.steps + 1e-9, "the bound is one: {} over {}", key.fewest, key.steps);
        (all, best, bound) = (all + key.steps, best + least, bound + key.fewest);
    }
    println!(
        "figure: printed key: {:.3} questions where the shortest key takes {:.3}; bound {:.3}",
        all / 6.0,
        best / 6.0,
        bound / 6.0
    );
    assert!(all <= 1.05 * best, "{all} against {best}");
}
