//! What `www/desk.js` calls, in a worker or, where none may run, on the page.

use consult::book::written;
use desk::{Made, Opened, Work};
use wasm_bindgen::prelude::wasm_bindgen;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// One piece of work on files that were handed over.
#[wasm_bindgen]
#[derive(Default)]
pub struct Desk {
    work: Work,
    made: Made,
}

#[wasm_bindgen]
impl Desk {
    /// With nothing on it.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Desk {
        Desk::default()
    }

    /// Takes a file.
    pub fn add(&mut self, name: &str, bytes: Vec<u8>) {
        self.work.add(name, bytes);
    }

    /// Does a part of the work; true when that was the last.
    pub fn step(&mut self) -> bool {
        let made = self.work.step();
        let last = made.is_some();
        self.made = made.unwrap_or_default();
        last
    }

    /// How much is done, per mille.
    pub fn done(&self) -> u32 {
        self.work.done()
    }

    /// What is to be shown, as the guide reads it.
    pub fn told(&self) -> String {
        written(&self.made.blocks)
    }

    /// What the finished pack is called; empty where there is none.
    pub fn file(&self) -> String {
        self.made.pack.as_ref().map(|p| p.0.clone()).unwrap_or_default()
    }

    /// Its bytes.
    pub fn pack(&mut self) -> Vec<u8> {
        self.made.pack.take().map(|p| p.1).unwrap_or_default()
    }
}

/// The starter as a ZIP; empty should it not stand.
#[wasm_bindgen]
#[must_use]
pub fn starter(sheets: bool) -> Vec<u8> {
    desk::starter(sheets).unwrap_or_default()
}

/// What a pack is, as lines: a word for its signature, id, name, edition, licence, digest, key, what the signature says. A
/// pack that is refused is one line: why.
#[wasm_bindgen]
#[must_use]
pub fn open(bytes: &[u8], signature: Option<String>, typed: &str, known: &str) -> String {
    match desk::open(bytes, signature.as_deref(), typed, known) {
        Err(says) => says,
        Ok(Opened { id, name, edition, licence, digest, verdict }) => {
            let word = verdict.signed.word().to_string();
            let all = [word, id, name, edition, licence, digest, verdict.key, verdict.says];
            // A line break in a stranger's text would shift all behind it.
            all.map(|part| part.replace(char::is_control, " ")).join("\n")
        }
    }
}

fn main() {}
