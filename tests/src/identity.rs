//! Random consultations folded into one number, for comparing native with wasm bit for bit.

use consult::{Body, Guide, Msg, Screen, State, update, view};
use reason::{Random, weigh};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// What a number of random consultations comes to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Walk {
    /// Consultations.
    pub consultations: u32,
    /// Answers given in all.
    pub answers: u32,
    /// FNV-1a over every posterior's bits, every next question and every finding's words, in hexadecimal.
    pub hash: String,
}

/// Answers `n` random pieces at random: choices, either/or, unsure, measurements, undo, places, tools.
///
/// # Errors
/// A sentence when the pack cannot be read.
pub fn wander(core: &[u8], book: &[u8], n: u32, seed: u64) -> Result<Walk, String> {
    let guide = Guide::from_bytes(core, book, crate::YEAR)?;
    let mut random = Random::seeded(seed);
    let mut hash = Hash(0xcbf2_9ce4_8422_2325);
    let mut answers = 0;
    for _ in 0..n {
        let mut state = State::default();
        if random.unit() < 0.7 {
            state = update(&guide, state, Msg::Place(random.below(guide.core.places.len()))).0;
        }
        for tool in 0..guide.core.tools.len() {
            if random.unit() < 0.5 {
                state = update(&guide, state, Msg::Tool(tool)).0;
            }
        }
        for _ in 0..1 + random.below(10) {
            for msg in taps(&guide, &state, &mut random) {
                state = update(&guide, state, msg).0;
            }
            let posterior = weigh(&guide.model, state.place, &state.answers());
            posterior.p.iter().for_each(|p| hash.add(&p.to_bits().to_le_bytes()));
            hash.add(consult::fragment(&guide, &state).as_bytes());
            answers += 1;
        }
        state.screen = Screen::Finding;
        state.money = true;
        if let Body::Finding(f) = view(&guide, &state).body {
            hash.add(format!("{f:?}").as_bytes());
        }
    }
    Ok(Walk { consultations: n, answers, hash: format!("{:016x}", hash.0) })
}

/// What a user might tap now.
fn taps(guide: &Guide, state: &State, random: &mut Random) -> Vec<Msg> {
    let question = match view(guide, state).body {
        Body::Look(v) => v.question,
        Body::Place(_) => return vec![Msg::SkipPlace],
        _ => return vec![Msg::LookOn, Msg::Ask(random.below(guide.core.questions.len()))],
    };
    let choices = guide.core.questions[question].choices.len();
    let choose = |choice| Msg::Choose { question, choice };
    match random.below(12) {
        0 => vec![Msg::Cannot(question)],
        1 => vec![Msg::Undo],
        2 => vec![Msg::Either, choose(0), choose(1 + random.below(choices - 1))],
        3 => vec![choose(random.below(choices)), Msg::Unsure(question)],
        4 => vec![Msg::Type(format!("{}", 20 + random.below(180))), Msg::Enter(question)],
        _ => vec![choose(random.below(choices))],
    }
}

struct Hash(u64);

impl Hash {
    fn add(&mut self, bytes: &[u8]) {
        for b in bytes {
            self.0 = (self.0 ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

/// [`wander`] for JavaScript; an error is a string.
///
/// # Errors
/// A sentence when the pack cannot be read.
#[wasm_bindgen(js_name = wander)]
pub fn wander_js(core: &[u8], book: &[u8], n: u32, seed: u32) -> Result<JsValue, JsValue> {
    let walk = wander(core, book, n, u64::from(seed)).map_err(|e| JsValue::from_str(&e))?;
    serde_wasm_bindgen::to_value(&walk).map_err(Into::into)
}
