//! Learning to see: pieces drawn from a pack's own tables, tasks about them, and when to ask again. Never in here: a
//! browser, a clock (days are given), a file, trade knowledge; no grade but the one that follows from an answer.
//!
//! A [`Maker`] hands out pieces, a [`Sight`] tells what can be seen of them, a [`Trainer`] makes tasks about them and grades
//! the answers, a [`Progress`] keeps what was learned and says when to ask again.

mod item;
mod pieces;
mod progress;
mod sight;
mod task;
mod words;

pub use item::Item;
pub use progress::{Card, DAYS, Day, Progress, Trial};
pub use task::{Beside, Feedback, Offer, Sort, Task, Trainer};

pub use pieces::{
    Drawer, Form, Handed, Maker, Of, Piece, apart, cousins, lookalikes, mean_tables, numbers, twins,
};
pub use sight::{Sight, View, Views};
