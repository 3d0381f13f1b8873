//! The page of the cabinet as a pure reducer: [`State`] is what the page knows, [`update`] is the only way it changes, its
//! [`Effect`]s are values that the page carries out, [`view`] says what is shown, every sentence included. Never in here: a
//! browser, a store, a clock (times and ids are given), HTML.

mod again;
mod block;
mod bulk;
mod edit;
mod effect;
mod form;
mod handed;
mod into;
mod label;
mod like;
mod list;
mod msg;
mod out;
mod paper;
mod piece;
mod saving;
mod series;
mod state;
mod store;
mod update;
mod view;

pub use block::{Block, Does, Field, Key, Row, Sort as FieldSort, Take, View};
pub use effect::{Effect, Gather, SheetSort, Why};
pub use handed::{MOST_HANDED, draft, drafted};
pub use into::{Preview, preview};
pub use label::Label;
pub use like::{Own, know, own};
pub use msg::{CARD_END, Given, Msg, Spot};
pub use saving::{Saving, card, heads, key_of, saving, states};
pub use state::{Screen, State};
pub use store::{Failure, Room, Store};
pub use update::update;
pub use view::view;
