//! The shape of every file of a pack, said once: which fields there are, of what sort, and what they are for. The readers
//! stand apart from it and refuse what they do not know; a test holds the two together. Sheets for spreadsheets
//! ([`crate::sheets`]) and the schemas for editors follow from it.

mod kinds;
mod lists;

/// The names of which list a text is one of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Questions.
    Questions,
    /// Choices of the question that the field is about.
    Choices,
    /// Kinds.
    Kinds,
    /// Makes of `pack.toml`.
    Makes,
    /// Places of `pack.toml`.
    Places,
    /// Tools of `pack.toml`.
    Tools,
    /// Parts of `pack.toml`.
    Parts,
    /// Roles of `pack.toml`.
    Roles,
    /// Groups of `pack.toml`.
    Groups,
    /// Cautions of `cautions.toml`.
    Cautions,
    /// Keys of `sources.toml`.
    Sources,
    /// No list: any name of the writer's own.
    Own,
}

/// What may stand behind a field.
#[derive(Debug, Clone, Copy)]
pub enum Sort {
    /// A text of at most so many characters.
    Text(u16),
    /// A name from a list.
    Name(Of),
    /// One of these words.
    Word(&'static [&'static str]),
    /// A number between bounds.
    Number(i32, i32),
    /// A whole number between bounds.
    Whole(i32, i32),
    /// True or false.
    Flag,
    /// A date: year, month, day.
    Date,
    /// A list of names.
    Names(Of),
    /// A list of sentences.
    Sentences,
    /// A list of so many numbers.
    Numbers(u8),
    /// A line of a table: a text, or a table with `says`, `basis`, `source`.
    Table,
    /// Answers by question, in the order in which they are written.
    Answers,
    /// Lines named freely, or by a list: `at = { dug = 20 }`.
    Free(Of, &'static Sort),
    /// A table within the table.
    One(&'static Shape),
    /// A table that stands once in a file, and the sheet that has a row for it.
    Once(&'static str, &'static Shape),
    /// A list of tables, and the sheet that has a row for each.
    Many(&'static str, &'static Shape),
}

/// A field of a table.
#[derive(Debug)]
pub struct Field {
    /// As it is written.
    pub name: &'static str,
    /// What may stand behind it.
    pub sort: Sort,
    /// Whether it must be there.
    pub must: bool,
    /// What it is for, a sentence for an editor to show.
    pub says: &'static str,
}

/// The fields of a table.
#[derive(Debug)]
pub struct Shape {
    /// Those with a name of their own.
    pub fields: &'static [Field],
    /// What stands under the name of each make, where makes may stand.
    pub by_make: Option<&'static Shape>,
    /// Lines with free names, where the table is a list of such.
    pub free: Option<&'static Field>,
}

/// A sort of file.
#[derive(Debug)]
pub struct FileShape {
    /// The path of the file, or the folder with `/` behind.
    pub path: &'static str,
    /// The sheet that has a line for each field of the file itself; empty where there are none.
    pub sheet: &'static str,
    /// What stands in it.
    pub shape: &'static Shape,
}

/// All sorts of files of a pack, but for `codes.csv`.
pub const FILES: [FileShape; 8] = [
    FileShape { path: "pack.toml", sheet: "pack", shape: &lists::PACK },
    FileShape { path: "makes.toml", sheet: "", shape: &lists::MAKES },
    FileShape { path: "cautions.toml", sheet: "", shape: &lists::CAUTIONS },
    FileShape { path: "sources.toml", sheet: "sources", shape: &lists::SOURCES },
    FileShape { path: "glossary.toml", sheet: "", shape: &lists::GLOSSARY },
    FileShape { path: "questions/", sheet: "", shape: &lists::QUESTIONS },
    FileShape { path: "kinds/", sheet: "", shape: &kinds::KINDS },
    FileShape { path: "lessons/", sheet: "", shape: &lists::LESSONS },
];

/// The words for what a figure rests on.
pub const BASES: [&str; 4] = ["published", "practice", "memory", "invented"];

const fn must(name: &'static str, sort: Sort, says: &'static str) -> Field {
    Field { name, sort, must: true, says }
}

const fn may(name: &'static str, sort: Sort, says: &'static str) -> Field {
    Field { name, sort, must: false, says }
}

const fn shape(fields: &'static [Field]) -> Shape {
    Shape { fields, by_make: None, free: None }
}

const BASIS: Field = may("basis", Sort::Word(&BASES), "What the figures rest on.");
const SOURCE: Field = may("source", Sort::Name(Of::Sources), "The source of a published figure.");

/// What stands behind a table's line when its figures rest on something of their own.
pub const SAID: Shape =
    shape(&[must("says", Sort::Text(400), "The line: choices, and how often."), BASIS, SOURCE]);

impl Shape {
    /// What may stand behind a name: a field's own sort, a make's table, a free line.
    #[must_use]
    pub fn sort(&self, name: &str) -> Option<Sort> {
        let own = self.fields.iter().find(|f| f.name == name).map(|f| f.sort);
        own.or(self.free.map(|f| f.sort)).or(self.by_make.map(Sort::One))
    }
}
