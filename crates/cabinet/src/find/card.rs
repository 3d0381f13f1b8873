//! What a list needs of a record. It is made when the record is saved and kept beside it, so that opening a cabinet reads no
//! record whole. Everything in it follows from the versions of one record: it can always be made again.

use super::looks::Looks;
use super::sort::year;
use super::words::folded;
use crate::merge::Shelf;
use crate::record::{Date, Moment, Number, Part, Record, Standing, Uuid, Value, Version, lacks};
use units::Money;

/// The sign between the fields of a card as text. A tidy text holds no control character.
const BETWEEN: char = '\u{1f}';
/// The first field: the form of what follows.
const FORM: &str = "1";

/// One record in a list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Card {
    /// Which piece.
    pub id: Uuid,
    /// The number on its tag.
    pub number: Option<Number>,
    /// Owned, wanted, passed over, sold.
    pub standing: Standing,
    /// Taken out of the cabinet.
    pub gone: bool,
    /// How many other versions disagree with the one that is shown.
    pub against: usize,
    /// What is the first line of it in a list.
    pub title: String,
    /// What sort of thing, broadly.
    pub class: String,
    /// And narrowly.
    pub kind: String,
    /// The maker.
    pub maker: String,
    /// Where it is kept.
    pub location: String,
    /// What it is made of.
    pub materials: Vec<String>,
    /// Its date in words, or as EDTF.
    pub date: String,
    /// The first year that it may be of.
    pub year: Option<i64>,
    /// When it was saved.
    pub saved: Moment,
    /// The upper end of its latest valuation.
    pub value: Option<Money>,
    /// The day of that valuation; nothing when it has none, or there is none.
    pub valued: Option<Date>,
    /// Whether there is a valuation.
    pub has_value: bool,
    /// How many things it lacks, the age of its valuation apart.
    pub lacks: usize,
    /// To be sold by itself.
    pub singly: bool,
    /// The photograph that shows it whole, or the first.
    pub photo: String,
    /// Tenths of a millimetre.
    pub length: Option<u32>,
    /// Tenths of a gram.
    pub weight: Option<u32>,
    /// The answers, as a link.
    pub answers: String,
    /// What stands on it, a mark a line.
    pub marks: String,
    /// Numbers that describe its outline.
    pub outline: Vec<i32>,
    /// Everything that stands in it, folded.
    pub all: String,
}

impl Card {
    /// The card of a version, with which so many others disagree.
    #[must_use]
    pub fn new(version: &Version, against: usize) -> Card {
        let record = &version.record;
        let size = |what| record.measured(what).and_then(|m| m.value);
        let valued = record.valued();
        let whole = |p: &&crate::record::Photo| p.view.to_ascii_lowercase().contains("overall");
        let photo = record.photos.iter().find(whole).or(record.photos.first());
        let date = if record.date.is_empty() { &record.edtf } else { &record.date };
        let marks: Vec<&str> = record.marks.iter().map(|m| m.text.as_str()).collect();
        Card {
            id: version.stamp.id,
            number: record.number.clone(),
            standing: record.standing,
            gone: version.stamp.deleted,
            against,
            title: record.title.clone(),
            class: record.class.clone(),
            kind: record.kind.clone(),
            maker: record.maker.clone(),
            location: record.location.clone(),
            materials: record.materials.clone(),
            date: date.clone(),
            year: year(&record.edtf),
            saved: version.stamp.time,
            value: valued.and_then(|v| v.high.or(v.low)),
            valued: valued.and_then(|v| v.date),
            has_value: valued.is_some(),
            // Of no day: a valuation with a day is not old then.
            lacks: lacks(record, Date::default()).len(),
            singly: record.singly,
            photo: photo.map_or_else(String::new, |p| p.digest.clone()),
            length: size("length").and_then(|s| s.length()).map(|l| l.0),
            weight: size("weight").and_then(|s| s.mass()).map(|m| m.0),
            answers: record.answers.clone(),
            marks: marks.join("\n"),
            outline: record.outline.clone(),
            all: everything(record),
        }
    }

