//! From what stands in the fields to what the mathematics takes.

use super::{Field, Measures, Part};
use crate::guide::Guide;
use crate::state::{State, What};
use measure::{
    Celsius, FineLength, FineMass, Hefted, Instrument, Magnet, Pair, Reading, Scale, Weighed, heft,
};
use units::{Length, Mass, Misread};

/// What a field says; none when nothing stands in it.
pub(super) type Typed<T> = Option<Result<T, Misread>>;

/// The keys for an instrument: its word and its label.
pub(super) const WITH: [(&str, &str); 3] = [("calipers", "calipers"), ("ruler", "ruler"), ("photo", "photo")];
/// The keys for the second weighing. The first is taken until another is pressed.
pub(super) const WAYS: [(&str, &str); 2] =
    [("displaced", "Bowl on the scales"), ("hanging", "Hung from the scales")];
/// The keys for the step of the scales. The first is taken until another is pressed.
pub(super) const STEPS: [(&str, &str); 3] = [("100", "1 g"), ("10", "0.1 g"), ("1", "0.01 g")];
/// What a sign such as "worked" says when it is pressed.
pub(super) const YES: &str = "yes";

impl Measures {
    pub(super) fn length(&self, pair: u8, part: Part) -> Typed<FineLength> {
        typed(self.text(Field::Pair(pair, part)), FineLength::typed)
    }

    pub(super) fn mass(&self, at: Field) -> Typed<FineMass> {
        typed(self.text(at), FineMass::typed)
    }

    pub(super) fn warmth(&self) -> Typed<Celsius> {
        typed(self.text(Field::Warmth), Celsius::typed)
    }

    pub(super) fn hangs(&self) -> bool {
        self.text(Field::Way) == WAYS[1].0
    }

    pub(super) fn scale(&self) -> Scale {
        let step = STEPS.iter().position(|(word, _)| *word == self.text(Field::Step));
        Scale { step: FineMass([100, 10, 1][step.unwrap_or(0)]) }
    }

    /// Both weighings, once both can be read.
    pub(super) fn weighed(&self) -> Option<Weighed> {
        let (air, second) = (self.mass(Field::Air)?.ok()?, self.mass(Field::Second)?.ok()?);
        Some(match self.hangs() {
            true => Weighed::Hanging { air, water: second },
            false => Weighed::Displaced { air, gain: second },
        })
    }

    /// A pair, once both lengths can be read and it was said how both are known.
    pub(super) fn pair(&self, at: u8) -> Option<Pair> {
        let says = |part| self.text(Field::Pair(at, part));
        let piece =
            Reading { length: self.length(at, Part::Piece)?.ok()?, by: with(self.text(Field::With))? };
        let reference = Reading { length: self.length(at, Part::Known)?.ok()?, by: with(says(Part::By))? };
        Some(Pair {
            piece,
            reference,
            worked: says(Part::Worked) == YES,
            along_draw: says(Part::Along) == YES,
        })
    }
}

fn typed<T>(text: &str, read: impl Fn(&str) -> Result<T, Misread>) -> Typed<T> {
    (!text.trim().is_empty()).then(|| read(text))
}

pub(super) fn with(word: &str) -> Option<Instrument> {
    let at = WITH.iter().position(|(w, _)| *w == word)?;
    [Instrument::Calipers, Instrument::Ruler, Instrument::ByEye].get(at).copied()
}

/// What the consultation's own answers tell of the metal. An answer that is not sure says nothing here.
#[derive(Default)]
pub(super) struct Answered {
    pub(super) magnet: Option<Magnet>,
    pub(super) length: Option<(Length, Instrument)>,
    pub(super) mass: Option<(Mass, Instrument)>,
}

impl Answered {
    pub(super) fn of(guide: &Guide, state: &State) -> Answered {
        let mut found = Answered::default();
        for given in state.given.iter().filter(|g| g.sure) {
            match &given.what {
                What::Length(length, by) => found.length = Some((*length, *by)),
                What::Mass(mass, by) => found.mass = Some((*mass, *by)),
                What::OneOf(set) => found.magnet = found.magnet.or(magnet(guide, given.question, set)),
                What::Cannot => {}
            }
        }
        found
    }

    pub(super) fn heft(&self) -> Option<Hefted> {
        heft(self.length?, self.mass?)
    }
}

fn magnet(guide: &Guide, question: usize, set: &[usize]) -> Option<Magnet> {
    let question = guide.core.questions.get(question).filter(|q| q.id == "magnet")?;
    let [choice] = set else { return None };
    match question.choices.get(*choice)?.id.as_str() {
        "strong" => Some(Magnet::Strong),
        "part" => Some(Magnet::Weak),
        "none" => Some(Magnet::None),
        _ => None,
    }
}
