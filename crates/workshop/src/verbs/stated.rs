//! Where in its files a pack states what a kind shows at a question: found by reading lines, as a writer would look for them.

use compile::Fault;
use compile::sheets::Imported;

/// A line of looks, and where it stands.
struct Stated {
    /// File and line, or sheet and row.
    at: String,
    section: String,
    /// Id of the kind whose part of the file this is; none in what a family shares.
    kind: Option<String>,
}

/// The lines of a kind itself, else those of its family; else the usual line of the question, and those of the makes.
pub(super) fn of_kind(pack: &Imported, kind: &str, question: &str) -> String {
    let mut shared = None;
    for (path, text) in pack.files.iter().filter(|(p, _)| p.starts_with("kinds/")) {
        let lines = looks(pack, path, text, question);
        let at = |of: Option<&str>| -> Vec<&str> {
            lines.iter().filter(|l| l.kind.as_deref() == of).map(|l| l.at.as_str()).collect()
        };
        if let own = at(Some(kind))
            && !own.is_empty()
        {
            return own.join(", ");
        }
        if text.lines().any(|line| line.starts_with("id") && line.split('"').nth(1) == Some(kind)) {
            shared = Some(at(None).join(", ")).filter(|s| !s.is_empty());
        }
    }
    shared.map_or_else(|| unsaid(pack, question), |s| format!("its family, {s}"))
}

/// What holds where neither kind nor family says anything.
fn unsaid(pack: &Imported, question: &str) -> String {
    let mut usual = format!("usual, for {question}");
    for (path, text) in pack.files.iter().filter(|(p, _)| p.starts_with("questions/")) {
        let mut here = false;
        for (n, line) in (1..).zip(text.lines()) {
            if line.starts_with("id") && !line.starts_with("ids") {
                here = line.split('"').nth(1) == Some(question);
            } else if line.trim() == "[[question]]" {
                here = false;
            } else if here && line.starts_with("usual") {
                usual = format!("usual, {}", place(pack, path, n));
            }
        }
    }
    let makes = pack.files.iter().filter(|(p, _)| *p == "makes.toml");
    let makes: Vec<String> =
        makes.flat_map(|(path, text)| looks(pack, path, text, question)).map(|l| l.at).collect();
    if makes.is_empty() { usual } else { format!("{usual}, and the makes, {}", makes.join(", ")) }
}

/// Every line that states the question's table. What described pieces show is no table.
fn looks(pack: &Imported, path: &str, text: &str, question: &str) -> Vec<Stated> {
    let mut all = Vec::new();
    let (mut section, mut kind) = (String::new(), None);
    for (n, line) in (1..).zip(text.lines()) {
        let line = line.trim();
        if line.starts_with('[') {
            section = line.trim_matches(['[', ']']).to_string();
            if section == "kind" {
                kind = None;
            }
        } else if section == "kind" && kind.is_none() && line.starts_with("id") {
            kind = line.split('"').nth(1).map(String::from);
        }
        let table = section.ends_with(".looks") || line.starts_with("looks");
        if table && !section.contains("example") && names(line, question) {
            all.push(Stated { at: place(pack, path, n), section: section.clone(), kind: kind.clone() });
        }
    }
    // What a family shares stands before its first kind; another section's lines are nobody's.
    all.retain(|l| l.kind.is_some() || !l.section.starts_with("kind"));
    all
}

/// A place as the writer finds it.
fn place(pack: &Imported, path: &str, line: u32) -> String {
    let at = Fault {
        file: path.to_string(),
        line,
        field: String::new(),
        says: String::new(),
        hint: String::new(),
    };
    let at = pack.trace(&at);
    let column = if at.field.is_empty() { String::new() } else { format!(" ({})", at.field) };
    format!("{}:{}{column}", at.file, at.line)
}

/// Whether a line has this key: at its beginning, behind `looks.`, or within `looks = { ... }`, in quotes or without.
fn names(line: &str, key: &str) -> bool {
    line.match_indices(key).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + key.len()..].trim_start_matches('"').trim_start();
        before.is_none_or(|c| " {,.\"".contains(c)) && after.starts_with(['=', '.'])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files() -> Imported {
        let text = |t: &str| t.to_string();
        let files = compile::Files::new(vec![
            (
                text("kinds/a.toml"),
                text(
                    "[family.looks]\nrim = \"flat\"\n\n[[kind]]\nid = \"one\"\n[kind.looks]\nskin = \"pale\"\n[[kind.form]]\n\
                     looks = { \"skin\" = \"dark\", rim = \"high\" }\n[[kind.example]]\nlooks = { skin = \"pale\" }\n\n\
                     [[kind]]\nid = \"two\"\nlooks.skin = \"grey\"\n[[kind.example]]\nlooks = { rim = \"flat\", band = \"wire\" }\n",
                ),
            ),
            (text("makes.toml"), text("[[make]]\nid = \"old\"\n[make.looks]\nband = \"wire\"\n")),
            (
                text("questions/q.toml"),
                text(
                    "[[question]]\nid = \"rim\"\nusual = \"flat\"\n[[question]]\nid = \"band\"\nusual = \"none\"\n",
                ),
            ),
        ]);
        compile::sheets::import(&files).expect("plain files")
    }

    #[test]
    fn a_table_is_found_where_it_stands_and_never_at_a_described_piece() {
        let at = |kind, question| of_kind(&files(), kind, question);
        assert_eq!(at("one", "skin"), "kinds/a.toml:7, kinds/a.toml:9");
        assert_eq!(at("one", "rim"), "kinds/a.toml:9");
        assert_eq!(at("two", "skin"), "kinds/a.toml:15");
        assert_eq!(at("two", "rim"), "its family, kinds/a.toml:2");
        assert_eq!(at("two", "band"), "usual, questions/q.toml:6, and the makes, makes.toml:4");
        assert_eq!(at("two", "length"), "usual, for length");
    }
}
