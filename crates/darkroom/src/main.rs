//! What `www/darkroom.js` calls, in a worker or, where none may run, on the page.

use darkroom::Work;
use wasm_bindgen::prelude::wasm_bindgen;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// The one picture and the work on it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Darkroom(Work);

#[wasm_bindgen]
impl Darkroom {
    /// Without a picture.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Darkroom {
        Darkroom::default()
    }

    /// Reads what the first bytes of a file say of its lens and place.
    pub fn head(&mut self, bytes: &[u8]) {
        self.0.head(bytes);
    }

    /// Makes room for a picture of this size; false when it is none or too large.
    pub fn begin(&mut self, width: u32, height: u32) -> bool {
        self.0.begin(width as usize, height as usize)
    }

    /// Takes rows, from the top; when the last has come the picture is there and its answer is given.
    pub fn rows(&mut self, rgba: &[u8]) -> Option<Vec<i32>> {
        self.0.rows(rgba).map(|told| told.words())
    }

    /// Begins to answer a message.
    pub fn ask(&mut self, words: &[i32]) {
        self.0.ask(words);
    }

    /// Does a little, and answers when done.
    pub fn step(&mut self) -> Option<Vec<i32>> {
        self.0.step().map(|told| told.words())
    }

    /// How much is done, per mille.
    pub fn done(&self) -> u32 {
        self.0.done()
    }
}

fn main() {}
