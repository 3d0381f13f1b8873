//! What is wrong with a record, and what it still lacks.

use super::date::Date;
use super::parts::Valuation;
use super::value::Part;
use super::whole::Record;
use super::words::Standing;
use crate::edtf;

/// After so many years a valuation is old. Basis: practice (insurers ask for new figures every three to five years).
pub const OLD_AFTER: i16 = 3;

/// How much a record may hold, so that what is written can be read.
#[derive(Debug)]
pub struct Limits;

impl Limits {
    /// Bytes of one value.
    pub const VALUE: usize = 20_000;
    /// Parts of one record.
    pub const PARTS: usize = 300;
    /// Bytes of a record as text.
    pub const TEXT: usize = 262_144;
}

/// What must be put right before the record is saved: sentences. `today` is given.
#[must_use]
pub fn faults(record: &Record, today: Date) -> Vec<String> {
    let mut out = Vec::new();
    if !record.edtf.is_empty() && edtf::read(&record.edtf).is_none() {
        out.push(format!(
            "\u{201c}{}\u{201d} is no EDTF date. Write 1880, 1880~, 188X, 1871/.. or 1870/1890, or leave it to the words.",
            super::value::short(&record.edtf)
        ));
    }
    for (at, valuation) in record.valuations.iter().enumerate() {
        out.extend(
            valuation_faults(valuation, today)
                .into_iter()
                .map(|says| format!("Valuation {}: {says}", at + 1)),
        );
    }
    for (at, m) in record.measurements.iter().enumerate() {
        let says = match (m.value, m.uncertainty) {
            (Some(v), _) if v.millionths <= 0 => "a size is more than nothing.",
            (Some(v), Some(u)) if v.unit.weighs() != u.unit.weighs() => {
                "the size and its plus or minus are not of one sort."
            }
            (_, Some(u)) if u.millionths < 0 => "a plus or minus is not below nothing.",
            (None, Some(_)) => "there is a plus or minus and no size.",
            _ => continue,
        };
        out.push(format!("Measurement {}: {says}", at + 1));
    }
    for (at, photo) in record.photos.iter().enumerate().filter(|(_, p)| !p.is_sound()) {
        out.push(format!(
            "Photograph {}: its digest \u{201c}{}\u{201d} is none.",
            at + 1,
            super::value::short(&photo.digest)
        ));
    }
    let deals = [("how it came", &record.acquired), ("how it went", &record.parted)];
    for (what, deal) in deals.into_iter().filter_map(|(what, deal)| deal.as_ref().map(|d| (what, d))) {
        if deal.date.is_some_and(|d| d > today) {
            out.push(format!("Under {what}: the day lies ahead."));
        }
        if deal.price.is_some_and(|p| p.minor < 0) {
            out.push(format!("Under {what}: a price is not below nothing."));
        }
    }
    let parts = record.parts();
    if parts.len() > Limits::PARTS {
        out.push(format!("It has {} parts; at most {} are kept.", parts.len(), Limits::PARTS));
    }
    let mut all = 0;
    for (key, value) in record.lines().into_iter().chain(parts.iter().flat_map(|(_, p)| p.lines())) {
        all += key.len() + value.len() + 4 * value.split('\n').count();
        if value.len() > Limits::VALUE {
            out.push(format!(
                "\u{201c}{key}\u{201d} is too long: {} bytes, and {} are kept.",
                value.len(),
                Limits::VALUE
            ));
        }
    }
    // Room for the stamp and the remarks stays free.
    if all + 8_192 > Limits::TEXT {
        out.push(format!(
            "The record is too long: about {all} bytes, and {} are kept.",
            Limits::TEXT - 8_192
        ));
    }
    out
}

fn valuation_faults(valuation: &Valuation, today: Date) -> Vec<String> {
    let mut out = Vec::new();
    let mut fault = |wrong: bool, says: &str| {
        if wrong {
            out.push(says.to_string());
        }
    };
    fault(valuation.basis.is_none(), "say what sort of figure it is; a bare number means nothing.");
    fault(valuation.date.is_none(), "say as of which day.");
    fault(valuation.source.trim().is_empty(), "say what it rests on.");
    fault(valuation.date.is_some_and(|d| d > today), "the day lies ahead.");
    fault(valuation.low.is_none() && valuation.high.is_none(), "there is no figure.");
    fault(valuation.low.is_none() && valuation.high.is_some(), "the lower end is missing.");
    if let Some((low, high)) = valuation.low.zip(valuation.high) {
        fault(low.currency != high.currency, "its two ends are in two currencies.");
        fault(
            low.currency == high.currency && low.minor > high.minor,
            "its lower end is above the upper one.",
        );
    }
    fault(
        [valuation.low, valuation.high].iter().flatten().any(|m| m.minor < 0),
        "a value is not below nothing.",
    );
    out
}

/// Whether the latest valuation is older than [`OLD_AFTER`] years; one without a day is old. `false` without any.
#[must_use]
pub fn is_old(record: &Record, today: Date) -> bool {
    record.valued().is_some_and(|v| v.date.is_none_or(|d| is_past(d, today)))
}

/// Whether a valuation of a day is old.
pub(crate) fn is_past(day: Date, today: Date) -> bool {
    day.end().later(OLD_AFTER) < today.end()
}

