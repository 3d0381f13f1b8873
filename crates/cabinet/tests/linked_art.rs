//! Linked Art: sound JSON, identities that are in the published lists, nothing that a profile hides. Against the published
//! schema: `cargo xtask bench linked-art <its folder>`.

use crate::common::Random;
use crate::common::make::{money, sound, text};
use cabinet::linked_art::linked_art;
use cabinet::record::{Date, Deal, Profile, Record, Unknown, Version, redacted};
use cabinet::text::write as text_of;
use proptest::prelude::*;
use serde_json::Value as Json;

/// Every object in a document.
fn objects<'a>(json: &'a Json, out: &mut Vec<&'a serde_json::Map<String, Json>>) {
    match json {
        Json::Object(map) => {
            out.push(map);
            map.values().for_each(|v| objects(v, out));
        }
        Json::Array(list) => list.iter().for_each(|v| objects(v, out)),
        _ => {}
    }
}

fn known() -> Vec<(&'static str, &'static str)> {
    include_str!("linked_art/ids.tsv").lines().filter_map(|l| l.split_once('\t')).collect()
}

/// The members that Linked Art 1.0 gives to what we write (published: API 1.0, "HumanMadeObject" and what is embedded).
const MEMBERS: [(&str, &[&str]); 11] = [
    (
        "HumanMadeObject",
        &[
            "@context",
            "id",
            "type",
            "_label",
            "classified_as",
            "identified_by",
            "referred_to_by",
            "dimension",
            "made_of",
            "produced_by",
            "current_location",
            "representation",
        ],
    ),
    ("Type", &["id", "type", "_label", "classified_as"]),
    ("Material", &["id", "type", "_label"]),
    ("MeasurementUnit", &["id", "type", "_label"]),
    ("Place", &["id", "type", "_label"]),
    ("Group", &["id", "type", "_label"]),
    ("Name", &["type", "content", "classified_as"]),
    ("Identifier", &["type", "content", "classified_as"]),
    ("LinguisticObject", &["type", "content", "classified_as"]),
    (
        "Dimension",
        &["type", "value", "lower_value_limit", "upper_value_limit", "classified_as", "unit", "_label"],
    ),
    ("TimeSpan", &["type", "identified_by", "begin_of_the_begin", "end_of_the_end"]),
];
const MORE_MEMBERS: [(&str, &[&str]); 3] = [
    ("Production", &["type", "technique", "carried_out_by", "referred_to_by", "timespan"]),
    ("VisualItem", &["type", "digitally_shown_by"]),
    ("DigitalObject", &["id", "type", "_label", "format", "access_point"]),
];

