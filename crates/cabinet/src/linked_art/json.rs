//! JSON, written by hand (RFC 8259).

/// A value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Json {
    /// A string.
    Text(String),
    /// A number, as its decimal.
    Number(String),
    /// An array.
    List(Vec<Json>),
    /// An object; members with an empty array are left out.
    Object(Vec<(&'static str, Json)>),
}

pub(super) fn text(text: impl Into<String>) -> Json {
    Json::Text(text.into())
}

impl Json {
    /// Writes the value, indented by so many steps.
    pub(super) fn write(&self, out: &mut String, deep: usize) {
        let line = |out: &mut String, deep: usize| {
            out.push('\n');
            out.extend(core::iter::repeat_n(' ', 2 * deep));
        };
        match self {
            Json::Text(text) => string(out, text),
            Json::Number(number) => out.push_str(number),
            Json::List(items) => {
                out.push('[');
                for (at, item) in items.iter().enumerate() {
                    out.push_str(if at > 0 { "," } else { "" });
                    line(out, deep + 1);
                    item.write(out, deep + 1);
                }
                line(out, deep);
                out.push(']');
            }
            Json::Object(members) => {
                let members =
                    members.iter().filter(|(_, value)| !matches!(value, Json::List(l) if l.is_empty()));
                out.push('{');
                for (at, (key, value)) in members.enumerate() {
                    out.push_str(if at > 0 { "," } else { "" });
                    line(out, deep + 1);
                    string(out, key);
                    out.push_str(": ");
                    value.write(out, deep + 1);
                }
                line(out, deep);
                out.push('}');
            }
        }
    }
}

/// A string in quotes.
fn string(out: &mut String, text: &str) {
    out.push('"');
    for c in text.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            c if u32::from(c) < 0x20 => out.push_str(&format!("\\u{:04x}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
}
