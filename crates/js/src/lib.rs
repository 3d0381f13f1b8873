//! The engine for programs in JavaScript. Everything that is decided stands in [`session`], which knows no JavaScript; the
//! border here turns values and refusals into the other language's. Never in here: a document, a network, a clock.

mod border;
pub mod session;
pub mod shown;

pub use border::{Consultation, Pack};
