//! Figures of many examinations.

use super::examine::Examined;
use consult::Guide;
use practice::twins;
use std::collections::BTreeMap;

/// A finding shown at this share or above is counted among the sure ones.
const SHOWN: f64 = 0.90;
/// A role with this share of a piece's own table is a right one to name, per mille. Basis: practice.
const FAIR: u16 = 250;

/// How often it came out right. Shares from 0 to 1.
#[derive(Debug, Clone, Copy)]
pub struct Figures {
    /// Pieces.
    pub pieces: usize,
    /// The right kind, or one that the pack declares not to be told from it, came first.
    pub first: f64,
    /// It came among the first three.
    pub three: f64,
    /// The first role is one that the piece's own table gives at least a quarter: such pieces were made as it. A small
    /// iron can be toy, working iron and sample at once, and no look parts what one kind was made as.
    pub role: f64,
    /// The first role is the first of that table.
    pub role_first: f64,
    /// The first role is what the piece was made as, drawn from that table.
    pub role_drawn: f64,
    /// A period piece or not is right.
    pub period: f64,
    /// Share of findings whose kind is shown at 90 in 100 or more, and how many of these are right.
    pub sure_kind: (f64, f64),
    /// The same of the role.
    pub sure_role: (f64, f64),
    /// The same, against the role drawn.
    pub sure_role_drawn: (f64, f64),
    /// Mean number of answers until settled or spent.
    pub until: f64,
    /// Share of settled ones.
    pub settled: f64,
    /// Mean number of looks to the end.
    pub looks: f64,
}

/// The figures of these pieces.
#[must_use]
pub fn figures(guide: &Guide, pieces: &[Examined]) -> Figures {
    let share =
        |f: &dyn Fn(&Examined) -> bool| pieces.iter().filter(|p| f(p)).count() as f64 / pieces.len() as f64;
    let among = |of: &dyn Fn(&Examined) -> bool, f: &dyn Fn(&Examined) -> bool| {
        let all = share(of);
        (all, if all > 0.0 { share(&|p| of(p) && f(p)) / all } else { 1.0 })
    };
    let mean =
        |f: &dyn Fn(&Examined) -> usize| pieces.iter().map(f).sum::<usize>() as f64 / pieces.len() as f64;
    let first = |p: &Examined| right(guide, p, 0);
    let role = |p: &Examined| role_right(guide, p);
    let role_first =
        |p: &Examined| own_roles(guide, p).iter().max() == own_roles(guide, p).get(p.shown.role.0);
    let drawn = |p: &Examined| p.role == p.shown.role.0;
    let kind_shown = |p: &Examined| p.shown.kinds.first().is_some_and(|k| k.1 >= SHOWN);
    let role_shown = |p: &Examined| p.shown.role.1 >= SHOWN;
    Figures {
        pieces: pieces.len(),
        first: share(&first),
        three: share(&|p| (0..3).any(|at| right(guide, p, at))),
        role: share(&role),
        role_first: share(&role_first),
        role_drawn: share(&drawn),
        period: share(&|p| (p.shown.period >= 0.5) == (guide.core.candidates[p.candidate].make == 0)),
        sure_kind: among(&kind_shown, &first),
        sure_role: among(&role_shown, &role),
        sure_role_drawn: among(&role_shown, &drawn),
        until: mean(&|p| p.until),
        settled: share(&|p| p.settled),
        looks: mean(&|p| p.looks),
    }
}

/// Whether the kind at this place of the finding is the piece's own, or one declared not to be told from it.
fn right(guide: &Guide, piece: &Examined, at: usize) -> bool {
    let own = kind_of(guide, piece);
    piece.shown.kinds.get(at).is_some_and(|(k, _)| *k == own || twins(guide, own, *k))
}

/// Whether pieces such as this were, one in four or more, made as what is shown first.
fn role_right(guide: &Guide, piece: &Examined) -> bool {
    own_roles(guide, piece).get(piece.shown.role.0).is_some_and(|share| *share >= FAIR)
}

/// The piece's own table of roles, per mille.
fn own_roles<'a>(guide: &'a Guide, piece: &Examined) -> &'a [u16] {
    &guide.core.role_rows[usize::from(guide.core.candidates[piece.candidate].roles)].shares
}

fn kind_of(guide: &Guide, piece: &Examined) -> usize {
    usize::from(guide.core.candidates[piece.candidate].kind)
}

/// What becomes of the pieces of a kind.
#[derive(Debug, Clone)]
pub struct Mistaken {
    /// The kind.
    pub kind: usize,
    /// Its pieces.
    pub pieces: usize,
    /// Share for which it, or its declared twin, came first.
    pub first: f64,
    /// Share for which the first role was right.
    pub role: f64,
    /// Kinds that came first in its place, with the share of its pieces, most often first; three at most.
    pub instead: Vec<(usize, f64)>,
    /// Roles shown first that were not right, in the same way.
    pub roles_instead: Vec<(usize, f64)>,
}

/// By kind, worst first.
#[must_use]
pub fn mistaken(guide: &Guide, pieces: &[Examined]) -> Vec<Mistaken> {
    let one = |kind: usize| {
        let own: Vec<&Examined> = pieces.iter().filter(|p| kind_of(guide, p) == kind).collect();
        let wrong = || own.iter().filter(|p| !right(guide, p, 0));
        let wrong_role = || own.iter().filter(|p| !role_right(guide, p));
        let n = own.len();
        let share = |wrong: usize| 1.0 - wrong as f64 / n as f64;
        (n > 0).then(|| Mistaken {
            kind,
            pieces: n,
            first: share(wrong().count()),
            role: share(wrong_role().count()),
            instead: most(wrong().filter_map(|p| p.shown.kinds.first()).map(|k| k.0), n),
            roles_instead: most(wrong_role().map(|p| p.shown.role.0), n),
        })
    };
    let mut list: Vec<Mistaken> = (0..guide.core.kinds.len()).filter_map(one).collect();
    list.sort_by(|a, b| a.first.total_cmp(&b.first));
    list
}

/// What occurs most often, with its share of `all`; three at most.
fn most(found: impl Iterator<Item = usize>, all: usize) -> Vec<(usize, f64)> {
    let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
    found.for_each(|f| *counts.entry(f).or_default() += 1);
    let mut list: Vec<(usize, f64)> = counts.into_iter().map(|(f, n)| (f, n as f64 / all as f64)).collect();
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    list.truncate(3);
    list
}
