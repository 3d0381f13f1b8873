//! The engine against open data, independent libraries and exact optima: what `cargo xtask bench engine` runs. Nothing
//! in here is shipped, no other room may lean on it, and it reaches the engine through what `reason` makes public.

pub mod data;
pub mod exact;
pub mod learn;
pub mod measure;
pub mod mutations;
pub mod novelty;
pub mod page;
pub mod parts;
pub mod peers;
pub mod same;
pub mod sections;
pub mod session;
pub mod settings;
pub mod speed;
pub mod traces;
pub mod trial;
