//! A series of pieces from a number: on paper, or one by one before the class. The same number is the same pieces, so what
//! is projected can be what lies printed on the desks.

use super::show::TaskView;
use super::{State, show};
use crate::class::{Paper, Round, Sheets, Tally};
use crate::task::{Task, Trainer};
use crate::words::inside;

/// Lengths of a series that are offered.
pub(super) const LENGTHS: [usize; 3] = [6, 12, 18];
/// The largest number of a series: it must be told across a room.
const LARGEST: u64 = 9_999;

/// What a series is drawn from, and what was made of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// The number as typed.
    pub(crate) typed: String,
    pub(crate) pieces: usize,
    /// Blocks, from 0; none for all.
    pub(crate) blocks: Vec<usize>,
    pub(crate) paper: Paper,
    /// Tasks that are being made for paper.
    pub(crate) making: Vec<Task>,
    pub(crate) is_making: bool,
    pub(crate) sheets: Option<Box<Sheets>>,
    /// Place of the piece before the class.
    pub(crate) at: usize,
    pub(crate) tally: Tally,
    pub(crate) revealed: bool,
    /// What the class was shown: what was asked, right votes, all votes.
    pub(crate) put: Vec<(usize, String, u32, u32)>,
}

impl Default for Series {
    fn default() -> Series {
        Series {
            typed: "1".to_string(),
            pieces: LENGTHS[0],
            blocks: Vec::new(),
            paper: Paper::A4,
            making: Vec::new(),
            is_making: false,
            sheets: None,
            at: 0,
            tally: Tally::default(),
            revealed: false,
            put: Vec::new(),
        }
    }
}

/// What a teacher does with a series.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SeriesMsg {
    /// Types its number.
    Number(String),
    /// So many pieces.
    Pieces(usize),
    /// A block more or less.
    Block(usize),
    /// For this paper.
    Paper(Paper),
    /// Makes the sheets.
    Make,
    /// A vote more, or one less, for an answer to the piece before the class.
    Vote(usize, bool),
    /// Shows the answer.
    Reveal,
    /// The next piece before the class.
    On,
}

/// What a series is drawn from, as shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeriesView {
    /// The number as typed.
    pub typed: String,
    /// What is wrong with it, if anything.
    pub fault: Option<String>,
    /// Lengths, and which is set.
    pub lengths: Vec<(usize, bool)>,
    /// Names of blocks, and whether they are in it.
    pub blocks: Vec<(String, bool)>,
    /// The paper.
    pub paper: Paper,
    /// How many are made, and of how many, while they are being made.
    pub making: Option<(usize, usize)>,
    /// The sheets, once they are made.
    pub sheets: Option<Box<Sheets>>,
}

/// The piece before the class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BoardView {
    /// "Piece 3 of series 12".
    pub says: String,
    /// The task; with what is said about it once the answer is shown.
    pub task: TaskView,
    /// By answer its votes.
    pub votes: Vec<u32>,
    /// What the votes say; empty until the answer is shown.
    pub tally: String,
    /// What the class found hard so far, the hardest first.
    pub hard: Vec<String>,
}

impl Series {
    /// The number.
    fn number(&self) -> Result<u64, String> {
        let number = self.typed.trim().parse().ok().filter(|n| (1..=LARGEST).contains(n));
        number.ok_or_else(|| format!("Type a whole number from 1 to {LARGEST}."))
    }
}

/// Does what a teacher does; whether there is more to make, and whether the heading changed.
pub(super) fn update(trainer: &Trainer<'_>, state: &mut State, msg: SeriesMsg) -> (bool, bool) {
    let series = &mut state.series;
    // Whatever is drawn from now on is another series.
    let other = matches!(
        msg,
        SeriesMsg::Number(_) | SeriesMsg::Block(_) | SeriesMsg::Pieces(_) | SeriesMsg::Paper(_)
    );
    if other {
        (series.sheets, series.is_making, series.at, series.revealed) = (None, false, 0, false);
        (series.tally, series.making) = (Tally::default(), Vec::new());
    }
    match msg {
        SeriesMsg::Number(typed) => series.typed = typed.chars().take(12).collect(),
        SeriesMsg::Pieces(pieces) => series.pieces = pieces.clamp(1, LENGTHS[2]),
        SeriesMsg::Paper(paper) => series.paper = paper,
        SeriesMsg::Block(block) => match series.blocks.iter().position(|b| *b == block) {
            Some(at) => drop(series.blocks.remove(at)),
            None => series.blocks.push(block),
        },
        SeriesMsg::Make if series.number().is_ok() => {
            (series.is_making, series.making, series.sheets) = (true, Vec::new(), None);
            return (true, false);
        }
        SeriesMsg::Make => {}
        SeriesMsg::Vote(answer, more) => {
            let offers = state.task.as_ref().map_or(0, |t| t.offers.len());
            if answer < offers && !series.revealed {
                series.tally.vote(answer, more);
            }
        }
        SeriesMsg::Reveal => reveal(state),
        SeriesMsg::On => {
            series.at += 1;
            open(trainer, state);
            return (false, true);
        }
    }
    (false, false)
}

