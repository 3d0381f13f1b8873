//! `workshop words`: the words in which a drawing is described.

use crate::End;
use crate::args::refuse;

const HELP: &str = "\
workshop words

Lists the words that a line draw = \"...\" may use: for each key its values and the views that show it.
What is left out of a line takes the first value.
";

/// Runs the verb.
pub(crate) fn run(words: &[String]) -> End {
    match words {
        [] => {
            for key in sketch::words() {
                let values: Vec<&str> = key.values.iter().map(|v| v.name).collect();
                println!(
                    "{}  (drawn in: {})\n    {}",
                    key.name,
                    key.views,
                    values.join(", ")
                );
            }
            End::Well
        }
        [word] if word == "--help" || word == "-h" => {
            print!("{HELP}");
            End::Well
        }
        [word, ..] => refuse(&format!("\"{word}\" cannot stand here."), HELP),
    }
}
