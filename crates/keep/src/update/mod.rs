//! The only way the page changes.

mod comes;
mod keeps;
mod ways;

use crate::effect::{Effect, Gather, SheetSort, Why};
use crate::form::{Form, day};
use crate::handed::LAST;
use crate::msg::{CARD_END, Given, Msg, Spot};
use crate::piece::{self, settle};
use crate::saving::{saving, states};
use crate::state::{Bulk, PAGE, Saved, Screen, State};
use crate::store::Store;
use crate::{bulk, into, list, paper};
use cabinet::find::{Card, Index};
use cabinet::merge::Shelf;
use cabinet::record::{Record, Uuid};
use comes::{gathered, noted, opened, put_cards, saved};
use keeps::{draft_name, keep_draft, keep_handed, number, save, settle_handed, take_finding};
use ways::{go, shown, went};

/// The names of notes beside the records.
const EXPORTED: &str = "exported";
const DEVICE: &str = "device";
const HEIRS: &str = "heirs";
/// The sign between the texts of one note.
const BETWEEN: char = '\u{1f}';

/// Changes the state by a message.
pub fn update(state: &mut State, msg: Msg, given: &mut Given) -> Vec<Effect> {
    let mut effects = Vec::new();
    state.today = given.now.date();
    match msg {
        Msg::Went(fragment) => effects.extend(went(state, &fragment)),
        Msg::Store(store) => {
            let reads = store != Store::Refused;
            state.store = store;
            if reads {
                for name in [EXPORTED, DEVICE, HEIRS, LAST] {
                    effects.push(Effect::Note(name.to_string()));
                }
                effects.push(Effect::Persist { ask: false });
            } else {
                state.loaded = true;
            }
        }
        Msg::Cards(cards) => {
            let cards = cards.split(CARD_END).filter_map(Card::read).collect();
            state.index = Index::of(cards, state.today);
            state.loaded = true;
            effects.extend(settle_handed(state, given));
        }
        Msg::Heard(ids) => effects.push(Effect::Cards(ids)),
        Msg::Others(cards) => {
            put_cards(state, &cards);
            let open = state.open.as_ref().map(|(id, _)| *id);
            let touched = |id: &Uuid| cards.iter().filter_map(|c| Card::read(c)).any(|c| c.id == *id);
            // A form that is open keeps what it was begun from: what disagrees is shown when it is saved.
            if let Some(id) = open.filter(touched).filter(|_| state.form.is_none()) {
                effects.push(Effect::Read(id));
            }
        }
        Msg::Noted(name, text) => effects.extend(noted(state, &name, &text, given)),
        Msg::States(id, texts) => effects.extend(opened(state, id, &texts, given)),
        Msg::Many(Why::Bulk, all) => effects.extend(bulk::change(state, &all, given)),
        Msg::Many(Why::Back, all) => {
            let shelf = Shelf::of(all.iter().flat_map(|texts| states(texts).0).collect());
            if let Some((id, version)) = piece::settled(state, &shelf, false, None, given) {
                state.saving = Some(Saved::Back(id));
                effects.push(Effect::Save(vec![saving(&version)]));
            }
        }
        Msg::Many(Why::Fill, all) => effects.extend(into::fill(state, &all, given)),
        Msg::Saved(cards) => effects.extend(saved(state, &cards)),
        Msg::Failed(failure) => {
            state.saving = None;
            state.busy = None;
            state.says(failure.says());
        }
        Msg::Room(room) => state.room = room,
        Msg::Photo(digest) => {
            if let Some(form) = &mut state.form {
                form.photo(&digest);
                effects.extend(keep_draft(state));
            }
        }
        Msg::NoPhoto(says) => state.says(says),
        Msg::Gathered(gather, all) => effects.extend(gathered(state, gather, &all)),
        Msg::Progress(done, all) => state.busy = Some((done, all)),
        Msg::Exported => {
            state.busy = None;
            state.exported = Some(given.now);
            effects.push(Effect::Keep(EXPORTED.to_string(), given.now.0.to_string()));
            state.says(
                "Exported. Put the file somewhere else than on this device: a computer, a stick, a friend. To be sure that it \
                 can be read, take it in here once: nothing is changed by what is there already.",
            );
        }
        Msg::Looked(Ok(preview)) => {
            state.busy = None;
            state.faults.clear();
            state.table = None;
            state.preview = Some(preview);
        }
        Msg::Looked(Err(faults)) => {
            state.busy = None;
            state.preview = None;
            state.faults = faults;
        }
        Msg::Table(bytes) => into::table(state, &bytes),
        Msg::Stopped => {
            state.busy = None;
            state.saving = None;
            state.preview = None;
            state.says("Stopped. Nothing was changed.");
        }
        Msg::Copied(done) => state.says(if done {
            "Copied."
        } else {
            "This browser does not let pages copy. Select the text by hand."
        }),
        Msg::Update => state.update = true,
        Msg::Type(spot, text) => effects.extend(typed(state, spot, text)),
        Msg::Standing(which) => {
            state.standing = which;
            state.shown = PAGE;
        }
        Msg::Filter(filter) => {
            match state.query.filters.iter().position(|f| *f == filter) {
                Some(at) => drop(state.query.filters.remove(at)),
                None => state.query.filters.push(filter),
            }
            state.shown = PAGE;
        }
        Msg::Sort(sort) if state.query.sort == sort => state.query.backwards = !state.query.backwards,
        Msg::Sort(sort) => (state.query.sort, state.query.backwards) = (sort, false),
        Msg::Wall(wall) => state.wall = wall,
        Msg::More => state.shown *= 3,
        Msg::Filters => state.filters_open = !state.filters_open,
        Msg::Several => state.bulk = if state.bulk.is_some() { None } else { Some(Bulk::default()) },
        Msg::Choose(id) => {
            if let Some(bulk) = &mut state.bulk {
                match bulk.chosen.iter().position(|c| *c == id) {
                    Some(at) => drop(bulk.chosen.remove(at)),
                    None => bulk.chosen.push(id),
                }
            }
        }
        Msg::ChooseAll => {
            let all: Vec<Uuid> = list::listed(state).into_iter().map(|at| state.index.card(at).id).collect();
            if let Some(bulk) = &mut state.bulk {
                bulk.chosen = all;
            }
        }
        Msg::BulkKey(at) => {
            if let Some(bulk) = state.bulk.as_mut().filter(|_| at < bulk::KEYS.len()) {
                (bulk.key, bulk.text, bulk.fault) = (at, String::new(), None);
            }
        }
        Msg::Bulk => effects.extend(bulk::begin(state)),
        Msg::Money => state.money = !state.money,
        Msg::New => {
            let id = (given.fresh)();
            let record = Record {
                number: number(state),
                recorded: Some(day(given.now)),
                standing: state.standing.unwrap_or_default(),
                ..Record::default()
            };
            state.open = Some((id, Shelf::default()));
            state.form = Some(Form::new(id, Vec::new(), &record));
            effects.extend(go(state, Screen::Edit(id), true));
        }
        Msg::Part(sort) => {
            if let Some(form) = &mut state.form {
                form.add(sort);
                effects.push(Effect::Say("Added.".to_string()));
            }
        }
        Msg::Drop(part) => {
            if let Some(form) = &mut state.form {
                form.remove(part);
                effects.push(Effect::Say("Removed.".to_string()));
            }
            effects.extend(keep_draft(state));
        }
        Msg::Save => effects.extend(save(state, given)),
        Msg::Leave => {
            if let Some(form) = state.form.take() {
                effects.push(Effect::Keep(draft_name(form.id), String::new()));
                let to = if form.from.is_empty() { Screen::List } else { Screen::Piece(form.id) };
                effects.extend(go(state, to, false));
            }
        }
        Msg::Delete => {
            if let Some((id, _)) = state.open {
                effects.extend(settle(state, true, None, Saved::Gone(id), given));
            }
        }
        // The delete itself must be among what the new state follows, so it is read first.
        Msg::PutBack(id) if state.writes() => effects.push(Effect::ReadMany(Why::Back, vec![id])),
        Msg::PutBack(_) => {}
        Msg::Holds(version) => {
            if let Some((id, _)) = state.open {
                effects.extend(settle(state, false, Some(version), Saved::Holds(id), given));
            }
        }
        Msg::TakeFinding => effects.extend(take_finding(state, given)),
        Msg::LeaveFinding => {
            if let Some((name, _)) = state.handed.take() {
                effects.push(Effect::Keep(name, String::new()));
            }
            if let Screen::Again(id) = state.screen {
                effects.extend(go(state, Screen::Piece(id), false));
            }
        }
        Msg::Another => effects.extend(keep_handed(state, given)),
        Msg::Export => {
            state.busy = Some((0, state.index.len()));
            effects.push(Effect::Export);
        }
        Msg::File(gather) => effects.push(Effect::Gather(gather)),
        Msg::Sheet(sort) => {
            let id = match state.screen {
                Screen::Piece(id) => Some(id),
                _ => None,
            };
            effects.extend(go(state, Screen::Paper(sort, id), true));
            effects.extend(shown(state));
        }
        Msg::TakeIn if state.table.is_some() => effects.extend(into::begin(state)),
        Msg::TakeIn => {
            if state.writes() && state.preview.is_some() {
                state.saving = Some(Saved::Taken);
                state.busy = Some((0, 0));
                effects.push(Effect::TakeIn);
            }
        }
        Msg::LeaveIn => {
            (state.preview, state.table) = (None, None);
            state.faults.clear();
            effects.push(Effect::LeaveIn);
        }
        Msg::Stop => effects.push(Effect::Stop),
        Msg::Print => effects.push(Effect::Print),
        Msg::Copy => {
            if let Some(sheet) = &state.sheet {
                effects.push(Effect::Copy(paper::as_text(sheet)));
            }
        }
        Msg::Good => state.notice = None,
        Msg::AcceptUpdate => effects.push(Effect::AcceptUpdate),
    }
    effects
}

