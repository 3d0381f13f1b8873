//! Value bands: log-normals from a middle half, mixtures, quantiles, rounding that claims no more than is known.
//! Never in here: an appraisal, float money outside a function, trade knowledge, a browser.

mod band;

pub use band::{Band, Mixture, round_down, round_up};
