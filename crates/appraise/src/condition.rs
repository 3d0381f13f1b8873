//! What faults and merits do to a price: factors that multiply, each with its own spread, the product held in bounds.

use crate::band::MIDDLE_HALF;
use pack::prices::Prices;

/// The condition of a piece as one factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worn {
    log: f64,
    spread: f64,
    capped: bool,
}

/// Why conditions cannot be taken together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotSo {
    /// The tables have no condition of this index.
    Unknown(u16),
    /// One is named twice.
    Twice(u16),
    /// Two of which one rules out the other.
    Clash(u16, u16),
}

/// The conditions that a piece shows, as indices into those of the tables. None of them: a sound piece.
///
/// # Errors
/// The first that cannot be.
pub fn worn(prices: &Prices, held: &[u16]) -> Result<Worn, NotSo> {
    let (mut log, mut spread) = (0.0, 0.0);
    for (i, at) in held.iter().enumerate() {
        let condition = prices.conditions.get(usize::from(*at)).ok_or(NotSo::Unknown(*at))?;
        for before in held.iter().take(i) {
            if before == at {
                return Err(NotSo::Twice(*at));
            }
            if condition.without.contains(before) {
                return Err(NotSo::Clash(*before, *at));
            }
        }
        let part = |per_mille: u16| libm::log(f64::from(per_mille.max(1)) / 1000.0);
        let sd = (part(condition.high) - part(condition.low)) / MIDDLE_HALF;
        log += part(condition.mid);
        spread += sd * sd;
    }
    let bound = |per_mille: u16| libm::log(f64::from(per_mille.max(1)) / 1000.0);
    let held = log.max(bound(prices.cap.low)).min(bound(prices.cap.high));
    Ok(Worn { log: held, spread: spread.sqrt(), capped: (held - log).abs() > 1e-9 })
}

impl Worn {
    /// The factor, per mille.
    #[must_use]
    pub fn per_mille(&self) -> u32 {
        libm::round(libm::exp(self.log) * 1000.0) as u32
    }

    /// The middle half of the factor, per mille.
    #[must_use]
    pub fn half(&self) -> (u32, u32) {
        let end = |away: f64| libm::round(libm::exp(self.log + away) * 1000.0) as u32;
        (end(-self.spread * MIDDLE_HALF / 2.0), end(self.spread * MIDDLE_HALF / 2.0))
    }

    /// Whether the product was out of bounds and was brought back.
    #[must_use]
    pub fn is_capped(&self) -> bool {
        self.capped
    }

    /// Logarithm and its standard deviation.
    pub(crate) fn log(&self) -> (f64, f64) {
        (self.log, self.spread)
    }
}
