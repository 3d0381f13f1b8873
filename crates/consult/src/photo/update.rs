//! What taps and answers do in the room.

use super::answers;
use super::words::{LIES, PATCH, TAP, refused, uncut};
use super::{Act, Develop, Photo, Spot, Stage, sheet};
use crate::fragment;
use crate::guide::Guide;
use crate::state::{Given, State, What};
use crate::update::{Effect, Kept, step};
use measure::Instrument;
use picture::ask::{Asked, Patch, Told};
use units::Length;

/// Does what was asked for; it comes with the table of coins.
pub(crate) type Run = fn(&Guide, &mut State, Act, &mut Vec<Effect>);

/// Points on a coin: at least, and at most.
pub(super) const RIM: [usize; 2] = [6, 8];
/// Points on a card.
pub(super) const CARD: usize = 8;
/// The longest text for a height.
const LONGEST: usize = 12;

pub(crate) fn run(guide: &Guide, state: &mut State, act: Act, effects: &mut Vec<Effect>) {
    match act {
        Act::Use => use_length(guide, state, effects),
        Act::Answer(question, choice) => {
            if answers::proposed(guide, &state.photo).contains(&(question, choice)) {
                put(guide, state, Given { question, what: What::OneOf(vec![choice]), sure: true }, effects);
            }
        }
        Act::Screen(name) => state.ruler.screen(&name),
        Act::Wider(by) => state.ruler.wider(by),
        Act::Fits => {
            state.ruler.fits();
            effects.push(Effect::Keep { name: Kept::Ruler, text: state.ruler.text() });
            effects.push(Effect::Say("Set for this screen.".to_string()));
        }
        act => {
            let stage = state.photo.stage;
            within(guide, &mut state.photo, act, effects);
            if state.photo.stage != stage {
                effects.push(Effect::Heading);
            }
        }
    }
}

fn put(guide: &Guide, state: &mut State, given: Given, effects: &mut Vec<Effect>) {
    step(state);
    state.put(guide, given);
    effects.push(Effect::Address { fragment: fragment::write(guide, state), push: false });
    effects.push(Effect::Say("It counts now.".to_string()));
}

fn use_length(guide: &Guide, state: &mut State, effects: &mut Vec<Effect>) {
    let (Some(question), Some(found)) = (answers::of_length(guide), state.photo.found[0]) else { return };
    let tenths = u32::try_from(found.length).unwrap_or_default().clamp(1, Length::LONGEST.0);
    let with = Instrument::Photo(u16::try_from(found.u).unwrap_or(u16::MAX));
    put(guide, state, Given { question, what: What::Length(Length(tenths), with), sure: true }, effects);
}

/// Which list of taps a stage fills.
pub(super) fn list(photo: &Photo) -> usize {
    match photo.stage {
        Stage::Ends => usize::from(photo.at >= 2) + 1,
        _ => 0,
    }
}

/// How many points the list may have.
pub(super) fn most(photo: &Photo) -> usize {
    match (photo.stage, photo.coin) {
        (Stage::Card, None) => CARD,
        (Stage::Card, Some(_)) => RIM[1],
        _ => 2,
    }
}

/// The points of the stage and which of them is moved.
pub(super) fn points(photo: &Photo) -> (&[Spot], usize) {
    let list = list(photo);
    let at = if photo.stage == Stage::Ends { photo.at % 2 } else { photo.at };
    (&photo.taps[list], at)
}

