//! What is made for paper, as data: headings, sentences, facts and tables. How it looks is somebody else's care.

mod annual;
mod heirs;
mod one;
mod opinion;
mod sale;
mod schedule;
mod sheet;
mod totals;

pub use annual::annual;
pub use heirs::{Heirs, heirs};
pub use one::one;
pub use opinion::second_opinion;
pub use sale::sale_text;
pub use schedule::schedule;
pub use sheet::{Block, Sheet};
pub use totals::{Total, totals};
