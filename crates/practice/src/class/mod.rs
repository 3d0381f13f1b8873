//! For teachers: sheets to print, own pieces as a lesson, a tally of votes.

mod own;
mod sheet;

pub use own::{Own, Round, Tally};
pub use sheet::{Key, Paper, Place, Sheet, Sheets};
