//! Finding a piece again: words, filters, order, and the nearest own pieces to one in the hand.

mod answers;
mod card;
mod index;
mod likeness;
mod looks;
mod series;
mod sort;
mod told;
mod words;

pub use answers::{Answers, answers};
pub use card::Card;
pub use index::{Filter, Index, Query, words_of};
pub use likeness::{Alike, Like, WORTH_SHOWING, nearest};
pub use looks::Looks;
pub use series::{Series, series};
pub use sort::Sort;
pub use words::folded;