/// Makes one task more, or lays them out once there are enough; whether there is more to make.
pub(super) fn more(trainer: &Trainer<'_>, series: &mut Series) -> bool {
    let Some(seed) = series.number().ok().filter(|_| series.is_making) else { return false };
    if series.making.len() < series.pieces {
        let kinds = trainer.kinds_of(&series.blocks);
        match trainer.on_sheet(seed, series.making.len(), &kinds) {
            Some(task) => series.making.push(task),
            // A pack that has nothing to ask there.
            None => series.pieces = series.making.len(),
        }
        return true;
    }
    let made = std::mem::take(&mut series.making);
    series.sheets = Some(Box::new(trainer.laid_out(seed, &made, series.paper)));
    series.is_making = false;
    false
}

fn reveal(state: &mut State) {
    let Some(task) = &state.task else { return };
    let series = &mut state.series;
    series.revealed = true;
    let at = series.at;
    series.put.retain(|p| p.0 != at);
    let right = series.tally.0.get(task.right).copied().unwrap_or(0);
    series.put.push((at, inside(&task.ask), right, series.tally.0.iter().sum()));
}

/// Puts the piece before the class.
pub(super) fn open(trainer: &Trainer<'_>, state: &mut State) {
    let series = &mut state.series;
    let kinds = trainer.kinds_of(&series.blocks);
    (series.tally, series.revealed, state.picked, state.turned) = (Tally::default(), false, None, 0);
    state.task = series.number().ok().and_then(|seed| trainer.on_sheet(seed, series.at, &kinds));
}

pub(super) fn view(trainer: &Trainer<'_>, state: &State) -> SeriesView {
    let series = &state.series;
    let blocks = trainer.named_blocks().into_iter().enumerate();
    SeriesView {
        typed: series.typed.clone(),
        fault: series.number().err(),
        lengths: LENGTHS.iter().map(|n| (*n, *n == series.pieces)).collect(),
        blocks: blocks.map(|(at, b)| (b.0, series.blocks.contains(&at))).collect(),
        paper: series.paper,
        making: series.is_making.then_some((series.making.len(), series.pieces)),
        sheets: series.sheets.clone(),
    }
}

pub(super) fn board(trainer: &Trainer<'_>, state: &State) -> Option<BoardView> {
    let (series, task) = (&state.series, state.task.as_ref()?);
    let mut shown = show::task(trainer, state, task);
    if series.revealed {
        shown = show::revealed(trainer, task, shown);
    }
    let round =
        Round { ask: task.ask.clone(), hint: String::new(), offers: task.offers.clone(), right: task.right };
    let share = |p: &(usize, String, u32, u32)| u64::from(p.2) * 1000 / u64::from(p.3.max(1));
    let hard: Vec<_> = series.put.iter().filter(|p| p.2 < p.3).collect();
    let order = units::order(hard.len(), &|a, b| share(hard[a]).cmp(&share(hard[b])));
    let line =
        |p: &(usize, String, u32, u32)| format!("Piece {}, {} {} of {} saw it.", p.0 + 1, p.1, p.2, p.3);
    Some(BoardView {
        says: format!("Piece {} of series {}", series.at + 1, series.typed.trim()),
        votes: (0..task.offers.len()).map(|a| series.tally.0.get(a).copied().unwrap_or(0)).collect(),
        tally: if series.revealed { series.tally.says(&round) } else { String::new() },
        task: shown,
        hard: order.into_iter().map(|i| line(hard[i])).collect(),
    })
}
