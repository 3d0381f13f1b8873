//! Progress as plain text, one line for each thing, for the phone's store and for the export of the cabinet.

use super::{Card, DAYS, Progress, Trial};
use crate::item::Item;

const HEADER: &str = "pressmark practice 1";
/// Longer texts are refused, and so are more lines.
const LONGEST: usize = 1 << 20;
const MOST_LINES: usize = 20_000;

impl Progress {
    /// As a text. Reading it gives the same progress.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = format!("{HEADER}\npack {}\nasked {}\n", self.pack, self.asked);
        for c in &self.cards {
            let item = c.item.words();
            text.push_str(&format!(
                "{item} box {} due {} right {} wrong {}\n",
                c.stands + 1,
                c.due,
                c.right,
                c.wrong
            ));
        }
        for (was, taken, times) in &self.took {
            text.push_str(&format!("took {was} for {taken} times {times}\n"));
        }
        for lesson in &self.lessons {
            text.push_str(&format!("lesson {lesson}\n"));
        }
        for t in &self.trials {
            text.push_str(&format!("trial {} right {} seed {}\n", t.day, t.right, t.seed));
        }
        for line in &self.others {
            text.push_str(line);
            text.push('\n');
        }
        text
    }

    /// Reads a text. Lines that are not known are kept as they are: a later program may know them.
    ///
    /// # Errors
    /// A sentence when it is no such text, or of another pack.
    pub fn read(text: &str, pack: &str) -> Result<Progress, String> {
        if text.len() > LONGEST || text.lines().count() > MOST_LINES {
            return Err("This file of practice is longer than any that was written here.".to_string());
        }
        let mut lines = text.lines();
        if lines.next().map(str::trim_end) != Some(HEADER) {
            return Err("This is no file of practice, or one of a later program.".to_string());
        }
        let mut read = Progress::of(pack);
        for line in lines {
            // Before anything is read: a line that is kept must be the same one when it is read again.
            let line: String = line.chars().filter(|c| !c.is_control()).collect();
            let line = line.trim_end();
            if line.is_empty() {
                continue;
            }
            let words: Vec<&str> = line.split(' ').collect();
            if let ["pack", id] = words[..] {
                if id != pack {
                    return Err(format!("This practice belongs to the guide \u{201c}{}\u{201d}.", shown(id)));
                }
                continue;
            }
            if read.line(&words).is_none()
                && let Err(at) = read.others.binary_search_by(|other| other.as_str().cmp(line))
            {
                read.others.insert(at, line.to_string());
            }
        }
        Ok(read)
    }

    fn line(&mut self, words: &[&str]) -> Option<()> {
        match *words {
            ["asked", n] => self.asked = number(n)?,
            ["took", was, "for", taken, "times", times] => {
                let (was, taken, times) = (number(was)?, number(taken)?, number(times)?);
                self.take(was, taken, times);
            }
            ["lesson", code] => self.learned(number(code)?),
            ["trial", day, "right", right, "seed", seed] => {
                let trial = Trial { day: number(day)?, right: number(right)?, seed: number(seed)? };
                self.tried(trial);
            }
            _ => {
                let (item, rest) = Item::read(words)?;
                let ["box", stands, "due", due, "right", right, "wrong", wrong] = *rest else { return None };
                let stands: usize = number::<usize>(stands)?.checked_sub(1).filter(|s| *s < DAYS.len())?;
                let card =
                    Card { item, stands, due: number(due)?, right: number(right)?, wrong: number(wrong)? };
                let at = self.cards.binary_search_by(|c| c.item.cmp(&item)).err()?;
                self.cards.insert(at, card);
            }
        }
        Some(())
    }
}

/// A plain number as this program writes it: digits, no sign, no noughts before.
fn number<T: std::str::FromStr>(text: &str) -> Option<T> {
    let plain = text.bytes().all(|b| b.is_ascii_digit()) && (text == "0" || !text.starts_with('0'));
    if plain { text.parse().ok() } else { None }
}

fn shown(id: &str) -> String {
    id.chars().filter(|c| !c.is_control()).take(40).collect()
}
