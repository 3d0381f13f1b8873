//! The photo room: a card beside the piece in a photograph, taps on both, a length with what it is worth, and the outline
//! of the sole. The picture itself is worked on elsewhere ([`picture::ask`]); here stand taps, answers and sentences.

mod answers;
mod profile;
mod ruler;
mod sheet;
mod update;
mod view;
mod words;

pub use picture::ask::{Outline, Spot, Valued};
pub use ruler::{Ruler, RulerView};
pub use view::{KeyOf, PhotoView, PictureView, RowView};

pub(crate) use update::{Run, run};
pub(crate) use view::view;

use picture::ask::Patch;
use serde::Serialize;

/// What was done in the room. It travels in no link.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// Address of the picture for the page, and its size in pixels; it is there when both are.
    pub(crate) address: String,
    pub(crate) size: [i32; 2],
    pub(crate) stage: Stage,
    /// What is being worked on, per mille, once it takes long.
    pub(crate) busy: Option<i32>,
    pub(crate) fault: Option<String>,
    /// The coin by its place in the table; a card otherwise.
    pub(crate) coin: Option<usize>,
    /// The taps are a proposal.
    pub(crate) proposed: bool,
    /// Taps on card or coin, on the ends of the length, on the ends of the width.
    pub(crate) taps: [Vec<Spot>; 3],
    /// Which of the taps the nudges move.
    pub(crate) at: usize,
    /// How far a nudge goes, pixels.
    pub(crate) step: i32,
    /// How large the picture is shown: 1, 2 or 4.
    pub(crate) zoom: u8,
    /// Where the measured part lies, by its place among the choices.
    pub(crate) lies: Option<usize>,
    /// Its height as typed.
    pub(crate) high: String,
    /// How far the camera was above the card, tenths of a millimetre, and how far it leaned, tenths of a degree.
    pub(crate) placed: Option<[i32; 2]>,
    /// Length and width.
    pub(crate) found: [Option<Valued>; 2],
    /// Lengths that are asked for: 0 the length, 1 the width.
    pub(crate) pending: Vec<usize>,
    pub(crate) outline: Option<Outline>,
    pub(crate) patches: Vec<Patch>,
    /// Whether the next tap adds to the piece or takes away.
    pub(crate) adds: bool,
    /// For each drawn sole: how far, how wide.
    pub(crate) alike: Vec<[i32; 2]>,
}

impl Default for Photo {
    fn default() -> Photo {
        Photo {
            address: String::new(),
            size: [0, 0],
            stage: Stage::Pick,
            busy: None,
            fault: None,
            coin: None,
            proposed: false,
            taps: [Vec::new(), Vec::new(), Vec::new()],
            at: 0,
            step: 1,
            zoom: 1,
            lies: None,
            high: String::new(),
            placed: None,
            found: [None, None],
            pending: Vec::new(),
            outline: None,
            patches: Vec::new(),
            adds: true,
            alike: Vec::new(),
        }
    }
}

impl Photo {
    /// Whether a picture of the piece is there.
    #[must_use]
    pub fn is_there(&self) -> bool {
        !self.address.is_empty() && self.size != [0, 0]
    }

    /// The width across that was tapped, with what it is worth.
    #[must_use]
    pub fn width(&self) -> Option<Valued> {
        self.found[1]
    }

    /// The outline as numbers that a record keeps: widths along the length, per mille of it, from the narrower end. Empty
    /// without an outline.
    #[must_use]
    pub fn profile(&self) -> Vec<i32> {
        self.outline.as_ref().map(profile::profile).unwrap_or_default()
    }
}

/// How far it has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Stage {
    /// A picture is asked for.
    Pick,
    /// It is being opened.
    Opening,
    /// Card or coin.
    Card,
    /// Where the measured part lies.
    Height,
    /// The ends of length and width.
    Ends,
    /// The outline.
    Outline,
    /// The ruler on the screen.
    Ruler,
}

/// What a user did in the room, or what came from the picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Act {
    /// A file was chosen in the field of this id.
    Chosen(String),
    /// The picture can be shown from this address.
    Shown(String),
    /// An answer about the picture.
    Told(Vec<i32>),
    /// So much of the work is done, per mille.
    Done(i32),
    /// The picture could not be worked on: a sentence.
    Failed(String),
    /// Tapped the picture.
    Tap(Spot),
    /// Tapped the loupe: the point that is moved goes there.
    Move(Spot),
    /// Puts a point into the middle, without a finger.
    Middle,
    /// Chose a point to move.
    Point(usize),
    /// Moved it right and down, in steps.
    Nudge(i32, i32),
    /// Longer steps, or short ones again.
    Step,
    /// Takes the last point back.
    Less,
    /// Shows the picture larger, or whole.
    Zoom,
    /// Card (none) or a coin by its place in the table.
    By(Option<usize>),
    /// The points lie right.
    Agree,
    /// Where the measured part lies.
    Lies(usize),
    /// Typed its height.
    High(String),
    /// On with the height as it was told.
    Height,
    /// Length (0) or width (1) is tapped now.
    Across(usize),
    /// The length answers the question of the size.
    Use,
    /// Cuts the outline.
    Cut,
    /// The next tap adds to the piece, or takes away.
    Adds(bool),
    /// Takes the last patch back.
    Unpatch,
    /// An answer that the outline proposes: question, choice.
    Answer(usize, usize),
    /// Hands the outline over as a file.
    Save,
    /// Prints it at true size.
    Print,
    /// To the ruler on the screen.
    Ruler,
    /// The screen is this one: its size, pixel ratio and zoom.
    Screen(String),
    /// The bar for the card is longer, by tenths of a pixel.
    Wider(i32),
    /// The bar is as long as the card's short side.
    Fits,
    /// Back to an earlier stage.
    Back(Stage),
}

/// What the page must do for the room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Develop {
    /// Open the file that stands in the field of this id.
    Take(String),
    /// Ask this about the picture.
    Ask(Vec<i32>),
    /// Ask how far the outline is from the soles of these drawings.
    Compare(Vec<String>),
    /// Hand this drawing over as a file.
    Save(String),
    /// Print.
    Print,
    /// Say which screen it is, now and whenever it changes.
    Screen,
}
