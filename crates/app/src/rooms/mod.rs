//! The screens of the cabinet: blocks in, nodes out. No effect, no browser, no words of their own.

mod block;
mod field;
mod screen;

pub(crate) use screen::screen;

use keep::{Msg, Take};
use web_sys::FileList;
use yew::Callback;

/// What a screen is drawn with.
pub(crate) struct Frame<'a> {
    /// Where messages go.
    pub(crate) on: &'a Callback<Msg>,
    /// Where files go.
    pub(crate) files: &'a Callback<(Take, FileList)>,
    /// The address of a photograph by its digest, once it has come.
    pub(crate) photo: &'a dyn Fn(&str) -> Option<String>,
}
