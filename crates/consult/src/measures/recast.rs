//! Is it a recast? Pairs of lengths in; what they prove, how strongly, and what that rests on out.

use super::read::{self, WITH, YES};
use super::view::{FieldView, KeyView, KeysView};
use super::{Field, MOST_PAIRS, Measures, Part, words};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use crate::words::{chance, inside, likely, strength};
use measure::{Lean, Pair, Recast, Says, Side, Why, recast};
use pack::metals::{Figure, Metal, Metals};
use serde::Serialize;

/// Whether a piece is a casting of a casting.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RecastView {
    /// What the piece was measured with.
    pub with: KeysView,
    /// The metal of the piece.
    pub metals: KeysView,
    /// The lengths.
    pub pairs: Vec<PairView>,
    /// Whether there is room for one more.
    pub more: bool,
    /// What is missing, in a sentence, before anything can be said.
    pub asks: Option<String>,
    /// What the lengths say.
    pub says: Option<SaysView>,
    /// What the shrinkage of the metal is, figure by figure with its source, and what else was assumed.
    pub basis: Vec<String>,
}

/// The same length on the piece and on a known one.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PairView {
    /// `Length 1`.
    pub title: String,
    /// On the piece.
    pub piece: FieldView,
    /// On the known one.
    pub known: FieldView,
    /// How that is known.
    pub by: KeysView,
    /// Along the draw, and at a worked face.
    pub signs: KeysView,
    /// Why the pair is passed over, or what it still needs.
    pub note: Option<String>,
    /// Index of the pair.
    pub pair: u8,
}

/// What the lengths say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaysView {
    /// `Leans towards a recast: weak.`
    pub title: String,
    /// Why, and what was found.
    pub because: Vec<String>,
    /// What it would do to the finding.
    pub finding: Option<String>,
}

pub(super) fn view(guide: &Guide, state: &State, facts: &Facts, metals: &Metals) -> RecastView {
    let measures = &state.measures;
    let chosen = measures.text(Field::Metal);
    let metal = metals.metals.iter().find(|m| m.id == chosen);
    let ready: Vec<(u8, Pair)> =
        (0..measures.pairs()).filter_map(|at| Some((at, measures.pair(at)?))).collect();
    let pairs: Vec<Pair> = ready.iter().map(|(_, pair)| *pair).collect();
    let found = metal.filter(|_| !pairs.is_empty()).map(|metal| (metal, recast(metals, metal, &pairs)));
    let passed = |at: u8| {
        let (_, found) = found.as_ref()?;
        let over = found.passed_over.iter();
        over.filter_map(|(i, why)| Some((ready.get(*i)?.0, *why))).find(|(i, _)| *i == at).map(|(_, why)| why)
    };
    let metal_keys = metals.metals.iter().map(|m| (m.id.as_str(), m.name.as_str()));
    RecastView {
        with: KeysView::of(measures, Field::With, "This piece was measured with", WITH.into_iter()),
        metals: KeysView::of(measures, Field::Metal, "It is made of", metal_keys),
        pairs: (0..measures.pairs()).map(|at| pair(measures, at, passed(at))).collect(),
        more: measures.pairs() < MOST_PAIRS,
        asks: found.is_none().then(|| asks(measures, metal)),
        says: found.as_ref().map(|(metal, found)| says(guide, facts, metals, metal, found)),
        basis: metal.map(|m| basis(metals, m)).unwrap_or_default(),
    }
}

fn pair(measures: &Measures, at: u8, why: Option<Why>) -> PairView {
    let field = |part, id: &str, label| {
        let fault = measures.length(at, part).and_then(Result::err);
        FieldView::of(measures, Field::Pair(at, part), format!("{id}-{at}"), label, fault)
    };
    let sign = |part, label: &str| KeyView::of(measures, Field::Pair(at, part), YES, label);
    let known = [("calipers", "calipers, in the hand"), ("ruler", "a ruler, a book, a catalogue"), WITH[2]];
    PairView {
        title: format!("Length {}", at + 1),
        piece: field(Part::Piece, "piece", "This piece, mm"),
        known: field(Part::Known, "known", "The known piece, mm"),
        by: KeysView::of(measures, Field::Pair(at, Part::By), "The known length is from", known.into_iter()),
        signs: KeysView {
            label: "This length".to_string(),
            keys: vec![
                sign(Part::Along, "runs straight across the seam"),
                sign(Part::Worked, "ends at a filed or worn face"),
            ],
        },
        note: note(measures, at, why),
        pair: at,
    }
}

