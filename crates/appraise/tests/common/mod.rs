//! What the tests share: the project's own tables of prices, and plain files read from its folders.

use appraise::{Comparable, Market, Of, Pool};
use compile::{Files, Reference};
use pack::Worth;
use pack::prices::{Date, Prices, Sort};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use units::{Basis, Currency, Money, Year};

/// The year in which the tests take place.
pub(crate) const YEAR: Year = 2026;

/// A path of the project, from its root.
pub(crate) fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

/// The plain files of a folder and of some folders in it, named as from there.
pub(crate) fn texts(folder: &str, inside: &[&str]) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for inside in inside {
        for entry in fs::read_dir(at(folder).join(inside)).expect("the folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if path.is_file() && (name.ends_with(".toml") || name.ends_with(".csv")) {
                let text = fs::read_to_string(&path).expect("a text");
                all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
            }
        }
    }
    all
}

/// The files of `data/reference/prices`.
pub(crate) fn folder() -> Vec<(String, String)> {
    texts("data/reference/prices", &[""])
}

/// The files of the bundled pack.
pub(crate) fn irons() -> Files {
    Files::new(texts("data/packs/irons", &["", "kinds", "questions"]))
}

/// All faults in lines.
pub(crate) fn lines(faults: &[compile::Fault]) -> String {
    faults.iter().map(|f| format!("{f}\n")).collect()
}

/// The tables of the project, by way of their bytes.
pub(crate) fn prices() -> Prices {
    let made = Reference::prices(&Files::new(folder())).map_err(|f| lines(&f)).expect("sound tables");
    pack::prices::read_prices(&made.bytes).expect("bytes that can be read")
}

/// The same, read once: a property would compile the folder anew for every case.
pub(crate) fn tables() -> &'static Prices {
    static TABLES: OnceLock<Prices> = OnceLock::new();
    TABLES.get_or_init(prices)
}

pub(crate) fn currency(code: &str) -> Currency {
    Currency::new(code).expect("a code")
}

pub(crate) fn usd(minor: i64) -> Money {
    Money { minor, currency: currency("USD") }
}

/// A band in dollars.
pub(crate) fn worth(low: i64, high: i64, year: Year) -> Worth {
    Worth { low: usd(low), high: usd(high), year, basis: Basis::Memory, source: None }
}

pub(crate) const KIND: Of = Of { kind: 3, make: 0, family: 1 };

/// A sound piece of [`KIND`] sold at this price, in dollars, with nothing on top.
pub(crate) fn sale(year: Year, minor: i64) -> Comparable {
    Comparable {
        date: Date { year, month: 0, day: 0 },
        price: usd(minor),
        premium: None,
        sort: Sort::Sold,
        of: KIND,
        condition: Vec::new(),
        likeness: 1000,
        basis: Basis::Memory,
    }
}

/// Public sales in dollars.
pub(crate) fn market(prices: &Prices) -> Market<'_> {
    Market { prices, this_year: YEAR, currency: currency("USD"), pool: Pool::Sold }
}

/// Numbers that are always the same (splitmix64).
pub(crate) struct Random(pub u64);

impl Random {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Between nothing and one.
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Standard normal.
    pub(crate) fn normal(&mut self) -> f64 {
        let (a, b) = (1.0 - self.share(), self.share());
        (-2.0 * libm::log(a)).sqrt() * libm::cos(2.0 * core::f64::consts::PI * b)
    }
}
