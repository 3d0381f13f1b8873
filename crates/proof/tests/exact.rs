//! Problems whose answers are known exactly.

use proof::exact::key::{Rule, cost, drawn};
use proof::exact::{led, optimal};
use reason::{Goal, Plan, Random, weigh};

/// Chance of failing, threshold, mean questions, accuracy: published with the problem (Bayes rate .74 at 10 %) and
/// computed to eight digits by an independent enumeration in Python.
const LED: [(f64, f64, f64, f64); 6] = [
    (0.05, 0.8, 3.792_093, 0.847_750_97),
    (0.05, 0.9, 5.521_384, 0.866_839_35),
    (0.05, 0.95, 6.597_269, 0.867_032_26),
    (0.10, 0.8, 5.689_042, 0.739_439_28),
    (0.10, 0.9, 6.671_104, 0.740_022_48),
    (0.10, 0.99, 7.0, 0.740_022_48),
];

#[test]
fn digits_by_seven_segments() {
    for (fails, enough, questions, accuracy) in LED {
        let model = led::model(fails).expect("the shapes fit");
        let got = led::sessions(&model, enough, fails);
        assert!((got.questions - questions).abs() < 1e-6, "{enough} {got:?}");
        assert!((got.accuracy - accuracy).abs() < 1e-8, "{enough} {got:?}");
        // Under the true model the leader's probability is the chance that it is right.
        assert!((got.claimed - got.accuracy).abs() < 1e-9, "{enough} {got:?}");
    }
}

#[test]
fn all_seven_answers_reach_the_bayes_rate() {
    for (fails, accuracy) in [(0.05, 0.867_032_26), (0.10, 0.740_022_48), (0.20, 0.512_573_44)] {
        let model = led::model(fails).expect("the shapes fit");
        let got = led::sessions(&model, 2.0, fails);
        assert!((got.questions - 7.0).abs() < 1e-9);
        assert!((got.accuracy - accuracy).abs() < 1e-8, "{got:?}");
        assert!((got.claimed - got.accuracy).abs() < 1e-9, "{got:?}");
    }
}

/// A wrong assumption shows: the same answers, another claim (same enumeration as above).
#[test]
fn assuming_half_the_error_claims_too_much() {
    let model = led::model(0.05).expect("the shapes fit");
    let got = led::sessions(&model, 0.95, 0.10);
    assert!((got.accuracy - 0.740_022_48).abs() < 1e-8, "{got:?}");
    assert!((got.claimed - 0.816_767_64).abs() < 1e-8, "{got:?}");
}

#[test]
fn first_gains_of_the_segments() {
    let expected = [
        0.491_614_346_431,
        0.690_103_511_642,
        0.491_614_346_431,
        0.617_984_500_609,
        0.690_103_511_642,
        0.297_841_854_527,
        0.617_984_500_609,
    ];
    let model = led::model(0.05).expect("the shapes fit");
    let plan = Plan::new(&model, Goal::kind(&model));
    let gains = plan.gains(&model, &weigh(&model, 0, &[]), &(0..7).collect::<Vec<_>>());
    for (got, wanted) in gains.iter().zip(expected) {
        assert!((got - wanted).abs() < 1e-11, "{gains:?}");
    }
    // Capacity of a channel that errs one time in twenty: 1 - h(.05), Shannon.
    assert!(gains.iter().all(|g| *g < 0.713_603_042_9));
}

/// Every key of a small table, by trying all: the bound of the solver must not cut the best away.
fn every_key(table: &optimal::Table, items: &[usize]) -> f64 {
    if items.len() <= 1 {
        return 0.0;
    }
    let mut best = f64::INFINITY;
    for (states, cost) in table.states.iter().zip(&table.costs) {
        let parts: Vec<Vec<usize>> = (0..3)
            .map(|s| items.iter().copied().filter(|i| states[*i] == s).collect::<Vec<_>>())
            .filter(|p| !p.is_empty())
            .collect();
        if parts.len() > 1 {
            let below: f64 = parts.iter().map(|p| every_key(table, p)).sum();
            best = best.min(cost * items.len() as f64 + below);
        }
    }
    best
}

#[test]
fn the_solver_finds_the_cheapest_of_all_keys() {
    let mut random = Random::seeded(11);
    for _ in 0..40 {
        let mut table = drawn(7, 6, &mut random);
        // A question of three states among those of two.
        table.states.push((0..7).map(|_| random.below(3)).collect());
        table.costs.push(2.0);
        let all: Vec<usize> = (0..7).collect();
        let (got, wanted) = (optimal::cost(&table), every_key(&table, &all) / 7.0);
        assert!((got - wanted).abs() < 1e-9, "{got} {wanted} {table:?}");
    }
}

/// No key may be cheaper than the cheapest; information per cost stays within one per cent of it in the mean, plain
/// information does not (limits: the project's own).
#[test]
fn keys_against_the_cheapest() {
    let mut random = Random::seeded(20_260);
    let mut mean = [0.0; 3];
    let rules = [Rule::Information, Rule::PerCost, Rule::LookAhead];
    let tables = 30;
    for _ in 0..tables {
        let table = drawn(24, 12, &mut random);
        let best = optimal::cost(&table);
        for (sum, rule) in mean.iter_mut().zip(rules) {
            let ratio = cost(&table, rule).expect("the shapes fit") / best;
            assert!(ratio > 1.0 - 1e-9, "{rule:?} {ratio}");
            *sum += ratio / f64::from(tables);
        }
    }
    println!("{mean:?}");
    assert!(mean[0] > 1.2, "{mean:?}");
    assert!(mean[1] < 1.01, "{mean:?}");
    assert!(mean[2] < 1.005, "{mean:?}");
}
