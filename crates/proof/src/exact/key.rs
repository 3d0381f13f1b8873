//! Keys that the engine makes for the same tables, to be held against the cheapest.

use super::optimal::Table;
use crate::parts;
use anyhow::{Result, anyhow};
use reason::{Answer, Goal, Model, Plan, Random, Reach, Told, rank, weigh};

/// How the next question is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Most information, whatever it costs.
    Information,
    /// Most information per cost: what the engine does.
    PerCost,
    /// The engine's look-ahead on near ties.
    LookAhead,
}

/// Mean cost of the key that the engine makes.
///
/// # Errors
/// The engine's own.
pub fn cost(table: &Table, rule: Rule) -> Result<f64> {
    let n = table.items();
    let questions = table.states.iter().zip(&table.costs).map(|(states, cost)| {
        let choices = states.iter().max().map_or(1, |s| s + 1);
        let shares = |s: &usize| (0..choices).map(|c| f64::from(u8::from(c == *s))).collect();
        let mut question = parts::question(states.iter().map(shares).collect(), 0.0);
        question.seconds = if rule == Rule::Information { 1.0 } else { *cost };
        question
    });
    let parts = parts::model(n, (0..n).collect(), vec![1.0; n], questions.collect());
    let model = Model::new(parts).map_err(|e| anyhow!(e))?;
    let plan = Plan::new(&model, Goal::kind(&model));
    let mut sum = 0.0;
    descend(table, &model, &plan, rule, &mut Vec::new(), &(0..n).collect::<Vec<_>>(), &mut sum);
    Ok(sum / n as f64)
}

fn descend(
    table: &Table,
    model: &Model,
    plan: &Plan,
    rule: Rule,
    answers: &mut Vec<Answer>,
    items: &[usize],
    sum: &mut f64,
) {
    if items.len() <= 1 {
        return;
    }
    let posterior = weigh(model, 0, answers);
    let looks = rank(model, plan, &posterior, answers, &Reach::default());
    let ahead = if rule == Rule::LookAhead {
        reason::ahead(model, plan, 0, answers, &Reach::default(), &looks)
    } else {
        looks.first().copied()
    };
    let Some(look) = ahead.filter(|l| l.gain > 1e-9) else {
        return;
    };
    *sum += table.costs[look.question] * items.len() as f64;
    let states = &table.states[look.question];
    let most = items.iter().map(|i| states[*i]).max().unwrap_or(0);
    for state in 0..=most {
        let part: Vec<usize> = items.iter().copied().filter(|i| states[*i] == state).collect();
        answers.push(Answer { question: look.question, told: Told::OneOf(vec![state]), sure: true });
        descend(table, model, plan, rule, answers, &part, sum);
        answers.pop();
    }
}

/// A table of distinct items drawn at random: two states, costs 1, 2 or 4 (invented).
#[must_use]
pub fn drawn(items: usize, questions: usize, random: &mut Random) -> Table {
    let mut rows: Vec<Vec<usize>> = Vec::new();
    while rows.len() < items {
        let row: Vec<usize> = (0..questions).map(|_| random.below(2)).collect();
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    Table {
        states: (0..questions).map(|q| rows.iter().map(|r| r[q]).collect()).collect(),
        costs: (0..questions).map(|_| [1.0, 2.0, 4.0][random.below(3)]).collect(),
    }
}
