//! The sheet of one record, in the categories of Object ID.

use super::sheet::{Block, NO_APPRAISAL, Sheet, called};
use crate::record::{
    Date, Profile, Record, Size, Uuid, Value, deal_in_words, event_in_words, is_old, redacted,
    valuation_in_words,
};

/// The sheet of a record, as the profile lets it be seen.
#[must_use]
pub fn one(id: Uuid, record: &Record, profile: Profile, today: Date) -> Sheet {
    let record = redacted(&record.tidied(), profile);
    let mut sheet = Sheet::new(called(&record));
    for caution in record.cautions.lines().filter(|l| !l.is_empty()) {
        sheet.blocks.push(Block::Care(caution.to_string()));
    }
    if !record.photos.is_empty() {
        let photos = record.photos.iter().map(|p| (p.digest.clone(), p.view.clone())).collect();
        sheet.blocks.push(Block::Photos(photos));
    }
    sheet.facts(vec![
        ("Number", record.number.shown()),
        ("State", record.standing.shown()),
        (
            "What it is",
            [record.class.clone(), record.kind.clone()].join(", ").trim_matches([',', ' ']).to_string(),
        ),
        ("Materials", record.materials.shown()),
        ("Technique", record.techniques.shown()),
        ("Shows", record.subject.clone()),
        ("Date", dated(&record)),
        ("Maker", made_by(&record)),
        ("Description", record.description.clone()),
        ("The guide said", record.finding.clone()),
    ]);
    let size = |s: Option<Size>| s.shown();
    let measured = record.measurements.iter().filter(|m| m.value.is_some());
    let measured =
        measured.map(|m| vec![m.what.clone(), size(m.value), size(m.uncertainty), m.method.clone()]);
    sheet.table(&["measured", "size", "plus or minus", "with"], measured.collect());
    let mark = |m: &crate::record::Mark| vec![m.text.clone(), m.sign.clone(), m.place.clone(), m.how.clone()];
    sheet.table(&["lettering", "sign", "where", "how made"], record.marks.iter().map(mark).collect());
    sheet.facts(vec![
        ("Condition", record.condition.clone()),
        ("Distinguishing features", record.features.clone()),
        ("Kept", record.location.clone()),
        ("Came", record.acquired.as_ref().map_or_else(String::new, |d| deal_in_words(d, true))),
        ("Went", record.parted.as_ref().map_or_else(String::new, |d| deal_in_words(d, false))),
        ("Notes", record.notes.clone()),
    ]);
    sheet.list("Its past", record.provenance.iter().map(event_in_words).collect());
    if !record.valuations.is_empty() {
        sheet.list("Value", record.valuations.iter().map(valuation_in_words).collect());
        if is_old(&record, today) {
            sheet.says("The latest of these is more than three years old.");
        }
        sheet.says(NO_APPRAISAL);
    }
    let opinion = |o: &crate::record::Opinion| {
        let who = [o.name.clone(), o.date.shown()]
            .into_iter()
            .filter(|t| !t.is_empty())
            .collect::<Vec<_>>()
            .join(", ");
        format!("{who}: {}", o.text)
    };
    sheet.list("Opinions", record.opinions.iter().map(opinion).collect());
    sheet.facts(vec![
        ("Recorded by", record.recorder.clone()),
        ("Recorded", record.recorded.shown()),
        ("Identity", id.shown()),
    ]);
    sheet
}

/// The date in words, with its EDTF behind where both are there.
pub(super) fn dated(record: &Record) -> String {
    match (record.date.is_empty(), record.edtf.is_empty()) {
        (false, false) => format!("{} ({})", record.date, record.edtf),
        (false, true) => record.date.clone(),
        (true, _) => record.edtf.clone(),
    }
}

/// The maker with the word of doubt before it.
pub(super) fn made_by(record: &Record) -> String {
    match record.attribution {
        Some(doubt) if !record.maker.is_empty() => format!("{} {}", doubt.word(), record.maker),
        _ => record.maker.clone(),
    }
}
