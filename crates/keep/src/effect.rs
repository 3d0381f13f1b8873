//! What the page must do.

use crate::saving::Saving;
use cabinet::record::{Profile, Uuid};

/// Why all records are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gather {
    /// A table, as the profile lets it be seen.
    Csv(Profile),
    /// Linked data.
    Linked,
    /// A sheet of the collection.
    Sheet(SheetSort),
}

/// Why the states of several pieces are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// To fill a table into them.
    Fill,
    /// To change one line of each.
    Bulk,
    /// To put them back.
    Back,
}

/// A sheet for paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetSort {
    /// Of one record, for somebody.
    One(Profile),
    /// To be sent to somebody who knows.
    Opinion,
    /// For a buyer.
    Sale,
    /// A list for an insurer.
    Schedule,
    /// The year.
    Annual,
    /// For whoever comes after.
    Heirs,
    /// Labels.
    Labels,
}

/// An effect.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Puts this behind `#`, over the present entry of the history or as a new one.
    Address {
        /// Without `#`.
        fragment: String,
        /// A new entry.
        push: bool,
    },
    /// Focus to the heading.
    Heading,
    /// Reads the states of a piece and its draft.
    Read(Uuid),
    /// Reads the cards of pieces.
    Cards(Vec<String>),
    /// Reads the states of several pieces.
    ReadMany(Why, Vec<Uuid>),
    /// Reads a draft or note by its name.
    Note(String),
    /// Keeps a draft or note under a name; an empty text takes it away.
    Keep(String, String),
    /// Saves states: all of them or none, acknowledged when they are on the disk.
    Save(Vec<Saving>),
    /// Asks that what is kept here is not cleared away, and how much room there is.
    Persist {
        /// Whether to ask, or only to look.
        ask: bool,
    },
    /// Reads all records.
    Gather(Gather),
    /// Writes the file of everything.
    Export,
    /// Takes the file that was looked at.
    TakeIn,
    /// Forgets it.
    LeaveIn,
    /// Stops what is running.
    Stop,
    /// Hands a file over: name, media type, text.
    HandOver(String, &'static str, String),
    /// Prints.
    Print,
    /// Copies.
    Copy(String),
    /// Says this to a screen reader.
    Say(String),
    /// Lets the new version of the page take over.
    AcceptUpdate,
}
