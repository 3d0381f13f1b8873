//! Learning to see: pieces drawn from a pack's own tables, tasks about them, and when to ask again. Never in here: a
//! browser, a clock (days are given), a file, trade knowledge; no grade but the one that follows from an answer.
//!
//! A [`Maker`] hands out pieces, a [`Sight`] tells what can be seen of them.

mod pieces;
mod sight;
mod words;

pub use pieces::{
    Drawer, Form, Handed, Maker, Of, Piece, apart, cousins, lookalikes, mean_tables, numbers, twins,
};
pub use sight::{Sight, View, Views};
