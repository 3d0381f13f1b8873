//! What a page asks.

use super::words::{MOST_WORDS, Reader, Spot, put_list, put_spots};

/// A spot that a person says belongs to the piece, or to the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Patch {
    /// Where.
    pub at: Spot,
    /// Its radius, tenths of a millimetre.
    pub radius: i32,
    /// Whether it is the piece.
    pub piece: bool,
}

/// A question about the picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// Where a card may lie.
    Propose,
    /// Where the camera was, by two taps on each edge of a card, edges in turn. `tap` is what a tap is worth, hundredths
    /// of a pixel.
    Card {
        /// The taps.
        edges: [Spot; 8],
        /// Standard uncertainty of each.
        tap: i32,
    },
    /// The same by taps on the rim of a coin.
    Coin {
        /// Its diameter, hundredths of a millimetre.
        diameter: i32,
        /// The taps.
        rim: Vec<Spot>,
        /// Standard uncertainty of each, hundredths of a pixel.
        tap: i32,
    },
    /// How far two spots on the piece are from each other.
    Length {
        /// The spots.
        ends: [Spot; 2],
        /// Least and greatest height above the card's plane, tenths of a millimetre.
        height: [i32; 2],
        /// Standard uncertainty of each tap, hundredths of a pixel.
        tap: i32,
    },
    /// The outline of what lies around these spots.
    Cut {
        /// On the piece.
        around: Vec<Spot>,
        /// Height of the outline above the card's plane, tenths of a millimetre.
        height: i32,
        /// What was said of spots where it went wrong.
        patches: Vec<Patch>,
    },
    /// How far the outline that was cut is from drawn ones.
    Compare(Vec<Vec<Spot>>),
}

impl Asked {
    /// As numbers.
    #[must_use]
    pub fn words(&self) -> Vec<i32> {
        let mut words = Vec::new();
        match self {
            Asked::Propose => words.push(1),
            Asked::Card { edges, tap } => {
                words.extend([2, *tap]);
                put_spots(&mut words, edges);
            }
            Asked::Coin { diameter, rim, tap } => {
                words.extend([3, *tap, *diameter]);
                put_list(&mut words, rim);
            }
            Asked::Length { ends, height, tap } => {
                words.extend([4, *tap, height[0], height[1]]);
                put_spots(&mut words, ends);
            }
            Asked::Cut { around, height, patches } => {
                words.extend([5, *height]);
                put_list(&mut words, around);
                words.push(patches.len() as i32);
                words.extend(patches.iter().flat_map(|p| [p.at.x, p.at.y, p.radius, i32::from(p.piece)]));
            }
            Asked::Compare(soles) => {
                words.extend([6, soles.len() as i32]);
                soles.iter().for_each(|sole| put_list(&mut words, sole));
            }
        }
        words
    }

    /// Reads numbers, trusting nothing.
    #[must_use]
    pub fn of(words: &[i32]) -> Option<Asked> {
        if words.len() > MOST_WORDS {
            return None;
        }
        let mut r = Reader(words);
        let tap = |r: &mut Reader<'_>| r.number(1, 10_000);
        let asked = match r.number(1, 6)? {
            1 => Asked::Propose,
            2 => {
                let tap = tap(&mut r)?;
                let mut edges = [Spot::default(); 8];
                for edge in &mut edges {
                    *edge = r.spot()?;
                }
                Asked::Card { edges, tap }
            }
            3 => Asked::Coin {
                tap: tap(&mut r)?,
                diameter: r.number(500, 12_000)?,
                rim: r.list(5, 16, &Reader::spot)?,
            },
            4 => Asked::Length {
                tap: tap(&mut r)?,
                height: [r.number(0, 3000)?, r.number(0, 3000)?],
                ends: [r.spot()?, r.spot()?],
            },
            5 => {
                let height = r.number(0, 3000)?;
                let around = r.list(2, 16, &Reader::spot)?;
                let patch = |r: &mut Reader<'_>| {
                    let at = r.spot()?;
                    Some(Patch { at, radius: r.number(1, 500)?, piece: r.number(0, 1)? == 1 })
                };
                Asked::Cut { around, height, patches: r.list(0, 100, &patch)? }
            }
            _ => Asked::Compare(r.list(0, 30, &|r| r.list(3, 400, &Reader::spot))?),
        };
        r.end(asked)
    }
}
