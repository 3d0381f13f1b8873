//! The room for a sale: the most to pay, the condition of the piece, the sheet for the day, and what sales do to a band. What
//! is kept on the device is its own state: two texts, read when they are needed, so that the opening is not made of them. The
//! reducer stands behind a function that comes with the tables of prices, for the same reason.

use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;

mod day;
mod house;
mod pay;
mod seen;
mod sheet_view;
pub(crate) mod typed;
mod update;
mod view;
mod worn;
mod worths;

pub use update::{Act, Field};
pub use view::{
    ConditionView, FieldView, LotView, OpenLot, PayView, SaleRow, SaleView, SeenView, SheetView, SoldView,
    TermsView, WornView,
};

pub(crate) use update::{Run, run};
pub(crate) use view::view;
pub(crate) use worn::cares;

/// What stands under the band of a finding: what condition and the results on the sheet do to it, in sentences.
pub(crate) fn besides(guide: &Guide, state: &State, facts: &Facts) -> Vec<String> {
    let mut lines = worn::lines(guide, state, facts);
    lines.extend(seen::line(guide, state, facts).filter(|_| state.money));
    lines
}

/// Which table of the room is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Desk {
    /// The most to pay.
    #[default]
    Pay,
    /// Faults and merits of the piece.
    Condition,
    /// The sheet for the day.
    Sheet,
    /// Sales that were seen.
    Seen,
}

impl Desk {
    /// In the order of their keys.
    pub const ALL: [Desk; 4] = [Desk::Pay, Desk::Condition, Desk::Sheet, Desk::Seen];

    /// On its key.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Desk::Pay => "Most to pay",
            Desk::Condition => "Condition",
            Desk::Sheet => "Sale sheet",
            Desk::Seen => "Sales seen",
        }
    }
}

/// What a user did in the room.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sale {
    /// The desk that is shown.
    pub desk: Desk,
    /// The terms as kept on the device; empty for none.
    pub house: String,
    /// The sheet as kept on the device; empty for none.
    pub sheet: String,
    /// What is being typed, by field, as it was typed.
    pub typed: Vec<(Field, String)>,
    /// The hammer price that is being tried, minor units; none for the highest bid.
    pub hammer: Option<i64>,
    /// Whether this piece fills a gap of the collection.
    pub gap: bool,
    /// Whether the invented sales are shown.
    pub invented: bool,
    /// The lot that is open.
    pub open: Option<usize>,
}

impl Sale {
    /// What belongs to the room and not to the piece.
    pub(crate) fn for_another_piece(&self) -> Sale {
        let of_piece = |f: &Field| *f == Field::Limit;
        let typed = self.typed.iter().filter(|(f, _)| !of_piece(f)).cloned().collect();
        Sale { typed, hammer: None, gap: false, ..self.clone() }
    }

    /// What stands in a field, when something was typed there.
    pub(crate) fn typed(&self, field: Field) -> Option<&str> {
        self.typed.iter().find(|(f, _)| *f == field).map(|(_, text)| text.as_str())
    }

    pub(crate) fn set_typed(&mut self, field: Field, text: Option<String>) {
        self.typed.retain(|(f, _)| *f != field);
        self.typed.extend(text.map(|t| (field, t)));
    }
}
