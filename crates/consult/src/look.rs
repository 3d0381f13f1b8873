//! The look screen, the list of all looks, set-up: which question, and how it is shown.

use crate::finding::Facts;
use crate::fragment;
use crate::guide::{Aim, Guide};
use crate::state::{Given, Manner, State, What};
use crate::update::{Msg, update};
use crate::view::{
    ChoiceView, LastView, ListedLook, LookView, PartView, PlaceView, SetupView, Strip, TypingView, inches,
};
use crate::words::{chance, either, inside};
use pack::Form;
use reason::{Answer, Told, looks_left, weigh};
use units::{arranged, descending};

/// Below this expected information, in bits, the look that tells most for its time is little worth, and the page goes
/// to the finding: the guide is spent. Basis: measured on pieces drawn from the bundled pack; going on at once to
/// [`TELLS`] takes one to two looks more of everybody.
pub const SPENT: f64 = 0.065;
/// From here on a look is still offered on the finding, to whoever wants to be thorough. In bits. Basis: measured on pieces
/// some of whose looks are a cousin's: down to here one more in a hundred comes out right, below it none.
pub const TELLS: f64 = 0.02;
/// The share of the aim at which the finding is settled. Basis: practice (identification by matrix asks 0.95 to
/// 0.999 of trained staff; a stall asks less).
pub const SETTLED: f64 = 0.90;

/// What is asked now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// A question.
    Question(usize),
    /// Where the piece is offered.
    Place,
    /// The opening is answered before the other questions have come.
    Later,
    /// Nothing is left that would tell enough.
    Nothing,
}

/// What is asked now: what the user asked for; then, once, the place; then the opening; then what tells most.
pub(crate) fn asked(guide: &Guide, state: &State, facts: &Facts) -> Asked {
    if let Some(q) = state.focus {
        return if guide.core.questions[q].is_whole() { Asked::Question(q) } else { Asked::Later };
    }
    if !state.place_asked && !state.given.is_empty() && guide.core.places.len() > 1 {
        return Asked::Place;
    }
    let none = if guide.is_whole() { Asked::Nothing } else { Asked::Later };
    next_question(guide, state, facts).map_or(none, Asked::Question)
}

/// The next question on the way, whatever was asked for by hand.
pub(crate) fn next_question(guide: &Guide, state: &State, facts: &Facts) -> Option<usize> {
    if state.manner == Manner::Guided {
        let open = |q: &&u16| facts.ranked.iter().any(|l| l.question == usize::from(**q));
        if let Some(q) = guide.core.opening.iter().find(open) {
            return Some(usize::from(*q));
        }
    }
    facts.ranked.iter().find(|l| l.gain >= TELLS).map(|l| l.question)
}

pub(crate) fn strip(guide: &Guide, state: &State, facts: &Facts) -> Strip {
    let fits = facts.fitting();
    let left = if state.given.is_empty() {
        "each look narrows it".to_string()
    } else if facts.settled() {
        "settled: see the finding".to_string()
    } else {
        let (answers, reach) = (state.answers(), state.reach());
        match looks_left(
            &guide.model,
            guide.plan(state.aim),
            state.place,
            &answers,
            &reach,
            (SETTLED, SPENT, 12),
        ) {
            Some(0) => "settled: see the finding".to_string(),
            Some(1) => "about one more look".to_string(),
            Some(n) => format!("about {n} more looks"),
            None if facts.spent => "little is left to look at".to_string(),
            None => "more than 12 looks".to_string(),
        }
    };
    Strip {
        fits: if fits == 1 { "1 kind still fits".to_string() } else { format!("{fits} kinds still fit") },
        left,
        known: facts.known(),
    }
}

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts, at: usize, links: bool) -> LookView {
    let q = &guide.core.questions[at];
    let standing = state.answer_to(at).map(|g| &g.what);
    let first = state.either.flatten().filter(|(question, _)| *question == at).map(|(_, choice)| choice);
    let link = |choice: usize| {
        let after = update(guide, state.clone(), Msg::Choose { question: at, choice }).0;
        fragment::write(guide, &after)
    };
    let choices = q.choices.iter().enumerate().map(|(i, c)| ChoiceView {
        choice: i,
        label: c.label.clone(),
        draw: c.draw.clone(),
        chosen: matches!(standing, Some(What::OneOf(set)) if set.contains(&i)) || first == Some(i),
        link: if links { link(i) } else { String::new() },
    });
    LookView {
        question: at,
        ask: q.ask.clone(),
        look: q.look.clone(),
        choices: choices.collect(),
        typing: (q.form != Form::Choice).then(|| TypingView {
            text: state.typed.text.clone(),
            fault: state.typed.fault.clone(),
            label: if q.form == Form::Length { "Or type the length" } else { "Or type the weight in grams" }
                .into(),
            length: q.form == Form::Length,
            inches: inches(state.unit),
            calipers: state.calipers,
        }),
        either: state.either.map(|_| match first {
            None => "Tap the two it could be.".to_string(),
            Some(c) => format!("{}, or\u{2026}? Tap the second.", q.choices[c].label),
        }),
        why: state.why.then(|| why(guide, state, facts, at)),
        why_open: state.why,
        last: last(guide, state),
        newcomers: guide
            .book
            .as_ref()
            .filter(|_| state.why)
            .and_then(|b| b.questions.get(at))
            .map(|t| t.newcomers.clone())
            .filter(|t| !t.is_empty()),
    }
}

