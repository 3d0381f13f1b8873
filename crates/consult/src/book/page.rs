//! Which page a fragment names, and the fragment that names a page: `irons/kind/12`, by permanent codes.
//!
//! Unlike the fragment of a consultation it has no check of its own: a lost digit shows another page, not another piece.

use super::Pages;
use super::fold::{fold, slug};

/// The longest fragment that is read.
const LONGEST: usize = 200;
/// The longest text that is looked for, in characters.
const LONGEST_SOUGHT: usize = 60;

/// A page of the guide. Numbers are indices.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Page {
    /// The contents.
    #[default]
    Home,
    /// All kinds.
    Kinds(Grouping),
    /// One kind.
    Kind(usize),
    /// A kind beside another, or the choice of that other.
    Compare(usize, Option<usize>),
    /// All looks.
    Looks,
    /// One look.
    Look(usize),
    /// The words of the field that begin with or are near a text.
    Terms(String),
    /// One word.
    Term(usize),
    /// The parts of an iron.
    Parts,
    /// Care and cautions.
    Care,
    /// Where figures come from.
    Sources,
    /// What was looked for.
    Search(String),
    /// Where packs are made.
    Desk,
    /// The packs on this device.
    Packs,
}

/// Fragments of the pages that are about no pack. No pack has such an id (`compile` refuses it).
const ABOUT_NONE: [(&str, Page); 2] = [("desk", Page::Desk), ("packs", Page::Packs)];

/// How kinds are grouped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Grouping {
    /// By the answer to the first look of the guide that has choices.
    #[default]
    Usual,
    /// By the answer to a look.
    Look(usize),
    /// By what they were made as.
    Role,
    /// By their names.
    Name,
}

impl Pages {
    /// The fragment of a page, without `#`.
    #[must_use]
    pub fn fragment(&self, page: &Page) -> String {
        let id = &self.core.head.id;
        let kind = |k: usize| self.core.kinds[k].code;
        let look = |q: usize| self.core.questions[q].code;
        match page {
            Page::Home => id.clone(),
            Page::Kinds(Grouping::Usual) => format!("{id}/kinds"),
            Page::Kinds(Grouping::Look(q)) => format!("{id}/kinds/{}", look(*q)),
            Page::Kinds(Grouping::Role) => format!("{id}/kinds/made-as"),
            Page::Kinds(Grouping::Name) => format!("{id}/kinds/names"),
            Page::Kind(k) => format!("{id}/kind/{}", kind(*k)),
            Page::Compare(a, None) => format!("{id}/compare/{}", kind(*a)),
            Page::Compare(a, Some(b)) => format!("{id}/compare/{}/{}", kind(*a), kind(*b)),
            Page::Looks => format!("{id}/looks"),
            Page::Look(q) => format!("{id}/look/{}", look(*q)),
            Page::Terms(text) => format!("{id}/words{}", sought(text)),
            Page::Term(t) => format!("{id}/word/{}", slug(&self.book.terms[*t].word)),
            Page::Parts => format!("{id}/parts"),
            Page::Care => format!("{id}/care"),
            Page::Sources => format!("{id}/sources"),
            Page::Search(text) => format!("{id}/find{}", sought(text)),
            Page::Desk => ABOUT_NONE[0].0.to_string(),
            Page::Packs => ABOUT_NONE[1].0.to_string(),
        }
    }

    /// The page that a fragment names, with or without `#`.
    ///
    /// # Errors
    /// A sentence for the person who opened the link.
    pub fn page(&self, fragment: &str) -> Result<Page, String> {
        let fragment = fragment.trim_start_matches('#');
        if fragment.is_empty() {
            return Ok(Page::Home);
        }
        if let Some((_, page)) = ABOUT_NONE.into_iter().find(|(name, _)| *name == fragment) {
            return Ok(page);
        }
        let mut parts = fragment.split('/');
        if parts.next() != Some(self.core.head.id.as_str()) {
            return Err("This link belongs to another guide. Here is the start of this one.".to_string());
        }
        let named = (fragment.len() <= LONGEST).then(|| self.named(parts)).flatten();
        named.ok_or_else(|| {
            "This link names a page that this edition does not have. Here is the start.".to_string()
        })
    }

    fn named<'a>(&self, mut parts: impl Iterator<Item = &'a str>) -> Option<Page> {
        let kind = |code: &str| {
            let code: u16 = code.parse().ok()?;
            self.kinds().into_iter().find(|k| self.core.kinds[*k].code == code)
        };
        let look = |code: &str| {
            let code: u16 = code.parse().ok()?;
            self.core.questions.iter().position(|q| q.code == code)
        };
        let (what, which, third) = (parts.next(), parts.next(), parts.next());
        if parts.next().is_some() {
            return None;
        }
        Some(match (what, which, third) {
            (None, ..) => Page::Home,
            (Some("kinds"), None, _) => Page::Kinds(Grouping::Usual),
            (Some("kinds"), Some("made-as"), None) => Page::Kinds(Grouping::Role),
            (Some("kinds"), Some("names"), None) => Page::Kinds(Grouping::Name),
            (Some("kinds"), Some(code), None) => {
                Page::Kinds(Grouping::Look(look(code).filter(|q| self.groups_by(*q))?))
            }
            (Some("kind"), Some(code), None) => Page::Kind(kind(code)?),
            (Some("compare"), Some(one), None) => Page::Compare(kind(one)?, None),
            (Some("compare"), Some(one), Some(other)) => {
                let (one, other) = (kind(one)?, kind(other)?);
                Page::Compare(one, (one != other).then_some(other))
            }
            (Some("looks"), None, _) => Page::Looks,
            (Some("look"), Some(code), None) => Page::Look(look(code)?),
            (Some("words"), text, None) => Page::Terms(read_sought(text.unwrap_or_default())),
            (Some("word"), Some(word), None) => {
                Page::Term(self.book.terms.iter().position(|t| slug(&t.word) == word)?)
            }
            (Some("parts"), None, _) => Page::Parts,
            (Some("care"), None, _) => Page::Care,
            (Some("sources"), None, _) => Page::Sources,
            (Some("find"), text, None) => Page::Search(read_sought(text.unwrap_or_default())),
            _ => return None,
        })
    }
}

/// What is looked for as it stands in a fragment, behind a stroke: plain letters and digits, `+` between words.
fn sought(text: &str) -> String {
    let folded = fold(text);
    if folded.is_empty() { folded } else { format!("/{}", folded.replace(' ', "+")) }
}

fn read_sought(text: &str) -> String {
    text.replace('+', " ").chars().take(LONGEST_SOUGHT).collect()
}

/// What was typed, cut to the length that is looked for.
pub(super) fn typed(text: &str) -> String {
    text.chars().take(LONGEST_SOUGHT).collect()
}