/// Something was typed.
fn typed(state: &mut State, spot: Spot, text: String) -> Vec<Effect> {
    match spot {
        Spot::Search => {
            state.query.words = text.chars().take(200).collect();
            state.shown = PAGE;
        }
        Spot::Form(part, at) => {
            if let Some(form) = &mut state.form {
                form.put(part, at, text);
            }
            return keep_draft(state);
        }
        Spot::Bulk => {
            if let Some(bulk) = &mut state.bulk {
                (bulk.text, bulk.fault) = (text, None);
            }
        }
        Spot::Question => {
            state.question = text.chars().take(2_000).collect();
            return shown(state);
        }
        Spot::Column(at) => into::means(state, at, &text),
        Spot::Heirs(at) => {
            if let Some(place) = state.heirs.get_mut(at) {
                *place = text.chars().filter(|c| *c != BETWEEN).take(5_000).collect();
            }
            let mut effects = vec![Effect::Keep(HEIRS.to_string(), state.heirs.join("\u{1f}"))];
            effects.push(Effect::Gather(Gather::Sheet(SheetSort::Heirs)));
            return effects;
        }
        Spot::Device => {
            state.device = text.chars().filter(|c| !c.is_control()).take(40).collect();
            return vec![Effect::Keep(DEVICE.to_string(), state.device.clone())];
        }
    }
    Vec::new()
}
