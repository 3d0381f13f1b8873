//! The teacher's table: own pieces by number, one look put to the class, votes, and the answer when it is wanted.

use crate::class::{Own, Round, Tally};
use crate::task::Trainer;
use crate::words::counted;

/// The most pieces on a table.
const MOST: usize = 60;

/// What the teacher has on the table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Class {
    /// The pieces, in the order in which they came.
    pub own: Vec<Own>,
    /// The piece and the look that are put to the class.
    pub(crate) on: Option<(usize, usize)>,
    pub(crate) tally: Tally,
    /// Whether the answer is shown.
    pub(crate) revealed: bool,
    /// Whether the running finding is shown.
    pub(crate) finding: bool,
    /// Looks that were put so far: piece, look, right votes, all votes.
    pub(crate) put: Vec<(usize, usize, u32, u32)>,
}

/// What a teacher does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ClassMsg {
    /// Puts a piece on the table: number, answers one a line, id of the kind where the record says it.
    Add(String, String, Option<String>),
    /// Puts pieces of a cabinet on the table, those taken off that lay there: number, answers as a link, name of the kind.
    Cabinet(Vec<(String, String, String)>),
    /// Takes all off the table.
    Clear,
    /// Puts a look at a piece to the class: places in the list of pieces and in its looks.
    Put(usize, usize),
    /// A vote more or less for an answer.
    Vote(usize, bool),
    /// Shows the answer.
    Reveal,
    /// Shows or hides the running finding.
    Finding(bool),
}

/// A piece on the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnTable {
    /// Its number.
    pub number: String,
    /// What can be asked about it.
    pub looks: Vec<String>,
    /// The same with its answers, for the teacher alone.
    pub answers: Vec<(String, String)>,
}

/// The table, as shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClassView {
    /// "3 pieces on the table".
    pub says: String,
    /// The pieces.
    pub pieces: Vec<OnTable>,
    /// The look that is put to the class.
    pub round: Option<Round>,
    /// By answer its votes.
    pub votes: Vec<u32>,
    /// What the votes say; empty until the answer is shown.
    pub tally: String,
    /// The right answer, once it is shown.
    pub right: Option<usize>,
    /// Whether the running finding is wanted.
    pub shows_finding: bool,
    /// The running finding; none while it is hidden, or nothing was answered yet.
    pub finding: Option<String>,
    /// What the class found hard so far, the hardest first.
    pub hard: Vec<String>,
}

/// Does what a teacher does; a sentence where it could not be done.
pub(super) fn update(trainer: &Trainer<'_>, class: &mut Class, msg: ClassMsg) -> Option<String> {
    match msg {
        ClassMsg::Add(..) if class.own.len() >= MOST => {
            return Some(format!("There is room for {MOST} pieces on the table."));
        }
        ClassMsg::Add(number, answers, kind) => match trainer.own(&number, &answers, kind.as_deref()) {
            Ok(own) => class.own.push(own),
            Err(faults) => return Some(faults.join(" ")),
        },
        ClassMsg::Cabinet(all) => {
            *class = Class::default();
            let told = all.iter().filter_map(|(number, link, kind)| trainer.kept(number, link, kind).ok());
            class.own.extend(told.take(MOST));
            let left = all.len() - class.own.len();
            return match (class.own.len(), left) {
                (0, _) => Some(
                    "No record of this cabinet has answers to this guide. Look at a piece and keep it: its answers go with it."
                        .to_string(),
                ),
                (_, 0) => None,
                (_, n) => Some(format!("{} no answers that are certain, and stay in the cabinet.", counted(n, "record has", "records have"))),
            };
        }
        ClassMsg::Clear => *class = Class::default(),
        ClassMsg::Put(piece, look) => {
            class.note();
            let known = class.own.get(piece).and_then(|o| o.looks.get(look));
            class.on = known.map(|q| (piece, *q));
            (class.tally, class.revealed) = (Tally::default(), false);
        }
        ClassMsg::Vote(answer, more) => {
            let round = round(trainer, class);
            if round.is_some_and(|r| answer < r.offers.len()) && !class.revealed {
                class.tally.vote(answer, more);
            }
        }
        ClassMsg::Reveal => {
            class.revealed = class.on.is_some();
            if let (Some((piece, look)), Some(round)) = (class.on, round(trainer, class)) {
                class.put.retain(|p| (p.0, p.1) != (piece, look));
                let right = class.tally.0.get(round.right).copied().unwrap_or(0);
                class.put.push((piece, look, right, class.tally.0.iter().sum()));
            }
        }
        ClassMsg::Finding(on) => class.finding = on,
    }
    None
}

impl Class {
    /// Forgets rounds without votes.
    fn note(&mut self) {
        self.put.retain(|p| p.3 > 0 || p.2 > 0);
    }
}

fn round(trainer: &Trainer<'_>, class: &Class) -> Option<Round> {
    let (piece, look) = class.on?;
    trainer.round(class.own.get(piece)?, look)
}

/// The table, as shown.
pub(super) fn view(trainer: &Trainer<'_>, class: &Class) -> ClassView {
    let questions = &trainer.guide.core.questions;
    let round = round(trainer, class);
    let answer = |own: &Own, q: usize| {
        let label = &questions[q].choices.get(own.piece.truth[q]?)?.label;
        Some((questions[q].ask.clone(), label.clone()))
    };
    let on_table = |own: &Own| OnTable {
        number: own.number.clone(),
        looks: own.looks.iter().map(|q| questions[*q].ask.clone()).collect(),
        answers: own.looks.iter().filter_map(|q| answer(own, *q)).collect(),
    };
    let finding = class.on.filter(|_| class.finding).and_then(|(piece, now)| {
        // What was put and answered of this piece so far; the open look tells nothing yet.
        let shown = class.put.iter().filter(|p| p.0 == piece && (p.1 != now || class.revealed)).map(|p| p.1);
        let looks: Vec<usize> = shown.collect();
        let turn = trainer.running(class.own.get(piece)?, &looks)?;
        Some(turn.says)
    });
    let share = |p: &(usize, usize, u32, u32)| u64::from(p.2) * 1000 / u64::from(p.3.max(1));
    let hard: Vec<&(usize, usize, u32, u32)> = class.put.iter().filter(|p| p.2 < p.3).collect();
    let order = units::order(hard.len(), &|a, b| share(hard[a]).cmp(&share(hard[b])));
    let line = |p: &(usize, usize, u32, u32)| {
        let number = class.own.get(p.0).map_or("", |o| o.number.as_str());
        format!("No. {number}, {} {} of {} saw it.", crate::words::inside(&questions[p.1].ask), p.2, p.3)
    };
    ClassView {
        says: format!("{} on the table", counted(class.own.len(), "piece", "pieces")),
        pieces: class.own.iter().map(on_table).collect(),
        votes: round
            .iter()
            .flat_map(|r| (0..r.offers.len()).map(|a| class.tally.0.get(a).copied().unwrap_or(0)))
            .collect(),
        tally: round.as_ref().filter(|_| class.revealed).map_or_else(String::new, |r| class.tally.says(r)),
        right: round.as_ref().filter(|_| class.revealed).map(|r| r.right),
        round,
        shows_finding: class.finding,
        finding,
        hard: order.into_iter().map(|i| line(hard[i])).collect(),
    }
}
