//! One consultation: what was answered becomes a finding, and a pure reducer says what each tap does. Never in
//! here: a browser, a clock (this year is given), a file, a drawing; effects are values, views are plain data.
//!
//! [`Guide`] is a pack made ready. [`State`] is everything a user did, [`update`] is the only way it changes,
//! [`view`] turns it into words and numbers for a screen. [`fragment`] writes it into a link and reads it back.

mod answers;
mod bands;
pub mod book;
mod finding;
mod fragment;
mod guide;
mod handover;
mod look;
pub mod marks;
pub mod measures;
mod record;
pub mod sale;
mod state;
mod tables;
mod update;
mod view;
mod words;

pub use answers::from_text;
pub use finding::shares;
pub use fragment::{read as read_fragment, write as fragment};
pub use guide::{Aim, Guide};
pub use handover::{arrive, leave};
pub use look::{SETTLED, SPENT, TELLS};
pub use record::{Held, held, record};
pub use state::{Given, Manner, Screen, State, Theme, Typed, What};
pub use tables::Table;
pub use update::{Effect, Kept, Msg, update};
pub use view::*;
pub use words::{chance, likelihood_word, likely, strength};

pub use measure::Instrument;
pub use pack::Figure;
pub use units::{Length, LengthUnit, Mass};
