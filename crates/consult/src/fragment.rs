//! The state as the fragment of a link: `#1/irons/p2/3.1/5.2+4u/1.640r/f~k7q3`.
//!
//! Version, pack id, then one token each: `p2` place, `o` only a picture, `a1` aim, a question's code with the codes
//! of its choices (`+` between two, `x` for "can't tell", tenths of mm or g with the instrument's letter for a measurement,
//! and tenths of its uncertainty for a photo, a trailing `u` for unsure), `mNO_1134?8` the lettering, `wcrack+tiny` the ids of its conditions, `q5` a question asked for by hand, last the screen. Behind `~` a check of all before it, so that a link that lost a
//! character is refused instead of being read as another piece.

use crate::guide::{Aim, Guide};
use crate::marks::LONGEST as LONGEST_LETTERING;
use crate::state::{Given, Screen, State, What, measures};
use measure::Instrument;
use pack::Form;
use units::{Length, Mass};

const VERSION: &str = "1";
/// Room for one of two at each of the four hundred questions that a pack may have, with codes of five digits.
const LONGEST: usize = 8000;

/// Writes the part of the state that another phone needs: answers, place, aim, screen. Without the `#`.
#[must_use]
pub fn write(guide: &Guide, state: &State) -> String {
    let core = &guide.core;
    let mut tokens = vec![VERSION.to_string(), core.head.id.clone()];
    if state.place_asked {
        tokens.push(format!("p{}", core.places[state.place].code));
    }
    if state.picture {
        tokens.push("o".to_string());
    }
    if let Some(at) = Aim::ALL.iter().position(|a| *a == state.aim).filter(|at| *at > 0) {
        tokens.push(format!("a{at}"));
    }
    tokens.extend(state.given.iter().map(|g| token(guide, g)));
    if state.marks.is_told() {
        tokens.push(format!("m{}", escaped(&state.marks.text)));
    }
    if !state.condition.is_empty() {
        tokens.push(format!("w{}", state.condition.join("+")));
    }
    if let Some(question) = state.focus {
        tokens.push(format!("q{}", core.questions[question].code));
    }
    match state.screen {
        Screen::Look => {}
        Screen::Finding => tokens.push("f".to_string()),
        Screen::List => tokens.push("l".to_string()),
        Screen::Setup => tokens.push("s".to_string()),
        Screen::Marks => tokens.push("k".to_string()),
        Screen::Sale => tokens.push("b".to_string()),
        Screen::Measures => tokens.push("n".to_string()),
        Screen::Photo => tokens.push("h".to_string()),
    }
    let body = tokens.join("/");
    let check = check(&body);
    format!("{body}~{check}")
}

fn token(guide: &Guide, given: &Given) -> String {
    let q = &guide.core.questions[given.question];
    let what = match &given.what {
        What::OneOf(set) => set.iter().map(|c| q.choices[*c].code.to_string()).collect::<Vec<_>>().join("+"),
        What::Length(l, Instrument::Photo(u)) => format!("{}p{u}", l.0),
        What::Length(l, with) => format!("{}{}", l.0, letter(*with)),
        What::Mass(m, with) => format!("{}{}", m.0, letter(*with)),
        What::Cannot => "x".to_string(),
    };
    format!("{}.{what}{}", q.code, if given.sure { "" } else { "u" })
}

fn letter(with: Instrument) -> char {
    match with {
        Instrument::Ruler => 'r',
        Instrument::Calipers => 'c',
        Instrument::ByEye => 'e',
        Instrument::Scales => 's',
        Instrument::Photo(_) => 'p',
    }
}

/// The marks room with nothing told, from outside of a consultation.
pub(crate) fn to_marks(pack: &str) -> String {
    let body = format!("{VERSION}/{pack}/k");
    let check = check(&body);
    format!("{body}~{check}")
}

/// Reads a fragment (with or without `#`) over `base`, whose preferences are kept.
///
/// # Errors
/// A sentence for the person who opened the link.
pub fn read(guide: &Guide, base: &State, text: &str) -> Result<State, String> {
    let text = text.trim_start_matches('#');
    let mut state = State {
        tools: base.tools.clone(),
        manner: base.manner,
        unit: base.unit,
        calipers: base.calipers,
        theme: base.theme,
        sale: base.sale.clone(),
        ..State::default()
    };
    if text.is_empty() {
        return Ok(state);
    }
    let damaged = || {
        "This link is damaged: a part of it is missing or was changed on the way. Here is a fresh start."
            .to_string()
    };
    if text.len() > LONGEST || !text.is_ascii() {
        return Err(damaged());
    }
    let (body, sum) = text.rsplit_once('~').ok_or_else(damaged)?;
    let mut tokens = body.split('/');
    if tokens.next() != Some(VERSION) {
        return Err("This link was made by another edition of Pressmark. Here is a fresh start.".to_string());
    }
    if sum != check(body) {
        return Err(damaged());
    }
    if tokens.next() != Some(guide.core.head.id.as_str()) {
        return Err("This link belongs to another pack. Here is a fresh start with this one.".to_string());
    }
    for token in tokens {
        read_token(guide, &mut state, token).ok_or_else(|| {
            "This link names a look that this edition does not have. Here is a fresh start.".to_string()
        })?;
    }
    state.drop_closed(guide);
    Ok(state)
}