fn check(document: &str, id: &str) -> Result<(), String> {
    let json: Json = serde_json::from_str(document).map_err(|e| e.to_string())?;
    if json["id"] != format!("urn:uuid:{id}")
        || json["type"] != "HumanMadeObject"
        || json["_label"].as_str() == Some("")
    {
        return Err("the head is not sound".to_string());
    }
    let mut all = Vec::new();
    objects(&json, &mut all);
    for object in all {
        let sort = object.get("type").and_then(Json::as_str).ok_or("an object without a type")?;
        let members = MEMBERS.iter().chain(&MORE_MEMBERS).find(|(name, _)| *name == sort);
        let (_, members) = members.ok_or_else(|| format!("{sort} is unknown"))?;
        if let Some(odd) = object.keys().find(|k| !members.contains(&k.as_str())) {
            return Err(format!("{sort} has no {odd}"));
        }
        let named = object.get("id").and_then(Json::as_str);
        let label = object.get("_label").and_then(Json::as_str).unwrap_or_default();
        if let Some(public) = named.filter(|n| n.starts_with("http"))
            && !known().contains(&(public, label))
        {
            return Err(format!("{public} with {label} is in no list"));
        }
        if ["Type", "Material", "MeasurementUnit", "Place", "Group"].contains(&sort) && named.is_none() {
            return Err(format!("a {sort} without an identity"));
        }
        if let Some(value) = object.get("value")
            && !value.is_number()
        {
            return Err("a value that is no number".to_string());
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_record(seed: u64, profile in 0_usize..3) {
        let mut random = Random(seed);
        let (id, mut record) = (random.uuid(), sound(&mut random));
        record.materials.extend(["cast iron".to_string(), "Wood".to_string()]);
        record.class = (*random.pick(&["toy", "pressing iron", "trivet", ""])).to_string();
        let document = linked_art(id, &record, Profile::ALL[profile]);
        let checked = check(&document, &id.to_string());
        prop_assert!(checked.is_ok(), "{:?} in {}", checked, document);
    }

    #[test]
    fn what_is_hidden(seed: u64) {
        let mut random = Random(seed);
        let (id, mut record) = (random.uuid(), sound(&mut random));
        let secret = |what: &str| format!("Secret{what}");
        record.acquired = Some(Deal { with: secret("Seller"), place: secret("Market"), price: money(&mut random), ..Deal::default() });
        record.parted = Some(Deal { with: secret("Buyer"), date: Date::new(2026, 1, 1), ..Deal::default() });
        record.location = secret("Place");
        record.notes = secret("Notes");
        record.recorder = secret("Recorder");
        record.ask = secret("Friend");
        record.other.push(("new".to_string(), secret("Other")));
        record.valuations.iter_mut().for_each(|v| v.source = secret("Source"));
        record.photos.iter_mut().for_each(|p| p.note = secret("Street"));
        let other = || ("new".to_string(), secret("Part"));
        record.photos.iter_mut().for_each(|p| p.other.push(other()));
        record.marks.iter_mut().for_each(|m| m.other.push(other()));
        record.measurements.iter_mut().for_each(|m| m.other.push(other()));
        record.provenance.iter_mut().for_each(|e| e.other.push(other()));
        record.opinions.iter_mut().for_each(|o| o.other.push(other()));
        record.unknown.push(Unknown { name: "new".to_string(), lines: vec![other()] });
        for profile in [Profile::Public, Profile::Sale] {
            let document = linked_art(id, &record, profile);
            prop_assert!(!document.contains("Secret"), "{}", document);
            // Nor in anything else that is written of what the profile lets through.
            let seen = Version { record: redacted(&record, profile), ..Version::default() };
            let written = text_of(&seen);
            prop_assert!(!written.contains("Secret"), "{}", written);
            let valued = document.contains("300435426");
            prop_assert!(!valued);
        }
        let all = linked_art(id, &record, Profile::Insurance);
        prop_assert!(all.contains("SecretSeller") && all.contains("SecretPlace"));
    }
}

#[test]
fn a_toy_iron() {
    let mut random = Random(1);
    let record = Record {
        title: "Toy flat iron \"swan\"".to_string(),
        class: "toy".to_string(),
        kind: "flat iron".to_string(),
        materials: vec!["cast iron".to_string(), "bog oak".to_string()],
        edtf: "1875/1915".to_string(),
        description: text(&mut random, 3),
        ..Record::default()
    };
    let document = linked_art(random.uuid(), &record, Profile::Public);
    let json: Json = serde_json::from_str(&document).expect("JSON");
    // A toy first, an iron second (rule of a published nomenclature for toys); the ids are those of the lists.
    let sorts: Vec<&str> =
        json["classified_as"].as_array().expect("sorts").iter().filter_map(|s| s["id"].as_str()).collect();
    assert_eq!(sorts[0], "http://vocab.getty.edu/aat/300211037");
    assert_eq!(sorts[1], "http://www.wikidata.org/entity/Q483634");
    assert_eq!(json["produced_by"]["timespan"]["begin_of_the_begin"], "1875-01-01T00:00:00Z");
    assert_eq!(json["produced_by"]["timespan"]["end_of_the_end"], "1915-12-31T23:59:59Z");
    assert_eq!(json["made_of"].as_array().map(Vec::len), Some(1));
    assert!(document.contains("cast iron, bog oak"));
}
