//! Answers as the cabinet has them: each answer once, with how many pieces give it.

use super::answers::Answers;

/// The answers of a cabinet. An answer keeps its place for as long as the list is there.
#[derive(Debug, Default)]
pub(super) struct Told {
    /// Question and choices, sorted, with the place of the answer.
    sorted: Vec<(u16, Vec<u16>, usize)>,
    /// By place: the question, the choices, how many pieces give it.
    all: Vec<(u16, Vec<u16>, u32)>,
}

impl Told {
    fn search(&self, question: u16, choices: &[u16]) -> Result<usize, usize> {
        self.sorted.binary_search_by(|(q, c, _)| (*q, c.as_slice()).cmp(&(question, choices)))
    }

    /// Counts the answers of a piece; gives their questions and places.
    pub(super) fn add(&mut self, answers: &Answers) -> Vec<(u16, usize)> {
        let mut out = Vec::with_capacity(answers.len());
        for (question, choices) in answers {
            let place = match self.search(*question, choices) {
                Ok(at) => self.sorted[at].2,
                Err(at) => {
                    let place = self.all.len();
                    self.sorted.insert(at, (*question, choices.clone(), place));
                    self.all.push((*question, choices.clone(), 0));
                    place
                }
            };
            self.all[place].2 += 1;
            out.push((*question, place));
        }
        out
    }

    /// The place of an answer that some piece gives.
    pub(super) fn find(&self, question: u16, choices: &[u16]) -> Option<usize> {
        self.search(question, choices).ok().map(|at| self.sorted[at].2)
    }

    /// The choices of an answer.
    pub(super) fn choices(&self, place: usize) -> &[u16] {
        &self.all[place].1
    }

    /// By place, how much the answer tells in this cabinet, in bits: -log2 of the share of pieces that give it among those
    /// that answered the question; at least a tenth.
    pub(super) fn bits(&self) -> Vec<f64> {
        let mut bits = vec![0.0; self.all.len()];
        for one in self.sorted.chunk_by(|a, b| a.0 == b.0) {
            let count = |place: usize| f64::from(self.all[place].2);
            let total: f64 = one.iter().map(|(.., place)| count(*place)).sum();
            for (.., place) in one {
                bits[*place] = (-libm::log2((count(*place) + 0.5) / (total + 1.0))).max(0.1);
            }
        }
        bits
    }
}
