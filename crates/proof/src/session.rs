//! One thing taken through the engine's questions, looked at after each number of questions.

use crate::data::{Character, Data, Row};
use crate::settings::{BUDGETS, THRESHOLDS};
use reason::{Answer, Goal, Model, Plan, Reach, Told, rank, weigh};
use std::collections::BTreeMap;

/// Where a session stood.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct End {
    /// Questions asked.
    pub asked: usize,
    /// P(class).
    pub p: Vec<f64>,
}

/// Where it stood at each budget and threshold and when nothing was left to ask.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ends {
    /// After so many questions.
    pub budgets: Vec<End>,
    /// When the leader first reached so much.
    pub thresholds: Vec<End>,
    /// When all was answered.
    pub all: End,
    /// The answers in the end.
    pub answers: Vec<Answer>,
}

/// What was asked after which answers, so that it is reckoned once only.
#[derive(Debug, Default)]
pub struct Ways(BTreeMap<Vec<(usize, usize)>, Stand>);

/// P(class) and the next question, if there is one.
type Stand = (Vec<f64>, Option<usize>);

/// Deeper than this a way is seldom met again.
const REMEMBERED: usize = 8;

/// The answer that a row gives to a question.
#[must_use]
pub fn answer(data: &Data, row: &Row, question: usize) -> Answer {
    let value = row[question];
    let told = match data.characters[question] {
        _ if value.is_nan() => Told::Cannot,
        Character::States(_) => Told::OneOf(vec![value as usize]),
        Character::Number(..) => Told::Measured { value, uncertainty: 0.0 },
    };
    Answer { question, told, sure: true }
}

/// Takes a row through all questions.
#[must_use]
pub fn run(model: &Model, data: &Data, row: &Row, ways: &mut Ways) -> Ends {
    run_with(model, data, row, &[], ways)
}

/// The same with a second state told beside some answers.
#[must_use]
pub fn run_with(model: &Model, data: &Data, row: &Row, more: &[Option<usize>], ways: &mut Ways) -> Ends {
    let plan = Plan::new(model, Goal::kind(model));
    let mut ends = Ends::default();
    let mut answers: Vec<Answer> = Vec::new();
    let mut way: Vec<(usize, usize)> = Vec::new();
    let plain = more.is_empty() && data.characters.iter().all(|c| matches!(c, Character::States(_)));
    loop {
        let known = ways.0.get(&way).filter(|_| plain);
        let (p, next) = match known {
            Some(known) => known.clone(),
            None => {
                let posterior = weigh(model, 0, &answers);
                let next = rank(model, &plan, &posterior, &answers, &Reach::default());
                let found = (posterior.kinds(model), next.first().map(|l| l.question));
                if plain && way.len() <= REMEMBERED {
                    ways.0.insert(way.clone(), found.clone());
                }
                found
            }
        };
        let here = End { asked: answers.len(), p };
        let top = here.p.iter().copied().fold(0.0, f64::max);
        while ends.budgets.len() < BUDGETS.len()
            && (BUDGETS[ends.budgets.len()] == here.asked || next.is_none())
        {
            ends.budgets.push(here.clone());
        }
        while ends.thresholds.len() < THRESHOLDS.len()
            && (THRESHOLDS[ends.thresholds.len()] <= top || next.is_none())
        {
            ends.thresholds.push(here.clone());
        }
        let Some(question) = next else {
            ends.all = here;
            ends.answers = answers;
            return ends;
        };
        way.push((question, if row[question].is_nan() { usize::MAX } else { row[question] as usize }));
        let mut told = answer(data, row, question);
        if let (Told::OneOf(set), Some(Some(other))) = (&mut told.told, more.get(question))
            && !set.contains(other)
        {
            set.push(*other);
        }
        answers.push(told);
    }
}
