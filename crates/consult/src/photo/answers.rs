//! What the outline and the length propose to the consultation. Which question is meant is told by what it asks for in its
//! drawings, so that no name of a question stands here.

use super::Photo;
use crate::guide::Guide;
use pack::Form;

/// A drawn sole: its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Drawn {
    /// What is drawn.
    pub(super) words: String,
    /// The question and choice that it stands for, if one.
    pub(super) choice: Option<(usize, usize)>,
    /// The kinds that are drawn so.
    pub(super) kinds: Vec<usize>,
}

/// The question that is answered by the length of the sole.
pub(super) fn of_length(guide: &Guide) -> Option<usize> {
    guide.core.questions.iter().position(|q| q.form == Form::Length && q.is_whole())
}

fn word<'a>(draw: &'a str, key: &str) -> Option<&'a str> {
    draw.split_ascii_whitespace().find_map(|w| w.strip_prefix(key)?.strip_prefix('='))
}

/// Every drawn sole that an outline is compared with: those of the choices that ask for outline or width, and those of
/// kinds that are drawn with another outline.
pub(super) fn drawn(guide: &Guide) -> Vec<Drawn> {
    let mut all: Vec<Drawn> = Vec::new();
    for (question, q) in guide.core.questions.iter().enumerate().filter(|(_, q)| q.is_whole()) {
        for (choice, c) in q.choices.iter().enumerate() {
            let asks = word(&c.draw, "ask");
            if word(&c.draw, "view") == Some("sole") && (asks == Some("outline") || asks == Some("width")) {
                let words = c.draw.clone();
                all.push(Drawn { words, choice: Some((question, choice)), kinds: Vec::new() });
            }
        }
    }
    let Some(book) = &guide.book else { return all };
    for (kind, words) in book.kinds.iter().enumerate() {
        let Some(outline) = word(&words.draw, "outline") else { continue };
        match all.iter_mut().find(|d| word(&d.words, "outline") == Some(outline)) {
            Some(same) => same.kinds.push(kind),
            None => {
                let words = format!("view=sole outline={outline}");
                all.push(Drawn { words, choice: None, kinds: vec![kind] });
            }
        }
    }
    all.truncate(30);
    all
}

/// Whether a drawn sole stands for a width rather than for an outline.
fn of_width(drawn: &Drawn) -> bool {
    word(&drawn.words, "ask") == Some("width")
}

/// Farther than this, per mille of half the first ellipse's length, no drawn sole is like it. Practice.
const UNLIKE: i32 = 250;

/// The drawn outlines, the nearest first, with how far they are.
pub(super) fn nearest(guide: &Guide, photo: &Photo) -> Vec<(Drawn, i32)> {
    let all = drawn(guide);
    if all.len() != photo.alike.len() {
        return Vec::new();
    }
    let mut near: Vec<(Drawn, i32)> = all
        .into_iter()
        .zip(&photo.alike)
        .filter(|(d, [far, _])| !of_width(d) && *far < UNLIKE)
        .map(|(d, [far, _])| (d, *far))
        .collect();
    // Few: put in order by hand, as one sort for floats is all that is linked.
    for i in 1..near.len() {
        let mut at = i;
        while at > 0 && near[at].1 < near[at - 1].1 {
            near.swap(at, at - 1);
            at -= 1;
        }
    }
    near
}

/// Answers that the outline proposes: question and choice. The outline by the nearest drawn one, the width by the drawn
/// one whose share of the length is nearest.
pub(super) fn proposed(guide: &Guide, photo: &Photo) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> =
        nearest(guide, photo).into_iter().find_map(|(d, _)| d.choice).into_iter().collect();
    let Some(outline) = photo.outline.as_ref().filter(|o| o.length > 0) else { return found };
    let own = 1000 * outline.width / outline.length;
    let wide = drawn(guide).into_iter().zip(&photo.alike).filter(|(d, _)| of_width(d));
    let near = wide.min_by_key(|(_, [_, wide])| (wide - own).abs());
    found.extend(near.and_then(|(d, _)| d.choice));
    found
}
