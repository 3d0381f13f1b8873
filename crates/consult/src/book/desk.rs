//! The pack desk, and the packs that are on this device: two pages that are about no pack. What is done there other
//! programs do; here is what they said, and what is shown of it.

use super::Pages;
use super::page::Page;
use super::sheet::{Act, Block, Line, Sheet, Tone};
use super::told::read;
use super::write::{card, text};

/// What was heard from the programs behind the two pages.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Desk {
    /// How far the work is, per mille, while it takes long.
    done: Option<u16>,
    /// What came of the work, as text.
    told: String,
    /// What the finished pack is called as a file; empty when there is none.
    file: String,
    /// The packs on this device.
    packs: Vec<Guest>,
    /// Whether they were told.
    listed: bool,
}

/// A pack of somebody else's on this device.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Guest {
    digest: String,
    name: String,
    edition: String,
    licence: String,
    open: bool,
    damaged: bool,
    /// What is said of its signature.
    says: String,
    source: String,
}

/// What is heard.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Heard {
    /// So much is done, per mille.
    Done(u16),
    /// The name of the finished file, and what came of the work on a line each further.
    Told(String),
    /// The packs on this device, as lines.
    Listed(String),
    /// A sentence why not.
    Failed(String),
    /// A sentence that it is done.
    Well(String),
}

impl Desk {
    /// Takes what was heard; gives a sentence to show.
    pub(super) fn hear(&mut self, heard: Heard) -> Option<String> {
        match heard {
            // What was found before is about other files: its keys would hand on something else.
            Heard::Done(mille) => {
                (self.file, self.told, self.done) = (String::new(), String::new(), Some(mille))
            }
            Heard::Told(text) => {
                let (file, told) = text.split_once('\n').unwrap_or_default();
                (self.file, self.told, self.done) = (file.to_string(), told.to_string(), None);
            }
            Heard::Listed(text) => {
                self.packs = text.lines().filter_map(guest).collect();
                self.listed = true;
            }
            Heard::Failed(says) | Heard::Well(says) => {
                self.done = None;
                return Some(says);
            }
        }
        None
    }
}

fn guest(line: &str) -> Option<Guest> {
    let mut parts = line.split('\u{1f}').map(str::to_string);
    let mut next = || parts.next();
    let (digest, name, edition, licence, word) = (next()?, next()?, next()?, next()?, next()?);
    let (says, source) = (next()?, next()?);
    let (open, damaged) = (word == "open", word == "damaged");
    Some(Guest { digest, name, edition, licence, open, damaged, says, source })
}

fn act(says: &str, what: &'static str, value: &str) -> Act {
    Act { says: says.to_string(), what, value: value.to_string() }
}

/// The pack desk.
pub(super) fn desk(pages: &Pages, desk: &Desk) -> Sheet {
    let mut lead = vec![text(
        Tone::Plain,
        "Make a guide of your own, about anything that is told apart by looking. You write sheets in a spreadsheet program; \
         here they are checked and made into a pack. They stay on this device.",
    )];
    let starter = vec![
        text(
            Tone::Plain,
            "A small pack of invented spoons, sound as it stands. Change it into yours, row by row.",
        ),
        Block::Acts(vec![act("Starter as sheets", "starter", "1"), act("Starter as texts", "starter", "")]),
    ];
    card(&mut lead, "1. Begin with the starter", starter);
    let mut hand = vec![
        text(
            Tone::Plain,
            "A ZIP with your sheets, or the sheets themselves. Sheets are saved as CSV, in UTF-8.",
        ),
        Block::Pick {
            id: "desk-files",
            says: "Choose or drop files".to_string(),
            what: "work",
            several: true,
        },
    ];
    if let Some(mille) = desk.done {
        hand.push(text(Tone::Hint, &format!("Looking it over\u{2026} {} of 100", mille / 10)));
    }
    card(&mut lead, "2. Have it looked over", hand);
    let mut body = Vec::new();
    let mut found = read(&desk.told).into_iter();
    if let Some(verdict) = found.next() {
        body.extend([Block::Said("What was found".to_string()), verdict]);
    }
    // Before the report, which may be long.
    if !desk.file.is_empty() {
        let keys = vec![act("Try it", "try", ""), act("Download the pack", "save", "")];
        let says = "Try it opens it here as a guest pack. The download is one file to hand on, to put on a site, or to sign.";
        card(&mut body, "3. Try it and hand it on", vec![text(Tone::Plain, says), Block::Acts(keys)]);
    }
    body.extend(found);
    pages.keyed("The pack desk", lead, body, [(&Page::Home, "Contents"), (&Page::Packs, "Packs")], true)
}

/// The packs on this device.
pub(super) fn packs(pages: &Pages, desk: &Desk) -> Sheet {
    let mut lead = vec![text(
        Tone::Plain,
        "One pack is open at a time. A guest pack comes from other people: what it says is theirs, not this guide's.",
    )];
    let bundled = !desk.packs.iter().any(|p| p.open);
    let state = if bundled { "Open now." } else { "Comes with this page." };
    let mut inside = vec![text(Tone::Plain, state)];
    if !bundled {
        inside.push(Block::Acts(vec![act("Open", "use", "")]));
    }
    card(&mut lead, "The bundled guide", inside);
    for pack in &desk.packs {
        card(&mut lead, &pack.name, shown(pack));
    }
    if desk.listed && desk.packs.is_empty() {
        lead.push(text(Tone::Hint, "No guest pack is on this device."));
    }
    let mut body = Vec::new();
    let file = vec![
        text(Tone::Plain, "If the pack is signed, pick its .minisig file together with it."),
        Block::Pick {
            id: "pack-file",
            says: "Choose or drop a pack".to_string(),
            what: "open",
            several: true,
        },
    ];
    card(&mut body, "From a file", file);
    let address = vec![
        Block::Field { id: "pack-address", says: "Name of its file here, such as club.pack".to_string() },
        Block::Acts(vec![act("Look there", "fetch", "")]),
    ];
    card(&mut body, "From this site", address);
    let key = vec![
        text(
            Tone::Plain,
            "A signature shows that a pack is as its club made it. Copy the club's key from where the club itself tells it; \
             it counts for what you open next. A key met once is known again.",
        ),
        Block::Field { id: "pack-key", says: "Key of the club, 56 letters and digits".to_string() },
    ];
    card(&mut body, "Signed packs", key);
    pages.keyed("Packs", lead, body, [(&Page::Home, "Contents"), (&Page::Desk, "Pack desk")], true)
}

fn shown(pack: &Guest) -> Vec<Block> {
    let row = |name: &str, says: &str| (name.to_string(), says.to_string());
    let short = pack.digest.get(..12).unwrap_or(&pack.digest);
    let mut rows = vec![row("Edition", &pack.edition), row("Licence", &pack.licence), row("Digest", short)];
    if !pack.source.is_empty() {
        rows.push(row("From", &pack.source));
    }
    let mut blocks = vec![Block::Rows(rows)];
    let mut keys = Vec::new();
    if pack.damaged {
        let says = "Damaged: what is kept here is not what was opened. Remove it and open its file again.";
        blocks.push(text(Tone::Care, says));
    } else {
        let line = Line { says: pack.says.clone(), ..Line::default() };
        blocks.push(Block::Text(Tone::Plain, line));
        if pack.open {
            blocks.push(text(Tone::Plain, "Open now."));
        } else {
            keys.push(act("Open", "use", &pack.digest));
        }
    }
    keys.push(act("Remove", "remove", &pack.digest));
    blocks.push(Block::Acts(keys));
    blocks
}
