//! What metal is it? Two weighings, the magnet and the heft in; density and the metals that are left out.

use super::read::{Answered, STEPS, WAYS};
use super::view::{FieldView, KeysView};
use super::{Field, Measures, words};
use crate::guide::Guide;
use crate::state::State;
use crate::words::{chance, inside, likely};
use measure::{Caution, Heft, Magnet, Told, Unweighed, before_water, density, expected, possible};
use pack::metals::{Figure, Metal, Metals};
use serde::Serialize;
use units::{Mass, descending};

/// A metal below this share is not worth a line. Basis: practice.
const LISTED: f64 = 0.02;

/// What a piece is made of.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MetalView {
    /// What to be told before a piece is put in water; it stands before the fields.
    pub cautions: Vec<String>,
    /// Which second weighing.
    pub way: KeysView,
    /// How it is done.
    pub how: String,
    /// The step of the scales.
    pub step: KeysView,
    /// Weight in air, the second weight, the temperature.
    pub fields: Vec<FieldView>,
    /// The density in words.
    pub density: Option<String>,
    /// Why there is none though both were typed.
    pub fault: Option<String>,
    /// What the consultation's answers told, in words; empty when nothing.
    pub told: Vec<String>,
    /// The metals, likeliest first; empty before anything was told.
    pub left: Vec<LeftView>,
    /// All others together.
    pub others: Option<String>,
    /// Whether it weighs as a solid piece would.
    pub heft: Option<String>,
    /// What the figures rest on.
    pub basis: Vec<String>,
}

/// A metal.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LeftView {
    /// Its name.
    pub name: String,
    /// `likely, 8 in 10`.
    pub likely: String,
    /// Its density, and whether something speaks against it.
    pub density: String,
}

pub(super) fn view(guide: &Guide, state: &State, metals: &Metals) -> MetalView {
    let measures = &state.measures;
    let answered = Answered::of(guide, state);
    let told = Told { magnet: answered.magnet, heft: answered.heft(), ..Told::default() };
    let warmth = measures.warmth().transpose();
    let weighed = measures.weighed().filter(|_| warmth.is_ok());
    let found = weighed.map(|w| density(w, measures.scale(), warmth.unwrap_or_default()));
    let with = Told { density: found.and_then(Result::ok), ..told };
    let mut view = MetalView {
        cautions: cautions(metals, &told),
        way: KeysView::first_of(measures, Field::Way, "The second weighing", &WAYS),
        how: how(measures),
        step: KeysView::first_of(measures, Field::Step, "The scales show steps of", &STEPS),
        fields: fields(measures),
        density: with.density.map(|d| {
            let (value, doubt) = (words::density(d.value), words::density(d.u.saturating_add(4)));
            format!("The whole piece has {value}, give or take {doubt}.")
        }),
        fault: found.and_then(Result::err).map(|why| unweighed(why, measures).to_string()),
        told: said(&answered),
        left: Vec::new(),
        others: None,
        heft: None,
        basis: Vec::new(),
    };
    if with != Told::default() {
        list(&mut view, metals, &with, &answered);
    }
    view
}

/// What was typed does not take part: nothing moves above the fields while they are filled.
fn cautions(metals: &Metals, told: &Told) -> Vec<String> {
    let mut all = vec![
        "Never put a piece into water that has a cord, pins or wiring, a burner or a tank for fuel."
            .to_string(),
    ];
    all.extend(before_water(metals, &possible(metals, told)).into_iter().map(|caution| {
        match caution {
            Caution::NotOfOnePiece => {
                "A hollow piece, a wooden grip, a slug or a second metal misleads: what is found is the density \
                 of the whole. Wood swells in water."
            }
            Caution::DryAtOnce => "It may be iron, which rusts: dry it at once and thoroughly, or leave it.",
        }
        .to_string()
    }));
    all
}

fn how(measures: &Measures) -> String {
    let how = if measures.hangs() {
        "Hang the piece from the scales by a thin thread and weigh it; then again while it hangs wholly under \
         water and touches nothing. Brush off the bubbles."
    } else {
        "Weigh the piece. Then stand a bowl of water on the scales, set them to zero, and hold the piece by a \
         thin thread wholly under water without touching the bowl: what the scales show now is the gain. \
         Brush off the bubbles."
    };
    how.to_string()
}

fn fields(measures: &Measures) -> Vec<FieldView> {
    let second = if measures.hangs() { "Weight hanging in water, g" } else { "Gain of the scales, g" };
    let mass = |at, id: &str, label| {
        let fault = measures.mass(at).and_then(Result::err);
        FieldView::of(measures, at, id.to_string(), label, fault)
    };
    let warmth = measures.warmth().and_then(Result::err);
    vec![
        mass(Field::Air, "air", "Weight of the piece, g"),
        mass(Field::Second, "second", second),
        FieldView::of(
            measures,
            Field::Warmth,
            "warmth".to_string(),
            "Temperature of the water, \u{b0}C, if you know it",
            warmth,
        ),
    ]
}

