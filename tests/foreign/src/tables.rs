//! Tables of reference as bytes: marks, metals, coins, prices, sales.

use crate::project::{YEAR, texts};
use crate::{Reader, must, sentence};
use compile::{Files, Reference, reference};
use dating::{Measured, Tables};
use pack::Fault;
use std::sync::LazyLock;

#[allow(clippy::expect_used, reason = "a test harness: without its tables no test can mean anything")]
pub(crate) static MARKS: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let mut files = texts("data/reference");
    files.retain(|(name, _)| !name.starts_with("prices/"));
    reference(&Files::new(files)).expect("sound tables of marks").bytes
});

/// The other tables of the project.
fn others() -> Vec<Vec<u8>> {
    let all = Files::new(texts("data/reference"));
    let prices = Reference::prices(&Files::new(texts("data/reference/prices")));
    let mut found: Vec<Vec<u8>> = Vec::new();
    found.extend(Reference::metals(&all).map(|made| made.bytes));
    found.extend(Reference::coins(&all).map(|made| made.bytes));
    if let Ok(prices) = prices {
        let mut pack = texts("data/packs/irons");
        pack.extend(texts("data/art").into_iter().map(|(name, text)| (format!("art/{name}"), text)));
        let sales = Files::new(texts("data/packs/demo"));
        found.extend(Reference::ledger(&sales, &Files::new(pack), &prices.made).map(|made| made.bytes));
        found.push(prices.bytes);
    }
    found
}

/// Any of them.
pub(crate) const TABLES: Reader = Reader {
    name: "tables",
    seeds: || [vec![MARKS.clone()], others()].concat(),
    words: &["PRSMARK", "\0", "\u{1}", "\u{7f}", "\0\0\0\0"],
    answered: |bytes| {
        if let Ok(marks) = pack::marks::read_marks(bytes) {
            let tables = Tables::new(marks, YEAR);
            let read = tables.read("PAT. MAY ?3 18?1; No 1134?8; MADE IN J?PAN", Measured::default());
            let together = tables.together(&read.marks);
            must(together.period.iter().all(|l| l.is_finite()), "a likelihood is not sound")?;
            return Ok(true);
        }
        let said = |outcome: Result<(), Fault>| match outcome {
            Ok(()) => Ok(true),
            Err(fault) => sentence(&fault.0).map(|()| false),
        };
        let mut read = said(pack::metals::read_metals(bytes).map(drop))?;
        read |= said(pack::coins::read_coins(bytes).map(drop))?;
        read |= said(pack::prices::read_prices(bytes).map(drop))?;
        read |= said(pack::prices::read_ledger(bytes).map(drop))?;
        Ok(read)
    },
};
