//! Care and cautions: what holds of any old iron, then the pack's own warnings.

use super::Pages;
use super::page::Page;
use super::sheet::{Block, Run, Sheet, Tone, say, section, text, toned};

/// What holds whatever the pack says. House rules of this program, not figures. Basis: practice.
const RULES: [&str; 5] = [
    "Local rules and licensed people come before anything that is said here.",
    "Never heat an old iron, light it, fill it or plug it in to see whether it works. What it does is written on it; \
     what it did to its last owner is not.",
    "Do not repaint a painted piece and do not scrub it. Old paint is most of its worth, and its dust may hold lead.",
    "Do not polish, grind or strip before you know what it is: the skin tells its age, and it does not come back.",
    "Dry, and out of reach of small children, is all the care that most irons want.",
];

pub(super) fn sheet(pages: &Pages) -> Sheet {
    let mut body = Vec::new();
    section(&mut body, "Before anything else", RULES.iter().map(|r| text(*r)).collect());
    let cautions = |grave: bool| -> Vec<Block> {
        let tone = if grave { Tone::Care } else { Tone::Plain };
        let all = pages.core.cautions.iter().enumerate().filter(|(_, c)| c.grave == grave);
        all.flat_map(|(at, c)| [toned(tone, &c.text)].into_iter().chain(raised(pages, at))).collect()
    };
    section(&mut body, "Grave", cautions(true));
    section(&mut body, "Also", cautions(false));
    Sheet {
        title: "Care and cautions".to_string(),
        lead: vec![toned(Tone::Hint, "Usual cautions, not advice for your case.")],
        body,
        keys: pages.usual_keys(),
    }
}

/// The looks whose answers raise a caution.
fn raised(pages: &Pages, caution: usize) -> Option<Block> {
    let by = &pages.core.cautions[caution].raised_by;
    let mut asked: Vec<u16> = by.iter().map(|(q, _)| *q).collect();
    asked.dedup();
    let mut runs = vec![say("Told by the look: ")];
    for (i, q) in asked.iter().map(|q| usize::from(*q)).enumerate() {
        if i > 0 {
            runs.push(say(" "));
        }
        runs.push(Run::Link(pages.to(&Page::Look(q)), pages.core.questions[q].ask.clone()));
    }
    (!asked.is_empty()).then_some(Block::Text(Tone::Small, runs))
}