fn unweighed(why: Unweighed, measures: &Measures) -> &'static str {
    match why {
        Unweighed::NoReading => "A weight of nothing cannot be right. Weigh it again.",
        Unweighed::Floats if measures.hangs() => {
            "These figures do not fit: in water a piece weighs less than in air, and metal weighs more than \
             nothing. Were the two exchanged?"
        }
        Unweighed::Floats => {
            "These figures do not fit: the gain is less than the weight of a piece that sinks. Were the two \
             exchanged?"
        }
        Unweighed::TooCoarse => {
            "These scales are too coarse for so small a piece: the water that it takes the place of weighs \
             hardly more than their doubt. Take finer ones."
        }
        Unweighed::Temperature => "Water here has 0 to 40 \u{b0}C.",
    }
}

fn said(answered: &Answered) -> Vec<String> {
    let magnet = answered.magnet.map(|magnet| {
        match magnet {
            Magnet::Strong => "You said: a magnet holds hard.",
            Magnet::Weak => "You said: a magnet holds faintly or on one part. That rules nothing out.",
            Magnet::None => "You said: a magnet does not hold.",
        }
        .to_string()
    });
    let heft = answered.length.zip(answered.mass);
    let heft = heft.map(|((l, _), (m, _))| format!("You said: {} long, {}.", l.in_mm(), m.in_grams()));
    magnet.into_iter().chain(heft).collect()
}

fn list(view: &mut MetalView, metals: &Metals, told: &Told, answered: &Answered) {
    let all = possible(metals, told);
    let shares: Vec<f64> = all.iter().map(|p| p.share).collect();
    let shown = |at: &usize| shares.get(*at).is_some_and(|share| *share >= LISTED);
    let order: Vec<usize> = descending(&shares).into_iter().filter(shown).collect();
    let rows = order.iter().filter_map(|at| Some((all.get(*at)?, metals.metals.get(*at)?)));
    view.left = rows
        .map(|(p, metal)| {
            let (from, to) = metal.densities();
            let against = if p.left { "" } else { "; only if it is hollow, plated or not of one metal" };
            LeftView {
                name: metal.name.clone(),
                likely: likely(p.share),
                density: format!("{}{against}", words::densities(from, to)),
            }
        })
        .collect();
    let rest: f64 = all.iter().filter(|p| p.share < LISTED).map(|p| p.share).sum();
    view.others = (order.len() < all.len()).then(|| format!("All others together: {}.", chance(rest)));
    let Some(first) = order.first().and_then(|at| metals.metals.get(*at)) else { return };
    view.heft = heft(metals, first, answered);
    view.basis = basis(metals, first, told);
}

fn heft(metals: &Metals, metal: &Metal, answered: &Answered) -> Option<String> {
    let (found, (length, _)) = (answered.heft()?, answered.length?);
    let (from, to) = expected(metals, metal, length);
    let whole = |m: Mass| Mass((m.0 + 5) / 10 * 10).in_grams();
    let says = match found.beside(metals, metal) {
        Heft::Lighter => "Yours weighs less: hollow, thin, part wood, or of a lighter metal.",
        Heft::AsExpected => "Yours weighs what a solid one would.",
        Heft::Heavier => "Yours weighs more: of a heavier metal, or of another build.",
    };
    Some(format!(
        "A solid piece of {} with a sole this long weighs {} to {} ({}). {says}",
        inside(&metal.name),
        whole(from),
        whole(to),
        metals.fill.basis.phrase()
    ))
}

fn basis(metals: &Metals, first: &Metal, told: &Told) -> Vec<String> {
    let name = inside(&first.name);
    let mut lines = vec![format!("Density of {name}:")];
    let figure = |f: &Figure| words::rests(metals, &words::densities(f.from, f.to), f);
    lines.extend(first.density.iter().map(figure));
    if told.magnet.is_some() {
        let source = format!("Whether a magnet holds on {name}");
        lines.push(words::rests(metals, &source, &first.magnet));
    }
    lines.push(format!(
        "How common each metal is on such pieces is {}; so is how often a sign misleads.",
        first.basis.phrase()
    ));
    if told.density.is_some() {
        lines.push(
            "Water by Tanaka and others, Metrologia, 2001; air of 1.2 kg/m\u{b3}, the conventional air of \
             OIML D 28. Without a temperature the water counts as 15 to 25 \u{b0}C. Give or take is one standard \
             uncertainty."
                .to_string(),
        );
    }
    lines
}
