//! One line of a table: `bar usually, pierced sometimes`, `bar 80, pierced 20`, `wire defines`.

use crate::cursor::Value;
use crate::even;
use crate::fault::{meant, quote};
use crate::text::Wrong;
use units::Basis;

/// The words of frequency, the strongest first.
pub(crate) const WORDS: [&str; 6] = ["always", "usually", "often", "sometimes", "seldom", "never"];
/// The word for what is so by definition.
const DEFINES: &str = "defines";

/// What the words of frequency weigh, in the order of [`WORDS`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Weights(pub(crate) [f64; 6]);

impl Weights {
    fn of(&self, word: &str) -> Option<f64> {
        WORDS.iter().position(|w| *w == word).map(|i| self.0[i])
    }

    fn never(&self) -> f64 {
        self.0[5]
    }
}

/// A line as read.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Line {
    /// By choice.
    pub(crate) weights: Vec<f64>,
    /// True by definition: zero stays zero.
    pub(crate) defines: bool,
}

impl Line {
    /// Per mille by choice. Only what is published or so by definition may be certain.
    pub(crate) fn shares(&self, basis: Basis) -> Vec<u16> {
        if self.defines || basis == Basis::Published {
            even::per_mille(&self.weights)
        } else {
            even::per_mille(&even::bounded(&self.weights))
        }
    }
}

/// What is wrong with a line.
#[derive(Debug, PartialEq)]
pub(crate) struct Refused {
    wrong: Vec<Wrong>,
    /// Names that the question does not have.
    unknown: Vec<Wrong>,
}

impl Refused {
    /// Hands everything to the collector.
    pub(crate) fn tell(self, at: &Value<'_>) {
        for (says, hint) in self.wrong {
            at.faults().add(&at.spot, says, hint);
        }
        for (says, hint) in self.unknown {
            at.faults().add_unknown(&at.spot, says, hint);
        }
    }
}

/// What a line shares out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Of {
    /// The choices of a question.
    Choices,
    /// The roles of `pack.toml`.
    Roles,
    /// The makes of `pack.toml`: per cents only, for a make that never occurs has no table at all.
    Makes,
}

impl Of {
    /// In a message: what a name is not, and the heading of those that there are.
    fn names(self) -> (&'static str, &'static str) {
        match self {
            Of::Choices => ("a choice of this question", "Choices"),
            Of::Roles => ("a role of pack.toml", "Roles"),
            Of::Makes => ("a make of pack.toml", "Makes"),
        }
    }

    fn example(self) -> &'static str {
        match self {
            Of::Choices => "Write choices and words, or choices and per cents: bar usually, wire seldom",
            Of::Roles => "Write roles and per cents that sum to 100: toy 85, working 15",
            Of::Makes => "Write makes and per cents that sum to 100: period 75, later 25",
        }
    }
}

