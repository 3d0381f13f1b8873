//! The thing of known size: a card with four edges, or a coin.

use crate::Point;

/// The long and the short side of an ID-1 card, mm: ISO/IEC 7810:2019, 5.1.
pub const CARD: [f64; 2] = [85.60, 53.98];
/// Half widths of what an unused card may be, mm: 85.47 to 85.72 and 53.92 to 54.03 (ISO/IEC 7810, from memory).
pub(crate) const CARD_WITHIN: [f64; 2] = [0.125, 0.055];
/// Half width of a coin's diameter, mm: working tolerance of mints and wear, from memory.
pub(crate) const COIN_WITHIN: f64 = 0.12;

/// What was tapped round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Rim {
    Card,
    /// Its diameter, mm.
    Coin(f64),
}

impl Rim {
    /// How far outside of an edge a point of the plane lies, mm. Edges of a card go round from the one with the smallest
    /// y; `more` is what the sizes differ from nominal.
    pub(crate) fn outside(self, edge: usize, p: Point, more: [f64; 2]) -> f64 {
        match self {
            Rim::Coin(diameter) => p.norm() - 0.5 * (diameter + more[0]),
            Rim::Card => {
                let half = [0.5 * (CARD[0] + more[0]), 0.5 * (CARD[1] + more[1])];
                match edge {
                    0 => -p.y - half[1],
                    1 => p.x - half[0],
                    2 => p.y - half[1],
                    _ => -p.x - half[0],
                }
            }
        }
    }

    /// Standard uncertainties of the two sizes, mm (rectangular, GUM 4.3.7). A coin has one; the other is held.
    pub(crate) fn within(self) -> [f64; 2] {
        let root = 3.0_f64.sqrt();
        match self {
            Rim::Card => [CARD_WITHIN[0] / root, CARD_WITHIN[1] / root],
            Rim::Coin(_) => [COIN_WITHIN / root, 1.0],
        }
    }
}
