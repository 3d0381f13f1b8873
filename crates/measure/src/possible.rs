//! Which metals are left, and how likely each, from density, heft, magnet and colour.

use crate::density::Density;
use crate::heft::{self, Heft, Hefted};
use crate::normal::read_of_range;
use pack::metals::{Metal, Metals};

/// What a magnet does at the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Magnet {
    /// It holds hard.
    Strong,
    /// It holds faintly.
    Weak,
    /// It does not hold.
    None,
}

/// What was told of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Told {
    /// From two weighings.
    pub density: Option<Density>,
    /// From mass and length. When a density is told it says nothing more of the metal, only whether the piece is solid.
    pub heft: Option<Hefted>,
    /// From a magnet.
    pub magnet: Option<Magnet>,
    /// Index into the colours of the table.
    pub colour: Option<usize>,
}

/// A metal of the table after all that was told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Possible {
    /// Index into the metals of the table.
    pub metal: usize,
    /// Its share, 0 to 1; all shares make one. A hollow piece or plating leaves every metal some.
    pub share: f64,
    /// Whether nothing told rules it out: the density is within twice its uncertainty of the published range, a solid
    /// piece would not be lighter than this one, and a magnet that holds hard, or not at all, would do so. A faint pull and a
    /// colour rule nothing out.
    pub left: bool,
}

/// What to be told before a piece is put in water.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// Hollow pieces, wooden grips, slugs and two metals mislead: the density is that of the whole.
    NotOfOnePiece,
    /// It may be iron: dry it at once and thoroughly, or leave it.
    DryAtOnce,
}

/// Densities that a piece of anything may have, kg/m3: as wide as the table can be.
const ANY_DENSITY: f64 = 12_000.0;
/// Heft that a piece of anything may have: from 0.02 to 1.5 g/cm3, as a logarithm (a sheet-metal toy, a tall block of lead).
const ANY_HEFT: f64 = 4.317;

/// All metals of the table in its order, weighed by what was told.
#[must_use]
pub fn possible(metals: &Metals, told: &Told) -> Vec<Possible> {
    let weights: Vec<f64> = metals.metals.iter().map(|m| weight(metals, m, told)).collect();
    let sum: f64 = weights.iter().sum();
    let one = |(metal, weight): (usize, &f64)| Possible {
        metal,
        share: weight / sum,
        left: is_left(metals, &metals.metals[metal], told),
    };
    weights.iter().enumerate().map(one).collect()
}

/// What to say before water, given what is possible.
#[must_use]
pub fn before_water(metals: &Metals, possible: &[Possible]) -> Vec<Caution> {
    let rusts = |p: &Possible| p.left && metals.metals.get(p.metal).is_some_and(|m| m.rusts);
    let mut all = vec![Caution::NotOfOnePiece];
    if possible.iter().any(rusts) {
        all.push(Caution::DryAtOnce);
    }
    all
}

fn weight(metals: &Metals, metal: &Metal, told: &Told) -> f64 {
    let thousandth = |n: u16| f64::from(n) / 1000.0;
    // What a sign says of the metal, with the share of pieces of which it says nothing.
    let doubted =
        |doubt: u16, says: f64, nothing: f64| (1.0 - thousandth(doubt)) * says + thousandth(doubt) * nothing;
    let mut weight = thousandth(metal.common);
    if let Some(d) = told.density {
        let (from, to) = metal.densities();
        let says = read_of_range(f64::from(d.value), f64::from(d.u.max(1)), f64::from(from), f64::from(to));
        weight *= doubted(metals.doubt.density, says, 1.0 / ANY_DENSITY);
    } else if let Some(h) = told.heft {
        let ((log, u), (from, to)) = (h.log(), heft::range(metals, metal));
        let says = read_of_range(log, u, libm::log(from), libm::log(to));
        weight *= doubted(metals.doubt.heft, says, 1.0 / ANY_HEFT);
    }
    if let Some(magnet) = told.magnet {
        let row = if metal.is_magnetic() { &metals.held } else { &metals.free };
        let at = match magnet {
            Magnet::Strong => 0,
            Magnet::Weak => 1,
            Magnet::None => 2,
        };
        weight *= row.get(at).map_or(1.0, |n| thousandth(*n));
    }
    if let Some(share) = told.colour.and_then(|c| metal.colours.get(c)) {
        weight *= doubted(metals.doubt.colour, thousandth(*share), 1.0 / metals.colours.len() as f64);
    }
    weight
}

fn is_left(metals: &Metals, metal: &Metal, told: &Told) -> bool {
    let (from, to) = metal.densities();
    let dense = told.density.is_none_or(|d| {
        let (value, leeway) = (i64::from(d.value), 2 * i64::from(d.u));
        i64::from(from) - leeway <= value && value <= i64::from(to) + leeway
    });
    let light = told.heft.is_none_or(|h| h.beside(metals, metal) != Heft::Heavier);
    let magnet = match told.magnet {
        Some(Magnet::Strong) => metal.is_magnetic(),
        Some(Magnet::None) => !metal.is_magnetic(),
        Some(Magnet::Weak) | None => true,
    };
    dense && light && magnet
}
