//! The work on a photograph: a picture comes in by rows, questions by messages, and each call does a bounded amount of
//! work. Never in here: a browser, sentences, trade knowledge, mathematics (that is `picture`'s).

mod work;

pub use work::{LONGEST, Work};
