//! What one program on a page tells the next, so that a user notices nothing when the whole takes over from the opening.

use crate::fragment;
use crate::guide::Guide;
use crate::marks::Marks;
use crate::state::{Before, State};
use crate::update::{MOST_STEPS_BACK, preferences, read_preferences};

/// Everything a user did, as lines: preferences, the piece as in a link, then every step that undo leads back to, the
/// latest last. What is being typed is not among it: a program leaves when the screen changes.
#[must_use]
pub fn leave(guide: &Guide, state: &State) -> String {
    let mut lines = vec![preferences(guide, state), fragment::write(guide, state)];
    let back = |b: &Before| State {
        given: b.given.clone(),
        place: b.place,
        place_asked: b.place_asked,
        focus: b.focus,
        screen: b.screen,
        picture: b.picture,
        marks: Marks { text: b.lettering.clone().unwrap_or_default(), ..Marks::default() },
        condition: b.condition.clone().unwrap_or_default(),
        ..State::default()
    };
    lines.extend(state.past.iter().map(|b| fragment::write(guide, &back(b))));
    lines.join("\n")
}

/// Goes on from there.
///
/// # Errors
/// A sentence for the user when a line is damaged.
pub fn arrive(guide: &Guide, text: &str) -> Result<State, String> {
    let mut lines = text.lines();
    let mut base = State::default();
    read_preferences(guide, &mut base, lines.next().unwrap_or_default());
    let mut state = fragment::read(guide, &base, lines.next().unwrap_or_default())?;
    for line in lines.take(MOST_STEPS_BACK) {
        let State { given, place, place_asked, focus, screen, picture, marks, condition, .. } =
            fragment::read(guide, &base, line)?;
        let lettering = marks.is_told().then_some(marks.text);
        let condition = (!condition.is_empty()).then_some(condition);
        state.past.push(Before { given, place, place_asked, focus, screen, picture, lettering, condition });
    }
    Ok(state)
}
