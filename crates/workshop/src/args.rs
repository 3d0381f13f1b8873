//! The words behind a verb: one folder, options with a value, switches.

use crate::End;

/// What was asked.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Args {
    /// The folder of the pack.
    pub(crate) pack: String,
    values: Vec<(String, String)>,
    switches: Vec<String>,
}

impl Args {
    /// Reads the words; prints the help or what is wrong when there is nothing to do.
    pub(crate) fn read(
        words: &[String],
        values: &[&str],
        switches: &[&str],
        help: &str,
    ) -> Result<Args, End> {
        if words.iter().any(|w| w == "--help" || w == "-h") {
            print!("{help}");
            return Err(End::Well);
        }
        Args::parse(words, values, switches).map_err(|says| refuse(&says, help))
    }

    fn parse(words: &[String], values: &[&str], switches: &[&str]) -> Result<Args, String> {
        let mut args = Args::default();
        let mut words = words.iter();
        while let Some(word) = words.next() {
            if switches.contains(&word.as_str()) {
                args.switches.push(word.clone());
            } else if values.contains(&word.as_str()) {
                let value = words.next().ok_or_else(|| format!("{word} needs a value behind it."))?;
                args.values.push((word.clone(), value.clone()));
            } else if word.starts_with('-') {
                return Err(format!("There is no option \"{word}\" here."));
            } else if args.pack.is_empty() {
                args.pack = word.clone();
            } else {
                return Err(format!("\"{word}\" is one word too many; only one folder can be named."));
            }
        }
        if args.pack.is_empty() {
            return Err("The folder of the pack is missing.".to_string());
        }
        Ok(args)
    }

    /// Whether a switch was given.
    pub(crate) fn has(&self, switch: &str) -> bool {
        self.switches.iter().any(|s| s == switch)
    }

    /// The value of an option; the last when it was given twice.
    pub(crate) fn value(&self, option: &str) -> Option<&str> {
        self.values.iter().rev().find(|(o, _)| o == option).map(|(_, v)| v.as_str())
    }
}

/// Says what was not understood, and how it goes.
pub(crate) fn refuse(says: &str, help: &str) -> End {
    eprint!("{says}\n\n{help}");
    End::Usage
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Result<Args, String> {
        let words: Vec<String> = line.split_whitespace().map(String::from).collect();
        Args::parse(&words, &["--out"], &["--json"])
    }

    #[test]
    fn words_are_sorted() {
        let args = parse("packs/a --json --out here");
        assert!(args.as_ref().is_ok_and(|a| a.pack == "packs/a" && a.has("--json")));
        assert_eq!(args.as_ref().ok().and_then(|a| a.value("--out")), Some("here"));
    }

    #[test]
    fn what_is_not_understood_is_said() {
        for line in ["", "a b", "a --out", "a --jsn", "--json"] {
            assert!(parse(line).is_err(), "{line} was taken");
        }
    }
}
