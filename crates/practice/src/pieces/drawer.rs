//! A piece drawn from the tables, and what would be told of it whatever is asked.

use super::kin::cousins;
use consult::{Guide, Instrument};
use pack::{Form as Asks, Says, Standing};
use reason::{Random, Told};
use units::order;

/// In so many (piece, group of questions) the looks are those of a cousin. Basis: practice (pieces that were altered,
/// put together from two, or made by a shop of its own mind).
const OF_A_COUSIN: f64 = 0.15;
/// So many answers are wrong besides. Basis: practice.
const WRONG: f64 = 0.10;
/// Of misread answers so many go to a choice that is easily confused; as the engine has it. Basis: memory.
const TO_CONFUSED: f64 = 0.8;

/// How pieces are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// The piece as it is: its own looks, all of them told, none misread. What a learner is handed.
    Bare,
    /// Every look from the piece's own tables, independent of the others.
    Easy,
    /// Some groups of looks are those of a kind that it is taken for.
    Hard,
    /// The same, and every tenth answer is wrong.
    HardAndWrong,
    /// The hard one, and the looks of a group hang together as closely as the pack says: a piece that looks old in one
    /// of them mostly looks old in the next.
    Together,
}

impl Form {
    /// Those that `workshop simulate` prints.
    pub const ALL: [Form; 3] = [Form::Easy, Form::Hard, Form::HardAndWrong];

    /// As it is printed.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Form::Bare => "as it is",
            Form::Easy => "easy",
            Form::Hard => "hard",
            Form::HardAndWrong => "hard, every tenth answer wrong",
            Form::Together => "hard, the looks of a group hanging together",
        }
    }
}

/// A piece.
#[derive(Debug, Clone)]
pub struct Piece {
    /// Index of what it is.
    pub candidate: usize,
    /// What it was made as, drawn from its table of roles.
    pub role: usize,
    /// By question what would be told.
    pub told: Vec<Told>,
}

/// Draws pieces.
#[derive(Debug)]
pub struct Drawer<'a> {
    guide: &'a Guide,
    /// Prior at the first place, the unknown kind left out.
    known: Vec<f64>,
    cousins: Vec<Vec<usize>>,
    /// Group of each question; one without a group is its own.
    group: Vec<usize>,
    /// By question its choices, those first that speak most for a period piece.
    oldest_first: Vec<Vec<usize>>,
}

