//! Names and short texts about a thing.

use super::json::{Json, text};
use super::vocabulary::{BRIEF_TEXT, Word, reference};

/// A name or an identifier of a sort.
pub(super) fn name(sort: &str, content: &str, of: &Word) -> Json {
    Json::Object(vec![
        ("type", text(sort)),
        ("content", text(content)),
        ("classified_as", Json::List(vec![reference(of, "Type", None)])),
    ])
}

/// A statement of a sort.
pub(super) fn statement(content: &str, of: &Word) -> Json {
    Json::Object(vec![
        ("type", text("LinguisticObject")),
        ("content", text(content)),
        ("classified_as", Json::List(vec![reference(of, "Type", Some(&BRIEF_TEXT))])),
    ])
}
