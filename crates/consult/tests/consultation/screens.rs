//! Every screen of any state that can be reached: nothing empty where words belong, nothing that looks like a fault.

use crate::common::{Tap, for_all_walks, irons, tiny, walked};
use consult::{Body, Guide, Screen, State, View, update, view};
use proptest::prelude::*;
use serde_json::Value;

/// Every text of a screen with the way to it.
fn texts(value: &Value, way: &str, found: &mut Vec<(String, String)>) {
    match value {
        Value::String(text) => found.push((way.to_string(), text.clone())),
        Value::Array(items) => items.iter().for_each(|v| texts(v, way, found)),
        Value::Object(fields) => fields.iter().for_each(|(k, v)| texts(v, &format!("{way}.{k}"), found)),
        _ => {}
    }
}

/// What only a fault in the program would show.
fn looks_like_a_fault(text: &str) -> bool {
    let words = text.split(|c: char| !c.is_alphanumeric());
    let debris = ["NaN", "inf", "null", "undefined"];
    words.into_iter().any(|w| debris.contains(&w))
        || ["Some(", "None,", "Ok(", "Err("].iter().any(|d| text.contains(d))
        || text.contains(['{', '}', '\u{fffd}'])
        || text.contains("  ")
        || text.contains("..")
        || text.contains(" .")
        || text.contains(" ,")
}

/// Fields that may be empty: drawings and texts of which the pack may have none, and what is being typed.
fn may_be_empty(way: &str) -> bool {
    ["draw", "link", "pack_notice", "purpose", "text", "bound", "Marks.years", "readings.years"]
        .iter()
        .any(|f| way.ends_with(f) || way.contains(".seen."))
        && !way.ends_with("clues.text")
}

/// What a user types stands as it is typed.
fn is_typed(way: &str) -> bool {
    way.contains("typing")
        || way.ends_with("Marks.text")
        || (way.contains(".Measures.") && way.ends_with(".text"))
        || (way.contains(".Sale.") && way.ends_with(".text"))
}

fn holds(guide: &Guide, state: &State) -> Result<(), TestCaseError> {
    let shown = view(guide, state);
    let mut all = Vec::new();
    texts(&serde_json::to_value(&shown).map_err(|e| TestCaseError::fail(e.to_string()))?, "", &mut all);
    for (way, text) in &all {
        prop_assert!(!text.trim().is_empty() || may_be_empty(way), "{} is empty", way);
        prop_assert!(!looks_like_a_fault(text) || is_typed(way), "{}: {}", way, text);
        prop_assert!(text.trim() == text || is_typed(way), "{}: a space at an end of {:?}", way, text);
    }
    body(guide, state, &shown)
}

