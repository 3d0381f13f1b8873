//! Which metals are left, and their shares, in a small invented table where they can be worked out by hand.

use measure::{Caution, Density, Hefted, Magnet, Told, before_water, possible};
use pack::metals::{Colour, Doubt, Figure, Metal, Metals, Recast};
use units::Basis;

fn figure(from: u32, to: u32) -> Figure {
    Figure { from, to, basis: Basis::Invented, source: None }
}

fn metal(id: &str, common: u16, colours: [u16; 2], magnet: u32, density: (u32, u32)) -> Metal {
    Metal {
        id: id.to_string(),
        name: id.to_string(),
        common,
        colours: colours.to_vec(),
        basis: Basis::Invented,
        magnet: figure(magnet, magnet),
        rusts: magnet > 0,
        density: vec![figure(density.0, density.1)],
        shrinkage: Vec::new(),
    }
}

/// Two invented metals.
fn table() -> Metals {
    let colour = |id: &str| Colour { id: id.to_string(), name: id.to_string() };
    Metals {
        edition: String::new(),
        licence: String::new(),
        sources: Vec::new(),
        recast: Recast {
            together: 350,
            alone: 200,
            cap: 15,
            generations: vec![1000],
            by_hand: 0,
            basis: Basis::Invented,
            rapping: figure(0, 0),
        },
        fill: figure(50, 100),
        doubt: Doubt { density: 100, heft: 200, colour: 500, basis: Basis::Invented },
        held: vec![900, 60, 40],
        free: vec![10, 90, 900],
        magnet_basis: Basis::Invented,
        colours: vec![colour("grey"), colour("yellow")],
        metals: vec![
            metal("a", 800, [900, 100], 1, (7000, 7200)),
            metal("b", 200, [200, 800], 0, (8000, 8400)),
        ],
    }
}

fn share_of_a(told: Told) -> f64 {
    possible(&table(), &told)[0].share
}

#[test]
fn shares_worked_out_by_hand() {
    // 800 to 200; a magnet that does not hold: 0.8 x 0.04 to 0.2 x 0.9.
    assert!((share_of_a(Told::default()) - 0.8).abs() < 1e-12);
    let magnet = Told { magnet: Some(Magnet::None), ..Told::default() };
    assert!((share_of_a(magnet) - 0.032 / 0.212).abs() < 1e-12);
    // Yellow, which says nothing of half of them: 0.8 x (0.05 + 0.25) to 0.2 x (0.4 + 0.25).
    let yellow = Told { colour: Some(1), ..Told::default() };
    assert!((share_of_a(yellow) - 0.24 / 0.37).abs() < 1e-12);
    // 7100 +- 10: inside the first range, a tenth says nothing: 0.9 / 200 + 0.1 / 12000; the second has only that.
    let dense = Told { density: Some(Density { value: 7100, u: 10 }), ..Told::default() };
    let (a, nothing) = (0.8 * (0.9 / 200.0 + 0.1 / 12_000.0), 0.2 * 0.1 / 12_000.0);
    assert!((share_of_a(dense) - a / (a + nothing)).abs() < 1e-9);
    // A density makes a heft say nothing more.
    let heavy = Told { heft: Some(Hefted { value: 800, u: 10 }), ..dense };
    assert!((share_of_a(heavy) - share_of_a(dense)).abs() < 1e-15);
}

#[test]
fn what_is_left() {
    let left = |told: Told| possible(&table(), &told).iter().map(|p| p.left).collect::<Vec<_>>();
    let magnet = |m| left(Told { magnet: Some(m), ..Told::default() });
    assert_eq!(magnet(Magnet::Strong), [true, false]);
    assert_eq!(magnet(Magnet::None), [false, true]);
    assert_eq!(magnet(Magnet::Weak), [true, true]);
    // Twice 50 reaches from 7300 down to the first range, not up to the second; twice 360 reaches both.
    let dense = |value, u| left(Told { density: Some(Density { value, u }), ..Told::default() });
    assert_eq!(dense(7300, 50), [true, false]);
    assert_eq!(dense(7300, 360), [true, true]);
    assert_eq!(dense(7700, 50), [false, false]);
    // 0.72 and 0.84 g/cm3 are the most of solid pieces; less is always possible.
    let heavy = |value| left(Told { heft: Some(Hefted { value, u: 1 }), ..Told::default() });
    assert_eq!(heavy(800), [false, true]);
    assert_eq!(heavy(100), [true, true]);
}

#[test]
fn iron_is_dried() {
    let cautions = |magnet| {
        let table = table();
        before_water(&table, &possible(&table, &Told { magnet: Some(magnet), ..Told::default() }))
    };
    assert_eq!(cautions(Magnet::Strong), [Caution::NotOfOnePiece, Caution::DryAtOnce]);
    assert_eq!(cautions(Magnet::None), [Caution::NotOfOnePiece]);
}
