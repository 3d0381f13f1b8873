//! What differs by make within a kind: signs of copies, years, prices, roles.

use super::Pages;
use super::figures::mostly;
use super::kind::LISTED_ROLE;
use super::page::Page;
use super::rests::NO_APPRAISAL;
use super::sheet::{Block, Row, Table, Tone};
use super::tables::{Shown, Sort};
use super::write::{begun, line, lines, pair, ranked, text, top};
use crate::words::{chance, likely, sentence};
use pack::Form;
use units::descending;

/// A sign that tells less is not listed, in bits. Basis: practice.
const TELLS: f64 = 0.02;
/// How many signs are shown at most. Basis: practice.
const MOST_SIGNS: usize = 7;

/// The signs by which a later piece of this kind differs most from a period one.
pub(super) fn copies(pages: &Pages, kind: usize) -> Vec<Block> {
    let k = &pages.core.kinds[kind];
    if k.makes[0].is_none() {
        return vec![text(
            Tone::Plain,
            "Pieces of this kind are later ones themselves: this guide knows no old ones.",
        )];
    }
    let mut heads = Vec::new();
    let mut sorts: Vec<Sort<'_>> = Vec::new();
    for (m, make) in pages.core.makes.iter().enumerate().filter(|(m, _)| k.makes[*m].is_some()) {
        heads.push(make.name.clone());
        sorts.push(pages.sort(kind, m));
    }
    if sorts.len() < 2 {
        return Vec::new();
    }
    let questions = &pages.core.questions;
    // What each make shows, the later make that lies farthest from the period one, and by how many bits.
    let farthest = |q: usize| -> Option<(Vec<Shown>, usize, f64)> {
        let mut shown = Vec::new();
        for sort in &sorts {
            shown.push(pages.shown(sort, q)?);
        }
        let apart: Vec<f64> = shown.iter().map(|s| s.apart(&shown[0])).collect();
        let most = top(&apart);
        Some((shown, most, apart[most]))
    };
    let best = ranked(questions.len(), MOST_SIGNS, &mut |q| match farthest(q) {
        Some((_, _, bits)) if questions[q].form == Form::Choice && bits >= TELLS => bits,
        _ => 0.0,
    });
    if best.is_empty() {
        return vec![text(Tone::Plain, "The tables of this guide know no look that tells its copies.")];
    }
    let mut rows = Vec::new();
    for q in best {
        let Some((shown, most, _)) = farthest(q) else { continue };
        let sign = shown[most].stands_out(&shown[0]).1;
        let mut cells = Vec::new();
        for s in &shown {
            cells.push(vec![(chance(s.shares[sign]), false)]);
        }
        let name = line(pages.to(&Page::Look(q)), &sentence(&questions[q].choices[sign].clue), "");
        rows.push(Row { name, mark: None, cells });
    }
    let says = "How often each sign is seen; the most telling first. One sign alone proves nothing.";
    let caption = "How often each sign is seen, by make".to_string();
    vec![text(Tone::Hint, says), Block::Table(Table { caption, heads, rows })]
}

/// Years of making by make, with what they rest on.
pub(super) fn years(pages: &Pages, kind: usize) -> Vec<Block> {
    let makes = &pages.core.kinds[kind].makes;
    let name = |m: usize| pages.core.makes[m].name.as_str();
    let mut periods = Vec::new();
    for (m, facts) in makes.iter().enumerate() {
        periods.extend(facts.as_ref().map(|f| (name(m).to_string(), f.period)));
    }
    let mut blocks = vec![Block::Years(periods)];
    blocks.extend(lines(makes.len(), &mut |m| {
        let facts = makes[m].as_ref()?;
        let rests = pages.rests(facts.period_basis, facts.period_source);
        Some(line(String::new(), name(m), &format!(": {}; {rests}.", mostly(facts.period))))
    }));
    blocks
}

/// The middle half of prices by make, hidden until it is asked for.
pub(super) fn worth(pages: &Pages, kind: usize, open: bool) -> Vec<Block> {
    let makes = &pages.core.kinds[kind].makes;
    let mut inside = lines(makes.len(), &mut |m| {
        let w = makes[m].as_ref()?.worth.as_ref()?;
        let says = format!(
            ": {} to {} for half of sound, typical, complete ones; money of {}; {}.",
            (w.low.minor + 50) / 100,
            w.high.in_whole_units(),
            w.year,
            pages.rests(w.basis, w.source)
        );
        Some(line(String::new(), &pages.core.makes[m].name, &says))
    });
    if inside.is_empty() {
        return vec![text(Tone::Plain, "No figures for pieces like this one in the guide.")];
    }
    inside.push(text(Tone::Small, NO_APPRAISAL));
    vec![Block::Money(inside, open)]
}

/// What pieces of each make were made as.
pub(super) fn made_as(pages: &Pages, kind: usize) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut before: Vec<(String, String)> = Vec::new();
    for (m, make) in pages.core.makes.iter().enumerate() {
        if pages.core.kinds[kind].makes[m].is_none() {
            continue;
        }
        let roles = pages.roles(&pages.sort(kind, m));
        let mut shares = Vec::new();
        for r in descending(&roles).into_iter().filter(|r| roles[*r] >= LISTED_ROLE) {
            shares.push(pair(&pages.core.roles[r].name, &likely(roles[r])));
        }
        // Said once where the makes agree.
        if shares != before {
            blocks.push(begun(Tone::Plain, &make.name, ""));
            blocks.push(Block::Shares(shares.clone()));
            before = shares;
        }
    }
    blocks
}
