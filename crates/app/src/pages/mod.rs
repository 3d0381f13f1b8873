//! The pages of the guide: sheets in, nodes out. No effect, no browser, no words of their own beyond labels of keys.

mod block;
mod numbered;
mod picture;
mod screen;
mod table;
mod years;

pub(crate) use picture::picture;
pub(crate) use screen::screen;
pub use screen::{Contents, ContentsProps, Shown};
