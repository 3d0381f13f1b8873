//! Shared harness of the tests that need more than one crate. Never in here: anything that is shipped.

#[cfg(not(target_arch = "wasm32"))]
pub mod cases;
mod identity;
#[cfg(not(target_arch = "wasm32"))]
pub mod packs;

pub use identity::{Walk, wander, wander_js};

/// Whether full counts are asked for (`cargo xtask test --deep`).
#[must_use]
pub fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// The seed of all simulations, unless a test states its own.
pub const SEED: u64 = 20_261_124;

/// The year in which the tests take place, so that a finding does not change with the calendar.
pub const YEAR: i16 = 2026;
