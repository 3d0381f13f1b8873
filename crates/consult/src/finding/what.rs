//! The finding's view, put together.

use super::clues;
use super::facts::Facts;
use super::worth;
use super::years;
use crate::guide::{Aim, Guide};
use crate::look::{SPENT, TELLS, next_question};
use crate::sale;
use crate::state::{State, What};
use crate::view::{FindingView, NextView, SecondView};
use crate::words::{chance, either, inside, likely, sentence};
use pack::{Form, Says, Standing};
use units::descending;

/// Roles and kinds below this share are not listed. Basis: practice.
const LISTED_ROLE: f64 = 0.045;
const LISTED_KIND: f64 = 0.02;
/// From here the finding leans to one side. The lower limit of "likely": IPCC guidance note, 2010.
pub(super) const LEANS: f64 = 0.66;

pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> FindingView {
    let kind = &guide.core.kinds[facts.first];
    let share = facts.first_share();
    let (grave, cautions) = cautions(guide, state, facts);
    let told = facts.told();
    FindingView {
        grave,
        cautions,
        title: if told { kind.name.clone() } else { "Nothing looked at yet".to_string() },
        draw: guide.kind_text(facts.first).filter(|_| told).map(|t| t.draw.clone()).unwrap_or_default(),
        draw_mm: typical_length(guide, state, facts.first).clamp(10, 150),
        likely: likely(share),
        share: (share * 1000.0) as u16,
        made_as: made_as(guide, facts),
        outside: outside(guide, facts),
        make: make_words(guide, facts),
        old_or_later: super::make::view(guide, state, facts),
        roles: roles(guide, facts),
        years: years::view(guide, state, facts),
        worth: worth::view(guide, state, facts),
        money: state.money,
        next: next(guide, state, facts),
        standing: standing(guide, facts),
        clues: clues::clues(guide, state, facts),
        change: clues::change(guide, state, facts),
        second: second(guide, state, facts),
        kinds: kinds(guide, facts),
        seller: facts.seller_questions(guide),
        notes: guide.kind_text(facts.first).map(|t| t.notes.clone()).unwrap_or_default(),
        sources: sources(guide, facts),
        purpose: guide.kind_text(facts.first).map(|t| t.purpose.clone()).unwrap_or_default(),
    }
}

/// Warnings raised by an answer, by the condition, or by a kind that is likely enough to matter; grave ones apart.
fn cautions(guide: &Guide, state: &State, facts: &Facts) -> (Vec<String>, Vec<String>) {
    let cares = sale::cares(guide, state);
    let raised = |at: usize, c: &pack::Caution| {
        let by_answer = c.raised_by.iter().any(|(q, choice)| {
            matches!(state.answer_to(usize::from(*q)).map(|g| &g.what),
                Some(What::OneOf(set)) if set.contains(&usize::from(*choice)))
        });
        let by_kind: f64 = (guide.core.kinds.iter().zip(&facts.kinds))
            .filter(|(k, _)| k.cautions.iter().any(|c| usize::from(*c) == at))
            .map(|(_, p)| p)
            .sum();
        // A warning costs a line, a missed one more: one chance in four is enough. Basis: practice.
        let by_condition = cares.contains(&c.id.as_str());
        let raised = by_answer || by_condition || (facts.told() && by_kind >= 0.25);
        // What a look could have shown, and none did, is a note; what no look can show stands on top.
        let on_top = c.grave && (by_answer || c.raised_by.is_empty());
        raised.then(|| (on_top, c.text.clone()))
    };
    let (mut grave, mut plain) = (Vec::new(), Vec::new());
    for (on_top, text) in guide.core.cautions.iter().enumerate().filter_map(|(i, c)| raised(i, c)) {
        if on_top { grave.push(text) } else { plain.push(text) }
    }
    (grave, plain)
}

