//! The table of metals, as it travels: densities, shrinkage in casting, magnetism, colours, and what is assumed about
//! castings and readings. A file of its own beside a pack, with its own half letter. Shares are per mille.

use crate::check::{count, must};
use crate::codec::{Bytes, Wire, fields};
use crate::frame::{Fault, frame, unframe};
use crate::wire::Source;
use alloc::string::String;
use alloc::vec::Vec;
use units::Basis;

/// The largest table of metals that is read, in bytes.
pub const LARGEST_METALS: usize = 1 << 16;

/// All that is known of metals.
#[derive(Debug, Clone, PartialEq)]
pub struct Metals {
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// Sources that the rest refers to.
    pub sources: Vec<Source>,
    /// Assumptions about castings of one pattern and castings of castings.
    pub recast: Recast,
    /// Volume of a solid piece over the cube of its sole's length: from, to, per mille.
    pub fill: Figure,
    /// How often a sign speaks for nothing.
    pub doubt: Doubt,
    /// How a metal that a magnet holds shows itself: strongly, weakly, not at all.
    pub held: Vec<u16>,
    /// The same for one that it does not hold.
    pub free: Vec<u16>,
    /// What `held` and `free` rest on.
    pub magnet_basis: Basis,
    /// Colours of bare metal.
    pub colours: Vec<Colour>,
    /// The metals.
    pub metals: Vec<Metal>,
}

/// A figure, or a range of figures, as one source gives it. The unit is that of the field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// Least.
    pub from: u32,
    /// Greatest.
    pub to: u32,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// Castings of one pattern, and castings of castings.
#[derive(Debug, Clone, PartialEq)]
pub struct Recast {
    /// Standard deviation between castings of one pattern that all lengths have in common, in parts of 100 000.
    pub together: u32,
    /// Standard deviation that each length has for itself, in parts of 100 000.
    pub alone: u32,
    /// The most that a likelihood ratio may be, and one over the least.
    pub cap: u16,
    /// Of recasts: how many are casts of an original, casts of such casts, and so on.
    pub generations: Vec<u16>,
    /// Of recasts, how many are moulded and rapped by hand, so that rapping makes up for as much as it can.
    pub by_hand: u16,
    /// What these rest on.
    pub basis: Basis,
    /// The share of the shrinkage that rapping may make up for, across the draw of the pattern.
    pub rapping: Figure,
}

/// How often a sign speaks for nothing: of a thousand pieces, and on what that rests.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// A density (hollow, of two metals, with wood).
    pub density: u16,
    /// A mass for its length (hollow, with wood, of another build).
    pub heft: u16,
    /// A colour (plated, painted, dirty).
    pub colour: u16,
    /// What they rest on.
    pub basis: Basis,
}

/// A colour of bare metal.
#[derive(Debug, Clone, PartialEq)]
pub struct Colour {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
}

/// A metal.
#[derive(Debug, Clone, PartialEq)]
pub struct Metal {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// Of a thousand small irons, so many have a body of it.
    pub common: u16,
    /// Of a thousand of it, so many show each of the colours.
    pub colours: Vec<u16>,
    /// What these two rest on.
    pub basis: Basis,
    /// Whether a magnet holds on it, as 0 or 1.
    pub magnet: Figure,
    /// Whether it rusts when it is left wet.
    pub rusts: bool,
    /// Density in kg/m3, one for each source.
    pub density: Vec<Figure>,
    /// Linear shrinkage from mould to cold casting in parts of 100 000, one for each source; none where none is known.
    pub shrinkage: Vec<Figure>,
}

impl Metal {
    /// Least and greatest density that any source gives, kg/m3.
    #[must_use]
    pub fn densities(&self) -> (u32, u32) {
        hull(&self.density).unwrap_or((1, 1))
    }

    /// Least and greatest shrinkage that any source gives, in parts of 100 000.
    #[must_use]
    pub fn shrinks(&self) -> Option<(u32, u32)> {
        hull(&self.shrinkage)
    }

    /// Whether a magnet holds on it.
    #[must_use]
    pub fn is_magnetic(&self) -> bool {
        self.magnet.from > 0
    }
}

fn hull(figures: &[Figure]) -> Option<(u32, u32)> {
    Some((figures.iter().map(|f| f.from).min()?, figures.iter().map(|f| f.to).max()?))
}

fields! {
    Metals { edition, licence, sources, recast, fill, doubt, held, free, magnet_basis, colours, metals }
    Figure { from, to, basis, source }
    Recast { together, alone, cap, generations, by_hand, basis, rapping }
    Doubt { density, heft, colour, basis }
    Colour { id, name }
    Metal { id, name, common, colours, basis, magnet, rusts, density, shrinkage }
}

/// Bytes of the table.
///
/// # Errors
/// When it is not sound; a compiler that collects its own faults never meets this.
pub fn write_metals(metals: &Metals) -> Result<Vec<u8>, Fault> {
    check_metals(metals)?;
    let bytes = frame(b't', metals);
    // What its own reader would refuse for a text is not written.
    unframe::<Metals>(b't', &bytes, LARGEST_METALS)?;
    Ok(bytes)
}

/// Reads a table, trusting nothing.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_metals(bytes: &[u8]) -> Result<Metals, Fault> {
    let metals: Metals = unframe(b't', bytes, LARGEST_METALS)?;
    check_metals(&metals)?;
    Ok(metals)
}

/// Checks a table.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_metals(m: &Metals) -> Result<(), Fault> {
    count("sources", m.sources.len(), 0, 400)?;
    let figure = |f: &Figure, least: u32, most: u32| {
        least <= f.from
            && f.from <= f.to
            && f.to <= most
            && f.source.is_none_or(|s| usize::from(s) < m.sources.len())
    };
    let whole = |shares: &[u16]| {
        shares.iter().all(|s| *s > 0) && shares.iter().map(|s| u32::from(*s)).sum::<u32>() == 1000
    };
    let r = &m.recast;
    must((1..=5000).contains(&r.together) && r.alone <= 5000, "how castings of one pattern differ")?;
    must((2..=1000).contains(&r.cap), "the cap of a likelihood ratio")?;
    count("generations", r.generations.len(), 1, 5)?;
    must(whole(&r.generations), "the shares of the generations")?;
    must(figure(&r.rapping, 0, 1000) && r.by_hand <= 1000, "what rapping makes up for")?;
    must(figure(&m.fill, 1, 1000), "the volume for a length")?;
    must([m.doubt.density, m.doubt.heft, m.doubt.colour].iter().all(|d| (1..=900).contains(d)), "a doubt")?;
    must(m.held.len() == 3 && m.free.len() == 3 && whole(&m.held) && whole(&m.free), "what a magnet does")?;
    count("colours", m.colours.len(), 1, 12)?;
    count("metals", m.metals.len(), 1, 64)?;
    for metal in &m.metals {
        must(metal.colours.len() == m.colours.len() && whole(&metal.colours), "the colours of a metal")?;
        must(
            metal.common > 0 && figure(&metal.magnet, 0, 1) && metal.magnet.from == metal.magnet.to,
            "a metal",
        )?;
        count("densities", metal.density.len(), 1, 40)?;
        must(metal.density.iter().all(|f| figure(f, 500, 25_000)), "a density")?;
        count("figures of shrinkage", metal.shrinkage.len(), 0, 40)?;
        must(metal.shrinkage.iter().all(|f| figure(f, 10, 10_000)), "a shrinkage")?;
    }
    must(m.metals.iter().map(|metal| u32::from(metal.common)).sum::<u32>() == 1000, "how common metals are")
}
