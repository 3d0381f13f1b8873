//! The table of coins that may lie beside a piece in a photograph, as it travels: a file of its own, with its own half
//! letter.

use crate::check::{count, must};
use crate::codec::{Bytes, Wire, fields};
use crate::frame::{Fault, frame, unframe};
use crate::wire::Source;
use alloc::string::String;
use alloc::vec::Vec;
use units::Basis;

/// The largest table of coins that is read, in bytes.
pub const LARGEST_COINS: usize = 1 << 14;

/// Coins with a round rim.
#[derive(Debug, Clone, PartialEq)]
pub struct Coins {
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// Sources that the rest refers to.
    pub sources: Vec<Source>,
    /// The coins.
    pub coins: Vec<Coin>,
}

/// A coin.
#[derive(Debug, Clone, PartialEq)]
pub struct Coin {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// Diameter, hundredths of a millimetre.
    pub diameter: u16,
    /// What that rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

fields! {
    Coins { edition, licence, sources, coins }
    Coin { id, name, diameter, basis, source }
}

/// Bytes of a table.
///
/// # Errors
/// When it is not sound; a compiler that collects its own faults never meets this.
pub fn write_coins(coins: &Coins) -> Result<Vec<u8>, Fault> {
    check_coins(coins)?;
    let bytes = frame(b'k', coins);
    // What its own reader would refuse for a text is not written.
    unframe::<Coins>(b'k', &bytes, LARGEST_COINS)?;
    Ok(bytes)
}

/// Reads a table, trusting nothing.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_coins(bytes: &[u8]) -> Result<Coins, Fault> {
    let coins: Coins = unframe(b'k', bytes, LARGEST_COINS)?;
    check_coins(&coins)?;
    Ok(coins)
}

fn check_coins(c: &Coins) -> Result<(), Fault> {
    count("sources", c.sources.len(), 0, 100)?;
    count("coins", c.coins.len(), 1, 60)?;
    for coin in &c.coins {
        must((1000..=6000).contains(&coin.diameter), "the diameter of a coin")?;
        must(coin.source.is_none_or(|s| usize::from(s) < c.sources.len()), "the source of a coin")?;
    }
    Ok(())
}
