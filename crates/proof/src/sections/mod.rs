//! What goes on the page, section by section.

mod doubt;
mod exact;
mod tables;

pub use doubt::{answers, strangers};
pub use exact::{digits, keys, traces};
pub use tables::{Measured, measured, tables};

use crate::page::Line;

/// A line with a limit: kept where `ours` is at most (or, `least`, at least) the limit.
fn line(what: String, ours: f64, peer: f64, limit: String, met: Option<bool>) -> Line {
    Line { what, ours, peer, limit, ratio: ours / peer, met }
}
