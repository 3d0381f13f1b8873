//! Where a figure comes from.

/// Every figure says which of these it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// Read in a source that is named beside the figure.
    Published,
    /// What people in the field commonly do or say; no source.
    Practice,
    /// Somebody's memory of the field, not checked.
    Memory,
    /// Made up for a demonstration, and said to be.
    Invented,
}

impl Basis {
    /// All of them, strongest first.
    pub const ALL: [Basis; 4] = [Basis::Published, Basis::Practice, Basis::Memory, Basis::Invented];

    /// The word used in data files.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Basis::Published => "published",
            Basis::Practice => "practice",
            Basis::Memory => "memory",
            Basis::Invented => "invented",
        }
    }

    /// The words shown to a reader.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            Basis::Published => "from a published source",
            Basis::Practice => "common practice, no source",
            Basis::Memory => "from memory, not checked",
            Basis::Invented => "invented, for demonstration only",
        }
    }

    /// Reads the data-file word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Basis> {
        Basis::ALL.into_iter().find(|b| b.word() == word)
    }
}
