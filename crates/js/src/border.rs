//! The border: values in, values out, refusals as errors with a code. Nothing here decides anything.

use crate::session::{Open, Refused, Session, Why};
use serde::Serialize;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("../package/types.d.ts");

/// A pack that is open: where everything begins.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Pack(Open);

/// A consultation about one piece.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Consultation(Session);

#[wasm_bindgen]
impl Pack {
    /// Opens a pack: the bytes of its two files, and the year it is. Throws a `PressmarkError`.
    ///
    /// # Errors
    /// With code `pack`: why the bytes were refused.
    #[wasm_bindgen(constructor)]
    pub fn new(
        core: &[u8],
        book: &[u8],
        #[wasm_bindgen(js_name = thisYear)] this_year: i32,
    ) -> Result<Pack, JsValue> {
        Open::new(core, book, this_year).map(Pack).map_err(thrown)
    }

    /// What the pack says of itself.
    ///
    /// # Errors
    /// None but for a lack of memory.
    #[wasm_bindgen(unchecked_return_type = "About")]
    pub fn about(&self) -> Result<JsValue, JsValue> {
        value(&self.0.about())
    }

    /// Takes the file with the tables of marks, so that lettering can be read.
    ///
    /// # Errors
    /// With code `tables`: why the bytes were refused.
    #[wasm_bindgen(js_name = learnMarks)]
    pub fn learn_marks(&self, bytes: &[u8]) -> Result<(), JsValue> {
        self.0.learn_marks(bytes).map_err(thrown)
    }

    /// Begins a consultation.
    #[must_use]
    pub fn begin(&self) -> Consultation {
        Consultation(self.0.begin())
    }

    /// A drawing, in the words that `draw` fields hold.
    ///
    /// # Errors
    /// With code `unknown`: what cannot be drawn.
    #[wasm_bindgen(unchecked_return_type = "Drawing")]
    pub fn drawing(&self, words: &str) -> Result<JsValue, JsValue> {
        self.0.drawing(words).map_err(thrown).and_then(|d| value(&d))
    }
}

#[wasm_bindgen]
impl Consultation {
    /// The question to ask next; `null` when no look is left that tells enough.
    ///
    /// # Errors
    /// None but for a lack of memory.
    #[wasm_bindgen(unchecked_return_type = "Question | null")]
    pub fn next(&self) -> Result<JsValue, JsValue> {
        value(&self.0.next())
    }

    /// Tells an answer: a choice's id, two with ` | ` between them, a measure such as `64 mm` or `120 g`, or `can't tell`;
    /// with ` ?` behind it when it is not sure.
    ///
    /// # Errors
    /// With code `unknown` or `answer`: what cannot be read.
    pub fn answer(&mut self, question: &str, answer: &str) -> Result<(), JsValue> {
        self.0.answer(question, answer).map_err(thrown)
    }

    /// Takes an answer back, and those that were only asked because of it.
    #[wasm_bindgen(js_name = takeBack)]
    pub fn take_back(&mut self, question: &str) {
        self.0.take_back(question);
    }

    /// The answers, each as question and answer, in the order in which they were told.
    ///
    /// # Errors
    /// None but for a lack of memory.
    #[wasm_bindgen(unchecked_return_type = "[string, string][]")]
    pub fn answers(&self) -> Result<JsValue, JsValue> {
        value(&self.0.answers())
    }

    /// Says where the piece is offered: an id of a place.
    ///
    /// # Errors
    /// With code `unknown`.
    pub fn place(&mut self, id: &str) -> Result<(), JsValue> {
        self.0.place(id).map_err(thrown)
    }

    /// Says what lettering can be read, and is told what it may say. The finding then reckons with it.
    ///
    /// # Errors
    /// With code `tables` when the tables of marks were not learned, `answer` when the text is too long.
    #[wasm_bindgen(unchecked_return_type = "Lettering")]
    pub fn marks(&mut self, text: &str) -> Result<JsValue, JsValue> {
        self.0.marks(text).map_err(thrown).and_then(|l| value(&l))
    }

    /// The finding, whatever has been told so far.
    ///
    /// # Errors
    /// With code `answer`.
    #[wasm_bindgen(unchecked_return_type = "Finding")]
    pub fn finding(&self) -> Result<JsValue, JsValue> {
        self.0.finding().map_err(thrown).and_then(|f| value(&f))
    }

    /// What stands behind `#` in a link to this piece on the page.
    #[must_use]
    pub fn link(&self) -> String {
        self.0.link()
    }
}

/// A value of the other language: plain objects, `null` for what is missing.
fn value(of: &impl Serialize) -> Result<JsValue, JsValue> {
    of.serialize(&serde_wasm_bindgen::Serializer::json_compatible())
        .map_err(|e| thrown(Refused(Why::Answer, format!("The value cannot be handed over: {e}."))))
}

/// An `Error` with a name and a code.
fn thrown(refused: Refused) -> JsValue {
    let error = js_sys::Error::new(&refused.1);
    error.set_name("PressmarkError");
    let error: &JsValue = error.unchecked_ref();
    // A fresh error takes a property; were it not to, the message would still be there.
    let _ = js_sys::Reflect::set(error, &JsValue::from_str("code"), &JsValue::from_str(refused.0.word()));
    error.clone()
}
