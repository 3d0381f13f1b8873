//! Screens and their addresses, and what each asks for.

use crate::effect::{Effect, Gather, SheetSort};
use crate::state::{Screen, State};
use crate::{paper, piece};
use cabinet::record::Uuid;

/// Another screen.
pub(super) fn go(state: &mut State, screen: Screen, push: bool) -> Vec<Effect> {
    state.screen = screen;
    vec![Effect::Address { fragment: address(screen), push }, Effect::Heading]
}

fn address(screen: Screen) -> String {
    match screen {
        Screen::List => String::new(),
        Screen::Piece(id) => format!("piece/{id}"),
        Screen::Edit(id) => format!("edit/{id}"),
        Screen::Again(id) => format!("again/{id}"),
        Screen::Series => "series".to_string(),
        Screen::Out => "out".to_string(),
        Screen::In => "in".to_string(),
        Screen::Paper(sort, id) => {
            let id = id.map_or_else(String::new, |id| format!("/{id}"));
            format!("paper/{}{id}", paper::word_of(sort))
        }
    }
}

/// The address says where to be.
pub(super) fn went(state: &mut State, fragment: &str) -> Vec<Effect> {
    let mut words = fragment.trim_start_matches('#').splitn(3, '/');
    let (first, second, third) = (words.next().unwrap_or_default(), words.next(), words.next());
    let id = second.and_then(Uuid::parse);
    let before = state.screen;
    state.screen = match (first, id) {
        ("piece", Some(id)) => Screen::Piece(id),
        ("edit", Some(id)) => Screen::Edit(id),
        ("again", Some(id)) => Screen::Again(id),
        ("series", _) => Screen::Series,
        ("out", _) => Screen::Out,
        ("in", _) => Screen::In,
        ("paper", _) => {
            let sort = second.and_then(paper::sort_of).unwrap_or(SheetSort::Schedule);
            Screen::Paper(sort, third.and_then(Uuid::parse))
        }
        ("keep", _) => {
            state.screen = Screen::List;
            let name = fragment.trim_start_matches('#').to_string();
            let arrive = vec![Effect::Address { fragment: String::new(), push: false }, Effect::Note(name)];
            return arrive;
        }
        _ => Screen::List,
    };
    let mut effects = shown(state);
    if let (Screen::Edit(id), Some(form)) = (state.screen, &state.form)
        && form.id != id
    {
        state.form = None;
    }
    if before != state.screen {
        effects.push(Effect::Heading);
    }
    effects
}

/// What the screen needs is asked for.
pub(super) fn shown(state: &mut State) -> Vec<Effect> {
    let open = |state: &State, id: Uuid| state.open.as_ref().is_some_and(|(open, _)| *open == id);
    match state.screen {
        Screen::Piece(id) | Screen::Again(id) => {
            if !open(state, id) {
                state.open = None;
                state.money = false;
            }
            vec![Effect::Read(id)]
        }
        Screen::Edit(id) if state.form.as_ref().is_some_and(|f| f.id == id) => Vec::new(),
        Screen::Edit(id) => vec![Effect::Read(id)],
        Screen::Paper(SheetSort::Labels, _) => Vec::new(),
        Screen::Paper(sort, Some(id)) => {
            state.sheet = None;
            match piece::record(state).filter(|(open, _)| *open == id) {
                Some((id, record)) => {
                    state.sheet = Some(paper::of_one(state, sort, id, &record));
                    Vec::new()
                }
                None => vec![Effect::Read(id)],
            }
        }
        Screen::Paper(sort, None) => {
            state.sheet = None;
            vec![Effect::Gather(Gather::Sheet(sort))]
        }
        Screen::List | Screen::Series | Screen::Out | Screen::In => Vec::new(),
    }
}
