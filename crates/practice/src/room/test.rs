//! The test of twelve under way. The next piece is sought while this one is looked at, a little at a time.

use super::{Effect, State, Test};
use crate::progress::Trial;
use crate::task::Trainer;
use crate::trial::{Search, TWELVE};

impl Test {
    pub(super) fn begun(seed: u64) -> Test {
        Test { seed, ahead: Some(Search::new(seed, 0, 0)), ..Test::default() }
    }
}

/// Seeks on; shows what was found where it is waited for.
pub(super) fn more(trainer: &Trainer<'_>, state: &mut State, effects: &mut Vec<Effect>) {
    let Some(test) = &mut state.test else { return };
    let Some(search) = test.ahead.as_mut().filter(|_| !test.found) else { return };
    if trainer.draw_on(search) {
        effects.push(Effect::Then);
        return;
    }
    test.found = true;
    if state.task.is_none() {
        show(state, effects);
    }
}

/// In a test nothing is told until its end, and nothing moves in the boxes: it measures.
pub(super) fn answered(state: &mut State, right: bool, effects: &mut Vec<Effect>) {
    let Some(test) = &mut state.test else { return };
    test.right += u32::from(right);
    test.place += 1;
    let waits = !test.found;
    (state.task, state.picked, state.turned) = (None, None, 0);
    if waits {
        // The search goes on by itself.
        effects.push(Effect::Heading);
    } else {
        show(state, effects);
    }
}

/// Shows the task that was found, and begins to seek the one after it; without one the test has ended.
fn show(state: &mut State, effects: &mut Vec<Effect>) {
    let Some(test) = &mut state.test else { return };
    test.found = false;
    if let Some((task, carried)) = test.ahead.take().and_then(|s| s.best) {
        state.task = Some(task);
        let after = test.place + 1;
        if after < TWELVE {
            test.ahead = Some(Search::new(test.seed, after, carried));
            effects.push(Effect::Then);
        } else {
            test.found = true;
        }
    } else {
        test.done = true;
        state.progress.tried(Trial { day: state.today, right: test.right, seed: test.seed });
        effects.push(Effect::Keep(state.progress.text()));
    }
    effects.push(Effect::Heading);
}
