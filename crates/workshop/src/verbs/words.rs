//! `workshop words`: the words in which a drawing is described.

use crate::End;
use crate::args::refuse;
use crate::folder;
use compile::Figure;
use serde_json::{Value, json};

/// Where the art lies when the command is given in the root of the project.
const ART: &str = "data/art";

const HELP: &str = "\
workshop words [FOLDER] [--json]

Lists the words that a line draw = \"...\" may use: for each key the views that show it, its values and what each
shows. What only goes along in a view is drawn there when it is said, but cannot be asked there. What is left out of a line takes the first value. The values are the figures of FOLDER (data/art).
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    if words.iter().any(|w| w == "--help" || w == "-h") {
        print!("{HELP}");
        return End::Well;
    }
    let (switches, folders): (Vec<&str>, Vec<&str>) =
        words.iter().map(String::as_str).partition(|w| *w == "--json");
    let folder = match folders[..] {
        [] => ART,
        [folder] if !folder.starts_with('-') => folder,
        [word, ..] => return refuse(&format!("\"{word}\" cannot stand here."), HELP),
    };
    match folder::art(folder) {
        Ok(figures) if switches.is_empty() => list(&figures),
        Ok(figures) => println!("{:#}", json!({ "keys": keys(&figures) })),
        Err(says) => return refuse(&says, HELP),
    }
    End::Well
}

/// The values of a key and what each shows.
fn values<'a>(figures: &'a [Figure], key: &'a sketch::Key) -> impl Iterator<Item = (&'a str, &'a str)> {
    let value = |name: &'a str| name.strip_prefix(key.name).and_then(|v| v.strip_prefix('.'));
    figures.iter().filter_map(move |f| Some((value(&f.name)?, f.says.as_str())))
}

fn list(figures: &[Figure]) {
    for key in &sketch::KEYS {
        let views = match (key.views, key.also) {
            ("", _) => String::new(),
            (views, "") => format!("  (drawn in: {views})"),
            (views, also) => format!("  (drawn in: {views}; goes along in: {also})"),
        };
        println!("{}{views}", key.name);
        for (value, says) in values(figures, key) {
            println!("    {value:<12} {says}");
        }
        match key.name {
            "size" => println!(
                "    a number      length of the sole in mm, from {} to {}",
                sketch::SIZES.0,
                sketch::SIZES.1
            ),
            "ask" => println!("    a key         what is drawn in the accent"),
            _ => {}
        }
    }
}

fn keys(figures: &[Figure]) -> Vec<Value> {
    let views = |names: &str| names.split_whitespace().map(str::to_string).collect::<Vec<_>>();
    let of = |key: &sketch::Key| {
        let values: Vec<Value> =
            values(figures, key).map(|(value, says)| json!({ "value": value, "shows": says })).collect();
        json!({ "key": key.name, "drawn_in": views(key.views), "goes_along_in": views(key.also), "values": values })
    };
    sketch::KEYS.iter().map(of).collect()
}