/// What the record of an owned piece still lacks: sentences, the most useful first. After the nine categories and the
/// four steps of Object ID (ICOM) and the facts of a museum's inventory. A piece that is wanted or was passed over needs a
/// title only.
#[must_use]
pub fn lacks(record: &Record, today: Date) -> Vec<String> {
    let mut out = Vec::new();
    let mut lack = |missing: bool, says: &str| {
        if missing {
            out.push(says.to_string());
        }
    };
    lack(record.title.is_empty(), "It has no title.");
    if matches!(record.standing, Standing::Wanted | Standing::PassedOver) {
        return out;
    }
    let shows = |words: &[&str]| {
        record.photos.iter().any(|p| words.iter().any(|w| p.view.to_ascii_lowercase().contains(w)))
    };
    lack(
        record.number.is_none(),
        "It has no number, so its tag and this record cannot be told to belong together.",
    );
    lack(record.photos.is_empty(), "It has no photograph. One of the whole comes first.");
    lack(!record.photos.is_empty() && !shows(&["overall", "whole"]), "No photograph shows the whole.");
    lack(
        !record.photos.is_empty() && !record.photos.iter().any(|p| p.scale),
        "No photograph shows a scale or a thing of known size.",
    );
    lack(!record.marks.is_empty() && !shows(&["mark", "letter"]), "No photograph shows its marks close by.");
    lack(record.class.is_empty(), "What sort of thing it is, broadly, is not said.");
    lack(record.kind.is_empty(), "What it is, narrowly, is not said.");
    lack(record.materials.is_empty(), "What it is made of is not said.");
    let sized =
        |weighs| record.measurements.iter().any(|m| m.value.is_some_and(|v| v.unit.weighs() == weighs));
    lack(!sized(false), "No length was measured.");
    lack(!sized(true), "It was not weighed.");
    lack(
        record.measurements.iter().any(|m| m.value.is_some() && m.uncertainty.is_none()),
        "A measurement has no plus or minus.",
    );
    lack(record.marks.iter().any(|m| m.place.is_empty()), "Where a mark stands is not said.");
    lack(record.condition.is_empty(), "Its condition is not described.");
    lack(
        record.features.is_empty(),
        "What tells it from others of its kind is not said: a dent, a flaw, a repair.",
    );
    lack(record.date.is_empty() && record.edtf.is_empty(), "It has no date, not even a rough one.");
    lack(record.standing == Standing::Owned && record.location.is_empty(), "Where it is kept is not said.");
    lack(record.acquired.is_none(), "How it came is not said.");
    lack(record.standing == Standing::Sold && record.parted.is_none(), "How it went is not said.");
    lack(
        record.recorder.is_empty() || record.recorded.is_none(),
        "Who wrote this record, and when, is not said.",
    );
    lack(is_old(record, today), "Its latest valuation is more than three years old.");
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Value, Worth};
    use units::{Currency, Money};

    fn day(text: &str) -> Date {
        Date::read(text).unwrap_or_default()
    }

    fn valued(date: &str) -> Record {
        // Basis of the figures: invented.
        let money = Currency::new("USD").map(|currency| Money { minor: 2000, currency });
        let valuation = Valuation {
            low: money,
            high: money,
            basis: Some(Worth::FairMarket),
            date: Date::read(date).ok(),
            source: "three sales seen by the owner".to_string(),
            ..Valuation::default()
        };
        Record { valuations: vec![valuation], ..Record::default() }
    }

    #[test]
    fn a_valuation_grows_old() {
        // The three years are the rule of this program (basis: practice).
        for (date, old) in [
            ("2023-11-29", false),
            ("2023-11-28", true),
            ("2026", false),
            ("2023", false),
            ("2022", true),
            ("2023-10", true),
        ] {
            assert_eq!(is_old(&valued(date), day("2026-11-29")), old, "{date}");
        }
        assert!(!is_old(&Record::default(), day("2026-11-29")));
    }

    #[test]
    fn a_bare_number_is_a_fault() {
        let today = day("2026-11-29");
        assert_eq!(faults(&valued("2026-10-03"), today), Vec::<String>::new());
        let spoil: [fn(&mut Valuation); 7] = [
            |v| v.basis = None,
            |v| v.date = None,
            |v| v.source.clear(),
            |v| v.date = v.date.map(|d| d.later(1)),
            |v| v.low = None,
            |v| v.high = v.high.map(|m| Money { minor: 1, ..m }),
            |v| v.high = Currency::new("EUR").map(|currency| Money { minor: 2000, currency }),
        ];
        for (at, spoil) in spoil.iter().enumerate() {
            let mut record = valued("2026-10-03");
            record.valuations.iter_mut().for_each(spoil);
            assert_eq!(faults(&record, today).len(), 1, "{at}");
        }
    }

    #[test]
    fn what_is_lacking() {
        let today = day("2026-11-29");
        let bare = lacks(&Record::default(), today);
        assert!(bare.len() > 10 && bare[0].contains("title"), "{bare:?}");
        let wanted = Record { standing: Standing::Wanted, title: "A swan".to_string(), ..Record::default() };
        assert!(lacks(&wanted, today).is_empty());
    }
}
