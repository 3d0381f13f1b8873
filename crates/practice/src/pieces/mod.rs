//! Pieces drawn from a pack's own tables: for a learner as they are, for a simulation with all that can go wrong.

mod drawer;
mod handed;
mod kin;

pub use drawer::{Drawer, Form, Piece};
pub use handed::{Handed, Maker, Of};
pub use kin::{apart, cousins, lookalikes, mean_tables, twins};

use reason::Random;

/// The numbers of a piece: each has a seed of its own, so that the number of threads changes nothing.
#[must_use]
pub fn numbers(seed: u64, piece: usize) -> Random {
    // The odd constant keeps neighbouring seeds apart.
    let own = seed.wrapping_add((piece as u64).wrapping_mul(0xa076_1d64_78bd_642f));
    Random::seeded(Random::seeded(own).bits())
}