/// Which kinds the most probable answers point to, and what the look costs.
fn why(guide: &Guide, state: &State, facts: &Facts, at: usize) -> Vec<String> {
    let q = &guide.core.questions[at];
    let answers: Vec<Answer> = state.answers().into_iter().filter(|a| a.question != at).collect();
    let (mut chances, mut branches): (Vec<f64>, Vec<String>) = (Vec::new(), Vec::new());
    for (i, choice) in q.choices.iter().enumerate() {
        let p: f64 =
            (0..guide.model.candidates()).map(|c| facts.posterior.p[c] * guide.model.truth(at, c)[i]).sum();
        let mut after = answers.clone();
        after.push(Answer { question: at, told: Told::OneOf(vec![i]), sure: true });
        let kinds = weigh(&guide.model, state.place, &after).kinds(&guide.model);
        let top = (0..kinds.len())
            .filter(|k| *k != guide.unknown())
            .reduce(|a, b| if kinds[b] > kinds[a] { b } else { a });
        if let Some(top) = top {
            let short = &guide.core.kinds[top].short;
            chances.push(p);
            branches.push(format!(
                "{}: points to \u{201c}{short}\u{201d}, {}.",
                choice.label,
                chance(kinds[top])
            ));
        }
    }
    let seconds = match q.seconds {
        1 => "a second".to_string(),
        s => format!("{s} seconds"),
    };
    let mut lines = vec![format!("It takes about {seconds} and parts what is still possible:")];
    lines.extend(arranged(branches, &descending(&chances)).into_iter().take(3));
    lines
}

/// The answer just given, or the one that is being corrected, in words.
fn last(guide: &Guide, state: &State) -> Option<LastView> {
    let given = match state.focus {
        Some(question) => state.answer_to(question),
        None => state.given.last(),
    };
    let given = given.filter(|g| g.what != What::Cannot)?;
    Some(LastView { question: given.question, text: said(guide, given), unsure: !given.sure })
}

/// What was told, as short as on its key.
pub(crate) fn said(guide: &Guide, given: &Given) -> String {
    let q = &guide.core.questions[given.question];
    match &given.what {
        What::OneOf(set) => {
            let labels: Vec<&str> = set.iter().map(|c| q.choices[*c].label.as_str()).collect();
            either(&labels)
        }
        What::Length(l, _) => format!("{} ({})", l.in_mm(), l.in_inches()),
        What::Mass(m, _) => m.in_grams(),
        What::Cannot => "can't tell".to_string(),
    }
}

pub(crate) fn place(guide: &Guide, state: &State) -> PlaceView {
    let named = |list: &[pack::Named], skip: usize, on: &dyn Fn(usize) -> bool| {
        list.iter().enumerate().skip(skip).map(|(i, n)| (i, n.name.clone(), on(i))).collect()
    };
    PlaceView {
        places: named(&guide.core.places, 1, &|i| state.place_asked && state.place == i),
        tools: named(&guide.core.tools, 0, &|i| state.tools.contains(&i)),
        picture: state.picture,
        last: last(guide, state),
    }
}

pub(crate) fn setup(guide: &Guide, state: &State) -> SetupView {
    let head = &guide.core.head;
    SetupView {
        place: PlaceView { last: None, ..place(guide, state) },
        aims: Aim::ALL.into_iter().map(|a| (a.label(), a == state.aim)).collect(),
        guided: state.manner == Manner::Guided,
        theme: state.theme,
        pack: format!("{}, edition of {}, {}.", head.name, head.edition, head.licence),
    }
}

/// All looks that can be taken now or were taken, by part of the piece.
pub(crate) fn list(guide: &Guide, state: &State, facts: &Facts) -> Vec<PartView> {
    let best: Vec<usize> = facts.ranked.iter().take(3).map(|l| l.question).collect();
    let mut parts = Vec::new();
    for (p, part) in guide.core.parts.iter().enumerate() {
        let looks: Vec<ListedLook> = guide
            .core
            .questions
            .iter()
            .enumerate()
            .filter(|(i, q)| {
                let open = facts.ranked.iter().any(|l| l.question == *i) || state.answer_to(*i).is_some();
                usize::from(q.part) == p && q.is_whole() && (open || q.gate.is_none() && !state.picture)
            })
            .map(|(i, q)| listed(guide, state, i, q, best.contains(&i)))
            .collect();
        if !looks.is_empty() {
            parts.push(PartView { part: part.name.clone(), looks });
        }
    }
    parts
}

fn listed(guide: &Guide, state: &State, at: usize, q: &pack::Question, tells_most: bool) -> ListedLook {
    let given = state.answer_to(at);
    let chosen = |i: usize| matches!(given.map(|g| &g.what), Some(What::OneOf(set)) if set.contains(&i));
    ListedLook {
        question: at,
        ask: q.ask.clone(),
        choices: q.choices.iter().enumerate().map(|(i, c)| (i, inside_key(&c.label), chosen(i))).collect(),
        measured: given
            .filter(|g| matches!(g.what, What::Length(..) | What::Mass(..)))
            .map(|g| said(guide, g)),
        cannot: matches!(given.map(|g| &g.what), Some(What::Cannot)),
        unsure: given.is_some_and(|g| !g.sure),
        tells_most,
        typed: q.form != Form::Choice,
    }
}

fn inside_key(label: &str) -> String {
    inside(label)
}