impl<'a> Drawer<'a> {
    /// Prepares a guide.
    #[must_use]
    pub fn new(guide: &'a Guide) -> Drawer<'a> {
        let core = &guide.core;
        let is_known = |kind: u16| core.kinds[usize::from(kind)].standing != Standing::Unknown;
        let prior = |c: &pack::Candidate| if is_known(c.kind) { f64::from(c.prior[0]) } else { 0.0 };
        let group = core
            .questions
            .iter()
            .enumerate()
            .map(|(i, q)| q.group.map_or(core.groups.len() + i, usize::from));
        let known: Vec<f64> = core.candidates.iter().map(prior).collect();
        let oldest_first = (0..core.questions.len()).map(|q| oldest_first(guide, &known, q)).collect();
        Drawer { guide, known, cousins: cousins(guide), group: group.collect(), oldest_first }
    }

    /// How often each candidate is drawn, as weights.
    #[must_use]
    pub fn weights(&self) -> &[f64] {
        &self.known
    }

    /// The kinds that can be drawn.
    #[must_use]
    pub fn kinds(&self) -> Vec<usize> {
        let met = |k: &usize| self.weights_of(*k, None).iter().sum::<f64>() > 0.0;
        (0..self.guide.core.kinds.len()).filter(met).collect()
    }

    /// A piece of this kind, or of any. The same numbers are used whatever the form, so that forms can be compared.
    #[must_use]
    pub fn draw(&self, form: Form, kind: Option<usize>, random: &mut Random) -> Piece {
        let candidate = match kind {
            None => random.pick(&self.known),
            Some(kind) => random.pick(&self.weights_of(kind, None)),
        };
        self.draw_as(form, candidate, random)
    }

    /// A piece of this candidate.
    #[must_use]
    pub fn draw_as(&self, form: Form, candidate: usize, random: &mut Random) -> Piece {
        let core = &self.guide.core;
        let own = &core.candidates[candidate];
        let roles: Vec<f64> =
            core.role_rows[usize::from(own.roles)].shares.iter().map(|s| f64::from(*s)).collect();
        let role = random.pick(&roles);
        let groups = core.groups.len() + core.questions.len();
        let shown: Vec<Looks> = (0..groups)
            .map(|group| {
                let bits = random.bits();
                let mut own = Random::seeded(bits);
                let other = own.unit() < OF_A_COUSIN && !matches!(form, Form::Bare | Form::Easy);
                let follows = match core.groups.get(group) {
                    Some(overlap) if form == Form::Together => (f64::from(*overlap) / 1000.0).sqrt(),
                    _ => 0.0,
                };
                Looks {
                    candidate: if other { self.cousin(candidate, &mut own) } else { candidate },
                    leaning: Random::seeded(!bits).unit(),
                    follows,
                }
            })
            .collect();
        let told = (0..core.questions.len())
            .map(|q| self.told(q, &shown[self.group[q]], form, &mut Random::seeded(random.bits())))
            .collect();
        Piece { candidate, role, told }
    }

    /// Weights of the candidates of a kind, of one make or of all.
    #[must_use]
    pub fn weights_of(&self, kind: usize, make: Option<u16>) -> Vec<f64> {
        let of = self.guide.core.candidates.iter().zip(&self.known);
        of.map(|(c, p)| {
            let wanted = usize::from(c.kind) == kind && make.is_none_or(|m| m == c.make);
            if wanted { *p } else { 0.0 }
        })
        .collect()
    }

    /// A candidate of a kind that this one's kind is taken for, of the same make where it occurs.
    fn cousin(&self, candidate: usize, random: &mut Random) -> usize {
        let own = &self.guide.core.candidates[candidate];
        let list = &self.cousins[usize::from(own.kind)];
        if list.is_empty() {
            return candidate;
        }
        let kind = list[random.below(list.len())];
        let same = self.weights_of(kind, Some(own.make));
        let any = self.weights_of(kind, None);
        match (same.iter().sum::<f64>() > 0.0, any.iter().sum::<f64>() > 0.0) {
            (true, _) => random.pick(&same),
            (_, true) => random.pick(&any),
            _ => candidate,
        }
    }

    /// What is told when a piece that shows such looks is looked at.
    fn told(&self, question: usize, shown: &Looks, form: Form, random: &mut Random) -> Told {
        let candidate = shown.candidate;
        let q = &self.guide.core.questions[question];
        let bare = form == Form::Bare;
        if random.unit() * 1000.0 >= f64::from(q.tellable) && !bare {
            return Told::Cannot;
        }
        let misread = random.unit() * 1000.0 < f64::from(q.misread_sure) && !bare;
        let wrong = random.unit() < WRONG && form == Form::HardAndWrong;
        let row = self.guide.core.candidates[candidate].rows[question];
        if let (Asks::Length, Says::Spread { mean, sd }) = (q.form, &q.rows[usize::from(row)].says) {
            let mm = f64::from(*mean) / 10.0 + f64::from(*sd) / 10.0 * random.normal();
            let mm = mm.max(1.0);
            if !misread && !wrong {
                return by_ruler(mm, random);
            }
            let class =
                q.choices.iter().filter(|c| c.upper.is_some_and(|u| f64::from(u) / 10.0 < mm)).count();
            return by_ruler(within(q, other(q, class, wrong, random), random), random);
        }
        let table = self.guide.model.truth(question, candidate);
        let truth = match shown.follows {
            follows if follows > 0.0 => {
                let own = random.unit();
                let at = if random.unit() < follows { shown.leaning } else { own };
                picked(table, &self.oldest_first[question], at)
            }
            _ => random.pick(table),
        };
        let choice = if misread || wrong { other(q, truth, wrong, random) } else { truth };
        Told::OneOf(vec![choice])
    }
}

/// What a group of looks shows.
struct Looks {
    /// Whose tables.
    candidate: usize,
    /// Where in its tables, from the oldest looks (0) to the latest (1), when a look follows its group.
    leaning: f64,
    /// How often a look does. Two looks of a group follow together as often as the square of it, which is the overlap
    /// that the pack states: then they show the same part of their tables.
    follows: f64,
}

/// Choices of a question by how much likelier period pieces show them than others, over the whole pack; the likeliest first.
fn oldest_first(guide: &Guide, known: &[f64], question: usize) -> Vec<usize> {
    let choices = guide.core.questions[question].choices.len();
    let mut seen = vec![(0.0, 0.0); choices];
    for (c, weight) in known.iter().enumerate() {
        for (seen, p) in seen.iter_mut().zip(guide.model.truth(question, c)) {
            let side = if guide.core.candidates[c].make == 0 { &mut seen.0 } else { &mut seen.1 };
            *side += weight * p;
        }
    }
    let late = |choice: usize| match seen[choice] {
        (old, late) if old + late > 0.0 => late / (old + late),
        _ => 0.5,
    };
    order(choices, &|a, b| late(a).total_cmp(&late(b)))
}

/// The choice at a point of a table that is laid out in this order from 0 to 1: each occurs as often as the table says.
fn picked(table: &[f64], order: &[usize], mut at: f64) -> usize {
    for choice in order {
        at -= table[*choice];
        if at < 0.0 {
            return *choice;
        }
    }
    order.iter().rfind(|c| table[**c] > 0.0).copied().unwrap_or(0)
}

/// A choice that is not the true one. A wrong answer is a confused choice where there is one; a misread one mostly.
fn other(q: &pack::Question, truth: usize, wrong: bool, random: &mut Random) -> usize {
    let confused = &q.choices[truth].confused;
    let near = |c: &usize| confused.iter().any(|o| usize::from(*o) == *c);
    let others: Vec<usize> = (0..q.choices.len()).filter(|c| *c != truth).collect();
    let (near, far): (Vec<usize>, Vec<usize>) = others.iter().partition(|c| near(c));
    let to_near = random.unit() < if wrong { 1.0 } else { TO_CONFUSED };
    let list = match (near.is_empty(), far.is_empty()) {
        (false, false) if to_near => near,
        (false, false) => far,
        _ => others,
    };
    if list.is_empty() { truth } else { list[random.below(list.len())] }
}

/// A length somewhere in a class, mm.
fn within(q: &pack::Question, class: usize, random: &mut Random) -> f64 {
    let upper = |c: usize| q.choices[c].upper.map(|u| f64::from(u) / 10.0);
    let below = class.checked_sub(1).and_then(upper);
    let (low, high) = match (below, upper(class)) {
        (Some(low), Some(high)) => (low, high),
        (None, Some(high)) => (high / 2.0, high),
        (Some(low), None) => (low, low * 1.5),
        (None, None) => (10.0, 200.0),
    };
    low + (high - low) * random.unit()
}

/// Read from a ruler: placed half a millimetre off at most, read to the nearest whole one.
fn by_ruler(mm: f64, random: &mut Random) -> Told {
    let value = (mm + random.unit() - 0.5).round().max(1.0);
    Told::Measured { value, uncertainty: Instrument::Ruler.uncertainty(value) }
}
