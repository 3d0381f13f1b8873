//! A test for each part of the engine: the misreading model, the groups, the forms, the fit. Without its part each fails:
//! `cargo xtask bench engine` takes the parts out one by one in a copy and looks. All tables are invented.

use proof::data::{Character, Data};
use proof::exact::led;
use proof::learn::{Lesson, Shape, forms, groups, model};
use proof::{parts, session};
use reason::{Answer, Model, Random, Told, fit, simulated_limits, weigh};

/// Things of two classes, every second one held out; `show` draws what a thing of a class shows.
fn two_classes(characters: usize, mut show: impl FnMut(usize, &mut Random) -> Vec<usize>) -> Data {
    let mut random = Random::seeded(3);
    let class_of: Vec<usize> = (0..400).map(|i| i / 2 % 2).collect();
    let rows = class_of.iter().map(|c| show(*c, &mut random).iter().map(|s| *s as f64).collect());
    Data {
        name: "invented".to_owned(),
        classes: 2,
        rows: rows.collect(),
        fold_of: (0..400).map(|i| i % 2).collect(),
        characters: vec![Character::States(2); characters],
        class_of,
    }
}

/// Share of held-out things found, and their mean -ln P(class).
fn held_out(data: &Data, shape: Shape, rho: f64) -> (f64, f64) {
    let lesson = Lesson::without(data, 0);
    let found = forms(&lesson, shape);
    let model = model(&lesson, &found, &groups(&lesson, &found), rho, 0.0).expect("the shapes fit");
    let held: Vec<usize> = (0..data.rows.len()).filter(|r| data.fold_of[*r] == 0).collect();
    let (mut right, mut loss) = (0.0, 0.0);
    for row in &held {
        let told = (0..data.characters.len()).map(|q| session::answer(data, &data.rows[*row], q));
        let p = weigh(&model, 0, &told.collect::<Vec<_>>()).kinds(&model)[data.class_of[*row]];
        right += f64::from(u8::from(p > 0.5));
        loss -= libm::log(p);
    }
    (right / held.len() as f64, loss / held.len() as f64)
}

/// Seven segments, each wrong one time in ten: the best there is finds 74.002248 % (published with the problem; eight
/// digits by enumeration). Without a misreading model a wrong segment rules the digit out.
#[test]
fn misreading() {
    let model = led::model(0.10).expect("the shapes fit");
    let found = led::sessions(&model, 2.0, 0.10);
    assert!((found.accuracy - 0.740_022_48).abs() < 1e-8, "{found:?}");
}

/// One character that tells 4 to 1, and three that repeat it nineteen times in twenty: taken as four, they claim far too
/// much. With an overlap of 0.4 the loss falls by a third at least (limit: the project's own).
#[test]
fn groups_temper_what_repeats() {
    let data = two_classes(5, |class, random| {
        let first = if random.unit() < 0.8 { class } else { 1 - class };
        let mut repeat = || if random.unit() < 0.95 { first } else { 1 - first };
        let again = [repeat(), repeat(), repeat()];
        vec![first, again[0], again[1], again[2], usize::from(random.unit() < 0.3 + 0.4 * class as f64)]
    });
    let (plain, tempered) = (held_out(&data, Shape::One, 0.0), held_out(&data, Shape::One, 0.4));
    assert!(tempered.1 < 0.67 * plain.1, "{plain:?} {tempered:?}");
}

/// Two classes of two forms each, alike on the average: only their forms tell them apart. Nineteen characters in twenty
/// are true to the form.
#[test]
fn forms_part_what_is_alike_on_the_average() {
    let data = two_classes(8, |class, random| {
        let side = random.below(2);
        let half = |at: usize| if at < 4 { side } else { side ^ class };
        (0..8).map(|at| if random.unit() < 0.95 { half(at) } else { 1 - half(at) }).collect()
    });
    let (average, mixed) = (held_out(&data, Shape::One, 0.0), held_out(&data, Shape::Mixture, 0.0));
    assert!(average.0 < 0.7, "{average:?}");
    assert!(mixed.0 > 0.95, "{mixed:?}");
}

/// Six kinds by fourteen questions of four choices, the likely one 0.79. A known piece seldom counts as strange (limit:
/// one in fifty, found by simulation), one that shows anything at all does more often than not.
#[test]
fn fit_stops_strangers() {
    let mut random = Random::seeded(8);
    let questions: Vec<_> = (0..14)
        .map(|_| {
            let row = |likely: usize| (0..4).map(|c| if c == likely { 0.79 } else { 0.07 }).collect();
            parts::question((0..6).map(|_| row(random.below(4))).collect(), 0.04)
        })
        .collect();
    let mut whole = parts::model(6, (0..6).collect(), vec![1.0; 6], questions);
    let plain = Model::new(whole.clone()).expect("the shapes fit");
    whole.fit_limits = simulated_limits(&plain).iter().map(|l| f64::from(*l) / 1000.0).collect();
    let model = Model::new(whole).expect("the shapes fit");
    let mut share = |known: bool| {
        let strange = (0..1000).filter(|_| {
            let kind = random.below(6);
            let shown = |q: usize, random: &mut Random| {
                if known { random.pick(model.truth(q, kind)) } else { random.below(4) }
            };
            let answers: Vec<Answer> = (0..14)
                .map(|q| Answer { question: q, told: Told::OneOf(vec![shown(q, &mut random)]), sure: true })
                .collect();
            fit(&model, &weigh(&model, 0, &answers), &answers).strange
        });
        strange.count() as f64 / 1000.0
    };
    let (known, stranger) = (share(true), share(false));
    assert!(known < 0.05, "{known}");
    assert!(stranger > 0.5, "{stranger}");
}
