//! What a user did, or what came from outside.

use crate::effect::{Gather, SheetSort, Why};
use crate::into::Preview;
use crate::store::{Failure, Room, Store};
use cabinet::find::{Filter, Sort};
use cabinet::record::{Moment, Record, Standing, Uuid};

/// What is given from outside with every message.
pub struct Given<'a> {
    /// What time it is.
    pub now: Moment,
    /// Gives an id that nobody has.
    pub fresh: &'a mut dyn FnMut() -> Uuid,
}

/// A place to type into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// The words to look for.
    Search,
    /// A field of the form: which part (0 is the record itself), which key of it.
    Form(usize, usize),
    /// What several pieces are to have.
    Bulk,
    /// The question to a specialist.
    Question,
    /// What a column of a table means, by its place.
    Column(usize),
    /// What is said to heirs: where photographs are, wishes.
    Heirs(usize),
    /// How this device is called.
    Device,
}

impl Spot {
    /// A name that no other place has.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Spot::Search => "search".to_string(),
            Spot::Form(part, at) => format!("form {part} {at}"),
            Spot::Bulk => "bulk".to_string(),
            Spot::Question => "question".to_string(),
            Spot::Column(at) => format!("column {at}"),
            Spot::Heirs(at) => format!("heirs {at}"),
            Spot::Device => "device".to_string(),
        }
    }
}

/// The sign between cards in one text. A card holds no such sign: it is made of tidy texts.
pub const CARD_END: char = '\u{1e}';

/// A message.
#[derive(Debug, Clone, PartialEq)]
pub enum Msg {
    /// The address changed.
    Went(String),
    /// The store is open, or why not.
    Store(Store),
    /// All cards have come, in one text with [`CARD_END`] between: thousands of texts come slower.
    Cards(String),
    /// Another window saved pieces of these ids.
    Heard(Vec<String>),
    /// Cards of pieces that another window saved.
    Others(Vec<String>),
    /// A draft or a note has come: its name and its text.
    Noted(String, String),
    /// The states of a piece have come.
    States(Uuid, Vec<String>),
    /// The states of several pieces have come.
    Many(Why, Vec<Vec<String>>),
    /// A save is complete: the cards as they are now.
    Saved(Vec<String>),
    /// Something of the store failed.
    Failed(Failure),
    /// What is known of the room on this device.
    Room(Room),
    /// A photograph is kept under its digest.
    Photo(String),
    /// A picture could not be taken: a sentence.
    NoPhoto(String),
    /// All records have come.
    Gathered(Gather, Vec<(Uuid, Record)>),
    /// How far something long has come.
    Progress(usize, usize),
    /// A file was written to its end.
    Exported,
    /// A file was read to its end, or what is wrong with it.
    Looked(Result<Preview, Vec<String>>),
    /// A table was read.
    Table(Vec<u8>),
    /// Something long was stopped.
    Stopped,
    /// Text was copied, or could not be.
    Copied(bool),
    /// A new version of the page waits.
    Update,

    /// Typed into a field.
    Type(Spot, String),
    /// Which pieces are listed; nothing for those that were taken out.
    Standing(Option<Standing>),
    /// A filter on or off.
    Filter(Filter),
    /// The order; the same again turns it round.
    Sort(Sort),
    /// Pictures or rows.
    Wall(bool),
    /// More of the list.
    More,
    /// Filters opened or closed.
    Filters,
    /// Several are to be chosen, or no longer.
    Several,
    /// One of them is chosen, or no longer.
    Choose(Uuid),
    /// All that are listed are chosen.
    ChooseAll,
    /// Which line of them is changed: its place among those offered.
    BulkKey(usize),
    /// Changes it in all of them.
    Bulk,
    /// Money shown or hidden.
    Money,
    /// Begins a record.
    New,
    /// Another part in the form.
    Part(usize),
    /// A part less.
    Drop(usize),
    /// Saves the form.
    Save,
    /// Leaves the form.
    Leave,
    /// Takes the piece out of the cabinet.
    Delete,
    /// Puts a piece back that was taken out.
    PutBack(Uuid),
    /// Of versions that disagree this one holds.
    Holds(Uuid),
    /// Takes what the guide says now into the record.
    TakeFinding,
    /// Leaves the record as it is.
    LeaveFinding,
    /// What the guide says is of another piece, which is kept too.
    Another,
    /// Writes the file of everything.
    Export,
    /// The records as a file: a table or linked data.
    File(Gather),
    /// A sheet for paper.
    Sheet(SheetSort),
    /// Takes what stands in the file that was looked at.
    TakeIn,
    /// Leaves it.
    LeaveIn,
    /// Stops what is running.
    Stop,
    /// Prints the screen.
    Print,
    /// Copies the sheet as text.
    Copy,
    /// The notice was read.
    Good,
    /// Agrees to the new version.
    AcceptUpdate,
}