fn note(measures: &Measures, at: u8, why: Option<Why>) -> Option<String> {
    let there = |part| measures.length(at, part).is_some_and(|l| l.is_ok());
    let said = read::with(measures.text(Field::Pair(at, Part::By))).is_some();
    let note = match (why, there(Part::Piece), there(Part::Known)) {
        (Some(why), _, _) => passed_over(why),
        (None, true, false) => "Type the same length of the known piece.",
        (None, false, true) => "Type the same length of this piece.",
        (None, true, true) if !said => "Say what the known length is from.",
        _ => return None,
    };
    Some(note.to_string())
}

fn passed_over(why: Why) -> &'static str {
    match why {
        Why::RoughPiece | Why::RoughReference => "Passed over: a ruler or a photo proves nothing here.",
        Why::Worked => "Passed over: what was filed or worn off is no shrinkage.",
        _ => "Passed over: no length.",
    }
}

/// What is missing first.
fn asks(measures: &Measures, metal: Option<&Metal>) -> String {
    let missing = match (read::with(measures.text(Field::With)), metal) {
        (None, _) => "Say what this piece was measured with.",
        (_, None) => "Choose the metal of the piece: each shrinks by another amount.",
        _ => "Type a length of this piece and the same length of a known one.",
    };
    missing.to_string()
}

fn says(guide: &Guide, facts: &Facts, metals: &Metals, metal: &Metal, found: &Recast) -> SaysView {
    let name = inside(&metal.name);
    let mut because = Vec::new();
    let title = match found.says {
        Says::ProvesNothing(why) => {
            because.push(nothing(why, metal, &name));
            "It proves nothing".to_string()
        }
        Says::OtherPattern(side) => {
            because.push(other(side, metals, &name));
            "Another size or pattern".to_string()
        }
        Says::Leans(lean) => {
            because.push(leans(lean, found.ratio));
            let word = strength(libm::log10(found.ratio));
            match lean {
                Lean::Recast => format!("Leans towards a recast: {word}"),
                Lean::Original => format!("Leans towards a casting of the old pattern: {word}"),
                Lean::Neither => format!("Leans neither way: {word}"),
            }
        }
    };
    let size = |says: &str, size| format!("{says} this piece is {}.", words::size(size));
    because.extend(found.across.as_ref().map(|s| size("In lengths not straight across the seam", s)));
    because.extend(found.along.as_ref().map(|s| size("Straight across the seam", s)));
    if found.says == Says::Leans(Lean::Recast) {
        because.push(generations(&found.generations));
    }
    let leaning = matches!(found.says, Says::Leans(_));
    SaysView { title, because, finding: leaning.then(|| finding(guide, facts, found.ratio)) }
}

fn nothing(why: Why, metal: &Metal, name: &str) -> String {
    match why {
        Why::RoughPiece | Why::RoughReference => {
            "A ruler or a photo proves nothing here: its doubt is as large as the shrinkage. Both pieces must \
             be measured with calipers."
                .to_string()
        }
        Why::Worked => "Every length ends at a filed or worn face, and what was taken off is no shrinkage. \
                        Measure between faces that are as they were cast."
            .to_string(),
        Why::NoLength | Why::NoPairs => "There is no length to compare.".to_string(),
        Why::NoShrinkage => format!("No shrinkage of {name} stands in this guide."),
        Why::TooShort => format!(
            "These lengths are too short or too few: they are less certain than half of what {name} shrinks, \
             {}. Take longer ones, or more.",
            shrinks(metal)
        ),
        Why::Disagree => "The lengths do not share one ratio: one is misread, bent or repaired. Measure each \
                          of them again."
            .to_string(),
    }
}