fn within(guide: &Guide, photo: &mut Photo, act: Act, effects: &mut Vec<Effect>) {
    match act {
        Act::Chosen(id) => {
            *photo = Photo { stage: Stage::Opening, busy: Some(0), ..Photo::default() };
            effects.push(Effect::Photo(Develop::Take(id)));
        }
        Act::Shown(address) => {
            photo.address = address;
            there(photo);
        }
        Act::Done(mille) => photo.busy = Some(mille.clamp(0, 1000)),
        Act::Failed(sentence) => {
            photo.busy = None;
            photo.fault = Some(sentence);
            if photo.stage == Stage::Opening {
                photo.stage = Stage::Pick;
            }
        }
        Act::Told(words) => {
            photo.busy = None;
            let told = Told::of(&words).unwrap_or(Told::Nonsense);
            hear(guide, photo, told, effects);
        }
        Act::Tap(spot) => tap(photo, spot, effects),
        Act::Move(spot) => move_to(photo, spot, effects),
        Act::Middle => {
            let [w, h] = photo.size;
            let (points, _) = points(photo);
            // A later one beside the one before, so that both can be seen.
            let from = points.last().map_or(Spot::new(w * 5, h * 5), |p| Spot::new(p.x + w, p.y));
            tap(photo, Spot::new(from.x.clamp(0, w * 10), from.y.clamp(0, h * 10)), effects);
        }
        Act::Point(at) => {
            let (points, _) = points(photo);
            if at < points.len() {
                photo.at = at + if list(photo) == 2 { 2 } else { 0 };
            }
        }
        Act::Nudge(x, y) => {
            let (points, at) = points(photo);
            if let Some(spot) = points.get(at) {
                let far = |v: i32| v.clamp(-1, 1) * photo.step * 10;
                move_to(photo, Spot::new(spot.x + far(x), spot.y + far(y)), effects);
            }
        }
        Act::Step => photo.step = if photo.step >= 100 { 1 } else { photo.step * 10 },
        Act::Zoom => photo.zoom = if photo.zoom >= 4 { 1 } else { photo.zoom * 2 },
        Act::Less => {
            let list = list(photo);
            photo.taps[list].pop();
            photo.at = photo.taps[list].len().saturating_sub(1) + if list == 2 { 2 } else { 0 };
            photo.proposed = false;
            if list > 0 {
                photo.found[list - 1] = None;
            }
        }
        Act::By(coin) => {
            photo.coin = coin.filter(|at| *at < guide.tables.coins.get().map_or(0, |c| c.coins.len()));
            photo.taps[0].clear();
            (photo.at, photo.proposed, photo.fault) = (0, false, None);
        }
        Act::Agree => agree(guide, photo, effects),
        Act::Lies(at) => {
            photo.lies = Some(at).filter(|at| *at < LIES.len());
            go_on(photo, effects);
        }
        Act::High(text) => photo.high = text.chars().filter(|c| !c.is_control()).take(LONGEST).collect(),
        Act::Height => go_on(photo, effects),
        Act::Across(which) => photo.at = if which == 1 { 2 } else { 0 },
        Act::Cut => {
            photo.patches.clear();
            cut(photo, effects);
        }
        Act::Adds(adds) => photo.adds = adds,
        Act::Unpatch => {
            if photo.patches.pop().is_some() {
                cut(photo, effects);
            }
        }
        Act::Save => {
            if let Some(outline) = &photo.outline {
                effects.push(Effect::Photo(Develop::Save(sheet::svg(outline))));
            }
        }
        Act::Print => effects.push(Effect::Photo(Develop::Print)),
        Act::Back(to) => {
            photo.fault = None;
            match to {
                Stage::Pick | Stage::Opening => *photo = Photo::default(),
                Stage::Outline | Stage::Ruler => {}
                // Only where it has been.
                to if photo.placed.is_some() || to == Stage::Card => photo.stage = to,
                _ => {}
            }
            photo.at = 0;
        }
        Act::Ruler => {
            photo.stage = Stage::Ruler;
            effects.push(Effect::Photo(Develop::Screen));
        }
        Act::Use | Act::Answer(..) | Act::Screen(_) | Act::Wider(_) | Act::Fits => {}
    }
}

/// On to the card, once the picture has come and can be shown.
fn there(photo: &mut Photo) {
    if photo.stage == Stage::Opening && photo.size[0] > 0 && !photo.address.is_empty() {
        photo.stage = Stage::Card;
    }
}

fn hear(guide: &Guide, photo: &mut Photo, told: Told, effects: &mut Vec<Effect>) {
    match told {
        Told::Opened { width, height, .. } => {
            photo.size = [width, height];
            photo.busy = Some(0);
            effects.push(Effect::Photo(Develop::Ask(Asked::Propose.words())));
            there(photo);
        }
        Told::Proposed(Some(edges)) if photo.taps[0].is_empty() && photo.coin.is_none() => {
            photo.taps[0] = edges.to_vec();
            photo.proposed = true;
            effects.push(Effect::Say(
                "A card is proposed. Look whether its lines lie on the edges.".to_string(),
            ));
        }
        Told::Proposed(_) => {}
        Told::Placed { above, leans } => {
            photo.fault = None;
            photo.placed = Some([above, leans]);
            photo.stage = Stage::Height;
            effects.push(Effect::Heading);
        }
        Told::Refused(why) => {
            let which = (!photo.pending.is_empty()).then(|| photo.pending.remove(0));
            if let Some(which) = which {
                photo.found[which] = None;
            }
            let sentence = refused(why);
            effects.push(Effect::Say(sentence.clone()));
            photo.fault = Some(sentence);
        }
        Told::Length(found) => {
            photo.fault = None;
            if !photo.pending.is_empty() {
                let which = photo.pending.remove(0);
                photo.found[which] = Some(found);
            }
        }
        Told::Cut(outline) => {
            photo.fault = None;
            photo.outline = Some(*outline);
            let drawn = answers::drawn(guide).into_iter().map(|d| d.words).collect();
            effects.push(Effect::Photo(Develop::Compare(drawn)));
        }
        Told::Uncut(why) => {
            effects.push(Effect::Say(uncut(why).to_string()));
            photo.fault = Some(uncut(why).to_string());
        }
        Told::Compared(all) => photo.alike = all,
        Told::Nonsense => {
            photo.pending.clear();
            photo.fault = Some("That did not work. Take the picture again.".to_string());
        }
    }
}

