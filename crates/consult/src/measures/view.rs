//! The measuring room as plain data.

use super::{Field, Measures, MetalView, RecastView, metal, recast};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use serde::Serialize;
use units::Misread;

/// The measuring room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MeasuresView {
    /// Is it a recast? None while the table of metals is on its way.
    pub recast: Option<RecastView>,
    /// What metal is it?
    pub metal: Option<MetalView>,
}

/// A field for a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FieldView {
    /// What it fills.
    pub at: Field,
    /// Its name on the page.
    pub id: String,
    /// What belongs into it, with the unit.
    pub label: String,
    /// As typed.
    pub text: String,
    /// Why that could not be read.
    pub fault: Option<String>,
}

/// Keys of which one or none is pressed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KeysView {
    /// What they say together.
    pub label: String,
    /// The keys.
    pub keys: Vec<KeyView>,
}

/// A key.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KeyView {
    /// What it fills.
    pub at: Field,
    /// On the key.
    pub label: String,
    /// Whether it is pressed.
    pub set: bool,
    /// What it puts there; nothing when it is let go by this tap.
    #[serde(skip)]
    pub put: String,
}

impl FieldView {
    pub(super) fn of(
        measures: &Measures,
        at: Field,
        id: String,
        label: &str,
        fault: Option<Misread>,
    ) -> FieldView {
        let text = measures.text(at).to_string();
        FieldView { at, id, label: label.to_string(), text, fault: fault.map(|f| f.0) }
    }
}

impl KeyView {
    pub(super) fn of(measures: &Measures, at: Field, word: &str, label: &str) -> KeyView {
        let set = measures.text(at) == word;
        let put = if set { String::new() } else { word.to_string() };
        KeyView { at, label: label.to_string(), set, put }
    }
}

impl KeysView {
    pub(super) fn of<'a>(
        measures: &Measures,
        at: Field,
        label: &str,
        keys: impl Iterator<Item = (&'a str, &'a str)>,
    ) -> KeysView {
        let keys = keys.map(|(word, label)| KeyView::of(measures, at, word, label)).collect();
        KeysView { label: label.to_string(), keys }
    }

    /// The same where the first counts as pressed until another is.
    pub(super) fn first_of(measures: &Measures, at: Field, label: &str, keys: &[(&str, &str)]) -> KeysView {
        let mut view = KeysView::of(measures, at, label, keys.iter().copied());
        if !view.keys.iter().any(|key| key.set)
            && let Some(first) = view.keys.first_mut()
        {
            first.set = true;
        }
        view
    }
}

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> MeasuresView {
    let metals = guide.tables.metals.get();
    MeasuresView {
        recast: metals.map(|m| recast::view(guide, state, facts, m)),
        metal: metals.map(|m| metal::view(guide, state, m)),
    }
}
