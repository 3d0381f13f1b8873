//! The engine against open data, independent libraries and exact optima: what `cargo xtask bench engine` runs. Nothing
//! in here is shipped, no other room may lean on it, and it reaches the engine through what `reason` makes public.

pub mod data;
pub mod exact;
pub mod learn;
pub mod measure;
pub mod novelty;
pub mod parts;
pub mod session;
pub mod settings;
pub mod trial;
