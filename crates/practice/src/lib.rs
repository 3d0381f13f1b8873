//! Learning to see: pieces drawn from a pack's own tables, tasks about them, and when to ask again. Never in here: a
//! browser, a clock (days are given), a file, trade knowledge; no grade but the one that follows from an answer.
//!
//! A [`Maker`] hands out pieces, a [`Sight`] tells what can be seen of them, a [`Trainer`] makes tasks about them and grades
//! the answers, a [`Progress`] keeps what was learned and says when to ask again.

mod class;
mod item;
mod lesson;
mod mixed;
mod pieces;
mod plan;
mod progress;
pub mod room;
mod sight;
mod talk;
mod task;
mod trial;
mod words;

pub use class::{Key, Own, Paper, Place, Round, Sheet, Sheets, Tally};
pub use item::Item;
pub use lesson::{Done, Now, Stand, Walk};
pub use mixed::{Matrix, Mixed};
pub use progress::{Card, DAYS, Day, Progress, Trial};
pub use talk::Turn;
pub use task::{Beside, Feedback, Offer, Sort, Task, Trainer};
pub use trial::{MEANT, Search, TOLERANCE, TWELVE};

pub use pieces::{
    Drawer, Form, Handed, Maker, Of, Piece, apart, cousins, lookalikes, mean_tables, numbers, twins,
};
pub use sight::{Sight, View, Views};