enum Item<'a> {
    Word(&'a str, f64),
    PerCent(&'a str, u32),
    Defines(Option<&'a str>),
}

/// Reads a line.
///
/// # Errors
/// Everything that is wrong with it.
pub(crate) fn read(text: &str, of: Of, ids: &[&str], words: &Weights) -> Result<Line, Refused> {
    let (mut wrong, mut unknown) = (Vec::new(), Vec::new());
    let mut items = Vec::new();
    for piece in text.split(',') {
        match item(piece, of, words) {
            Ok(i) => items.push(i),
            Err(w) => wrong.push(w),
        }
    }
    let by_word = items.iter().any(|i| matches!(i, Item::Word(..)));
    let by_number = items.iter().any(|i| matches!(i, Item::PerCent(..)));
    let defines = items.iter().any(|i| matches!(i, Item::Defines(_)));
    if by_word && by_number {
        let says = "Words and per cents stand in one line.".to_string();
        wrong.push((says, "Use the one or the other.".to_string()));
    }
    let mut given: Vec<Option<f64>> = vec![None; ids.len()];
    for item in &items {
        let (choice, weight) = match *item {
            Item::Word(c, w) => (c, w),
            Item::PerCent(c, tenths) => (c, f64::from(tenths)),
            Item::Defines(Some(c)) => (c, if by_number { 0.0 } else { words.0[0] }),
            Item::Defines(None) => continue,
        };
        match ids.iter().position(|c| *c == choice) {
            None => {
                let (what, heading) = of.names();
                let says = format!("{} is not {what}.", quote(choice));
                unknown.push((says, meant(choice, ids.iter().copied(), heading)));
            }
            Some(at) if given[at].is_some() => {
                let says = format!("{} stands twice in this line.", quote(choice));
                wrong.push((says, "Name each choice once.".to_string()));
            }
            Some(at) => given[at] = Some(weight),
        }
    }
    if by_number && !by_word && wrong.is_empty() && unknown.is_empty() {
        let tenths: f64 = given.iter().flatten().sum();
        if tenths != 1000.0 {
            let says = format!("The per cents sum to {}, not to 100.", tenths / 10.0);
            wrong.push((says, "Choices that are left out count as 0.".to_string()));
        }
    }
    if wrong.is_empty() && unknown.is_empty() && !given.iter().flatten().any(|w| *w > 0.0) {
        wrong.push(("The line gives nothing any weight.".to_string(), of.example().to_string()));
    }
    if !wrong.is_empty() || !unknown.is_empty() {
        return Err(Refused { wrong, unknown });
    }
    let left_out = if by_word && !defines { words.never() } else { 0.0 };
    Ok(Line { weights: given.into_iter().map(|g| g.unwrap_or(left_out)).collect(), defines })
}

fn item<'a>(piece: &'a str, of: Of, words: &Weights) -> Result<Item<'a>, Wrong> {
    let unclear = |says: String| Err((says, of.example().to_string()));
    let mut parts = piece.split_whitespace();
    let (name, how) = match (parts.next(), parts.next(), parts.next()) {
        (Some(name), Some(how), None) => (name, how),
        (Some(DEFINES), None, None) if of != Of::Makes => return Ok(Item::Defines(None)),
        (Some(name), None, None) => return unclear(format!("How often {} is not said.", quote(name))),
        (None, ..) => return unclear("There is nothing between two commas.".to_string()),
        _ => {
            return unclear(format!("{} is more than a name and how often it is met.", quote(piece.trim())));
        }
    };
    if how.starts_with(|c: char| c.is_ascii_digit()) {
        return match per_cent_tenths(how) {
            Some(tenths) => Ok(Item::PerCent(name, tenths)),
            None => {
                unclear(format!("{} is not a number from 0 to 100 with at most one decimal.", quote(how)))
            }
        };
    }
    match (of, how, words.of(how)) {
        (Of::Makes, ..) => unclear(format!("{} is not a number.", quote(how))),
        (_, DEFINES, _) => Ok(Item::Defines(Some(name))),
        (_, _, Some(weight)) => Ok(Item::Word(name, weight)),
        (_, _, None) => Err((
            format!("{} is not a word of frequency.", quote(how)),
            meant(how, WORDS.into_iter().chain([DEFINES]), "Words"),
        )),
    }
}

/// Tenths of a per cent: `80`, `12.5`.
fn per_cent_tenths(text: &str) -> Option<u32> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |t: &str, most: usize| {
        let sound = !t.is_empty() && t.len() <= most && t.bytes().all(|b| b.is_ascii_digit());
        sound.then(|| t.parse::<u32>().ok()).flatten()
    };
    let tenths = digits(whole, 3)? * 10 + digits(part, 1)?;
    (tenths <= 1000).then_some(tenths)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The words as data/README.md gives them.
    const USUAL: Weights = Weights([900.0, 600.0, 300.0, 150.0, 50.0, 20.0]);
    const CHOICES: [&str; 3] = ["bar", "pierced", "wire"];

    fn shares(text: &str, basis: Basis) -> Vec<u16> {
        read(text, Of::Choices, &CHOICES, &USUAL).map(|l| l.shares(basis)).unwrap_or_default()
    }

    #[test]
    fn lines_become_shares() {
        // By hand from the weights above: 600 : 150 : 20 of 770; 900 : 20 : 20 of 940 is .957, held at .93.
        assert_eq!(shares("bar usually, pierced sometimes", Basis::Published), [779, 195, 26]);
        assert_eq!(shares("bar always", Basis::Memory), [930, 35, 35]);
        assert_eq!(shares("bar 80, pierced 15, wire 5", Basis::Memory), [800, 150, 50]);
        assert_eq!(shares("bar 99.5, wire 0.5", Basis::Published), [995, 0, 5]);
        assert_eq!(shares("wire defines", Basis::Memory), [0, 0, 1000]);
        assert_eq!(shares("bar 80, wire 20, defines", Basis::Memory), [800, 0, 200]);
        assert_eq!(shares("bar defines, wire defines", Basis::Memory), [500, 0, 500]);
        assert_eq!(shares("bar often, wire often, defines", Basis::Memory), [500, 0, 500]);
    }

    #[test]
    fn lines_that_are_refused() {
        for text in [
            "",
            "bar",
            "barr usually",
            "bar mostly",
            "bar usually,",
            "bar usually, pierced 20",
            "bar 80, wire 10",
            "bar 50, bar 50",
            "bar 101",
            "bar 99.55, wire 0.45",
            "bar -5, wire 105",
            "bar 1e2",
            "bar nan",
            "defines",
            "bar usually often",
            "bar 100 wire",
            "bar 0, wire 0",
        ] {
            assert!(read(text, Of::Choices, &CHOICES, &USUAL).is_err(), "{text} was taken");
        }
        assert!(read("bar usually", Of::Makes, &CHOICES, &USUAL).is_err());
        assert!(read("bar defines", Of::Makes, &CHOICES, &USUAL).is_err());
    }
}