fn read_token(guide: &Guide, state: &mut State, token: &str) -> Option<()> {
    match token {
        "f" => state.screen = Screen::Finding,
        "l" => state.screen = Screen::List,
        "s" => state.screen = Screen::Setup,
        "k" => state.screen = Screen::Marks,
        "b" => state.screen = Screen::Sale,
        "n" => state.screen = Screen::Measures,
        "h" => state.screen = Screen::Photo,
        "o" => state.picture = true,
        _ if token.starts_with('p') => {
            let code: u16 = token[1..].parse().ok()?;
            state.place = guide.core.places.iter().position(|p| p.code == code)?;
            state.place_asked = true;
        }
        _ if token.starts_with('m') => {
            let text = unescaped(&token[1..])?;
            if text.chars().count() > LONGEST_LETTERING || text.chars().any(char::is_control) {
                return None;
            }
            state.marks.text = text;
        }
        _ if token.starts_with('w') => state.condition = read_condition(&token[1..])?,
        _ if token.starts_with('q') => {
            let code: u16 = token[1..].parse().ok()?;
            state.focus = Some(guide.core.questions.iter().position(|q| q.code == code)?);
        }
        _ if token.starts_with('a') => state.aim = *Aim::ALL.get(token[1..].parse::<usize>().ok()?)?,
        _ => {
            let given = read_given(guide, token)?;
            if state.answer_to(given.question).is_some() {
                return None;
            }
            state.given.push(given);
        }
    }
    Some(())
}

/// Ids of conditions: whether the tables have them is seen when they come.
fn read_condition(text: &str) -> Option<Vec<String>> {
    let mut ids: Vec<String> = Vec::new();
    for id in text.split('+') {
        let sound = (1..=40).contains(&id.len())
            && id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
            && ids.iter().all(|other| other != id)
            && ids.len() < 20;
        ids.push(sound.then(|| id.to_string())?);
    }
    Some(ids)
}

fn read_given(guide: &Guide, token: &str) -> Option<Given> {
    let (code, what) = token.split_once('.')?;
    let code: u16 = code.parse().ok()?;
    let question = guide.core.questions.iter().position(|q| q.code == code)?;
    let q = &guide.core.questions[question];
    let (what, sure) = match what.strip_suffix('u') {
        Some(rest) => (rest, false),
        None => (what, true),
    };
    let what = if what == "x" {
        What::Cannot
    } else if let Some((tenths, u)) = what.split_once('p') {
        let (tenths, u): (u32, u16) = (tenths.parse().ok()?, u.parse().ok()?);
        if q.form != Form::Length || u == 0 || !(1..=Length::LONGEST.0).contains(&tenths) {
            return None;
        }
        What::Length(Length(tenths), Instrument::Photo(u))
    } else if let Some(with) = Instrument::ALL.into_iter().find(|i| what.ends_with(letter(*i))) {
        let tenths: u32 = what[..what.len() - 1].parse().ok()?;
        match q.form {
            form if !measures(with, form) => return None,
            Form::Length if (1..=Length::LONGEST.0).contains(&tenths) => What::Length(Length(tenths), with),
            Form::Heft if (1..=Mass::HEAVIEST.0).contains(&tenths) => What::Mass(Mass(tenths), with),
            _ => return None,
        }
    } else {
        let mut set = Vec::new();
        for code in what.split('+') {
            let code: u16 = code.parse().ok()?;
            let choice = q.choices.iter().position(|c| c.code == code)?;
            if set.contains(&choice) {
                return None;
            }
            set.push(choice);
        }
        What::OneOf(set)
    };
    Some(Given { question, what, sure })
}

/// Letters, figures and the signs of the notation as they are, a blank as `_`, each byte of all else as `$` and two digits.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for b in text.bytes() {
        match b {
            b' ' => out.push('_'),
            b'.' | b'?' | b'*' | b'-' | b';' => out.push(char::from(b)),
            _ if b.is_ascii_alphanumeric() => out.push(char::from(b)),
            _ => out.extend(['$', hex(b >> 4), hex(b & 15)]),
        }
    }
    out
}

fn hex(digit: u8) -> char {
    char::from(b"0123456789abcdef"[usize::from(digit)])
}

fn unescaped(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(b) = rest.next() {
        let mut digit = || char::from(rest.next()?).to_digit(16);
        bytes.push(match b {
            b'_' => b' ',
            b'$' => (digit()? * 16 + digit()?) as u8,
            b => b,
        });
    }
    String::from_utf8(bytes).ok()
}

/// Four letters from FNV-1a of the text (public-domain hash, Fowler, Noll and Vo).
fn check(body: &str) -> String {
    const LETTERS: &[u8; 32] = b"abcdefghijkmnpqrstuvwxyz23456789";
    let mut hash: u32 = 0x811c_9dc5;
    for b in body.bytes() {
        hash = (hash ^ u32::from(b)).wrapping_mul(0x0100_0193);
    }
    hash ^= hash >> 15;
    (0..4).map(|i| char::from(LETTERS[(hash >> (5 * i)) as usize % LETTERS.len()])).collect()
}
