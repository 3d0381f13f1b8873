//! The only way the page changes.

use crate::effect::{Effect, Gather, SheetSort, Why};
use crate::form::{Form, day};
use crate::handed::{LAST, drafted, handed};
use crate::msg::{Given, Msg, Spot};
use crate::piece::{self, after, settle, stands};
use crate::saving::{saving, states};
use crate::state::{Bulk, Notice, PAGE, Saved, Screen, State};
use crate::store::Store;
use crate::{again, bulk, into, list, out, paper};
use cabinet::find::{Card, Index};
use cabinet::merge::Shelf;
use cabinet::record::{Moment, Number, Record, Stamp, Uuid, Value, Version};

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
            let cards = cards.iter().filter_map(|c| Card::read(c)).collect();
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
        Msg::More => state.shown += PAGE,
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

fn put_cards(state: &mut State, cards: &[String]) {
    for card in cards.iter().filter_map(|c| Card::read(c)) {
        state.index.put(card, state.today);
    }
}

/// Another screen.
fn go(state: &mut State, screen: Screen, push: bool) -> Vec<Effect> {
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
fn went(state: &mut State, fragment: &str) -> Vec<Effect> {
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
fn shown(state: &mut State) -> Vec<Effect> {
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

/// A draft or note has come.
fn noted(state: &mut State, name: &str, text: &str, given: &mut Given) -> Vec<Effect> {
    match name {
        EXPORTED => state.exported = text.parse().ok().map(Moment),
        DEVICE => state.device = text.to_string(),
        LAST => state.last = drafted(text),
        HEIRS => {
            for (place, text) in state.heirs.iter_mut().zip(text.split(BETWEEN)) {
                *place = text.to_string();
            }
        }
        _ if name.starts_with("keep/") => {
            if text.is_empty() {
                return Vec::new();
            }
            match handed(text) {
                Ok(record) => {
                    state.handed = Some((name.to_string(), record));
                    return settle_handed(state, given);
                }
                Err(says) => state.says(says),
            }
        }
        _ => {
            if let Some(form) = state.form.as_mut().filter(|f| draft_name(f.id) == name && !f.touched)
                && form.restore(text)
            {
                state.says("What you had typed here before is back. Save it, or leave it.");
            }
        }
    }
    Vec::new()
}

fn draft_name(id: Uuid) -> String {
    format!("edit/{id}")
}

fn keep_draft(state: &State) -> Vec<Effect> {
    match &state.form {
        Some(form) if state.writes() => vec![Effect::Keep(draft_name(form.id), form.draft())],
        _ => Vec::new(),
    }
}

/// A record from the question page: kept as a new piece, unless a piece with just these answers is here.
fn settle_handed(state: &mut State, given: &mut Given) -> Vec<Effect> {
    if !state.loaded || state.handed.is_none() {
        return Vec::new();
    }
    if !state.writes() {
        if let Some(says) = state.store.says() {
            state.says(says);
        }
        return Vec::new();
    }
    let same = state.handed.as_ref().and_then(|(_, record)| again::same(state, record));
    match same {
        Some(id) => {
            let mut effects = go(state, Screen::Again(id), false);
            effects.extend(shown(state));
            effects
        }
        None => keep_handed(state, given),
    }
}

fn keep_handed(state: &mut State, given: &mut Given) -> Vec<Effect> {
    let Some((_, record)) = state.handed.as_ref().filter(|_| state.writes()) else { return Vec::new() };
    let mut record = record.clone();
    record.number = number(state);
    record.recorded = Some(day(given.now));
    let version = after(&[], &record, false, &state.device, given);
    state.saving = Some(Saved::Kept(version.stamp.id));
    vec![Effect::Save(vec![saving(&version)])]
}

fn take_finding(state: &mut State, given: &mut Given) -> Vec<Effect> {
    let (Some((_, now)), Some((id, shelf))) = (&state.handed, &state.open) else { return Vec::new() };
    let Some(kept) = stands(shelf).filter(|_| state.writes()) else { return Vec::new() };
    let record = again::taken(&kept.shown.record, now);
    let version = after(&[kept.shown], &record, false, &state.device, given);
    state.saving = Some(Saved::Kept(*id));
    vec![Effect::Save(vec![saving(&version)])]
}

/// The next free number of the year.
fn number(state: &State) -> Option<Number> {
    let used: Vec<&Number> = state.index.cards().filter_map(|c| c.number.as_ref()).collect();
    Number::next(&used, state.today.year)
}

/// The states of a piece have come.
fn opened(state: &mut State, id: Uuid, texts: &[String], given: &mut Given) -> Vec<Effect> {
    let (versions, lost) = states(texts);
    if lost > 0 {
        let how = if lost == 1 {
            "One state of this record was".to_string()
        } else {
            format!("{lost} states of this record were")
        };
        state.says(format!(
            "{how} written by a newer edition and cannot be shown here. It stays in the cabinet."
        ));
    }
    let shelf = Shelf::of(versions);
    let wanted = match state.screen {
        Screen::Piece(own) | Screen::Edit(own) | Screen::Again(own) | Screen::Paper(_, Some(own)) => {
            own == id
        }
        _ => false,
    };
    if !wanted {
        return Vec::new();
    }
    let mut effects = Vec::new();
    if state.screen == Screen::Edit(id) && state.form.is_none() {
        let kept = stands(&shelf);
        let form = match &kept {
            Some(kept) => Form::new(id, vec![kept.shown.clone()], &kept.shown.record),
            None => {
                let record =
                    Record { recorded: Some(day(given.now)), number: number(state), ..Record::default() };
                Form::new(id, Vec::new(), &record)
            }
        };
        state.form = Some(form);
        effects.push(Effect::Note(draft_name(id)));
    }
    state.open = Some((id, shelf));
    if let (Screen::Paper(sort, Some(_)), Some((id, record))) = (state.screen, piece::record(state)) {
        state.sheet = Some(paper::of_one(state, sort, id, &record));
    }
    effects
}

/// The form is saved: as a state that names those it was begun from.
fn save(state: &mut State, given: &mut Given) -> Vec<Effect> {
    if !state.writes() || state.saving.is_some() {
        return Vec::new();
    }
    let Some(mut form) = state.form.take() else { return Vec::new() };
    let id = form.id;
    let taken = |number: &str| {
        let other = |c: &&Card| c.id != id && c.number.as_ref().is_some_and(|n| n.text() == number);
        state.index.cards().find(other).filter(|_| !number.is_empty()).map(list::title)
    };
    let record = form.record(state.today, &taken);
    let mut effects = Vec::new();
    match record {
        Some(record) => {
            let from: Vec<&Version> = form.from.iter().collect();
            let version = if from.is_empty() {
                let version = (given.fresh)();
                let device = state.device.clone();
                Version::after(
                    &[],
                    Stamp { id, version, time: given.now, device, ..Stamp::default() },
                    &record,
                )
            } else {
                after(&from, &record, false, &state.device, given)
            };
            state.saving = Some(Saved::Form(id));
            effects.push(Effect::Save(vec![saving(&version)]));
        }
        None => effects.push(Effect::Say("Not saved: something cannot be used yet.".to_string())),
    }
    state.form = Some(form);
    effects
}

/// A save is complete.
fn saved(state: &mut State, cards: &[String]) -> Vec<Effect> {
    put_cards(state, cards);
    state.busy = None;
    let mut effects = vec![Effect::Persist { ask: true }];
    let name = |state: &State, id: Uuid| state.index.card_of(id).map_or_else(String::new, list::called);
    match state.saving.take() {
        Some(Saved::Form(id)) => {
            state.form = None;
            state.says(format!("Saved: {}.", name(state, id)));
            effects.push(Effect::Keep(draft_name(id), String::new()));
            effects.extend(go(state, Screen::Piece(id), false));
            effects.push(Effect::Read(id));
        }
        Some(Saved::Kept(id)) => {
            if let Some((note, _)) = state.handed.take() {
                effects.push(Effect::Keep(note, String::new()));
            }
            state.says(format!("Kept: {}.", name(state, id)));
            effects.extend(go(state, Screen::Piece(id), false));
            effects.push(Effect::Read(id));
        }
        Some(Saved::Gone(id)) => {
            let says = format!("Taken out: {}. Nothing of it is lost.", name(state, id));
            state.notice = Some(Notice { says, back: Some(id) });
            effects.extend(go(state, Screen::List, false));
        }
        Some(Saved::Back(id)) => {
            state.says(format!("Back in the cabinet: {}.", name(state, id)));
            if state.screen == Screen::Piece(id) {
                effects.push(Effect::Read(id));
            }
            state.standing = state.index.card_of(id).map(|c| c.standing);
        }
        Some(Saved::Holds(id)) => {
            state.says("Settled. The other version stays in the past of the record.");
            effects.push(Effect::Read(id));
        }
        Some(Saved::Several(n)) => {
            state.bulk = None;
            state.says(if n == 1 { "1 piece changed.".to_string() } else { format!("{n} pieces changed.") });
        }
        Some(Saved::Taken) => {
            (state.preview, state.table) = (None, None);
            let conflicts = cards.iter().filter_map(|c| Card::read(c)).filter(|c| c.against > 0).count();
            let mut says = format!("Taken in: {} pieces new or changed.", cards.len());
            if conflicts > 0 {
                says.push_str(&format!(
                    " {conflicts} of them now have versions that disagree: look under \u{201c}Order and filters\u{201d}."
                ));
            }
            state.says(says);
            effects.extend(go(state, Screen::List, false));
        }
        None => {}
    }
    effects
}

/// All records have come.
fn gathered(state: &mut State, gather: Gather, all: &[(Uuid, Record)]) -> Vec<Effect> {
    state.busy = None;
    match gather {
        Gather::Sheet(sort) => {
            if state.screen == Screen::Paper(sort, None) {
                state.sheet = Some(paper::of_all(state, sort, all));
            }
            Vec::new()
        }
        Gather::Csv(_) | Gather::Linked => {
            let file = out::file(gather, all, &state.today.shown());
            file.map(|(name, sort, text)| Effect::HandOver(name, sort, text)).into_iter().collect()
        }
    }
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
