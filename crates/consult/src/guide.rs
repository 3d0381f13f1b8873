//! A pack made ready for consulting.

use crate::tables::Tables;
use appraise::Band;
use pack::{Book, Core, Standing};
use reason::{Goal, Model, Plan};
use std::sync::OnceLock;
use units::Year;

/// A pack with its model and one plan for each aim, made when it is first needed.
#[derive(Debug)]
pub struct Guide {
    /// The pack.
    pub core: Core,
    /// Its tables.
    pub model: Model,
    /// The long texts, once they have come.
    pub book: Option<Book>,
    /// The year it is.
    pub this_year: Year,
    plans: [OnceLock<Plan>; Aim::ALL.len()],
    /// What an aim is about: the opening knows nothing of worth, which is chosen where the whole program runs.
    goal: fn(&Guide, Aim) -> Goal,
    pub(crate) tables: Tables,
}

/// What the user wants to know most: questions are chosen for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Aim {
    /// What kind it is.
    #[default]
    Kind,
    /// What it was made as.
    Role,
    /// Whether it is old or later.
    Make,
    /// What it is worth, in five steps of price.
    Worth,
}

impl Aim {
    /// All, in order of their numbers in a link.
    pub const ALL: [Aim; 4] = [Aim::Kind, Aim::Role, Aim::Make, Aim::Worth];

    /// On a key.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Aim::Kind => "What it is",
            Aim::Role => "What it was made as",
            Aim::Make => "Old or later",
            Aim::Worth => "What it is worth",
        }
    }
}

impl Guide {
    /// Makes a pack ready. A year before the first of the grid of years counts as that first year, one of
    /// five digits as 9999.
    ///
    /// # Errors
    /// A sentence when its tables do not fit together.
    pub fn new(core: Core, this_year: Year) -> Result<Guide, String> {
        let goal = |guide: &Guide, aim| match aim {
            Aim::Worth => Goal::Mix(worth_steps(&guide.core)),
            _ => goal_of_opening(guide, aim),
        };
        Ok(Guide { goal, ..Guide::opening(core, this_year)? })
    }

    fn opening(core: Core, this_year: Year) -> Result<Guide, String> {
        Ok(Guide {
            model: Model::from_core(&core)?,
            core,
            book: None,
            this_year: this_year.clamp(dating::FIRST_YEAR, 9999),
            plans: Default::default(),
            goal: goal_of_opening,
            tables: Tables::default(),
        })
    }

    /// Reads the core of a pack alone and makes it ready: the questions outside the opening are not asked.
    ///
    /// # Errors
    /// A sentence that says why the bytes were refused.
    pub fn of_core(core: &[u8], this_year: Year) -> Result<Guide, String> {
        Guide::opening(pack::read_core(core).map_err(|f| f.0)?, this_year)
    }

    /// Reads both halves of a pack and makes them ready.
    ///
    /// # Errors
    /// A sentence that says why the bytes were refused.
    pub fn from_bytes(core: &[u8], book: &[u8], this_year: Year) -> Result<Guide, String> {
        let (core, book) = whole(core, book)?;
        Ok(Guide { book: Some(book), ..Guide::new(core, this_year)? })
    }

    /// Whether every question can be asked.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.core.questions.iter().all(pack::Question::is_whole)
    }

    /// The long texts of a kind, once the book is there.
    pub(crate) fn kind_text(&self, kind: usize) -> Option<&pack::KindText> {
        self.book.as_ref()?.kinds.get(kind)
    }

    pub(crate) fn plan(&self, aim: Aim) -> &Plan {
        self.plans[aim as usize].get_or_init(|| Plan::new(&self.model, (self.goal)(self, aim)))
    }

    /// Index of the kind that stands for everything unknown.
    pub(crate) fn unknown(&self) -> usize {
        self.core.kinds.iter().position(|k| k.standing == Standing::Unknown).unwrap_or(usize::MAX)
    }

    /// Index of the question about length, if the pack has one.
    pub(crate) fn length_question(&self) -> Option<usize> {
        self.core.questions.iter().position(|q| q.form == pack::Form::Length)
    }

    /// The source text behind an index, once the book is there.
    pub(crate) fn source(&self, at: Option<u16>) -> Option<&str> {
        let source = self.book.as_ref()?.sources.get(usize::from(at?))?;
        Some(&source.text)
    }
}

fn goal_of_opening(guide: &Guide, aim: Aim) -> Goal {
    match aim {
        Aim::Kind | Aim::Worth => Goal::kind(&guide.model),
        Aim::Role => Goal::role(&guide.model),
        Aim::Make => Goal::make(&guide.model),
    }
}

/// Reads both halves of a pack and joins them.
///
/// # Errors
/// A sentence that says why the bytes were refused.
pub(crate) fn whole(core: &[u8], book: &[u8]) -> Result<(Core, Book), String> {
    let mut core = pack::read_core(core).map_err(|f| f.0)?;
    let mut book = pack::read_book(book).map_err(|f| f.0)?;
    let fits = book.id == core.head.id
        && book.kinds.len() == core.kinds.len()
        && book.questions.len() == core.questions.len();
    if !fits {
        return Err("The long texts belong to another edition of this pack. Reload the page.".to_string());
    }
    pack::join(&mut core, std::mem::take(&mut book.late)).map_err(|f| f.0)?;
    pack::check_lessons(&core, &book.lessons).map_err(|f| f.0)?;
    Ok((core, book))
}

/// P(price step | candidate): five steps that hold equal shares of the whole pack; candidates without a figure are
/// spread evenly.
fn worth_steps(core: &Core) -> Vec<Vec<f64>> {
    const STEPS: usize = 5;
    let bands: Vec<Option<Band>> = core
        .candidates
        .iter()
        .map(|c| {
            let facts = core.kinds[usize::from(c.kind)].makes[usize::from(c.make)].as_ref()?;
            let worth = facts.worth.as_ref()?;
            Some(Band::of_middle_half(worth.low.minor, worth.high.minor))
        })
        .collect();
    let parts = core.candidates.iter().zip(&bands).filter_map(|(c, b)| Some((f64::from(c.prior[0]), (*b)?)));
    let Some(all) = appraise::Mixture::new(parts.collect()) else {
        return vec![vec![1.0 / STEPS as f64; STEPS]; core.candidates.len()];
    };
    let cuts: Vec<i64> = (1..STEPS).map(|i| all.quantile(i as f64 / STEPS as f64)).collect();
    let steps = |band: &Option<Band>| match band {
        None => vec![1.0 / STEPS as f64; STEPS],
        Some(b) => {
            let mut below: Vec<f64> = cuts.iter().map(|c| b.share_below(*c)).collect();
            below.push(1.0);
            let mut last = 0.0;
            below
                .into_iter()
                .map(|x| {
                    let step = x - last;
                    last = x;
                    step
                })
                .collect()
        }
    };
    bands.iter().map(steps).collect()
}
