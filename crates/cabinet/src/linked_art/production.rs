//! How, when and by whom a piece was made.

use super::json::{Json, text};
use super::statement::{name, statement};
use super::vocabulary::{DISPLAY_NAME, PRODUCTION, TECHNIQUES, find, reference};
use crate::edtf::{self, End};
use crate::record::{Record, Uuid};

/// The production, when anything is known of it.
pub(super) fn production(id: Uuid, record: &Record) -> Option<Json> {
    let technique = |t: &String| find(&TECHNIQUES, t).map(|word| reference(word, "Type", None));
    let techniques: Vec<Json> = record.techniques.iter().filter_map(technique).collect();
    let unknown: Vec<&str> =
        record.techniques.iter().filter(|t| find(&TECHNIQUES, t).is_none()).map(String::as_str).collect();
    let mut makers = Vec::new();
    let mut said = Vec::new();
    match record.attribution {
        _ if record.maker.is_empty() => {}
        // A name without a doubt is a party; any doubt is a text.
        None => makers.push(Json::Object(vec![
            ("id", text(format!("urn:uuid:{id}#maker"))),
            ("type", text("Group")),
            ("_label", text(record.maker.as_str())),
        ])),
        Some(doubt) => said.push(statement(&format!("{} {}", doubt.word(), record.maker), &PRODUCTION)),
    }
    if !unknown.is_empty() {
        said.push(statement(&unknown.join(", "), &PRODUCTION));
    }
    let span = timespan(record);
    let known = !techniques.is_empty() || !makers.is_empty() || !said.is_empty() || span.is_some();
    known.then(|| {
        let mut members = vec![
            ("type", text("Production")),
            ("technique", Json::List(techniques)),
            ("carried_out_by", Json::List(makers)),
            ("referred_to_by", Json::List(said)),
        ];
        members.extend(span.map(|span| ("timespan", span)));
        Json::Object(members)
    })
}

/// The span of years: its words, and the bounds that EDTF gives.
fn timespan(record: &Record) -> Option<Json> {
    let words = if record.date.is_empty() { &record.edtf } else { &record.date };
    let span = edtf::read(&record.edtf);
    if words.is_empty() {
        return None;
    }
    let mut members = vec![
        ("type", text("TimeSpan")),
        ("identified_by", Json::List(vec![name("Name", words, &DISPLAY_NAME)])),
    ];
    let moment = |end: End, time: &str| match end {
        // Other years have no form that every reader takes.
        End::At(d) if (1..=9999).contains(&d.year) => {
            Some(text(format!("{:04}-{:02}-{:02}T{time}Z", d.year, d.month, d.day)))
        }
        _ => None,
    };
    let begin = span.and_then(|s| moment(s.earliest, "00:00:00"));
    let end = span.and_then(|s| moment(s.latest, "23:59:59"));
    members.extend(begin.map(|b| ("begin_of_the_begin", b)));
    members.extend(end.map(|e| ("end_of_the_end", e)));
    Some(Json::Object(members))
}
