//! What the command line and the tests share: pieces drawn from a pack's own tables, and consultations with them.

mod kin;
pub mod quality;
pub mod simulate;
