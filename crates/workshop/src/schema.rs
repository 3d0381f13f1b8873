//! JSON Schemas of the files of a pack, for editors that complete and check TOML. They follow from the shape that the
//! compiler keeps; with a pack at hand its own names stand in them.

use compile::shape::{FILES, Field, FileShape, Of, SAID, Shape, Sort};
use serde_json::{Map, Value, json};

/// Names of a pack, for completion.
#[derive(Debug, Default)]
pub struct Names(Vec<(Of, Vec<String>)>);

impl Names {
    /// The names in a pack.
    #[must_use]
    pub fn of(core: &pack::Core) -> Names {
        let named = |list: &[pack::Named]| list.iter().map(|n| n.id.clone()).collect();
        Names(vec![
            (Of::Questions, core.questions.iter().map(|q| q.id.clone()).collect()),
            (Of::Kinds, core.kinds.iter().map(|k| k.id.clone()).collect()),
            (Of::Makes, named(&core.makes)),
            (Of::Places, named(&core.places)),
            (Of::Tools, named(&core.tools)),
            (Of::Parts, named(&core.parts)),
            (Of::Roles, named(&core.roles)),
        ])
    }

    fn list(&self, of: Of) -> Option<&[String]> {
        self.0.iter().find(|(o, _)| *o == of).map(|(_, names)| names.as_slice())
    }
}

/// The schemas: the name of each file, and what stands in it.
#[must_use]
pub fn schemas(names: &Names) -> Vec<(String, Value)> {
    let name =
        |f: &FileShape| format!("{}.schema.json", f.path.trim_end_matches('/').trim_end_matches(".toml"));
    FILES.iter().map(|f| (name(f), top(f, names))).collect()
}

fn top(file: &FileShape, names: &Names) -> Value {
    let mut schema = table(file.shape, names);
    schema["$schema"] = json!("https://json-schema.org/draft/2020-12/schema");
    schema["title"] = json!(file.path);
    schema
}

fn table(shape: &Shape, names: &Names) -> Value {
    let mut properties: Map<String, Value> =
        shape.fields.iter().map(|f| (f.name.to_string(), field(f, names))).collect();
    let mut schema = json!({ "type": "object", "additionalProperties": false });
    if let Some(of_make) = shape.by_make {
        match names.list(Of::Makes) {
            Some(makes) => properties.extend(makes.iter().map(|m| (m.clone(), table(of_make, names)))),
            None => schema["additionalProperties"] = table(of_make, names),
        }
    }
    if let Some(free) = shape.free {
        schema["additionalProperties"] = field(free, names);
    }
    let must: Vec<&str> = shape.fields.iter().filter(|f| f.must).map(|f| f.name).collect();
    if !must.is_empty() {
        schema["required"] = json!(must);
    }
    schema["properties"] = Value::Object(properties);
    schema
}

fn field(field: &Field, names: &Names) -> Value {
    let mut schema = sort(field.sort, names);
    schema["description"] = json!(field.says);
    schema
}

fn sort(of: Sort, names: &Names) -> Value {
    match of {
        Sort::Text(most) => json!({ "type": "string", "maxLength": most }),
        Sort::Name(of) => name(of, names),
        Sort::Word(words) => json!({ "enum": words }),
        Sort::Number(least, most) => json!({ "type": "number", "minimum": least, "maximum": most }),
        Sort::Whole(least, most) => json!({ "type": "integer", "minimum": least, "maximum": most }),
        Sort::Flag => json!({ "type": "boolean" }),
        // A date of TOML comes as a text.
        Sort::Date => json!({ "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" }),
        Sort::Names(of) => json!({ "type": "array", "items": name(of, names) }),
        Sort::Sentences => json!({ "type": "array", "items": { "type": "string" } }),
        Sort::Numbers(n) => {
            json!({ "type": "array", "items": { "type": "number" }, "minItems": n, "maxItems": n })
        }
        Sort::Table => json!({ "anyOf": [{ "type": "string", "maxLength": 400 }, table(&SAID, names)] }),
        Sort::Answers => lines(Of::Questions, &json!({ "type": "string" }), names),
        Sort::Free(of, one) => lines(of, &sort(*one, names), names),
        Sort::One(shape) | Sort::Once(_, shape) => table(shape, names),
        Sort::Many(_, shape) => json!({ "type": "array", "items": table(shape, names) }),
    }
}

fn name(of: Of, names: &Names) -> Value {
    match names.list(of) {
        Some(list) => json!({ "enum": list }),
        None => json!({ "type": "string", "maxLength": 80 }),
    }
}

/// A table whose fields are named by a list.
fn lines(of: Of, one: &Value, names: &Names) -> Value {
    match names.list(of) {
        None => json!({ "type": "object", "additionalProperties": one }),
        Some(list) => {
            let properties: Map<String, Value> = list.iter().map(|n| (n.clone(), one.clone())).collect();
            json!({ "type": "object", "properties": properties, "additionalProperties": false })
        }
    }
}
