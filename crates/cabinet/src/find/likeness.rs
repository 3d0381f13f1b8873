//! The nearest own pieces to one in the hand.
//!
//! Each sort of evidence gives a share of likeness between 0 and 1 and a weight; a piece is as like as their weighted mean,
//! pulled towards nothing by a weight of [`DOUBT`], so that one agreement alone is not likeness.
//!
//! * Answers: of the questions that both answered, the share that agree, each counting by how rare the agreement is in the
//!   cabinet (Shannon's information, -log2 of the share of pieces that give this answer; a difference counts by the rarer of
//!   its two answers). Weight: a quarter for each bit compared, at most six.
//! * Length and weight: 1 where they are the same, 0 from a difference of a fifth (length) or of a half (weight) on, straight
//!   between. Weight two and one.
//! * Marks: the shared words among all words of both. Weight two, where both have any.
//! * Outline: 1 less the mean difference, in fifths of the whole. Weight two.
//!
//! The figures of this page are choices of the program, not measured (basis: practice).

use super::card::Card;
use super::looks::Looks;
use super::told::Told;
use crate::record::Uuid;
use units::{arranged, order};

/// The pull towards nothing.
const DOUBT: f64 = 2.0;
/// Under this likeness, per mille, a piece is not worth showing.
pub const WORTH_SHOWING: u16 = 500;
/// From so many questions on that both answered, all of them alike, a piece is worth showing whatever the rest says: in a small
/// cabinet no answer is rare, and yet it may be the same piece.
const ALL_ALIKE: usize = 4;

/// Pieces made ready to be held against one in the hand.
#[derive(Debug, Default)]
pub struct Alike {
    pieces: Vec<Ready>,
    told: Told,
}

#[derive(Debug)]
struct Ready {
    card: Card,
    /// All but its answers.
    looks: Looks,
    /// Its answers: questions, and places in [`Told`].
    answers: Vec<(u16, usize)>,
}

impl Alike {
    /// Adds a piece.
    pub fn push(&mut self, card: Card) {
        let mut looks = card.looks();
        let answers = self.told.add(&core::mem::take(&mut looks.answers));
        self.pieces.push(Ready { card, looks, answers });
    }

    /// The card at a place.
    #[must_use]
    pub fn card(&self, at: usize) -> &Card {
        &self.pieces[at].card
    }
}

/// An own piece that is like it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Like {
    /// Its place in the list.
    pub at: usize,
    /// Which piece.
    pub id: Uuid,
    /// How like, per mille.
    pub likeness: u16,
    /// Questions that both answered alike, and that they answered.
    pub answers: (usize, usize),
}

/// The nearest pieces, nearest first, at most `most`, none under [`WORTH_SHOWING`] unless every answer agrees. `except` is left out: the piece itself.
#[must_use]
pub fn nearest(among: &Alike, piece: &Looks, most: usize, except: Option<Uuid>) -> Vec<Like> {
    let place = |(question, choices): &'_ (u16, Vec<u16>)| among.told.find(*question, choices);
    let answers = piece.answers.iter().map(|a| (a.0, a.1.as_slice(), place(a))).collect();
    let hand = Hand { looks: piece, answers, bits: among.told.bits() };
    let mut all: Vec<Like> = Vec::new();
    for (at, ready) in among.pieces.iter().enumerate() {
        let id = ready.card.id;
        if Some(id) == except {
            continue;
        }
        let (likeness, answers) = likeness(&hand, &among.told, ready);
        let (same, both) = answers;
        if likeness >= WORTH_SHOWING || (same == both && both >= ALL_ALIKE) {
            all.push(Like { at, id, likeness, answers });
        }
    }
    let by = order(all.len(), &|a, b| all[b].likeness.cmp(&all[a].likeness));
    arranged(all, &by[..by.len().min(most)])
}

/// What an answer tells that no own piece gives.
const NEW: f64 = 6.0;

/// The piece in the hand, made ready.
struct Hand<'a> {
    looks: &'a Looks,
    /// Questions, the choices, and the place of the answer where some own piece gives it.
    answers: Vec<(u16, &'a [u16], Option<usize>)>,
    bits: Vec<f64>,
}

fn likeness(hand: &Hand, told_of: &Told, ready: &Ready) -> (u16, (usize, usize)) {
    let (a, b) = (hand.looks, &ready.looks);
    let (mut sum, mut weights) = (0.0, DOUBT);
    let mut add = |share: f64, weight: f64| {
        sum += share * weight;
        weights += weight;
    };
    let (mut agree, mut compared, mut same, mut both) = (0.0, 0.0, 0, 0);
    let mut theirs = ready.answers.iter().peekable();
    for (question, choices, place) in &hand.answers {
        while theirs.next_if(|(q, _)| q < question).is_some() {}
        let Some((_, other)) = theirs.next_if(|(q, _)| q == question) else { continue };
        both += 1;
        let (own, other_bits) = (place.map_or(NEW, |p| hand.bits[p]), hand.bits[*other]);
        if *place == Some(*other) {
            same += 1;
            agree += own;
            compared += own;
            continue;
        }
        let there = told_of.choices(*other);
        let shared = choices.iter().filter(|c| there.contains(c)).count() as f64;
        let told = own.max(other_bits);
        agree += told * shared / choices.len().max(there.len()).max(1) as f64;
        compared += told;
    }
    if compared > 0.0 {
        add(agree / compared, (compared / 4.0).min(6.0));
    }
    if let Some((x, y)) = a.length.zip(b.length) {
        add(near(x, y, 5.0), 2.0);
    }
    if let Some((x, y)) = a.weight.zip(b.weight) {
        add(near(x, y, 2.0), 1.0);
    }
    if !a.marks.is_empty() && !b.marks.is_empty() {
        let shared = a.marks.iter().filter(|w| b.marks.binary_search(w).is_ok()).count() as f64;
        add(shared / (a.marks.len() + b.marks.len()) as f64 * 2.0, 2.0);
    }
    if !a.outline.is_empty() && a.outline.len() == b.outline.len() {
        let differ = |(x, y): (&i32, &i32)| f64::from((x.saturating_sub(*y)).unsigned_abs());
        let mean = a.outline.iter().zip(&b.outline).map(differ).sum::<f64>() / a.outline.len() as f64;
        add((1.0 - mean / 200.0).max(0.0), 2.0);
    }
    ((sum / weights * 1000.0) as u16, (same, both))
}

/// 1 for the same, 0 where the difference is 1/`times` of the greater one or more.
fn near(a: u32, b: u32, times: f64) -> f64 {
    let (least, most) = (f64::from(a.min(b)), f64::from(a.max(b)));
    (1.0 - (most - least) / most * times).max(0.0)
}
