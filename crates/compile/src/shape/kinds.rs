//! The shape of families and kinds.

use super::lists::{AT, LOOKS};
use super::{BASES, BASIS, Of, SOURCE, Shape, Sort, may, must, shape};

const LENGTH: Sort = Sort::One(&shape(&[
    must("from", Sort::Number(1, 2000), "Nineteen in twenty lie above, mm."),
    must("to", Sort::Number(1, 2000), "Nineteen in twenty lie below, mm."),
    BASIS,
    SOURCE,
]));
const HEFT: Sort = Sort::One(&shape(&[
    must("from", Sort::Number(0, 50), "Nineteen in twenty lie above, g/cm3."),
    must("to", Sort::Number(0, 50), "Nineteen in twenty lie below, g/cm3."),
    BASIS,
    SOURCE,
]));

const OF_MAKE: Shape = shape(&[
    may("years", Sort::Numbers(4), "Not before, mostly from, mostly to, not after."),
    may("worth", Sort::Numbers(2), "The middle half of prices."),
    may("currency", Sort::Text(3), "Three capital letters of ISO 4217."),
    may("year", Sort::Whole(1900, 2200), "The year of the prices."),
    may("worth_basis", Sort::Word(&BASES), "What the prices rest on."),
    may("worth_source", Sort::Name(Of::Sources), "The source of published prices."),
    may("roles", Sort::Text(400), "What such pieces were made as."),
    may("looks", LOOKS, "Tables that differ for this make."),
    may("length", LENGTH, "Length of this make."),
    may("heft", HEFT, "Weight over length cubed of this make."),
    BASIS,
    SOURCE,
]);

const FAMILY: Shape = Shape {
    fields: &[
        must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
        must("name", Sort::Text(80), "The name of the family."),
        BASIS,
        SOURCE,
        may("at", AT, "Per cent of its usual share, by place."),
        may("makes", Sort::Text(400), "Of a hundred so many are of each make."),
        may("roles", Sort::Text(400), "What its kinds were made as."),
        may("serves", Sort::Names(Of::Roles), "What they could have been used as."),
        may("cautions", Sort::Names(Of::Cautions), "Warnings for all its kinds."),
        may("length", LENGTH, "Its length in mm: nineteen of twenty lie between from and to."),
        may("heft", HEFT, "Weight over length cubed."),
        may("looks", LOOKS, "Tables that its kinds share."),
    ],
    by_make: Some(&OF_MAKE),
    free: None,
};

const FORM: Shape = shape(&[
    must("name", Sort::Text(80), "The name of the form."),
    must("share", Sort::Number(0, 100), "Of a hundred of the kind so many are of this form."),
    may("roles", Sort::Text(400), "What it was made as."),
    may("looks", LOOKS, "Tables of this form."),
    may("length", LENGTH, "Length of this form."),
    may("heft", HEFT, "Weight over length cubed of this form."),
    BASIS,
    SOURCE,
]);
const TAKEN_FOR: Shape = shape(&[
    must("kind", Sort::Name(Of::Kinds), "What it is taken for."),
    must("check", Sort::Text(240), "What parts the two."),
]);
const ALSO_SAID: Shape = shape(&[
    must("says", Sort::Text(240), "A statement that the tables do not follow."),
    must("basis", Sort::Word(&BASES), "What it rests on."),
    SOURCE,
]);
const EXAMPLE: Shape = shape(&[
    must("name", Sort::Text(80), "What the piece is called."),
    must("make", Sort::Name(Of::Makes), "How it was made."),
    must("looks", Sort::Answers, "Its answers, as for workshop try."),
    must("unusual", Sort::Name(Of::Questions), "Which of its looks is unusual for the kind."),
    may("within", Sort::Whole(1, 2), "The kind must come among the first so many."),
    may("reason", Sort::Text(240), "Why it may come second."),
]);

const KIND: Shape = Shape {
    fields: &[
        must("id", Sort::Text(40), "Lower-case letters, digits, hyphens."),
        must("name", Sort::Text(80), "Its name by form."),
        must("short", Sort::Text(40), "At most four words."),
        must("purpose", Sort::Text(240), "What it is for."),
        may(
            "standing",
            Sort::Word(&["inside", "outside", "unknown"]),
            "One kind is unknown: all that is in no guide.",
        ),
        may("common", Sort::Whole(1, 5), "1 rare to 5 everywhere."),
        may("roles", Sort::Text(400), "What it was made as: toy 85, working 15"),
        may("serves", Sort::Names(Of::Roles), "What it could have been used as."),
        may("at", AT, "Per cent of its commonness, by place."),
        may("makes", Sort::Text(400), "Of a hundred so many are of each make."),
        may("length", LENGTH, "Its length in mm: nineteen of twenty lie between from and to."),
        may("heft", HEFT, "Weight over length cubed."),
        may("draw", Sort::Text(200), "Words of a drawing."),
        BASIS,
        SOURCE,
        may("cautions", Sort::Names(Of::Cautions), "Warnings."),
        may("notes", Sort::Text(8000), "What a collector would tell; blank lines part paragraphs."),
        may("found", Sort::Text(240), "Where it is met."),
        may("companions", Sort::Text(240), "What belongs to it."),
        may("same_as", Sort::Sentences, "Identifiers in open vocabularies."),
        may("either", Sort::Names(Of::Kinds), "Kinds that nothing but further evidence tells from it."),
        may("looks", LOOKS, "Its tables."),
        may("form", Sort::Many("forms", &FORM), "Traits that hang together; shares sum to 100."),
        may("taken_for", Sort::Many("taken-for", &TAKEN_FOR), "What it is taken for."),
        may("also_said", Sort::Many("also-said", &ALSO_SAID), "What else is said."),
        may("example", Sort::Many("examples", &EXAMPLE), "Described pieces that it must be found by."),
    ],
    by_make: Some(&OF_MAKE),
    free: None,
};

pub(super) const KINDS: Shape = shape(&[
    may("family", Sort::Once("families", &FAMILY), "What the kinds of this file share."),
    may("kind", Sort::Many("kinds", &KIND), "In this order."),
]);
