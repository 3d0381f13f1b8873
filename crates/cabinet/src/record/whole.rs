//! The record: what is known of one piece, in the categories of Object ID and of the inventory of a museum.

use super::date::Date;
use super::number::Number;
use super::parts::{Deal, Event, Mark, Measurement, Opinion, Photo, Valuation};
use super::value::{Part, part};
use super::words::{Attribution, Standing};

part! {
    /// Everything that is kept about one piece. Which piece it is, is said by the version around it.
    Record {
        /// The number on its tag.
        number: Option<Number> = "number",
        /// Owned, wanted, passed over, sold.
        standing: Standing = "state",
        /// A title in a few words.
        title: String = "title",
        /// What sort of thing it is, broadly: `toy`, `pressing iron`, `trivet`.
        class: String = "class",
        /// What it is, narrowly: the form.
        kind: String = "kind",
        /// What it is made of.
        materials: Vec<String> = "materials",
        /// How it was made.
        techniques: Vec<String> = "techniques",
        /// Its state of preservation.
        condition: String = "condition",
        /// What tells it from others of its kind.
        features: String = "distinguishing features",
        /// What a novelty piece shows.
        subject: String = "subject",
        /// The date in words.
        date: String = "date",
        /// The date as EDTF (Library of Congress, 2019).
        edtf: String = "date as edtf",
        /// How sure the maker is; nothing when there is no doubt, or no maker.
        attribution: Option<Attribution> = "attribution",
        /// The maker's name.
        maker: String = "maker",
        /// A description in sentences.
        description: String = "description",
        /// Where it is kept.
        location: String = "location",
        /// Who wrote the record.
        recorder: String = "recorder",
        /// When.
        recorded: Option<Date> = "recorded",
        /// What to be careful of, one warning a line.
        cautions: String = "cautions",
        /// To be sold by itself, not in a lot with others.
        singly: bool = "sell singly",
        /// Whom to ask about it.
        ask: String = "whom to ask",
        /// Anything else.
        notes: String = "notes",
        /// What the guide said when it was asked, a line each.
        finding: String = "finding",
        /// The consultation's answers, as the link that opens it again.
        answers: String = "answers",
        /// SHA-256 of the pack that was consulted.
        pack: String = "pack sha256",
        /// Numbers that describe the outline, per mille.
        outline: Vec<i32> = "outline",
    } with {
        /// How it came.
        acquired: Option<Deal>,
        /// How it went.
        parted: Option<Deal>,
        /// What was measured.
        measurements: Vec<Measurement>,
        /// What is lettered on it.
        marks: Vec<Mark>,
        /// Its past.
        provenance: Vec<Event>,
        /// What it was held to be worth.
        valuations: Vec<Valuation>,
        /// Its photographs.
        photos: Vec<Photo>,
        /// What others think.
        opinions: Vec<Opinion>,
        /// Parts that this edition does not know, kept as they came.
        unknown: Vec<Unknown>,
    }
}

/// A part of a sort that this edition does not know.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Unknown {
    /// Its name.
    pub name: String,
    /// Its lines.
    pub lines: Vec<(String, String)>,
}

impl Part for Unknown {
    fn lines(&self) -> Vec<(&str, String)> {
        self.lines.iter().map(|(key, value)| (key.as_str(), value.clone())).collect()
    }

    fn keys(&self) -> &'static [&'static str] {
        &[]
    }

    fn set(&mut self, _: &str, _: &str) -> Result<bool, String> {
        Ok(false)
    }

    fn other(&mut self) -> &mut Vec<(String, String)> {
        &mut self.lines
    }

    fn tidy(&mut self) {
        for (_, value) in &mut self.lines {
            super::Value::tidy(value);
        }
        self.lines.retain(|(_, value)| !value.is_empty());
    }
}

