//! Identities of words in public vocabularies, each with its label: the Art & Architecture Thesaurus (Getty, ODC-By 1.0),
//! Wikidata (CC0), the vocabulary of Linked Art 1.0 (CC BY 4.0). What is not here has no identity and is written as text.

use super::json::{Json, text};

/// A word that has an identity: how it may be written, in small letters, `|` between; its number; its label there.
pub(super) type Word = (&'static str, u32, &'static str);

pub(super) const MATERIALS: [Word; 28] = [
    ("cast iron", 300011004, "cast iron"),
    ("gray iron|grey iron", 300011006, "gray iron"),
    ("ductile iron", 300011005, "ductile iron"),
    ("wrought iron", 300011012, "wrought iron"),
    ("iron", 300011002, "iron (metal)"),
    ("steel", 300133751, "steel"),
    ("stainless steel", 300010920, "stainless steel"),
    ("tinplate", 300380231, "tinplate"),
    ("sheet metal", 300223016, "sheet metal"),
    ("tin", 300133748, "tin"),
    ("brass", 300010946, "brass (alloy)"),
    ("bronze", 300010957, "bronze (metal)"),
    ("copper", 300011020, "copper"),
    ("nickel", 300011028, "nickel"),
    ("nickel silver", 300242125, "nickel silver"),
    ("white metal", 300010998, "white metal"),
    ("britannia metal", 300010983, "britannia metal"),
    ("pewter", 300010979, "pewter"),
    ("lead", 300011022, "lead (metal)"),
    ("zinc", 300011037, "zinc"),
    ("aluminium|aluminum", 300011015, "aluminum"),
    ("chromium|chrome", 300011019, "chromium"),
    ("wood", 300011914, "wood"),
    ("porcelain", 300010662, "porcelain"),
    ("plastic", 300014570, "plastic"),
    ("glass", 300010797, "glass"),
    ("enamel|vitreous enamel", 300014915, "porcelain (vitreous) enamel"),
    ("japan|japan varnish", 300014911, "japan (varnish)"),
];

pub(super) const TECHNIQUES: [Word; 14] = [
    ("casting|cast", 300053104, "casting"),
    ("sand casting|sand cast", 300053119, "sand casting"),
    ("die casting|die cast", 300053106, "die casting"),
    ("founding", 300054038, "founding"),
    ("forging|forged", 300054033, "forging"),
    ("grinding|ground", 300053090, "grinding"),
    ("machining|machined", 300053154, "machining"),
    ("riveting|riveted", 300053019, "riveting"),
    ("welding|welded", 300053958, "welding"),
    ("plating|plated", 300053991, "plating"),
    ("nickel plating|nickel plated|nickel-plated", 300451552, "nickel-plating"),
    ("japanning|japanned", 300053797, "japanning"),
    ("enameling|enamelling|enamelled", 300053773, "enameling"),
    ("stamping|stamped", 300053138, "stamping"),
];

/// Sorts of things; a toy iron is a toy first, an iron second.
pub(super) const THINGS: [Word; 7] = [
    ("toy|toys", 300211037, "toys (recreational artifacts)"),
    ("sample|samples", 300028875, "samples"),
    ("miniature|miniatures", 300404587, "miniatures (object genre)"),
    ("reproduction|reproductions", 300015643, "reproductions (derivative objects)"),
    ("trivet|trivets", 300216958, "trivets"),
    ("paperweight|paperweights", 300236043, "paperweights"),
    ("dollhouse|dollhouses|doll's house", 300136025, "dollhouses"),
];

pub(super) const DIMENSIONS: [Word; 7] = [
    ("length", 300055645, "length"),
    ("height", 300055644, "height"),
    ("width", 300055647, "width"),
    ("depth", 300072633, "depth"),
    ("thickness", 300055646, "thickness"),
    ("diameter", 300055624, "diameter"),
    ("weight", 300056240, "weight"),
];

