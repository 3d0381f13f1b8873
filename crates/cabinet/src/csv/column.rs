//! The columns of the table.

use super::cell::{defused, quoted};
use crate::record::{Deal, Mark, Part, Record, Uuid, Valuation, Value, amount, decimal};
use units::Money;

/// A column.
#[derive(Debug)]
pub struct Column {
    /// Its head.
    pub head: &'static str,
    /// Other words for it, in small letters and figures only, with one blank between.
    pub(super) also: &'static str,
    pub(super) of: Of,
}

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    /// The identity of the piece.
    Id,
    /// A line of the record, by its key.
    Line(&'static str),
    /// The length in millimetres.
    Length,
    /// The weight in grams.
    Weight,
    /// The texts of the marks.
    Marks,
    /// A line of how it came.
    Acquired(&'static str),
    /// A line of how it went.
    Parted(&'static str),
    /// The amount of the price of one of the two, without its currency.
    Price { parted: bool },
    /// The currency of that.
    PriceCurrency { parted: bool },
    /// A line of the latest valuation.
    Valued(&'static str),
    /// An end of the latest valuation, without its currency.
    Value { high: bool },
    /// The currency of both ends.
    ValueCurrency,
    /// How many photographs there are: written, not read.
    Photos,
}

const fn column(head: &'static str, also: &'static str, of: Of) -> Column {
    Column { head, also, of }
}

/// All columns, in order.
pub const COLUMNS: [Column; 46] = [
    column("id", "uuid|identity", Of::Id),
    column(
        "number",
        "no|nr|inventory number|catalogue number|accession number|object number",
        Of::Line("number"),
    ),
    column("state", "status", Of::Line("state")),
    column("title", "name|object name|object", Of::Line("title")),
    column("class", "category|group|broad type", Of::Line("class")),
    column("kind", "type|form|narrow type", Of::Line("kind")),
    column("materials", "material|made of", Of::Line("materials")),
    column("techniques", "technique|how made", Of::Line("techniques")),
    column("length mm", "length|length in mm|size|size mm", Of::Length),
    column("weight g", "weight|weight in g|mass", Of::Weight),
    column("marks", "mark|markings|inscription|inscriptions|lettering", Of::Marks),
    column("condition", "state of preservation", Of::Line("condition")),
    column("distinguishing features", "features|peculiarities", Of::Line("distinguishing features")),
    column("subject", "shows", Of::Line("subject")),
    column("date", "dated|period|age|year", Of::Line("date")),
    column("date as edtf", "edtf", Of::Line("date as edtf")),
    column("attribution", "qualifier", Of::Line("attribution")),
    column("maker", "manufacturer|made by|foundry", Of::Line("maker")),
    column("description", "text|details", Of::Line("description")),
    column("location", "place|shelf|kept in|where", Of::Line("location")),
    column("recorder", "recorded by", Of::Line("recorder")),
    column("recorded", "recorded on", Of::Line("recorded")),
    column("cautions", "warnings|hazards", Of::Line("cautions")),
    column("sell singly", "singly", Of::Line("sell singly")),
    column("whom to ask", "ask|expert", Of::Line("whom to ask")),
    column("notes", "note|remarks|remark|comment|comments", Of::Line("notes")),
    column("acquired how", "how acquired|acquisition|acquired", Of::Acquired("how")),
    column(
        "acquired date",
        "bought on|date bought|date acquired|purchase date|acquisition date",
        Of::Acquired("date"),
    ),
    column("acquired with", "bought from|seller|source|acquired from|dealer|from", Of::Acquired("with")),
    column("acquired where", "bought at|bought where|where bought", Of::Acquired("where")),
    column("price paid", "price|paid|cost|purchase price", Of::Price { parted: false }),
    column("price currency", "currency paid", Of::PriceCurrency { parted: false }),
    column("acquired note", "receipt", Of::Acquired("note")),
    column("parted how", "how sold", Of::Parted("how")),
    column("parted date", "sold on|date sold|sale date", Of::Parted("date")),
    column("parted with", "sold to|buyer", Of::Parted("with")),
    column("price received", "sold for|sale price", Of::Price { parted: true }),
    column("received currency", "currency received", Of::PriceCurrency { parted: true }),
    column("value low", "value|estimate|low estimate|valuation", Of::Value { high: false }),
    column("value high", "high estimate|value to", Of::Value { high: true }),
    column("value currency", "currency", Of::ValueCurrency),
    column("value basis", "basis|kind of value", Of::Valued("basis")),
    column("value date", "valued on|valuation date|value as of", Of::Valued("date")),
    column("value source", "valued by|value rests on", Of::Valued("source")),
    column("answers", "link", Of::Line("answers")),
    column("photographs", "photos|pictures|images", Of::Photos),
];

impl Column {
    /// The cell of a record, ready to stand between separators.
    #[must_use]
    pub fn cell(&self, id: Uuid, record: &Record) -> String {
        quoted(&defused(&self.text(id, record)))
    }

    /// What stands in the column, as plain text.
    #[must_use]
    pub fn text(&self, id: Uuid, record: &Record) -> String {
        let line = |part: Option<&dyn Part>, key: &str| {
            let lines = part.map(Part::lines).unwrap_or_default();
            lines.into_iter().find(|(k, _)| *k == key).map_or_else(String::new, |(_, value)| value)
        };
        let deal = |parted: bool| if parted { record.parted.as_ref() } else { record.acquired.as_ref() };
        let price = |parted| deal(parted).and_then(|d: &Deal| d.price);
        let part = |parted| deal(parted).map(|d| d as &dyn Part);
        match self.of {
            Of::Id => id.shown(),
            Of::Line(key) => line(Some(record), key),
            Of::Length => length(record).map_or_else(String::new, tenths),
            Of::Weight => weight(record).map_or_else(String::new, tenths),
            Of::Marks => marks(&record.marks),
            Of::Acquired(key) => line(part(false), key),
            Of::Parted(key) => line(part(true), key),
            Of::Price { parted } => price(parted).map_or_else(String::new, amount),
            Of::PriceCurrency { parted } => price(parted).map_or_else(String::new, code),
            Of::Valued(key) => line(record.valued().map(|v| v as &dyn Part), key),
            Of::Value { high } => end(record, high).map_or_else(String::new, amount),
            Of::ValueCurrency => end(record, false).or(end(record, true)).map_or_else(String::new, code),
            Of::Photos => record.photos.len().to_string(),
        }
    }
}

/// The length in tenths of a millimetre.
pub(super) fn length(record: &Record) -> Option<u32> {
    record.measured("length")?.value?.length().map(|l| l.0).filter(|n| *n > 0)
}

/// The weight in tenths of a gram.
pub(super) fn weight(record: &Record) -> Option<u32> {
    record.measured("weight")?.value?.mass().map(|m| m.0).filter(|n| *n > 0)
}

fn tenths(n: u32) -> String {
    decimal(i64::from(n), 1, 0)
}

fn code(money: Money) -> String {
    money.currency.code().to_string()
}

fn end(record: &Record, high: bool) -> Option<Money> {
    let of = |v: &Valuation| if high { v.high } else { v.low };
    record.valued().and_then(of)
}

/// The texts of marks in one cell, a line each.
pub(super) fn marks(marks: &[Mark]) -> String {
    let one = |m: &Mark| if m.text.is_empty() { m.sign.clone() } else { m.text.clone() };
    marks
        .iter()
        .map(one)
        .filter(|t| !t.is_empty())
        .map(|t| t.replace('\n', " "))
        .collect::<Vec<_>>()
        .join("\n")
}