fn outside(guide: &Guide, facts: &Facts) -> Option<String> {
    if guide.core.kinds[facts.first].standing == Standing::Outside {
        let share = facts.kinds[facts.first] + facts.not_here();
        return Some(if share >= LEANS {
            "It is outside of this guide, which is about other pieces.".to_string()
        } else {
            format!("Perhaps outside of this guide, which is about other pieces: {}.", likely(share))
        });
    }
    let says = || {
        let share = facts.not_here();
        let hardly = share >= LEANS;
        let head = if hardly {
            "Hardly in this guide: that it is not is"
        } else {
            "Perhaps not in this guide at all:"
        };
        format!("{head} {}. What follows is said for the case that it is.", likely(share))
    };
    facts.strange().then(says)
}

fn roles(guide: &Guide, facts: &Facts) -> Vec<(String, String)> {
    let order = descending(&facts.roles).into_iter().filter(|r| facts.roles[*r] >= LISTED_ROLE);
    order.map(|r| (guide.core.roles[r].name.clone(), chance(facts.roles[r]))).collect()
}

/// `Made as a toy, likely, 8 in 10; could have served as a small working iron.`
fn made_as(guide: &Guide, facts: &Facts) -> String {
    let (top, share) = super::facts::top(&facts.roles);
    let name = |r: usize| inside(&guide.core.roles[r].name);
    let leaning = share >= LEANS;
    let mut text = if leaning {
        format!("Made as {}: {}.", name(top), likely(share))
    } else {
        let open = roles(guide, facts);
        let parts: Vec<String> = open.iter().take(4).map(|(n, c)| format!("{} {c}", inside(n))).collect();
        format!("Made as {}.", parts.join(", "))
    };
    // What is listed among the chances is not said again.
    let said = |r: usize| if leaning { r == top } else { facts.roles[r] >= LISTED_ROLE };
    let kind = &guide.core.kinds[facts.first];
    let serves: Vec<String> =
        kind.serves.iter().map(|r| usize::from(*r)).filter(|r| !said(*r)).map(name).collect();
    if !serves.is_empty() {
        let words: Vec<&str> = serves.iter().map(String::as_str).collect();
        text.push_str(&format!(" Could have served as {}.", either(&words)));
    }
    text
}

pub(super) fn make_words(guide: &Guide, facts: &Facts) -> String {
    let period = facts.period();
    let names: Vec<String> = guide.core.makes.iter().map(|m| inside(&m.name)).collect();
    if period >= LEANS {
        return format!("leans towards {}, {}", names[0], chance(period));
    }
    let (later, share) = super::facts::top(&facts.makes[1..]);
    if 1.0 - period >= LEANS {
        let which =
            if share >= LEANS * (1.0 - period) { names[later + 1].clone() } else { "a later piece".into() };
        return format!("leans towards {which}, {} that it is later", chance(1.0 - period));
    }
    format!("can be either: {} {}", names[0], chance(period))
}

fn next(guide: &Guide, state: &State, facts: &Facts) -> Option<NextView> {
    let question = next_question(guide, state, facts)?;
    let separates = facts
        .second
        .and_then(|s| facts.separating(guide, state, facts.first, s))
        .is_some_and(|l| l.question == question);
    let why = if separates && !state.given.is_empty() {
        "It separates the first two kinds.".to_string()
    } else if guide.core.opening.iter().any(|q| usize::from(*q) == question) {
        "One of the first looks at any piece.".to_string()
    } else {
        let what = match facts.ranked_for {
            Aim::Kind => "what it is",
            Aim::Role => "what it was made as",
            Aim::Make => "old or later",
            Aim::Worth => "what it is worth",
        };
        format!("It tells most about {what} for the time it takes.")
    };
    Some(NextView { question, ask: guide.core.questions[question].ask.clone(), why })
}

