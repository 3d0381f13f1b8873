//! The work on what was handed over, a step at a time, so that whoever waits can be told how far it is.

use crate::hand::taken;
use crate::report;
use compile::Fault;
use consult::book::Block;
use survey::simulate::Examined;
use survey::{Checked, Fares, MADE_UP};

/// Made-up pieces examined in one step.
const AT_A_STEP: usize = 20;

/// What came of it.
#[derive(Debug, Clone, Default)]
pub struct Made {
    /// Faults, what the pack is, its quality: to be shown.
    pub blocks: Vec<Block>,
    /// What the finished pack is called as a file, and its bytes; nothing as long as there are faults of form.
    pub pack: Option<(String, Vec<u8>)>,
}

/// One piece of work.
#[derive(Debug, Default)]
pub struct Work {
    given: Vec<(String, Vec<u8>)>,
    stage: Stage,
}

#[derive(Debug, Default)]
enum Stage {
    #[default]
    Given,
    Checked(Box<Checked>, Vec<Fault>, Vec<Examined>),
}

impl Work {
    /// Takes a file; before the first step.
    pub fn add(&mut self, name: &str, bytes: Vec<u8>) {
        self.given.push((name.to_string(), bytes));
    }

    /// Does a part of the work; gives what came of it when that was the last.
    pub fn step(&mut self) -> Option<Made> {
        match &mut self.stage {
            Stage::Given => match taken(&self.given) {
                Err(faults) => Some(Made { blocks: report::broken(&faults, &[]), pack: None }),
                Ok(handed) => {
                    let checked = Checked::of(&handed.files);
                    if let Checked::Broken(faults) = &checked {
                        return Some(Made { blocks: report::broken(faults, &handed.aside), pack: None });
                    }
                    self.stage = Stage::Checked(Box::new(checked), handed.aside, Vec::new());
                    None
                }
            },
            Stage::Checked(checked, aside, examined) => {
                let Checked::Whole(all) = &**checked else { return Some(Made::default()) };
                let (compiled, guide, quality) = &**all;
                let from = examined.len();
                if from < MADE_UP {
                    examined.extend(Fares::some(guide, from..MADE_UP.min(from + AT_A_STEP)));
                    return None;
                }
                let fares = Fares::told(guide, examined);
                let blocks = report::whole(compiled, guide, quality, &fares, aside);
                let head = &compiled.core.head;
                let file = format!("{}-{}.pack", head.id, head.edition);
                Some(Made { blocks, pack: Some((file, compiled.whole_bytes.clone())) })
            }
        }
    }

    /// How much is done, per mille. The compiler takes about as long as the pieces.
    #[must_use]
    pub fn done(&self) -> u32 {
        match &self.stage {
            Stage::Given => 0,
            Stage::Checked(_, _, examined) => 500 + (500 * examined.len() / MADE_UP) as u32,
        }
    }
}
