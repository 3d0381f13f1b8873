//! The question page and the cabinet of this device: the piece in the hand as a draft, a piece that is kept, own pieces that are
//! like it. Only the whole program has this; the first questions wait for none of it.

use crate::app::Happened;
use crate::browser::database::{self, CARDS, Database, Fault};
use crate::browser::pause::{breathe, painted};
use crate::browser::{address, clock, darkroom, page};
use ::cabinet::find::{Alike, Looks};
use ::cabinet::record::{Moment, Uuid};
use consult::{Guide, Held, Msg, Screen, State, held, record};
use keep::{Failure, draft, know};
use std::cell::RefCell;
use std::rc::Rc;
use yew::Callback;

/// What is to be done.
pub enum Own {
    /// The piece is another, or another screen is shown: keep its link as a draft, and on a finding look for own pieces that
    /// are like it.
    Went(Rc<Guide>, Box<State>),
    /// Hand the piece over to the cabinet and go there.
    Keep(Rc<Guide>, Box<State>),
}

/// Cards that are made ready before the page may draw again.
const AT_A_TIME: u32 = 100;

thread_local! {
    static OPEN: RefCell<Option<Database>> = const { RefCell::new(None) };
    /// The piece that was looked at last, and whether its finding was shown.
    static LAST: RefCell<Option<(Held, bool)>> = const { RefCell::new(None) };
    static KNOWN: RefCell<Option<Rc<Alike>>> = const { RefCell::new(None) };
}

/// Does it; what is lost when the store fails is said, where it was more than a draft.
pub fn carry_out(what: Own, come: Callback<Happened>) {
    wasm_bindgen_futures::spawn_local(async move {
        match what {
            Own::Went(guide, state) => went(&guide, &state, &come).await,
            Own::Keep(guide, state) => match handed(&guide, &state).await {
                Ok(name) => address::go(&format!("cabinet.html#{name}")),
                Err(fault) => {
                    OPEN.take();
                    let says = match Failure::named(&fault.0) {
                        Failure::Full => "Not kept: this device has no room left for it.",
                        _ => {
                            "Not kept: this browser keeps nothing for this page. A private window, a setting or a frame in \
                              another site forbids it."
                        }
                    };
                    come.emit(Happened::Do(Msg::Notice(Some(says.to_string()))));
                }
            },
        }
    });
}

async fn went(guide: &Guide, state: &State, come: &Callback<Happened>) {
    let held = held(guide, state);
    let now = held.map(|held| (held, state.screen == Screen::Finding));
    if LAST.replace(now.clone()) == now {
        return;
    }
    let Some((piece, found)) = now else { return };
    // Who tapped waits for the next screen, and for nothing else.
    painted().await;
    let text = draft(Moment(clock::now()), &piece.link);
    let kept = match opened().await {
        Ok(db) => db.keep("piece", &text, false).await,
        Err(fault) => Err(fault),
    };
    if kept.is_err() {
        // Closed for a newer edition, perhaps: opened anew next time.
        OPEN.take();
        return;
    }
    // Only a finding is worth the look.
    if !found {
        return come.emit(Happened::Like(None));
    }
    if let Ok(among) = known().await {
        let looks = Looks::new(&piece.link, piece.length, piece.weight, &piece.lettering, piece.outline);
        come.emit(Happened::Like(keep::own(&among, &looks)));
    }
}

async fn opened() -> Result<Database, Fault> {
    let there = OPEN.with_borrow(Clone::clone);
    if let Some(db) = there {
        return Ok(db);
    }
    let db = database::open(None).await?;
    OPEN.set(Some(db.clone()));
    Ok(db)
}

/// The record as a note that the cabinet takes; gives its name.
async fn handed(guide: &Guide, state: &State) -> Result<String, Fault> {
    let name = format!("keep/{}", Uuid::of_random(clock::random()));
    let mut text = format!("pack sha256: {}\n{}", page::pack(), record(guide, state));
    let photo = if state.photo.is_there() { darkroom::kept().await } else { None };
    if let Some(photo) = photo {
        text.push_str(&format!("\n[photograph]\nsha256: {}\nview: beside a scale\n", photo.0));
        opened().await?.keep_photos(&[photo]).await?;
    }
    opened().await?.keep(&name, &text, true).await?;
    Ok(name)
}

/// The cards of this device, made ready a few at a time, once for the page.
async fn known() -> Result<Rc<Alike>, Fault> {
    let there = KNOWN.with_borrow(Clone::clone);
    if let Some(among) = there {
        return Ok(among);
    }
    // The finding comes first.
    breathe().await;
    let db = opened().await?;
    let (mut among, mut name) = (Alike::default(), String::new());
    loop {
        let some = db.after(CARDS, &name, AT_A_TIME).await?;
        let last = some.len() < AT_A_TIME as usize;
        let (mut names, cards): (Vec<String>, Vec<String>) = some.into_iter().unzip();
        know(&mut among, &cards);
        name = names.pop().unwrap_or_default();
        if last {
            break;
        }
        breathe().await;
    }
    let among = Rc::new(among);
    KNOWN.set(Some(among.clone()));
    Ok(among)
}
