//! What is shown.

use crate::block::{Block, Key, View};
use crate::effect::SheetSort;
use crate::list::called;
use crate::msg::Msg;
use crate::state::{Screen, State};
use crate::{again, edit, into, list, out, paper, piece, series};
use cabinet::record::Uuid;

/// The screen of a state.
#[must_use]
pub fn view(state: &State) -> View {
    let all = Key::to("All pieces", "#");
    let look = Key::to("Look at a piece", "./");
    let name = |id: Uuid| state.index.card_of(id).map_or_else(|| "A piece".to_string(), called);
    let (title, mut blocks, bar) = match state.screen {
        Screen::List => (
            "The cabinet".to_string(),
            list::blocks(state),
            vec![Key::new("Write a record", Msg::New), Key::to("In and out", "#out"), look],
        ),
        Screen::Piece(id) => (
            name(id),
            piece::blocks(state, id),
            vec![all, Key::to("Change it", &format!("#edit/{id}")), look],
        ),
        Screen::Edit(id) => {
            let title = match &state.form {
                Some(form) if form.from.is_empty() => "A new record".to_string(),
                _ => format!("Change: {}", name(id)),
            };
            let blocks = match &state.form {
                Some(form) => edit::blocks(form, state.saving.is_some()),
                None => vec![Block::Hint("Opening the record.".to_string())],
            };
            (title, blocks, vec![Key::new("Leave it", Msg::Leave), Key::new("Save", Msg::Save).strong()])
        }
        Screen::Again(_) => {
            ("The same piece again?".to_string(), again::blocks(state, again_id(state)), vec![all, look])
        }
        Screen::Series => ("Series".to_string(), series::blocks(state), vec![all, look]),
        Screen::Out => (
            "Out of the cabinet".to_string(),
            out::blocks(state),
            vec![all, Key::to("Into the cabinet", "#in"), look],
        ),
        Screen::In => (
            "Into the cabinet".to_string(),
            into::blocks(state),
            vec![all, Key::to("Out of the cabinet", "#out"), look],
        ),
        Screen::Paper(sort, id) => {
            let back = id.map_or(Key::to("Back", "#out"), |id| Key::to("Back", &format!("#piece/{id}")));
            (paper_title(state, sort), paper::blocks(state, sort, id), vec![all, back, look])
        }
    };
    // What can be written nowhere is offered nowhere.
    let bar = bar.into_iter().filter(|key| state.writes() || !changes(key)).collect();
    if let Some(says) = state.store.says() {
        blocks.insert(0, Block::Care(says.to_string()));
    }
    if state.update {
        blocks.insert(
            0,
            Block::Keys(
                "A new version is ready.".to_string(),
                vec![Key::new("Use it now", Msg::AcceptUpdate)],
            ),
        );
    }
    let notice = state.notice.as_ref().map(|notice| {
        let mut keys = Vec::new();
        if let Some(id) = notice.back {
            keys.push(Key::new("Put it back", Msg::PutBack(id)).strong());
        }
        keys.push(Key::new("Good", Msg::Good));
        (notice.says.clone(), keys)
    });
    let paper = matches!(state.screen, Screen::Paper(..));
    View { title, notice, blocks, bar, paper }
}

fn again_id(state: &State) -> Uuid {
    if let Screen::Again(id) = state.screen { id } else { Uuid::default() }
}

fn changes(key: &Key) -> bool {
    use crate::block::Does;
    match &key.does {
        Does::Msg(msg) => matches!(msg, Msg::New | Msg::Save),
        Does::To(to) => to.starts_with("#edit/"),
    }
}

fn paper_title(state: &State, sort: SheetSort) -> String {
    let made = || state.sheet.as_ref().map(|s| s.title.clone());
    match sort {
        SheetSort::Labels => "Labels".to_string(),
        SheetSort::One(_) => "Record sheet".to_string(),
        SheetSort::Opinion => "A second opinion".to_string(),
        SheetSort::Sale => "Text for a sale".to_string(),
        SheetSort::Schedule => made().unwrap_or_else(|| "Insurance schedule".to_string()),
        SheetSort::Annual => made().unwrap_or_else(|| "Summary of the year".to_string()),
        SheetSort::Heirs => made().unwrap_or_else(|| "For whoever comes after".to_string()),
    }
}
