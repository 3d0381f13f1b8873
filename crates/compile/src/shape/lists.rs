//! The shape of `pack.toml`, the small files, questions and lessons.

use super::{BASES, BASIS, Field, Of, SOURCE, Shape, Sort, may, must, shape};

const THING: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("name", Sort::Text(80), "As it is shown."),
]);

const WEIGHT: Sort = Sort::Number(0, 1000);
const WORDS: Shape = shape(&[
    must("always", WEIGHT, "What the word weighs."),
    must("usually", WEIGHT, "What the word weighs."),
    must("often", WEIGHT, "What the word weighs."),
    must("sometimes", WEIGHT, "What the word weighs."),
    must("seldom", WEIGHT, "What the word weighs."),
    must("never", WEIGHT, "What the word weighs."),
]);

const STEP_OF: Sort = Sort::Number(0, 1_000_000);
const COMMON: Shape = shape(&[
    must("1", STEP_OF, "What the rarest step weighs."),
    must("2", STEP_OF, "What this step weighs."),
    must("3", STEP_OF, "What this step weighs."),
    must("4", STEP_OF, "What this step weighs."),
    must("5", STEP_OF, "What the commonest step weighs."),
]);

pub(super) const PACK: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters and digits; part of every link."),
    must("name", Sort::Text(80), "The name of the pack."),
    must("edition", Sort::Date, "The day of this edition."),
    must("licence", Sort::Text(80), "Under what licence it may be used."),
    must("language", Sort::Text(40), "The language of the texts, such as en."),
    must("basis", Sort::Word(&BASES), "What every figure rests on that does not say otherwise."),
    SOURCE,
    may("notice", Sort::Text(240), "One sentence that stands on every finding."),
    may(
        "key",
        Sort::Text(80),
        "The public key with which the finished pack is signed, in the format of minisign.",
    ),
    must("unknown", Sort::Number(0, 50), "Of a hundred pieces so many are in no guide."),
    may("mixed", Sort::Number(0, 50), "Of a hundred groups of looks so many are not the piece's own."),
    must("opening", Sort::Names(Of::Questions), "The questions that newcomers meet first."),
    must("words", Sort::One(&WORDS), "What the words of frequency weigh."),
    must("common", Sort::One(&COMMON), "What the steps of commonness weigh."),
    may(
        "groups",
        Sort::Free(Of::Own, &Sort::Number(0, 99)),
        "Per cent by which the answers of a group overlap.",
    ),
    must("place", Sort::Many("places", &THING), "Where a piece may be offered; the first is: not said."),
    may("tool", Sort::Many("tools", &THING), "What a look may need."),
    must("part", Sort::Many("parts", &THING), "Parts of a piece."),
    must("role", Sort::Many("roles", &THING), "What a piece may have been made as."),
    must("make", Sort::Many("makes", &THING), "The first is the period piece; all others count as later."),
]);

pub(super) const AT: Sort = Sort::Free(Of::Places, &Sort::Number(0, 100_000));
pub(super) const LOOKS: Sort = Sort::Free(Of::Questions, &Sort::Table);

const MAKE: Shape = shape(&[
    must("id", Sort::Name(Of::Makes), "A make of pack.toml."),
    may("at", AT, "Per cent of its usual share, by place."),
    BASIS,
    SOURCE,
    may("roles", Sort::Text(400), "What such pieces were made as, whatever the kind."),
    may("looks", LOOKS, "Tables of questions about the make."),
]);
pub(super) const MAKES: Shape =
    shape(&[must("make", Sort::Many("make-looks", &MAKE), "What a make looks like, whatever the kind.")]);

const CAUTION: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("text", Sort::Text(500), "The warning."),
    may("grave", Sort::Flag, "Whether it stands above everything."),
    may("raised_by", Sort::Sentences, "Answers that raise it whatever the kind."),
]);
pub(super) const CAUTIONS: Shape =
    shape(&[may("caution", Sort::Many("cautions", &CAUTION), "Strongest first.")]);

pub(super) const SOURCES: Shape = Shape {
    fields: &[],
    by_make: None,
    free: Some(&Field { name: "", sort: Sort::Text(500), must: false, says: "As a reader would cite it." }),
};

