//! The schemas: every file of the packs validates, and what the compiler would refuse as unknown they refuse too. What is
//! checked here is read by a validator of its own, as far as the schemas go (JSON Schema 2020-12: type, enum, properties,
//! additionalProperties, required, items, anyOf, bounds).

use crate::common::{good, workshop};
use serde_json::{Map, Value};
use std::fs;
use std::path::{Path, PathBuf};
use toml::de::{DeTable, DeValue};

fn value(of: &DeValue<'_>) -> Value {
    match of {
        DeValue::String(s) => Value::from(s.as_ref()),
        DeValue::Integer(i) => Value::from(i64::from_str_radix(i.as_str(), i.radix()).expect("a number")),
        DeValue::Float(f) => Value::from(f.as_str().parse::<f64>().expect("a number")),
        DeValue::Boolean(b) => Value::from(*b),
        DeValue::Datetime(d) => Value::from(d.to_string()),
        DeValue::Array(list) => list.iter().map(|v| value(v.get_ref())).collect(),
        DeValue::Table(table) => Value::Object(object(table)),
    }
}

fn object(table: &DeTable<'_>) -> Map<String, Value> {
    table.iter().map(|(k, v)| (k.get_ref().to_string(), value(v.get_ref()))).collect()
}

fn validate(schema: &Value, value: &Value, at: &str) -> Result<(), String> {
    let wrong = |says: &str| Err(format!("{at}: {says}: {value}"));
    if let Some(any) = schema["anyOf"].as_array() {
        let tried: Vec<String> = any.iter().filter_map(|s| validate(s, value, at).err()).collect();
        return if tried.len() < any.len() { Ok(()) } else { Err(tried.join(" or ")) };
    }
    if let Some(words) = schema["enum"].as_array() {
        return if words.contains(value) { Ok(()) } else { wrong("not one of the words") };
    }
    match schema["type"].as_str().expect("every schema has a type") {
        "string" => {
            let text = value.as_str().ok_or(format!("{at}: no text: {value}"))?;
            let most = schema["maxLength"].as_u64().unwrap_or(u64::MAX);
            if text.chars().count() as u64 > most { wrong("too long") } else { Ok(()) }
        }
        "boolean" => {
            if value.is_boolean() {
                Ok(())
            } else {
                wrong("no flag")
            }
        }
        kind @ ("number" | "integer") => {
            let n = value.as_f64().ok_or(format!("{at}: no number: {value}"))?;
            let within = schema["minimum"].as_f64().is_none_or(|m| n >= m)
                && schema["maximum"].as_f64().is_none_or(|m| n <= m);
            if !within || (kind == "integer" && !value.is_i64()) { wrong("out of bounds") } else { Ok(()) }
        }
        "array" => {
            let list = value.as_array().ok_or(format!("{at}: no list: {value}"))?;
            let n = list.len() as u64;
            if schema["minItems"].as_u64().is_some_and(|m| n < m)
                || schema["maxItems"].as_u64().is_some_and(|m| n > m)
            {
                return wrong("wrong number of entries");
            }
            list.iter()
                .enumerate()
                .try_for_each(|(i, v)| validate(&schema["items"], v, &format!("{at}[{i}]")))
        }
        "object" => {
            let table = value.as_object().ok_or(format!("{at}: no table: {value}"))?;
            for name in schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str) {
                if !table.contains_key(name) {
                    return wrong(&format!("{name} is missing"));
                }
            }
            table.iter().try_for_each(|(name, v)| {
                let inside = format!("{at}.{name}");
                match (&schema["properties"][name], &schema["additionalProperties"]) {
                    (own, _) if own.is_object() => validate(own, v, &inside),
                    (_, more) if more.is_object() => validate(more, v, &inside),
                    _ => Err(format!("{inside}: no such field")),
                }
            })
        }
        other => unreachable!("a type {other}"),
    }
}

fn schemas(pack: &Path) -> Value {
    let (code, out, err) = workshop(&["schema", pack.to_str().expect("text")]);
    assert_eq!(code, Some(0), "{err}");
    serde_json::from_str(&out).expect("JSON")
}

/// Every file of a pack with the name of its schema.
fn files(pack: &Path) -> Vec<(PathBuf, String)> {
    let mut all = Vec::new();
    for folder in ["", "questions", "kinds", "lessons"] {
        for entry in fs::read_dir(pack.join(folder)).into_iter().flatten() {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|e| e == "toml") {
                let stem = path.file_stem().expect("a name").to_string_lossy().into_owned();
                all.push((path, format!("{}.schema.json", if folder.is_empty() { &stem } else { folder })));
            }
        }
    }
    all
}

#[test]
fn every_file_of_the_packs_validates() {
    let irons = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/packs/irons");
    for pack in [irons, good()] {
        let schemas = schemas(&pack);
        let files = files(&pack);
        assert!(files.len() > 7, "{}", pack.display());
        for (path, name) in files {
            let text = fs::read_to_string(&path).expect("a file");
            let tree = DeTable::parse(&text).expect("TOML");
            let checked = validate(&schemas[&name], &Value::Object(object(tree.get_ref())), "");
            assert_eq!(checked, Ok(()), "{}", path.display());
        }
    }
}

#[test]
fn what_the_reader_does_not_know_the_schema_does_not_know() {
    let schemas = schemas(&good());
    let (path, name) =
        files(&good()).into_iter().find(|(p, _)| p.ends_with("kinds/cast.toml")).expect("the kinds");
    let text = fs::read_to_string(path).expect("a file");
    for (from, to) in [
        ("common = 5", "comon = 5"),
        ("common = 5", "common = 9"),
        ("common = 5", "common = \"5\""),
        ("grip = \"bar always\"", "gripp = \"bar always\""),
        ("[kind.later.looks]", "[kind.latter.looks]"),
        ("worth = [10, 35.50]", "worth = [10]"),
        ("cautions = [\"lead-paint\"]", "cautions = \"lead-paint\""),
        ("purpose = \"A working iron.\"\n", ""),
        ("basis = \"published\"", "basis = \"hearsay\""),
    ] {
        assert!(text.contains(from), "{from}");
        let text = text.replacen(from, to, 1);
        let tree = DeTable::parse(&text).expect("TOML");
        let checked = validate(&schemas[&name], &Value::Object(object(tree.get_ref())), "");
        assert!(checked.is_err(), "{from} -> {to} was taken");
        let files: Vec<(String, String)> = vec![("kinds/cast.toml".to_string(), text)];
        assert!(compile::compile(&crate::common::with(&files)).is_err(), "the compiler took {to}");
    }
}
