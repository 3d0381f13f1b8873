//! The reference tables: files of their own, asked for when a room that needs them is first opened.

use crate::guide::Guide;
use crate::marks::{Reader, Reads};
use crate::photo;
use crate::sale::{self, Run};
use pack::coins::Coins;
use pack::metals::Metals;
use pack::prices::{Ledger, Prices};
use std::sync::OnceLock;

/// A file of tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// What marks prove.
    Marks,
    /// Metals: shrinkage, density, magnet.
    Metals,
    /// The price index, conditions, steps of bids.
    Prices,
    /// Invented sales, for demonstration.
    Demo,
    /// Coins to measure by in a photograph.
    Coins,
}

impl Table {
    /// The name under which the page finds it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Table::Marks => "marks",
            Table::Metals => "metals",
            Table::Prices => "prices",
            Table::Demo => "demo",
            Table::Coins => "coins",
        }
    }
}

/// The tables that have come so far. Each is taken once and then left as it is.
#[derive(Debug, Default)]
pub(crate) struct Tables {
    pub(crate) reader: OnceLock<Box<dyn Reads>>,
    pub(crate) metals: OnceLock<Metals>,
    pub(crate) prices: OnceLock<Prices>,
    /// What the room for a sale does with taps; it comes with the prices.
    pub(crate) sale: OnceLock<Run>,
    pub(crate) demo: OnceLock<Ledger>,
    pub(crate) coins: OnceLock<Coins>,
    /// What the photo room does with taps; it comes with the coins.
    pub(crate) photo: OnceLock<photo::Run>,
}

impl Guide {
    /// Takes a file of tables.
    ///
    /// # Errors
    /// A sentence that says why the bytes were refused.
    pub fn learn(&self, table: Table, bytes: &[u8]) -> Result<(), String> {
        let tables = &self.tables;
        match table {
            Table::Marks => {
                let marks = pack::marks::read_marks(bytes).map_err(|f| f.0)?;
                let reader = || Reader(dating::Tables::new(marks, self.this_year));
                tables.reader.get_or_init(|| Box::new(reader()));
            }
            Table::Metals => {
                let metals = pack::metals::read_metals(bytes).map_err(|f| f.0)?;
                tables.metals.get_or_init(|| metals);
            }
            Table::Prices => {
                let prices = pack::prices::read_prices(bytes).map_err(|f| f.0)?;
                tables.prices.get_or_init(|| prices);
                tables.sale.get_or_init(|| sale::run);
            }
            Table::Demo => {
                let ledger = pack::prices::read_ledger(bytes).map_err(|f| f.0)?;
                tables.demo.get_or_init(|| ledger);
            }
            Table::Coins => {
                let coins = pack::coins::read_coins(bytes).map_err(|f| f.0)?;
                tables.coins.get_or_init(|| coins);
                tables.photo.get_or_init(|| photo::run);
            }
        }
        Ok(())
    }

    /// Whether a file of tables has come.
    #[must_use]
    pub fn knows(&self, table: Table) -> bool {
        match table {
            Table::Marks => self.tables.reader.get().is_some(),
            Table::Metals => self.tables.metals.get().is_some(),
            Table::Prices => self.tables.prices.get().is_some(),
            Table::Demo => self.tables.demo.get().is_some(),
            Table::Coins => self.tables.coins.get().is_some(),
        }
    }

    /// What reads lettering, once its tables have come.
    pub(crate) fn reader(&self) -> Option<&dyn Reads> {
        self.tables.reader.get().map(Box::as_ref)
    }
}