fn body(guide: &Guide, state: &State, shown: &View) -> Result<(), TestCaseError> {
    prop_assert_eq!(shown.strip.is_none(), matches!(shown.body, Body::Finding(_)));
    if let Some(strip) = &shown.strip {
        prop_assert!(strip.known <= 1000, "{}", strip.known);
    }
    match &shown.body {
        Body::Look(look) => {
            prop_assert!((2..=6).contains(&look.choices.len()), "{} choices", look.choices.len());
            prop_assert!(look.choices.iter().all(|c| !c.label.is_empty()) && !look.ask.is_empty());
            prop_assert!(look.choices.iter().filter(|c| c.chosen).count() <= 2);
            prop_assert_eq!(look.either.is_some(), state.either.is_some());
        }
        Body::Later => prop_assert!(!guide.is_whole()),
        Body::Place(place) => {
            prop_assert_eq!(
                place.places.len(),
                guide.core.places.len() - 1,
                "all but \u{201c}not said\u{201d}"
            );
            prop_assert_eq!(place.tools.len(), guide.core.tools.len());
        }
        Body::Finding(f) => {
            prop_assert!(f.share <= 1000 && f.kinds.iter().all(|k| k.2 <= 1000) && !f.title.is_empty());
            prop_assert!(f.kinds.is_sorted_by(|a, b| a.2 >= b.2), "the likeliest first: {:?}", f.kinds);
            prop_assert!(
                f.clues.is_sorted_by(|a, b| a.strength >= b.strength),
                "for before against: {:?}",
                f.clues
            );
            // The tiny pack has no tables of marks: lettering that nobody reads says nothing.
            let lettered = usize::from(f.clues.iter().any(|c| c.question.is_none()));
            prop_assert!(lettered == 0 || state.marks.is_told());
            let speak = lettered + state.given.iter().filter(|g| g.what != consult::What::Cannot).count();
            prop_assert_eq!(f.clues.len(), speak, "one clue for each answer that says something");
            prop_assert!(
                f.clues.iter().filter(|c| c.again.is_some()).count() <= 1,
                "one answer to look at again"
            );
            prop_assert!(f.clues.iter().all(|c| c.strength.abs() <= 2400));
            prop_assert!(f.change.is_empty() == (speak == 0) && f.change.len() <= 4, "{:?}", f.change);
            prop_assert!(
                f.seller.is_empty() || state.picture,
                "a seller is asked when only a picture is there"
            );
        }
        Body::List(parts) => {
            prop_assert!(
                !parts.is_empty() && parts.iter().all(|p| !p.looks.is_empty() && !p.part.is_empty())
            );
            let looks: Vec<_> = parts.iter().flat_map(|p| &p.looks).collect();
            prop_assert!(looks.iter().all(|l| (2..=6).contains(&l.choices.len())));
            prop_assert!(looks.iter().filter(|l| l.tells_most).count() <= 3);
            for given in &state.given {
                let listed = looks.iter().filter(|l| l.question == given.question).count();
                prop_assert_eq!(listed, 1, "what was answered is on the list once");
            }
        }
        Body::Setup(setup) => {
            prop_assert_eq!(setup.aims.iter().filter(|a| a.1).count(), 1);
        }
        Body::Photo(room) => prop_assert!(!room.heading.is_empty()),
        Body::Measures(room) => {
            prop_assert_eq!(room.recast.is_some(), guide.knows(consult::Table::Metals));
            if let Some(recast) = &room.recast {
                prop_assert_eq!(recast.pairs.len(), usize::from(state.measures.pairs()));
                prop_assert!(recast.asks.is_some() != recast.says.is_some(), "one of the two");
                let keys = recast.pairs.iter().map(|p| &p.by).chain([&recast.with, &recast.metals]);
                prop_assert!(keys.into_iter().all(|k| k.keys.iter().filter(|k| k.set).count() <= 1));
            }
            if let Some(metal) = &room.metal {
                prop_assert!(!metal.cautions.is_empty());
                prop_assert!(metal.density.is_none() || metal.fault.is_none());
                prop_assert_eq!(
                    [&metal.way, &metal.step].map(|k| k.keys.iter().filter(|k| k.set).count()),
                    [1, 1]
                );
            }
        }
        Body::Sale(room) => {
            prop_assert_eq!(room.coming, !guide.knows(consult::Table::Prices));
            prop_assert_eq!(room.desks.iter().filter(|d| d.1).count(), 1);
            prop_assert!(room.money || (room.pay.is_none() && room.sheet.is_none() && room.seen.is_none()));
        }
        Body::Marks(marks) => {
            prop_assert!(marks.coming || state.marks.is_told() || marks.marks.is_empty());
            for mark in &marks.marks {
                prop_assert!(!mark.readings.is_empty() && mark.readings.len() <= dating::MOST_READINGS);
                prop_assert!(mark.readings.iter().filter(|r| r.open.is_some()).count() <= 1);
            }
        }
    }
    Ok(())
}

fn every_screen(guide: &Guide, taps: &[Tap]) -> Result<(), TestCaseError> {
    let state = walked(guide, taps);
    holds(guide, &state)?;
    for screen in [
        Screen::Look,
        Screen::Finding,
        Screen::List,
        Screen::Setup,
        Screen::Marks,
        Screen::Measures,
        Screen::Sale,
    ] {
        let there = update(guide, state.clone(), consult::Msg::Show(screen)).0;
        holds(guide, &there)?;
        holds(guide, &update(guide, there, consult::Msg::Why).0)?;
    }
    Ok(())
}

#[test]
fn any_state_has_sound_screens() {
    for (guide, cases) in [(tiny(), 400), (irons(), 60)] {
        for_all_walks(cases, 14, |taps| every_screen(&guide, &taps));
    }
}

/// A page without a program follows links: each choice's link is the state after that choice.
#[test]
fn links_of_choices_are_the_state_after() {
    let guide = irons();
    let start = State::default();
    let Body::Look(look) = consult::opening(&guide, &start, true).body else {
        unreachable!("the first look")
    };
    for choice in &look.choices {
        let tapped = consult::Msg::Choose { question: look.question, choice: choice.choice };
        let after = update(&guide, start.clone(), tapped).0;
        assert_eq!(consult::read_fragment(&guide, &start, &choice.link).map(|s| s.given), Ok(after.given));
    }
}
