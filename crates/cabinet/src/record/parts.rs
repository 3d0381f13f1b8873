//! The parts that a record may have several of, and the two deals by which a piece comes and goes.

use super::date::Date;
use super::size::Size;
use super::value::part;
use super::words::{Included, Worth};
use units::Money;

part! {
    /// One thing measured, as it was read.
    Measurement {
        /// What: `length`, `height`, `width`, `depth`, `thickness`, `diameter`, `weight`, or any words.
        what: String = "what",
        /// The reading with its unit.
        value: Option<Size> = "value",
        /// Half the width of the interval that holds about 95 of 100 (GUM: twice the standard uncertainty).
        uncertainty: Option<Size> = "plus or minus",
        /// With what: `ruler`, `calipers`, `scales`, `by eye`, or any words.
        method: String = "method",
    }
}

part! {
    /// Lettering, a number or a sign on the piece.
    Mark {
        /// As it reads; lost letters as `?`. Empty for a sign without letters.
        text: String = "text",
        /// What a sign looks like.
        sign: String = "sign",
        /// Where on the piece.
        place: String = "place",
        /// How it was made: cast, raised, sunk, stamped, painted.
        how: String = "how",
    }
}

part! {
    /// One event of the piece's past.
    Event {
        /// When, in words or as a date.
        when: String = "when",
        /// What happened.
        what: String = "what",
        /// Who had a part in it.
        who: String = "who",
        /// Where.
        place: String = "where",
    }
}

part! {
    /// How a piece came, or how it went.
    Deal {
        /// Bought, given, inherited, found, swapped.
        how: String = "how",
        /// The day.
        date: Option<Date> = "date",
        /// The other person or sale.
        with: String = "with",
        /// Where.
        place: String = "where",
        /// What was paid in all.
        price: Option<Money> = "price",
        /// Where the receipt is, what else was said.
        note: String = "note",
    }
}

part! {
    /// What the piece was held to be worth once, with what the figure rests on.
    Valuation {
        /// The lower end.
        low: Option<Money> = "low",
        /// The upper end; the same as the lower one for a single figure.
        high: Option<Money> = "high",
        /// What sort of figure it is.
        basis: Option<Worth> = "basis",
        /// As of which day.
        date: Option<Date> = "date",
        /// What it rests on.
        source: String = "source",
        /// How it was reached.
        method: String = "method",
        /// Who said it.
        valuer: String = "valuer",
        /// Whether a buyer's premium is in it.
        premium: Option<Included> = "premium included",
        /// Whether tax is in it.
        tax: Option<Included> = "tax included",
    }
}

part! {
    /// A photograph, kept beside the record under its digest.
    Photo {
        /// SHA-256 of the file, 64 digits of base 16.
        digest: String = "sha256",
        /// What it shows: `overall`, `side`, `sole`, `mark`, `damage`, or any words.
        view: String = "view",
        /// Whether a scale or a thing of known size is in it.
        scale: bool = "scale shown",
        /// Anything else.
        note: String = "note",
    }
}

part! {
    /// What somebody thinks the piece is.
    Opinion {
        /// Who.
        name: String = "name",
        /// When.
        date: Option<Date> = "date",
        /// What they say.
        text: String = "says",
    }
}

impl Photo {
    /// Whether the digest has the form of one.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        is_digest(&self.digest)
    }
}

/// Whether a text is a SHA-256 in small digits.
pub(crate) fn is_digest(text: &str) -> bool {
    text.len() == 64 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
}