fn other(side: Side, metals: &Metals, name: &str) -> String {
    match side {
        Side::Larger => {
            "It is larger than castings of one pattern differ. It is not from the pattern of the \
                         known piece, and no recast of it."
                .to_string()
        }
        Side::Smaller => format!(
            "It is smaller than {name} would be after {} recasts in a row. It is not from the pattern of the \
             known piece, and no recast of it.",
            metals.recast.generations.len()
        ),
    }
}

fn leans(lean: Lean, ratio: f64) -> String {
    match lean {
        Lean::Recast => format!(
            "Such lengths are about {} as likely on a recast as on a casting of the old pattern.",
            words::times(ratio)
        ),
        Lean::Original => format!(
            "Such lengths are about {} as likely on a casting of the old pattern as on a recast. That may \
             still be a later casting: the same pattern makes the same size.",
            words::times(1.0 / ratio)
        ),
        Lean::Neither => "Such lengths are about as usual on a recast as on a casting of the old pattern. \
                          Lengths that have not shrunk do not acquit: a pattern knocked loose in the sand by \
                          hand makes the mould larger again."
            .to_string(),
    }
}

fn generations(shares: &[f64]) -> String {
    let each = shares.iter().enumerate().map(|(n, share)| match n {
        0 => format!("cast from an original, {}", chance(*share)),
        1 => format!("from a recast, {}", chance(*share)),
        2 => format!("from a recast of a recast, {}", chance(*share)),
        _ => format!("from a still later one, {}", chance(*share)),
    });
    format!("If it is a recast: {}.", each.collect::<Vec<_>>().join("; "))
}

/// What the ratio would do to the chance of a recast, and of anything later than the period, by the finding as it stands.
fn finding(guide: &Guide, facts: &Facts, ratio: f64) -> String {
    let at = guide.core.makes.iter().position(|m| m.id == "recast");
    let is = at.and_then(|at| facts.makes.get(at)).copied().filter(|p| facts.told() && *p > 0.0);
    let Some(is) = is else {
        return "It does not change the finding by itself: take it as one more clue.".to_string();
    };
    let others = 1.0 - is;
    let all = others + ratio * is;
    let period = facts.makes.first().copied().unwrap_or(0.0);
    format!(
        "It does not change the finding by itself. Taken in as one more clue, a recast would go from {} to {}; \
         anything later than the period from {} to {}.",
        likely(is),
        likely(ratio * is / all),
        likely(1.0 - period),
        likely(1.0 - period / all)
    )
}

/// `0.78 to 1.04 %`.
fn shrinks(metal: &Metal) -> String {
    let (from, to) = metal.shrinks().unwrap_or_default();
    range(from, to)
}

fn range(from: u32, to: u32) -> String {
    let (from, to) = (words::hundredths(from), words::hundredths(to));
    if from == to { format!("{from} %") } else { format!("{from} to {to} %") }
}

fn basis(metals: &Metals, metal: &Metal) -> Vec<String> {
    let name = inside(&metal.name);
    if metal.shrinkage.is_empty() {
        return vec![format!("No shrinkage of {name} stands in this guide.")];
    }
    let r = &metals.recast;
    let mut lines = vec![format!("From the mould to the cold casting {name} shrinks by {}:", shrinks(metal))];
    let figure = |f: &Figure| words::rests(metals, &range(f.from, f.to), f);
    lines.extend(metal.shrinkage.iter().map(figure));
    let loosened = format!(
        "Knocking the pattern loose makes up for {} to {} % of it",
        r.rapping.from / 10,
        r.rapping.to / 10
    );
    lines.push(words::rests(metals, &loosened, &r.rapping));
    lines.push(format!(
        "How castings of one pattern differ, and how often recasts are cast again, is {}. So no answer here is \
         stronger than {} times.",
        r.basis.phrase(),
        r.cap
    ));
    lines.push(
        "Calipers count as reading 0.1 mm and as set within 0.1 mm, common practice, no source. \
         Give or take is one standard uncertainty."
            .to_string(),
    );
    lines
}
