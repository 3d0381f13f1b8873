//! `lessons/*.toml`: worked pieces, blocks of kinds, what marks prove.

use super::{Context, find};
use crate::cursor::{Table, Value};
use crate::fault::{meant, quote};
use crate::model::{Kind, Lesson, Manifest, Proof, Question, Taught};
use crate::text::Limit;
use pack::{Block, Help, Step};

/// A worked piece shows at least so many looks.
const LEAST_STEPS: usize = 3;
/// The words for how much help a lesson gives.
const HELPS: [(&str, Help); 3] = [("shown", Help::Shown), ("asked", Help::Asked), ("alone", Help::Alone)];

/// What the reader of lessons needs.
pub(super) struct Room<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) manifest: &'a Manifest,
    pub(super) questions: &'a [Question],
    pub(super) kinds: &'a [Kind],
}

impl Room<'_> {
    /// Reads a file.
    pub(super) fn read(&self, top: &Table<'_>, taught: &mut Taught) {
        for table in top.tables("block") {
            let name = table.need_text("name", Limit::NAME, "name = \"The commonest\"");
            let list = table.need("kinds", "kinds = [\"solid-grip\"]");
            let kinds: Vec<u16> = list.iter().flat_map(Value::list).filter_map(|v| self.kind(&v)).collect();
            table.done();
            if !kinds.is_empty() {
                taught.blocks.push(Block { name, kinds });
            }
        }
        for table in top.tables("lesson") {
            let lesson = self.lesson(&table);
            table.done();
            if let Some(lesson) = lesson {
                let twice = taught.lessons.iter().any(|l| l.id == lesson.id);
                said_twice(&table, &lesson.id, twice);
                taught.lessons.push(lesson);
            }
        }
        for table in top.tables("proof") {
            let proof = self.proof(&table);
            table.done();
            if let Some(proof) = proof {
                let twice = taught.proofs.iter().any(|p| p.id == proof.id);
                said_twice(&table, &proof.id, twice);
                taught.proofs.push(proof);
            }
        }
        top.done();
    }

    fn kind(&self, value: &Value<'_>) -> Option<u16> {
        let id = value.text(Limit::NAME)?;
        let taught = |k: &&Kind| k.standing != pack::Standing::Unknown;
        let at = self.kinds.iter().position(|k| k.id == id && taught(&k));
        if at.is_none() {
            let known = self.kinds.iter().filter(taught).map(|k| k.id.as_str());
            let hint = value.faults().meant(&id, known, "Kinds");
            value.unknown(format!("There is no kind {} to teach.", quote(&id)), hint);
        }
        u16::try_from(at?).ok()
    }

    fn lesson(&self, table: &Table<'_>) -> Option<Lesson> {
        let id = table.id("first-iron");
        let title = table.need_text("title", Limit::NAME, "title = \"A bar in the same metal\"");
        let help = table.need("help", "help = \"shown\"").and_then(|v| {
            let word = v.text(Limit::NAME)?;
            let found = HELPS.iter().find(|(w, _)| *w == word).map(|(_, h)| *h);
            if found.is_none() {
                let hint = meant(&word, HELPS.iter().map(|(w, _)| *w), "Write one of");
                v.fault(format!("{} is no way of helping.", quote(&word)), hint);
            }
            found
        });
        let kind = table.need("kind", "kind = \"solid-grip\"").and_then(|v| self.kind(&v));
        let make_id = table.need_text("make", Limit::NAME, "make = \"period\"");
        let makes = &self.manifest.makes;
        let make = find(makes, &make_id, &table.spot_of("make"), "make", table.faults());
        let looks = table.need("looks", "looks = { grip = \"bar\" }").and_then(|v| v.table());
        let answers = looks.map(|t| self.answers(&t)).unwrap_or_default();
        let intro = table.need_text("intro", Limit::PARAGRAPH, "intro = \"Take it in the hand.\"");
        let steps = self.steps(table, &answers);
        let ends = table.need_text("ends", Limit::PARAGRAPH, "ends = \"Small, and made to be played with.\"");
        let (kind, make, help) = (kind?, make?, help?);
        let wire = pack::Lesson { code: 0, title, help, kind, make, answers, intro, steps, ends };
        Some(Lesson { id: id?, spot: table.spot_of("id"), wire })
    }

    /// What is true of the piece. A question behind a gate wants its gate open.
    fn answers(&self, looks: &Table<'_>) -> Vec<(u16, u16)> {
        let mut answers: Vec<(u16, u16)> = Vec::new();
        let mut told: Vec<(usize, Value<'_>)> = Vec::new();
        for (name, value) in looks.entries() {
            let Some(id) = value.text(Limit::NAME) else { continue };
            let Some(at) = self.questions.iter().position(|q| q.id == name) else {
                let hint =
                    looks.faults().meant(&name, self.questions.iter().map(|q| q.id.as_str()), "Questions");
                value.unknown(format!("There is no question {}.", quote(&name)), hint);
                continue;
            };
            let known = &self.questions[at].wire.choices;
            match known.iter().position(|c| c.id == id) {
                Some(choice) => {
                    answers.extend(u16::try_from(at).ok().zip(u16::try_from(choice).ok()));
                    told.push((at, value));
                }
                None => {
                    let hint = looks.faults().meant(&id, known.iter().map(|c| c.id.as_str()), "Choices");
                    value.unknown(format!("{name} has no choice {}.", quote(&id)), hint);
                }
            }
        }
        for (at, value) in told {
            let Some(gate) = &self.questions[at].wire.gate else { continue };
            let asked = answers.iter().find(|(q, _)| *q == gate.question);
            if !asked.is_some_and(|(_, c)| gate.choices.contains(c)) {
                let gate = &self.questions[usize::from(gate.question)].id;
                let says = format!("This look does not come up on the piece, as its {gate} is told here.");
                value.fault(says, format!("Leave it out, or tell another {gate}."));
            }
        }
        answers
    }

    fn steps(&self, lesson: &Table<'_>, answers: &[(u16, u16)]) -> Vec<Step> {
        let mut steps: Vec<Step> = Vec::new();
        for table in lesson.tables("step") {
            let look = table.need("look", "look = \"grip\"");
            let says = table.need_text("says", Limit::PARAGRAPH, "says = \"Bar and body are one metal.\"");
            table.done();
            let Some((value, id)) = look.and_then(|v| v.text(Limit::NAME).map(|id| (v, id))) else {
                continue;
            };
            let at = self.questions.iter().position(|q| q.id == id).and_then(|q| u16::try_from(q).ok());
            match at.filter(|q| answers.iter().any(|(told, _)| told == q)) {
                None => value.fault(
                    format!("{} is not among the looks of this lesson.", quote(&id)),
                    "Add it to looks, with what is true of the piece.",
                ),
                Some(question) if steps.iter().any(|s| s.question == question) => {
                    value.fault(format!("{} is looked at twice.", quote(&id)), "Leave one out.");
                }
                Some(question) => steps.push(Step { question, says }),
            }
        }
        if steps.len() < LEAST_STEPS {
            let says = format!("The lesson has {} of at least {LEAST_STEPS} steps.", steps.len());
            lesson.faults().add(&lesson.spot_of("step"), says, "Add [[lesson.step]] with look and says.");
        }
        steps
    }

    fn proof(&self, table: &Table<'_>) -> Option<Proof> {
        let id = table.id("patent-date");
        let wire = pack::Proof {
            code: 0,
            mark: table.need_text("mark", Limit::SENTENCE, "mark = \"A patent date.\""),
            draw: self.context.drawing(table),
            right: table.need_text("right", Limit::SENTENCE, "right = \"It is no older than that.\""),
            wrong: self.wrong(table),
            because: table.need_text(
                "because",
                Limit::SENTENCES,
                "because = \"A date says when it was granted.\"",
            ),
        };
        if wire.wrong.iter().any(|w| w.eq_ignore_ascii_case(&wire.right)) {
            table.faults().add(
                &table.spot_of("wrong"),
                "The right answer stands among the wrong ones.",
                "Remove it.",
            );
        }
        Some(Proof { id: id?, spot: table.spot_of("id"), wire })
    }

    fn wrong(&self, table: &Table<'_>) -> Vec<String> {
        let list = table.need("wrong", "wrong = [\"It was made in that year.\", \"It is genuine.\"]");
        let wrong: Vec<String> =
            list.iter().flat_map(|v| v.texts(Limit::SENTENCE)).map(|(text, _)| text).collect();
        if list.is_some() && wrong.len() < 2 {
            table.faults().add(
                &table.spot_of("wrong"),
                "At least two wrong answers are needed.",
                "Add what it is thought to prove.",
            );
        }
        wrong
    }
}

fn said_twice(table: &Table<'_>, id: &str, twice: bool) {
    if twice {
        table.faults().add(
            &table.spot_of("id"),
            format!("{} stands twice.", quote(id)),
            "Give one another id.",
        );
    }
}
