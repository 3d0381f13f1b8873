//! The pack desk: files as they come from a person's computer to faults, quality and the finished pack; a finished pack
//! of somebody else's to what it is. Never in here: a browser, a network, a store, mathematics, a reader of its own for what
//! stands in a pack (that is `compile`'s) or for its bytes (that is `pack`'s).

mod hand;
mod opened;
mod report;
mod signature;
mod starter;
mod unzip;
mod work;

pub use hand::{Handed, taken};
pub use opened::{Opened, open};
pub use signature::{Keys, Signed, Verdict, judge};
pub use starter::starter;
pub use unzip::{MOST_ENTRIES, unzip};
pub use work::{Made, Work};