/// On to the ends, once the height is told.
fn go_on(photo: &mut Photo, effects: &mut Vec<Effect>) {
    if height(photo).is_some() {
        photo.fault = None;
        photo.stage = Stage::Ends;
        photo.at = 0;
        lengths(photo, effects);
    }
}

fn agree(guide: &Guide, photo: &mut Photo, effects: &mut Vec<Effect>) {
    let taps = &photo.taps[0];
    let asked = match photo.coin {
        None => {
            let mut edges = [Spot::default(); CARD];
            if taps.len() != CARD {
                return;
            }
            edges.copy_from_slice(taps);
            Asked::Card { edges, tap: TAP }
        }
        Some(coin) => {
            let Some(coin) = guide.tables.coins.get().and_then(|c| c.coins.get(coin)) else { return };
            if taps.len() < RIM[0] {
                return;
            }
            Asked::Coin { diameter: i32::from(coin.diameter), rim: taps.clone(), tap: TAP }
        }
    };
    (photo.found, photo.outline) = ([None, None], None);
    effects.push(Effect::Photo(Develop::Ask(asked.words())));
}

fn cut(photo: &mut Photo, effects: &mut Vec<Effect>) {
    let around: Vec<Spot> = photo.taps[1].iter().chain(&photo.taps[2]).copied().collect();
    let Some([from, to]) = height(photo).filter(|_| photo.taps[1].len() == 2) else { return };
    photo.stage = Stage::Outline;
    (photo.outline, photo.alike) = (None, Vec::new());
    photo.busy = Some(0);
    let asked = Asked::Cut { around, height: (from + to) / 2, patches: photo.patches.clone() };
    effects.push(Effect::Photo(Develop::Ask(asked.words())));
}

fn tap(photo: &mut Photo, spot: Spot, effects: &mut Vec<Effect>) {
    if photo.stage == Stage::Outline {
        if photo.patches.len() < 100 {
            photo.patches.push(Patch { at: spot, radius: PATCH, piece: photo.adds });
            cut(photo, effects);
        }
        return;
    }
    if !matches!(photo.stage, Stage::Card | Stage::Ends) {
        return;
    }
    let (list, most) = (list(photo), most(photo));
    if photo.taps[list].len() < most {
        photo.taps[list].push(spot);
        photo.at = photo.taps[list].len() - 1 + if list == 2 { 2 } else { 0 };
        changed(photo, effects);
    } else {
        move_to(photo, spot, effects);
    }
}

fn move_to(photo: &mut Photo, spot: Spot, effects: &mut Vec<Effect>) {
    let list = list(photo);
    let at = points(photo).1;
    let [w, h] = photo.size;
    if let Some(point) = photo.taps[list].get_mut(at) {
        *point = Spot::new(spot.x.clamp(0, w * 10), spot.y.clamp(0, h * 10));
        changed(photo, effects);
    }
}

fn changed(photo: &mut Photo, effects: &mut Vec<Effect>) {
    photo.fault = None;
    photo.proposed = false;
    if photo.stage == Stage::Ends {
        lengths(photo, effects);
    }
}

/// Asks for every length whose ends are both there.
fn lengths(photo: &mut Photo, effects: &mut Vec<Effect>) {
    let Some(height) = height(photo) else { return };
    for which in 0..2 {
        if let [a, b] = photo.taps[which + 1][..] {
            photo.pending.push(which);
            let asked = Asked::Length { ends: [a, b], height, tap: TAP };
            effects.push(Effect::Photo(Develop::Ask(asked.words())));
        }
    }
}

/// From least to greatest height above the card, tenths of a millimetre: as typed, else as told in words.
pub(super) fn height(photo: &Photo) -> Option<[i32; 2]> {
    match typed(photo) {
        Some(Ok(tenths)) => {
            // Within a millimetre and a twentieth: `Height::about`. Practice.
            let within = 10 + tenths / 20;
            Some([(tenths - within).max(0), tenths + within])
        }
        Some(Err(_)) => None,
        None => photo.lies.and_then(|at| LIES.get(at)).map(|(_, range)| *range),
    }
}

/// The height as typed; nothing when nothing was. Nought is a height.
pub(super) fn typed(photo: &Photo) -> Option<Result<i32, String>> {
    let text = photo.high.trim();
    if text.is_empty() {
        return None;
    }
    if text == "0" {
        return Some(Ok(0));
    }
    Some(match Length::typed(text, units::LengthUnit::Millimetre) {
        Ok(l) if l.0 <= 3000 => Ok(l.0 as i32),
        Ok(_) => Err("That is higher than anything this room measures.".to_string()),
        Err(fault) => Err(fault.0),
    })
}
