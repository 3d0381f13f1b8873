//! `workshop words`: the words in which a drawing is described.

use crate::End;
use crate::args::refuse;
use crate::folder;

/// Where the art lies when the command is given in the root of the project.
const ART: &str = "data/art";

const HELP: &str = "\
workshop words [FOLDER]

Lists the words that a line draw = \"...\" may use: for each key the views that show it, its values and what each
shows. What only goes along in a view is drawn there when it is said, but cannot be asked there. What is left out of a line takes the first value. The values are the figures of FOLDER (data/art).
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    match words {
        [word] if word == "--help" || word == "-h" => {
            print!("{HELP}");
            End::Well
        }
        [] => list(ART),
        [folder] if !folder.starts_with('-') => list(folder),
        [word, ..] => refuse(&format!("\"{word}\" cannot stand here."), HELP),
    }
}

fn list(folder: &str) -> End {
    let figures = match folder::art(folder) {
        Ok(figures) => figures,
        Err(says) => return refuse(&says, HELP),
    };
    for key in &sketch::KEYS {
        let views = match (key.views, key.also) {
            ("", _) => String::new(),
            (views, "") => format!("  (drawn in: {views})"),
            (views, also) => format!("  (drawn in: {views}; goes along in: {also})"),
        };
        println!("{}{views}", key.name);
        for figure in &figures {
            if let Some(value) = figure.name.strip_prefix(key.name).and_then(|v| v.strip_prefix('.')) {
                println!("    {value:<12} {}", figure.says);
            }
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
    End::Well
}