    /// The card of all versions of one record; nothing without any.
    #[must_use]
    pub fn of(versions: Vec<Version>) -> Option<Card> {
        let shelf = Shelf::of(versions);
        let records = shelf.records();
        records.first().map(|kept| Card::new(kept.shown, kept.against.len()))
    }

    /// As text, for the store.
    #[must_use]
    pub fn write(&self) -> String {
        let number = |n: Option<u32>| n.map_or_else(String::new, |n| n.to_string());
        let fields = [
            FORM.to_string(),
            self.id.shown(),
            self.number.shown(),
            self.standing.shown(),
            self.gone.shown(),
            self.against.to_string(),
            self.title.clone(),
            self.class.clone(),
            self.kind.clone(),
            self.maker.clone(),
            self.location.clone(),
            self.materials.join("\n"),
            self.date.clone(),
            self.year.map_or_else(String::new, |y| y.to_string()),
            self.saved.0.to_string(),
            self.value.shown(),
            self.valued.shown(),
            self.has_value.shown(),
            self.lacks.to_string(),
            self.singly.shown(),
            self.photo.clone(),
            number(self.length),
            number(self.weight),
            self.answers.clone(),
            self.marks.clone(),
            self.outline.shown(),
            self.all.clone(),
        ];
        fields.join("\u{1f}")
    }

    /// Out of that text; nothing when it is of another form: then it is to be made again.
    #[must_use]
    pub fn read(text: &str) -> Option<Card> {
        fn some<T: Value>(text: &str) -> Option<Option<T>> {
            if text.is_empty() { Some(None) } else { T::read(text).ok().map(Some) }
        }
        let whole = |text: &str| if text.is_empty() { Some(None) } else { text.parse().ok().map(Some) };
        let mut fields = text.split(BETWEEN);
        let mut next = || fields.next();
        if next()? != FORM {
            return None;
        }
        let card = Card {
            id: Uuid::parse(next()?)?,
            number: some(next()?)?,
            standing: Standing::read(next()?).ok()?,
            gone: next()? == "yes",
            against: next()?.parse().ok()?,
            title: next()?.to_string(),
            class: next()?.to_string(),
            kind: next()?.to_string(),
            maker: next()?.to_string(),
            location: next()?.to_string(),
            materials: next()?.split('\n').filter(|m| !m.is_empty()).map(String::from).collect(),
            date: next()?.to_string(),
            year: match next()? {
                "" => None,
                year => Some(year.parse().ok()?),
            },
            saved: Moment(next()?.parse().ok()?),
            value: some(next()?)?,
            valued: some(next()?)?,
            has_value: next()? == "yes",
            lacks: next()?.parse().ok()?,
            singly: next()? == "yes",
            photo: next()?.to_string(),
            length: whole(next()?)?,
            weight: whole(next()?)?,
            answers: next()?.to_string(),
            marks: next()?.to_string(),
            outline: match next()? {
                "" => Vec::new(),
                numbers => Vec::read(numbers).ok()?,
            },
            all: next()?.to_string(),
        };
        next().is_none().then_some(card)
    }

    /// How the piece looks, to be held against another.
    #[must_use]
    pub fn looks(&self) -> Looks {
        Looks::new(&self.answers, self.length, self.weight, &self.marks, self.outline.clone())
    }
}

/// Everything that stands in a record, folded, a value a line.
fn everything(record: &Record) -> String {
    let mut all = String::new();
    let mut add = |part: &dyn Part| {
        for (key, value) in part.lines() {
            // Digests and links are no words.
            if !matches!(key, "sha256" | "pack sha256" | "answers" | "outline") {
                all.push_str(&folded(&value));
                all.push('\n');
            }
        }
    };
    add(record);
    for (_, part) in record.parts() {
        add(part);
    }
    all
}
