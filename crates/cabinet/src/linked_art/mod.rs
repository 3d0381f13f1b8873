//! A record as linked data: Linked Art 1.0 (a profile of CIDOC CRM 7 in JSON-LD, 19 February 2025). Written, never read.

mod dimension;
mod json;
mod production;
mod statement;
mod vocabulary;

use crate::record::{
    Mark, Profile, Record, Uuid, deal_in_words, event_in_words, is_digest, mark_in_words, measured_in_words,
    redacted, valuation_in_words,
};
use json::{Json, text};
use statement::{name, statement};
use vocabulary::{
    CONDITION, DESCRIPTION, DIMENSIONS_TEXT, INSCRIPTION, ITEM, LOCAL_NUMBER, MARKINGS, MATERIALS,
    MATERIALS_TEXT, PRIMARY_NAME, PROVENANCE, THINGS, VALUATION, find, pressing_iron, reference,
};

/// The record as JSON, as the profile lets it be seen.
#[must_use]
pub fn linked_art(id: Uuid, record: &Record, profile: Profile) -> String {
    let record = redacted(&record.tidied(), profile);
    let mut out = String::new();
    object(id, &record).write(&mut out, 0);
    out.push('\n');
    out
}

fn object(id: Uuid, record: &Record) -> Json {
    let number = record.number.as_ref().map(|n| n.text());
    let label =
        [record.title.as_str(), record.kind.as_str(), record.class.as_str(), number.unwrap_or_default()];
    let label = label.into_iter().find(|t| !t.is_empty()).unwrap_or("Piece without a title");
    let mut names = vec![name("Name", label, &PRIMARY_NAME)];
    names.extend(number.map(|n| name("Identifier", n, &LOCAL_NUMBER)));
    let known = |m: &String| find(&MATERIALS, m).map(|word| reference(word, "Material", None));
    let mut members = vec![
        ("@context", text("https://linked.art/ns/v1/linked-art.json")),
        ("id", text(format!("urn:uuid:{id}"))),
        ("type", text("HumanMadeObject")),
        ("_label", text(label)),
        ("classified_as", Json::List(sorts(record))),
        ("identified_by", Json::List(names)),
        ("referred_to_by", Json::List(said(record))),
        ("dimension", Json::List(record.measurements.iter().filter_map(dimension::dimension).collect())),
        ("made_of", Json::List(record.materials.iter().filter_map(known).collect())),
    ];
    members.extend(production::production(id, record).map(|made| ("produced_by", made)));
    if !record.location.is_empty() {
        // The place has an identity of the piece's own: it is in no public list.
        members.push((
            "current_location",
            Json::Object(vec![
                ("id", text(format!("urn:uuid:{id}#location"))),
                ("type", text("Place")),
                ("_label", text(record.location.as_str())),
            ]),
        ));
    }
    members.push(("representation", Json::List(pictures(record))));
    Json::Object(members)
}

/// What sort of thing it is: by the words of its class and kind.
fn sorts(record: &Record) -> Vec<Json> {
    let all = format!("{} {}", record.class, record.kind).to_ascii_lowercase();
    let words: Vec<&str> =
        all.split(|c: char| !c.is_alphanumeric() && c != '\'').filter(|w| !w.is_empty()).collect();
    let mut out: Vec<Json> = Vec::new();
    let iron = words.iter().any(|w| matches!(*w, "iron" | "irons" | "flatiron" | "sadiron"));
    for thing in &THINGS {
        let named = |form: &str| words.contains(&form) || record.class.trim().to_ascii_lowercase() == form;
        if thing.0.split('|').any(named) {
            out.push(reference(thing, "Type", None));
        }
    }
    if iron {
        out.push(pressing_iron());
    }
    out.push(reference(&ITEM, "Type", None));
    out
}

/// What is said of it in sentences.
fn said(record: &Record) -> Vec<Json> {
    let mut out = Vec::new();
    let mut say = |content: String, of: &vocabulary::Word| {
        if !content.is_empty() {
            out.push(statement(&content, of));
        }
    };
    let mark = |m: &Mark| if m.text.is_empty() { &MARKINGS } else { &INSCRIPTION };
    say(record.description.clone(), &DESCRIPTION);
    if !record.features.is_empty() {
        say(format!("Distinguishing features: {}", record.features), &DESCRIPTION);
    }
    if !record.subject.is_empty() {
        say(format!("Shows: {}", record.subject), &DESCRIPTION);
    }
    for m in &record.marks {
        say(mark_in_words(m), mark(m));
    }
    say(record.condition.clone(), &CONDITION);
    if record.materials.iter().any(|m| find(&MATERIALS, m).is_none()) {
        say(record.materials.join(", "), &MATERIALS_TEXT);
    }
    for m in record.measurements.iter().filter(|m| m.value.is_some() && dimension::dimension(m).is_none()) {
        say(measured_in_words(m), &DIMENSIONS_TEXT);
    }
    for event in &record.provenance {
        say(event_in_words(event), &PROVENANCE);
    }
    for (deal, came) in [(&record.acquired, true), (&record.parted, false)] {
        if let Some(deal) = deal {
            say(deal_in_words(deal, came), &PROVENANCE);
        }
    }
    for valuation in &record.valuations {
        say(valuation_in_words(valuation), &VALUATION);
    }
    out
}

/// Its photographs, each under the name that its own bytes give it (RFC 6920, "nih").
fn pictures(record: &Record) -> Vec<Json> {
    let picture = |p: &crate::record::Photo| {
        let access = Json::Object(vec![
            ("id", text(format!("nih:sha-256;{}", p.digest))),
            ("type", text("DigitalObject")),
        ]);
        let mut members = vec![
            ("type", text("DigitalObject")),
            ("format", text("image/jpeg")),
            ("access_point", Json::List(vec![access])),
        ];
        if !p.view.is_empty() {
            members.push(("_label", text(p.view.as_str())));
        }
        Json::Object(vec![
            ("type", text("VisualItem")),
            ("digitally_shown_by", Json::List(vec![Json::Object(members)])),
        ])
    };
    record.photos.iter().filter(|p| is_digest(&p.digest)).map(picture).collect()
}
