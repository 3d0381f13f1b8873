//! What the command line and the tests share: pieces drawn from a pack's own tables, and consultations with them.

pub mod compare;
pub mod gather;
mod kin;
pub mod quality;
pub mod schema;
pub mod simulate;