/// By the word of the unit.
pub(super) const UNITS: [Word; 6] = [
    ("mm", 300379097, "millimeters"),
    ("cm", 300379098, "centimeters"),
    ("in", 300379100, "inches"),
    ("g", 300379225, "grams"),
    ("kg", 300379226, "kilograms"),
    ("lb", 300379254, "pounds"),
];

/// Names, statements and the like.
pub(super) const PRIMARY_NAME: Word = ("", 300404670, "primary name");
pub(super) const DISPLAY_NAME: Word = ("", 300404669, "display name");
pub(super) const LOCAL_NUMBER: Word = ("", 300404621, "local number");
pub(super) const ITEM: Word = ("", 300404024, "collection item");
pub(super) const TYPE_OF_WORK: Word = ("", 300435443, "type of work (metatype)");
pub(super) const BRIEF_TEXT: Word = ("", 300418049, "brief text (metatype)");
pub(super) const DESCRIPTION: Word = ("", 300435416, "description");
pub(super) const INSCRIPTION: Word = ("", 300435414, "inscription statement");
pub(super) const MARKINGS: Word = ("", 300435420, "markings statement");
pub(super) const CONDITION: Word = ("", 300435425, "condition statement");
pub(super) const MATERIALS_TEXT: Word = ("", 300435429, "materials statement");
pub(super) const DIMENSIONS_TEXT: Word = ("", 300435430, "dimensions statement");
pub(super) const PRODUCTION: Word = ("", 300435436, "production statement");
pub(super) const PROVENANCE: Word = ("", 300435438, "provenance statement");
pub(super) const VALUATION: Word = ("", 300435426, "appraisal note (Linked Art: Valuation Statement)");

/// Which of a list a text is.
pub(super) fn find<'a>(list: &'a [Word], asked: &str) -> Option<&'a Word> {
    let asked = asked.trim().to_ascii_lowercase();
    list.iter().find(|(words, ..)| words.split('|').any(|w| w == asked))
}

/// A reference to a word, as a sort of entity; with `of`, itself classified.
pub(super) fn reference(word: &Word, sort: &str, of: Option<&Word>) -> Json {
    identity(format!("http://vocab.getty.edu/aat/{}", word.1), sort, word.2, of)
}

/// The sort of thing that a pressing iron is (Wikidata).
pub(super) fn pressing_iron() -> Json {
    identity(
        "http://www.wikidata.org/entity/Q483634".to_string(),
        "Type",
        "clothes iron / smoothing iron",
        Some(&TYPE_OF_WORK),
    )
}

fn identity(id: String, sort: &str, label: &str, of: Option<&Word>) -> Json {
    let classified = of.map(|word| reference(word, "Type", None)).into_iter().collect();
    Json::Object(vec![
        ("id", Json::Text(id)),
        ("type", text(sort)),
        ("_label", text(label)),
        ("classified_as", Json::List(classified)),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_identity_is_published() {
        // Published: copies of the vocabularies; the same word can have two numbers, so number and label are held together.
        let known = include_str!("../../tests/linked_art/ids.tsv");
        let lists: [&[Word]; 5] = [&MATERIALS, &TECHNIQUES, &THINGS, &DIMENSIONS, &UNITS];
        let single = [
            PRIMARY_NAME,
            DISPLAY_NAME,
            LOCAL_NUMBER,
            ITEM,
            TYPE_OF_WORK,
            BRIEF_TEXT,
            DESCRIPTION,
            INSCRIPTION,
            MARKINGS,
            CONDITION,
            MATERIALS_TEXT,
            DIMENSIONS_TEXT,
            PRODUCTION,
            PROVENANCE,
            VALUATION,
        ];
        for (_, number, label) in lists.concat().iter().chain(&single) {
            let line = format!("http://vocab.getty.edu/aat/{number}\t{label}");
            assert!(known.lines().any(|l| l == line), "{line}");
        }
    }
}
