//! Care and cautions: what holds of any old piece, then the pack's own warnings.

use super::Pages;
use super::page::Page;
use super::sheet::{Block, Sheet, Tone};
use super::write::{card, line, lines, text};

/// What holds whatever the pack says. House rules of this program, not figures. Basis: practice.
const RULES: [&str; 5] = [
    "Local rules and licensed people come before anything that is said here.",
    "Never heat an old piece, light it, fill it or plug it in to test it. Nothing about its age or its kind is learned \
     that way.",
    "Do not repaint a painted piece and do not scrub it. Old paint is most of its worth, and its dust may hold lead.",
    "Do not polish, grind or strip before you know what it is: the skin tells its age, and it does not come back.",
    "Dry, and out of reach of small children, is all the care that most pieces want.",
];

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let mut body = Vec::new();
    card(&mut body, "Before anything else", RULES.iter().map(|r| text(Tone::Plain, r)).collect());
    for (title, grave) in [("Grave", true), ("Also", false)] {
        let mut blocks: Vec<Block> = Vec::new();
        for c in pages.core.cautions.iter().filter(|c| c.grave == grave) {
            blocks.push(text(if grave { Tone::Care } else { Tone::Plain }, &c.text));
            // The looks whose answers raise it, each once.
            let by = &c.raised_by;
            blocks.extend(lines(by.len(), &mut |at| {
                let q = by[at].0;
                if by[..at].iter().any(|(before, _)| *before == q) {
                    return None;
                }
                let q = usize::from(q);
                Some(line(pages.to(&Page::Look(q)), "Told by: ", &pages.core.questions[q].ask))
            }));
        }
        card(&mut body, title, blocks);
    }
    let hint = text(Tone::Hint, "Usual cautions, not advice for your case.");
    pages.sheet("Care and cautions", vec![hint], body)
}