fn standing(guide: &Guide, facts: &Facts) -> String {
    if !facts.told() {
        return "Answer a look or two, and a finding comes.".to_string();
    }
    let standing = if facts.settled() {
        "Settled: nine in ten or better, and the piece fits."
    } else if facts.spent && facts.ranked.iter().any(|l| l.gain >= TELLS) {
        "Spent: what is left to look at tells little more."
    } else if facts.spent {
        "Spent: no look that is left would tell more."
    } else if facts.fit.strange {
        "Still open: the answers do not fit any one kind well. Look again at the doubtful ones."
    } else {
        "Still open: more looks will tell."
    };
    let twins = twins(guide, facts);
    if twins.is_empty() {
        return standing.to_string();
    }
    let twins = either(&twins);
    format!(
        "{standing} Looks alone do not tell it from \u{201c}{twins}\u{201d}: that takes evidence of its own, such as \
         papers or wording."
    )
}

/// Kinds that still fit and that the pack declares not to be told from the first.
fn twins<'a>(guide: &'a Guide, facts: &Facts) -> Vec<&'a str> {
    let open = |k: &&u16| facts.kinds[usize::from(**k)] >= LISTED_KIND;
    let all = guide.core.kinds[facts.first].either.iter().filter(open);
    all.map(|k| guide.core.kinds[usize::from(*k)].short.as_str()).collect()
}

fn second(guide: &Guide, state: &State, facts: &Facts) -> Option<SecondView> {
    let second = facts.second.filter(|s| facts.kinds[*s] >= LISTED_KIND / 2.0)?;
    let of_pair = |one: usize, other: usize| {
        let confusions = guide.kind_text(one)?.confusions.iter();
        confusions.into_iter().find(|c| usize::from(c.kind) == other)
    };
    let check = of_pair(facts.first, second).or_else(|| of_pair(second, facts.first));
    let look =
        facts.separating(guide, state, facts.first, second).filter(|l| l.gain >= SPENT).map(|l| NextView {
            question: l.question,
            ask: guide.core.questions[l.question].ask.clone(),
            why: "Of all open looks it separates the two best.".to_string(),
        });
    Some(SecondView {
        name: guide.core.kinds[second].name.clone(),
        likely: likely(facts.kinds[second] / (1.0 - facts.not_here()).max(1e-9)),
        check: check.map(|c| sentence(&c.check)),
        look,
    })
}

fn kinds(guide: &Guide, facts: &Facts) -> Vec<(String, String, u16)> {
    descending(&facts.kinds)
        .into_iter()
        .filter(|k| facts.kinds[*k] >= LISTED_KIND)
        .take(8)
        .map(|k| (guide.core.kinds[k].name.clone(), chance(facts.kinds[k]), (facts.kinds[k] * 1000.0) as u16))
        .collect()
}

/// Sources behind the first kind's tables, years and worth.
fn sources(guide: &Guide, facts: &Facts) -> Vec<String> {
    let kind = &guide.core.kinds[facts.first];
    let mut keys: Vec<u16> = Vec::new();
    for facts in kind.makes.iter().flatten() {
        keys.extend(facts.period_source);
        keys.extend(facts.worth.as_ref().and_then(|w| w.source));
    }
    for c in guide.core.candidates.iter().filter(|c| usize::from(c.kind) == facts.first) {
        keys.extend(
            guide.core.questions.iter().zip(&c.rows).filter_map(|(q, r)| q.rows.get(usize::from(*r))?.source),
        );
    }
    // In the order of the book, each once.
    let all = guide.book.as_ref().map_or(0, |b| b.sources.len());
    let named = (0..all as u16).filter(|k| keys.contains(k));
    named.filter_map(|k| guide.source(Some(k)).map(str::to_string)).collect()
}

/// The measured length, or the kind's own middle length, in mm.
fn typical_length(guide: &Guide, state: &State, kind: usize) -> u32 {
    let Some(question) = guide.length_question() else {
        return 0;
    };
    if let Some(What::Length(l, _)) = state.answer_to(question).map(|g| &g.what) {
        return l.0.div_ceil(10);
    }
    let q = &guide.core.questions[question];
    let own = guide.core.candidates.iter().find(|c| usize::from(c.kind) == kind);
    match own.and_then(|c| Some(&q.rows.get(usize::from(c.rows[question]))?.says)) {
        Some(Says::Spread { mean, .. }) if q.form == Form::Length => (mean / 10).unsigned_abs(),
        _ => 0,
    }
}
