//! Pages as fragments of the address, so that Back leads back.

use super::Page;

/// The pages that are one word.
const WORDS: [(&str, Page); 9] = [
    ("", Page::Start),
    ("task", Page::Task),
    ("mixed", Page::Mixed),
    ("test", Page::Test),
    ("talk", Page::Talk),
    ("teach", Page::Teach),
    ("board", Page::Board),
    ("sheets", Page::Sheets),
    ("table", Page::Class),
];

impl Page {
    /// Without the `#`.
    #[must_use]
    pub fn fragment(self) -> String {
        match self {
            Page::Lesson(at) => format!("lesson/{}", at + 1),
            page => WORDS.iter().find(|w| w.1 == page).map_or_else(String::new, |w| w.0.to_string()),
        }
    }

    /// With or without the `#`; what no page is called leads to the start.
    #[must_use]
    pub fn read(fragment: &str) -> Page {
        let fragment = fragment.trim_start_matches('#');
        if let Some(at) = fragment.strip_prefix("lesson/").and_then(|n| n.parse::<usize>().ok()) {
            return Page::Lesson(at.saturating_sub(1));
        }
        WORDS.iter().find(|w| w.0 == fragment).map_or(Page::Start, |w| w.1)
    }
}
