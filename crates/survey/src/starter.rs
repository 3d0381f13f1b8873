//! The small pack of invented spoons that newcomers begin with.

use compile::{Fault, Files, missing_codes};

/// The files, as they stand in the source.
const STARTER: [(&str, &str); 11] = [
    ("README.txt", include_str!("../starter/README.txt")),
    ("answers.txt", include_str!("../starter/answers.txt")),
    ("pack.toml", include_str!("../starter/pack.toml")),
    ("makes.toml", include_str!("../starter/makes.toml")),
    ("cautions.toml", include_str!("../starter/cautions.toml")),
    ("sources.toml", include_str!("../starter/sources.toml")),
    ("glossary.toml", include_str!("../starter/glossary.toml")),
    ("questions/1-form.toml", include_str!("../starter/questions/1-form.toml")),
    ("questions/2-make.toml", include_str!("../starter/questions/2-make.toml")),
    ("kinds/1-spoons.toml", include_str!("../starter/kinds/1-spoons.toml")),
    ("kinds/2-unknown.toml", include_str!("../starter/kinds/2-unknown.toml")),
];

/// Path and text of each file, texts for people among them, with the id and the name that are wanted; as sheets where that
/// is wanted.
///
/// # Errors
/// Faults when id or name cannot stand.
pub fn starter(
    id: Option<&str>,
    name: Option<&str>,
    sheets: bool,
) -> Result<Vec<(String, String)>, Vec<Fault>> {
    let mut all: Vec<(String, String)> =
        STARTER.iter().map(|(p, t)| (p.to_string(), t.to_string())).collect();
    let quoted = |value: &str| value.replace('\\', "\\\\").replace('"', "\\\"");
    for (field, value, line) in [("id", id, "id = \"mypack\""), ("name", name, "name = \"My first pack\"")] {
        if let Some(value) = value {
            let own = format!("{field} = \"{}\"", quoted(value));
            all.iter_mut()
                .filter(|(p, _)| p == "pack.toml")
                .for_each(|(_, t)| *t = t.replacen(line, &own, 1));
        }
    }
    let codes = missing_codes(&of_pack(&all));
    all.push(("codes.csv".to_string(), codes.iter().map(|l| format!("{l}\n")).collect()));
    if !sheets {
        return Ok(all);
    }
    let texts = all.iter().filter(|(p, _)| p.ends_with(".txt")).cloned();
    Ok(compile::sheets::export(&of_pack(&all))?.into_iter().chain(texts).collect())
}

/// What of it is the pack itself.
fn of_pack(all: &[(String, String)]) -> Files {
    Files::new(all.iter().filter(|(p, _)| !p.ends_with(".txt")).cloned().collect())
}
