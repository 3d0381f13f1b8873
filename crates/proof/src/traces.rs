//! Sessions that another program has traced question by question: zoo, one table a class, half a thing added to each
//! count, 5 % misreading assumed, until one class has 0.95 or nothing is left to ask.

use crate::data::Data;
use crate::learn::{Lesson, Shape, forms, model};
use crate::settings;
use anyhow::{Context, Result};
use reason::{Goal, Model, Plan, Reach, rank, weigh};
use serde_json::Value;

/// What was compared.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Compared {
    /// Sessions in all.
    pub sessions: usize,
    /// Those with the same questions in the same order.
    pub same: usize,
    /// The largest difference of a gain or of a probability.
    pub off: f64,
}

/// Compares every session of a file of traces: all animals learned from, and each left out.
///
/// # Errors
/// When the text is not of the expected shape.
pub fn compare(zoo: &Data, text: &str) -> Result<Compared> {
    let traces: Value = serde_json::from_str(text)?;
    let names: Vec<&str> = words(&traces["characters"]);
    let mut all = Compared::default();
    for (key, left_out) in [("zoo_all", false), ("zoo_loo", true)] {
        for (name, trace) in traces[key].as_object().context("the traces have no sessions")? {
            let row: usize = name.split(':').next().unwrap_or("").parse()?;
            let rows = (0..zoo.rows.len()).filter(|r| !left_out || *r != row).collect();
            let lesson = Lesson { data: zoo, rows };
            let none = vec![None; zoo.characters.len()];
            let model = model(&lesson, &forms(&lesson, Shape::One), &none, 0.0, settings::ASSUMED)?;
            one(zoo, row, &model, trace, &names, &mut all);
        }
    }
    Ok(all)
}

fn words(value: &Value) -> Vec<&str> {
    value.as_array().map(|a| a.iter().filter_map(Value::as_str).collect()).unwrap_or_default()
}

fn one(zoo: &Data, row: usize, model: &Model, trace: &Value, names: &[&str], all: &mut Compared) {
    let plan = Plan::new(model, Goal::kind(model));
    let mut answers = Vec::new();
    let empty = Vec::new();
    let steps = trace["steps"].as_array().unwrap_or(&empty);
    let mut same = true;
    let mut off = |got: f64, wanted: &Value| {
        all.off = all.off.max((got - wanted.as_f64().unwrap_or(f64::INFINITY)).abs())
    };
    loop {
        let posterior = weigh(model, 0, &answers);
        let top = posterior.p.iter().copied().fold(0.0, f64::max);
        let next = rank(model, &plan, &posterior, &answers, &Reach::default()).first().copied();
        let Some(look) = next.filter(|_| top < settings::THRESHOLDS[2]) else {
            same &= steps.len() == answers.len();
            let wanted = trace["posterior"].as_array().unwrap_or(&empty);
            posterior.p.iter().zip(wanted).for_each(|(p, w)| off(*p, w));
            break;
        };
        let Some(step) = steps.get(answers.len()).filter(|s| s[0].as_str() == Some(names[look.question]))
        else {
            same = false;
            break;
        };
        off(look.gain, &step[2]);
        answers.push(crate::session::answer(zoo, &zoo.rows[row], look.question));
    }
    all.sessions += 1;
    all.same += usize::from(same);
}
