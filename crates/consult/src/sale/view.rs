//! What the room shows, as plain data. With the money hidden there is no amount in it.

use super::update::Field;
use super::{Desk, pay, seen, sheet_view, worn};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use serde::Serialize;

/// What stands on every desk that shows money.
const NO_APPRAISAL: &str = "Price evidence, not an appraisal: insurance and tax need a qualified one.";

/// The room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaleView {
    /// The tables are not there yet.
    pub coming: bool,
    /// Whether money is shown.
    pub money: bool,
    /// Label of each desk, and whether it is the one.
    pub desks: Vec<(&'static str, bool)>,
    /// The most to pay.
    pub pay: Option<PayView>,
    /// Condition.
    pub worn: Option<WornView>,
    /// The sheet.
    pub sheet: Option<SheetView>,
    /// Sales that were seen.
    pub seen: Option<SoldView>,
    /// That it is no appraisal.
    pub care: String,
}

/// A field to type into.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FieldView {
    /// Which.
    #[serde(skip)]
    pub field: Field,
    /// On it, with its unit.
    pub label: String,
    /// What stands in it.
    pub text: String,
    /// Why that cannot be used.
    pub fault: Option<String>,
}

impl FieldView {
    /// Whether words are typed here rather than figures.
    #[must_use]
    pub fn words(&self) -> bool {
        matches!(self.field, Field::Label | Field::Currency | Field::Date)
    }
}

/// The terms of the room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TermsView {
    /// Premium, tax, carriage, currency.
    pub fields: Vec<FieldView>,
    /// What the tax is on: label, chosen.
    pub tax_on: Vec<(String, bool)>,
    /// What is kept back: label, chosen.
    pub margins: Vec<(String, bool)>,
}

/// The most to pay.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PayView {
    /// The limit as typed.
    pub limit: FieldView,
    /// The terms.
    pub terms: TermsView,
    /// The piece fills a gap.
    pub gap: bool,
    /// How the suggested limit comes about, the limit itself last; empty where there is none.
    pub suggested: Vec<(String, String)>,
    /// What it rests on, or why there is none.
    pub suggested_rests: String,
    /// The highest bid, or that there is none; nothing without a limit.
    pub highest: Option<String>,
    /// The same in minor units.
    pub highest_minor: Option<i64>,
    /// The hammer price that stands.
    pub hammer: Option<String>,
    /// The same in minor units.
    pub hammer_minor: Option<i64>,
    /// What it costs in all, minor units.
    pub total_minor: Option<i64>,
    /// The limit, minor units.
    pub limit_minor: Option<i64>,
    /// What it costs, line by line.
    pub cost: Vec<(String, String)>,
    /// By how much it is over the limit.
    pub over: Option<String>,
    /// How the highest bid comes about.
    pub arithmetic: Option<String>,
    /// What the figures mean and rest on.
    pub about: Vec<String>,
}

/// Condition.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WornView {
    /// Part of the piece, and its conditions.
    pub parts: Vec<(String, Vec<ConditionView>)>,
    /// What those chosen come to.
    pub together: Vec<String>,
}

/// A fault or a merit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConditionView {
    /// Index of the condition.
    pub condition: usize,
    /// Its name.
    pub name: String,
    /// What it is and why it counts.
    pub says: String,
    /// What to draw, in the words of the sketches; empty for nothing.
    pub draw: String,
    /// What it does to the band.
    pub effect: String,
    /// What that rests on.
    pub basis: String,
    /// Chosen.
    pub on: bool,
    /// What it would take the place of.
    pub instead: Option<String>,
}

/// The sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetView {
    /// Budget and day.
    pub fields: Vec<FieldView>,
    /// Label and limit of a new lot.
    pub new: Vec<FieldView>,
    /// The longest label, in characters.
    pub longest: usize,
    /// What is left of the budget.
    pub left: Option<String>,
    /// The same in minor units.
    pub left_minor: Option<i64>,
    /// Said when sheet and terms are in different currencies.
    pub currencies: Option<String>,
    /// The lots.
    pub lots: Vec<LotView>,
    /// What the figures mean and rest on.
    pub about: Vec<String>,
}

/// A lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LotView {
    /// Index of the lot.
    pub lot: usize,
    /// Its label.
    pub label: String,
    /// The fragment of its finding; empty for none.
    pub link: String,
    /// What to bid, or what came of it.
    pub says: String,
    /// Its limit.
    pub limit: String,
    /// It has come up.
    pub over: bool,
    /// The highest bid, minor units.
    pub bid_minor: Option<i64>,
    /// When it is open.
    pub open: Option<OpenLot>,
}

/// An open lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpenLot {
    /// The hammer price that stands.
    pub hammer: Option<String>,
    /// What it costs, line by line.
    pub cost: Vec<(String, String)>,
    /// The first piece fills a gap.
    pub gap: bool,
    /// Each piece with its limit.
    pub each: Vec<String>,
}

/// Sales that were seen: those on the user's sheet, and apart from them invented ones.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SoldView {
    /// Results on the sheet.
    pub noted: SeenView,
    /// The invented sales are shown.
    pub on: bool,
    /// They are on their way.
    pub coming: bool,
    /// The sentence of their ledger: stands wherever its figures do.
    pub notice: String,
    /// The invented sales.
    pub invented: Option<SeenView>,
}

/// Sales of a kind, and what they do to its band.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SeenView {
    /// The kind and make.
    pub kind: String,
    /// Why there is nothing.
    pub none: Option<String>,
    /// The band without the sales.
    pub before: String,
    /// The band with them.
    pub with: String,
    /// How many were pooled, year of the money.
    pub rests: String,
    /// The sales of the kind and make, oldest first.
    pub sales: Vec<SaleRow>,
}

/// A sale.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SaleRow {
    /// When.
    pub date: String,
    /// For how much.
    pub price: String,
    /// What the price means.
    pub meaning: String,
    /// Make and condition.
    pub what: String,
    /// What it rests on.
    pub basis: String,
    /// Pooled, or only listed.
    pub used: bool,
}

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> SaleView {
    let desk = state.sale.desk;
    let mut view = SaleView {
        coming: true,
        money: state.money,
        desks: Desk::ALL.iter().map(|d| (d.label(), *d == desk)).collect(),
        pay: None,
        worn: None,
        sheet: None,
        seen: None,
        care: NO_APPRAISAL.to_string(),
    };
    let prices = guide.tables.prices.get();
    let Some((prices, currency)) = prices.and_then(|p| Some((p, pay::currency(guide, p, state)?))) else {
        return view;
    };
    view.coming = false;
    match desk {
        Desk::Condition => view.worn = Some(worn::view(guide, prices, state, state.money, facts)),
        _ if !state.money => {}
        Desk::Pay => view.pay = Some(pay::view(guide, prices, state, facts, currency)),
        Desk::Sheet => view.sheet = Some(sheet_view::view(guide, prices, state, currency)),
        Desk::Seen => view.seen = Some(seen::view(guide, prices, state, facts)),
    }
    view
}