/// The parts by name, in the order in which they are written. Those in the first two places stand once.
pub const PARTS: [&str; 8] =
    ["acquired", "parted with", "measurement", "mark", "event", "valuation", "photograph", "opinion"];

impl Record {
    /// All parts with their names, in the order in which they are written.
    #[must_use]
    pub fn parts(&self) -> Vec<(&str, &dyn Part)> {
        let mut all: Vec<(&str, &dyn Part)> = Vec::new();
        all.extend(self.acquired.iter().map(|p| (PARTS[0], p as &dyn Part)));
        all.extend(self.parted.iter().map(|p| (PARTS[1], p as &dyn Part)));
        all.extend(self.measurements.iter().map(|p| (PARTS[2], p as &dyn Part)));
        all.extend(self.marks.iter().map(|p| (PARTS[3], p as &dyn Part)));
        all.extend(self.provenance.iter().map(|p| (PARTS[4], p as &dyn Part)));
        all.extend(self.valuations.iter().map(|p| (PARTS[5], p as &dyn Part)));
        all.extend(self.photos.iter().map(|p| (PARTS[6], p as &dyn Part)));
        all.extend(self.opinions.iter().map(|p| (PARTS[7], p as &dyn Part)));
        all.extend(self.unknown.iter().map(|p| (p.name.as_str(), p as &dyn Part)));
        all
    }

    /// Adds an empty part of a name and gives it to be filled.
    ///
    /// # Errors
    /// A sentence when there may be one only and it is there.
    pub fn open(&mut self, name: &str) -> Result<&mut dyn Part, String> {
        fn push<T: Default + Part>(list: &mut Vec<T>) -> &mut dyn Part {
            let at = list.len();
            list.push(T::default());
            &mut list[at]
        }
        fn once(place: &mut Option<Deal>) -> Result<&mut dyn Part, String> {
            match place {
                Some(_) => Err("This part stands twice; there can be one only.".to_string()),
                None => Ok(place.get_or_insert_default()),
            }
        }
        Ok(match PARTS.iter().position(|known| *known == name) {
            Some(0) => once(&mut self.acquired)?,
            Some(1) => once(&mut self.parted)?,
            Some(2) => push(&mut self.measurements),
            Some(3) => push(&mut self.marks),
            Some(4) => push(&mut self.provenance),
            Some(5) => push(&mut self.valuations),
            Some(6) => push(&mut self.photos),
            Some(7) => push(&mut self.opinions),
            _ => {
                let at = self.unknown.len();
                self.unknown.push(Unknown { name: name.to_string(), lines: Vec::new() });
                &mut self.unknown[at]
            }
        })
    }

    /// The record as it comes back from text: tidy values, no empty parts.
    #[must_use]
    pub fn tidied(&self) -> Record {
        fn all<T: Part>(list: &mut Vec<T>) {
            for part in list.iter_mut() {
                part.tidy();
            }
            list.retain(|part| !part.lines().is_empty());
        }
        fn one(place: &mut Option<Deal>) {
            if let Some(part) = place {
                part.tidy();
            }
            *place = place.take().filter(|part| !part.lines().is_empty());
        }
        let mut record = self.clone();
        record.tidy();
        one(&mut record.acquired);
        one(&mut record.parted);
        all(&mut record.measurements);
        all(&mut record.marks);
        all(&mut record.provenance);
        all(&mut record.valuations);
        all(&mut record.photos);
        all(&mut record.opinions);
        all(&mut record.unknown);
        record
    }

    /// The first measurement of a name: `length`, `weight`.
    #[must_use]
    pub fn measured(&self, what: &str) -> Option<&Measurement> {
        self.measurements.iter().find(|m| m.what.eq_ignore_ascii_case(what))
    }

    /// The latest valuation: by day, of one day the last that was written.
    #[must_use]
    pub fn valued(&self) -> Option<&Valuation> {
        self.valuations.iter().max_by_key(|v| v.date.map(Date::end))
    }
}