const TERM: Shape =
    shape(&[must("word", Sort::Text(80), "The word."), must("means", Sort::Text(500), "What it means.")]);
pub(super) const GLOSSARY: Shape =
    shape(&[may("term", Sort::Many("glossary", &TERM), "The words of the field.")]);

const MISREAD: Shape = shape(&[
    may("sure", Sort::Number(0, 50), "Of a hundred sure answers so many are wrong."),
    may("unsure", Sort::Number(0, 50), "Of a hundred unsure answers so many are wrong."),
]);

const CHOICE: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("label", Sort::Text(60), "At most six words, for the key."),
    must("clue", Sort::Text(240), "What the answer says, as a sentence without a full stop."),
    may("draw", Sort::Text(200), "Words of a drawing."),
    may("confused", Sort::Names(Of::Choices), "What it is easily taken for."),
    may("altered", Sort::Text(500), "What it says of a part put on or worked over later."),
    may("upper", Sort::Number(0, 2000), "Upper end of a class of a measured question."),
]);

const QUESTION: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("about", Sort::Word(&["form", "make"]), "Whether kinds or makes differ in it."),
    must("answer", Sort::Word(&["choice", "length", "heft"]), "Choices, or a measure."),
    must("ask", Sort::Text(240), "The question."),
    must("look", Sort::Text(500), "How to look."),
    must("seller", Sort::Text(500), "How to ask a seller."),
    must("part", Sort::Name(Of::Parts), "The part that is looked at."),
    may("tool", Sort::Name(Of::Tools), "What the look needs; left out: bare hands and eyes."),
    must("seconds", Sort::Whole(1, 3600), "How long the look takes."),
    must("picture", Sort::Flag, "Whether a picture is enough."),
    must("tellable", Sort::Number(0, 100), "On so many of a hundred pieces it can be told."),
    may("misread", Sort::One(&MISREAD), "How often an answer is wrong."),
    may("group", Sort::Name(Of::Groups), "Answers that hang together."),
    may("asked_if", Sort::Text(400), "Only after this answer to an earlier question: grip: pierced, blind"),
    may("usual", Sort::Table, "What is usual when nobody says otherwise."),
    may("newcomers", Sort::Text(1000), "What newcomers get wrong."),
    BASIS,
    SOURCE,
    must("choice", Sort::Many("choices", &CHOICE), "At most six."),
]);
pub(super) const QUESTIONS: Shape =
    shape(&[may("question", Sort::Many("questions", &QUESTION), "In this order.")]);

const STEP: Shape = shape(&[
    must("look", Sort::Name(Of::Questions), "One of the looks of the lesson."),
    must("says", Sort::Text(1000), "What it tells."),
]);
const LESSON: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("title", Sort::Text(80), "The title."),
    must("help", Sort::Word(&["shown", "asked", "alone"]), "How much help it gives."),
    must("kind", Sort::Name(Of::Kinds), "What the piece is."),
    must("make", Sort::Name(Of::Makes), "How it was made."),
    must("intro", Sort::Text(1000), "What is said first."),
    must("looks", Sort::Answers, "What is true of the piece: choices only."),
    must("ends", Sort::Text(1000), "What is said last."),
    must("step", Sort::Many("steps", &STEP), "Three at least."),
]);
const BLOCK: Shape = shape(&[
    must("name", Sort::Text(80), "The name of the block."),
    must("kinds", Sort::Names(Of::Kinds), "Kinds that are met together."),
]);
const PROOF: Shape = shape(&[
    must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
    must("mark", Sort::Text(240), "The mark."),
    may("draw", Sort::Text(200), "Words of a drawing."),
    must("right", Sort::Text(240), "What it proves."),
    must("wrong", Sort::Sentences, "What it is thought to prove."),
    must("because", Sort::Text(1000), "Why."),
]);
pub(super) const LESSONS: Shape = shape(&[
    may(
        "block",
        Sort::Many("blocks", &BLOCK),
        "Kinds that are met together, in the order in which they are met.",
    ),
    may("lesson", Sort::Many("lessons", &LESSON), "Worked pieces, in the order in which they are taught."),
    may("proof", Sort::Many("proofs", &PROOF), "What marks prove."),
]);
