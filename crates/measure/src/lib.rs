//! Measurement uncertainty by the GUM (JCGM 100:2008). Units in, units out. Never in here: trade knowledge, a browser.

mod instrument;

pub use instrument::{Instrument, combined, of_half_width, of_step};
