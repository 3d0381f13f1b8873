//! The record and what it is made of.

mod check;
mod date;
mod in_words;
mod money;
mod number;
mod parts;
mod profile;
mod size;
mod uuid;
mod value;
mod version;
mod whole;
mod words;

pub(crate) use check::is_past;
pub use check::{Limits, OLD_AFTER, faults, is_old, lacks};
pub use date::{Date, LAST, Moment};
pub use money::{number as amount, places};
pub use number::Number;
pub(crate) use number::Rank;
pub use parts::{Deal, Event, Mark, Measurement, Opinion, Photo, Valuation};
pub use profile::{Profile, redacted};
pub use size::{Size, Unit};
pub use units::{decimal, scaled};
pub use uuid::Uuid;
pub use value::{Part, Value};
pub use version::{MOST_AFTER, Stamp, Version};
pub use whole::{PARTS, Record, Unknown};
pub use words::{Attribution, Included, Standing, Worth};

pub(crate) use in_words::{
    deal_in_words, event_in_words, mark_in_words, measured_in_words, valuation_in_words,
};
pub(crate) use parts::is_digest;
pub(crate) use uuid::hex;
pub(crate) use value::{short, tidied};
