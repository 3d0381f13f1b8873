//! Two cabinets into one: the union of their versions. Nothing is chosen and nothing is lost; what disagrees is listed.

mod conflict;
mod shelf;

pub use conflict::{Conflict, Kept, differences};
pub use shelf::Shelf;
