//! The next question of a very large pack, in a page: `cargo xtask bench phone` times it there. The tables are those of the
//! bench of `reason`.

#[path = "../../reason/benches/large/mod.rs"]
mod large;

use reason::{Answer, Goal, Model, Plan, Reach, rank, weigh};
use wasm_bindgen::prelude::*;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// A pack made ready, with some answers.
#[wasm_bindgen]
pub struct Large {
    model: Model,
    plan: Plan,
    answers: Vec<Answer>,
}

#[wasm_bindgen]
impl Large {
    /// A pack of so many kinds.
    #[wasm_bindgen(constructor)]
    pub fn new(kinds: usize) -> Large {
        let model = large::model(kinds);
        let plan = Plan::new(&model, Goal::kind(&model));
        Large { model, plan, answers: large::answers() }
    }

    /// Weighs the answers anew and says which question is the next: its index, or one that there is not when none is open.
    pub fn next(&self) -> usize {
        let posterior = weigh(&self.model, 0, &self.answers);
        let looks = rank(&self.model, &self.plan, &posterior, &self.answers, &Reach::default());
        looks.first().map_or(large::QUESTIONS, |look| look.question)
    }
}

fn main() {}
