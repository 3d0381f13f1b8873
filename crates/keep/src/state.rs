//! What the page knows.

use crate::effect::SheetSort;
use crate::form::Form;
use crate::into::{Preview, Reading};
use crate::store::{Room, Store};
use cabinet::find::{Index, Query};
use cabinet::merge::Shelf;
use cabinet::record::{Date, Moment, Record, Standing, Uuid};
use cabinet::sheets::Sheet;

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Screen {
    /// The pieces.
    #[default]
    List,
    /// One piece.
    Piece(Uuid),
    /// The form of one piece.
    Edit(Uuid),
    /// What the guide says now, beside what it said.
    Again(Uuid),
    /// Sizes that are there and that are lacking.
    Series,
    /// Taking out of the cabinet, into files and on paper.
    Out,
    /// Taking into the cabinet.
    In,
    /// A sheet for paper; of one piece where it is one's own.
    Paper(SheetSort, Option<Uuid>),
}

/// Several pieces that are changed together.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Bulk {
    pub(crate) chosen: Vec<Uuid>,
    /// The line that is changed: its place in [`crate::bulk::KEYS`].
    pub(crate) key: usize,
    pub(crate) text: String,
    pub(crate) fault: Option<String>,
}

/// What is said once, and what can be done about it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Notice {
    pub(crate) says: String,
    /// The piece that can be put back.
    pub(crate) back: Option<Uuid>,
}

/// What is being saved, so that the page knows what to say when it is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Saved {
    /// A form.
    Form(Uuid),
    /// A delete.
    Gone(Uuid),
    /// A piece put back.
    Back(Uuid),
    /// One of several versions holds.
    Holds(Uuid),
    /// A piece out of a finding.
    Kept(Uuid),
    /// Several at once.
    Several(usize),
    /// A file taken in.
    Taken,
}

/// Everything.
#[derive(Debug, Default)]
pub struct State {
    pub(crate) store: Store,
    pub(crate) room: Room,
    pub(crate) screen: Screen,
    pub(crate) today: Date,
    /// Whether the cards have come.
    pub(crate) loaded: bool,
    pub(crate) index: Index,
    pub(crate) query: Query,
    /// Which are listed; nothing for those that were taken out.
    pub(crate) standing: Option<Standing>,
    pub(crate) filters_open: bool,
    pub(crate) wall: bool,
    pub(crate) shown: usize,
    pub(crate) bulk: Option<Bulk>,
    /// The piece that is looked at, all its states.
    pub(crate) open: Option<(Uuid, Shelf)>,
    pub(crate) form: Option<Form>,
    /// A record that came from the question page: the name of its note, and what stands in it.
    pub(crate) handed: Option<(String, Record)>,
    pub(crate) money: bool,
    pub(crate) notice: Option<Notice>,
    pub(crate) saving: Option<Saved>,
    /// How far something long has come.
    pub(crate) busy: Option<(usize, usize)>,
    /// When everything was exported last.
    pub(crate) exported: Option<Moment>,
    /// The piece that was looked at last on the question page: when, and its link.
    pub(crate) last: Option<(Moment, String)>,
    pub(crate) preview: Option<Preview>,
    pub(crate) faults: Vec<String>,
    pub(crate) table: Option<Reading>,
    pub(crate) sheet: Option<Sheet>,
    pub(crate) question: String,
    pub(crate) heirs: [String; 3],
    pub(crate) device: String,
    /// A new version of the page waits.
    pub(crate) update: bool,
    /// Digest of the pack that the question page has now.
    pub(crate) pack: String,
}

/// How many pieces are listed before more are asked for: two screens of a phone, so that a search is drawn at once.
pub(crate) const PAGE: usize = 20;

impl State {
    /// A page that begins on a day; `pack` is the digest of the pack that the question page has.
    #[must_use]
    pub fn begun(today: Date, pack: &str) -> State {
        State {
            today,
            pack: pack.to_string(),
            standing: Some(Standing::Owned),
            shown: PAGE,
            ..State::default()
        }
    }

    /// Whether the store is still being opened.
    #[must_use]
    pub fn is_opening(&self) -> bool {
        self.store == Store::Opening
    }

    /// Whether anything can be changed.
    pub(crate) fn writes(&self) -> bool {
        self.store == Store::Open
    }

    /// Says something once.
    pub(crate) fn says(&mut self, says: impl Into<String>) {
        self.notice = Some(Notice { says: says.into(), back: None });
    }
}
