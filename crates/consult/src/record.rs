//! A finding as the record of a piece: lines and parts in the plain text that the cabinet reads, so that this room knows no
//! record and the cabinet no pack.

use crate::finding::Facts;
use crate::fragment;
use crate::guide::Guide;
use crate::sale::typed;
use crate::state::{Screen, State, What};
use crate::view::{FindingView, WorthView};
use measure::Instrument;
use pack::Form;
use units::Currency;

/// How many clues are kept with a finding.
const MOST_CLUES: usize = 6;

/// What of a piece in the hand can be held against pieces that are owned.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Held {
    /// Its answers, as a link.
    pub link: String,
    /// Tenths of a millimetre.
    pub length: Option<u32>,
    /// Tenths of a gram.
    pub weight: Option<u32>,
    /// Its lettering.
    pub lettering: String,
    /// Its outline, where one was cut out of a photograph: [`crate::photo::Photo::profile`].
    pub outline: Vec<i32>,
}

/// The piece in the hand; nothing before anything was told.
#[must_use]
pub fn held(guide: &Guide, state: &State) -> Option<Held> {
    let told = !state.given.is_empty() || state.marks.is_told();
    let mut held = Held {
        link: link(guide, state),
        lettering: state.marks.text.clone(),
        outline: state.photo.profile(),
        ..Held::default()
    };
    for given in &state.given {
        match given.what {
            What::Length(l, _) => held.length = Some(l.0),
            What::Mass(m, _) => held.weight = Some(m.0),
            _ => {}
        }
    }
    told.then_some(held)
}

/// The link of a piece, with its finding open.
fn link(guide: &Guide, state: &State) -> String {
    let State { given, marks, condition, place, place_asked, picture, .. } = state.clone();
    let piece = State {
        given,
        marks,
        condition,
        place,
        place_asked,
        picture,
        screen: Screen::Finding,
        ..State::default()
    };
    fragment::write(guide, &piece)
}

/// The record.
#[must_use]
pub fn record(guide: &Guide, state: &State) -> String {
    let facts = Facts::new(guide, state);
    let view = crate::finding::view(guide, state, &facts);
    let mut out = String::new();
    let mut line = |key: &str, value: &str| put(&mut out, key, value);
    line("title", &view.title);
    line("class", view.roles.first().map_or("", |(name, _)| name));
    line("kind", &view.title);
    line("date", &format!("{}; even chances {}", view.years.nine, view.years.half));
    line("date as edtf", &view.years.edtf);
    line("condition", &condition(guide, state));
    line(
        "cautions",
        &view.grave.iter().chain(&view.cautions).map(String::as_str).collect::<Vec<_>>().join("\n"),
    );
    line("finding", &finding(&view));
    line("answers", &link(guide, state));
    line("outline", &state.photo.profile().iter().map(i32::to_string).collect::<Vec<_>>().join(" "));
    measured(guide, state, &mut out);
    across(state, &mut out);
    for mark in state.marks.text.split([';', '\n']).map(str::trim).filter(|m| !m.is_empty()) {
        out.push_str("\n[mark]\n");
        put(&mut out, "text", mark);
    }
    if let Ok(worth) = &view.worth {
        valuation(guide, worth, &mut out);
    }
    out
}

/// A line with its value, which may have several lines itself.
fn put(out: &mut String, key: &str, value: &str) {
    if !value.trim().is_empty() {
        out.push_str(&format!("{key}: {}\n", value.trim().replace('\n', "\n| ")));
    }
}

/// What the guide says, a line each, each with a head by which it can be compared with a later one.
fn finding(view: &FindingView) -> String {
    let mut lines = vec![
        format!("What: {}, {}", view.title, view.likely),
        format!("Made as: {}", view.made_as),
        format!("Old or later: {}", view.make),
        format!("When: {}, even chances; {}, 9 in 10", view.years.half, view.years.nine),
    ];
    lines.extend(view.outside.iter().map(|says| format!("Outside: {says}")));
    lines.extend(view.second.iter().map(|s| format!("Or else: {}, {}", s.name, s.likely)));
    for clue in view.clues.iter().take(MOST_CLUES) {
        lines.push(format!("Clue, {}: {}", clue.text, clue.words));
    }
    lines.join("\n")
}

/// The conditions of the piece by their names.
fn condition(guide: &Guide, state: &State) -> String {
    let named = |id: &String| {
        let prices = guide.tables.prices.get();
        let known = prices.and_then(|p| p.conditions.iter().find(|c| c.id == *id));
        known.map_or_else(|| id.clone(), |c| c.name.clone())
    };
    state.condition.iter().map(named).collect::<Vec<_>>().join("; ")
}

/// What was measured, as it was read, with twice the standard uncertainty of its instrument.
fn measured(guide: &Guide, state: &State, out: &mut String) {
    for given in &state.given {
        let (what, tenths, unit, with, uncertainty) = match given.what {
            What::Length(l, with) => ("length", l.0, "mm", with, with.uncertainty(l.mm())),
            What::Mass(m, with) => ("weight", m.0, "g", with, with.uncertainty(m.grams())),
            _ => continue,
        };
        // A heft is a mass; any other question of a length but the first names itself.
        let asked = &guide.core.questions[given.question];
        let main = asked.form != Form::Length || guide.length_question() == Some(given.question);
        let what = if main { what.to_string() } else { asked.ask.to_lowercase() };
        let method = match with {
            Instrument::Ruler => "ruler",
            Instrument::Calipers => "calipers",
            Instrument::ByEye => "by eye",
            Instrument::Scales => "scales",
            Instrument::Photo(_) => "photograph",
        };
        let size = |tenths: i64| format!("{} {unit}", typed::shown(tenths, 1, false));
        out.push_str("\n[measurement]\n");
        put(out, "what", &what);
        put(out, "value", &size(i64::from(tenths)));
        put(out, "plus or minus", &size((uncertainty * 20.0 + 0.5) as i64));
        put(out, "method", method);
    }
}

/// The width, which answers no question, as the photograph told it.
fn across(state: &State, out: &mut String) {
    let Some(width) = state.photo.width() else { return };
    let size = |tenths: i32| format!("{} mm", typed::shown(i64::from(tenths), 1, false));
    out.push_str("\n[measurement]\n");
    put(out, "what", "width");
    put(out, "value", &size(width.length));
    put(out, "plus or minus", &size(2 * width.u));
    put(out, "method", "photograph");
}

fn valuation(guide: &Guide, worth: &WorthView, out: &mut String) {
    let Some(currency) = Currency::new(&worth.currency) else { return };
    let money = |minor: i64| typed::money(minor, currency);
    out.push_str("\n[valuation]\n");
    put(out, "low", &money(worth.quantiles[1]));
    put(out, "high", &money(worth.quantiles[3]));
    put(out, "basis", "fair market");
    put(out, "date", &guide.this_year.to_string());
    put(
        out,
        "source",
        &format!(
            "The guide \u{201c}{}\u{201d}, {}. {}",
            guide.core.head.name, guide.core.head.edition, worth.basis
        ),
    );
    put(out, "method", "Half of such pieces lie between; the condition of this one is not reckoned in");
}
