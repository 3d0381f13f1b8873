//! Records made at random, all figures invented: some plain as people write them, some made to be awkward.

use super::Random;
use cabinet::record::{
    Attribution, Date, Deal, Event, Included, LAST, Mark, Measurement, Moment, Number, Opinion, Photo,
    Record, Size, Stamp, Standing, Unit, Unknown, Valuation, Version, Worth,
};
use units::{Currency, Money};

const PLAIN: [&str; 24] = [
    "small",
    "flat",
    "iron",
    "swan",
    "wire",
    "grip",
    "toy",
    "chip",
    "heel",
    "left",
    "worn",
    "sole",
    "rust",
    "blue",
    "paint",
    "No",
    "3",
    "trivet",
    "cast",
    "handle",
    "bought",
    "box",
    "toe",
    "one-piece",
];
const AWKWARD: [&str; 26] = [
    "=1+1",
    "+5",
    "-",
    "@x",
    "'",
    "\"",
    "\"\"",
    ",",
    ";",
    "\t",
    "\n",
    "\r\n",
    "| ",
    "#",
    "[mark]",
    "key: value",
    "é",
    "Ünïcödé",
    "\u{1f525}",
    "\u{202e}",
    "\u{feff}",
    "\u{0}",
    "\u{85}",
    "\u{2028}",
    "'=",
    "1,5",
];

/// A text of some words, awkward now and then.
pub(crate) fn text(random: &mut Random, most: usize) -> String {
    let mut out = String::new();
    for _ in 0..random.below(most + 1) {
        let words: &[&str] = if random.one_in(6) { &AWKWARD } else { &PLAIN };
        let word: &&str = random.pick(words);
        out.push_str(word);
        if !random.one_in(5) {
            out.push(' ');
        }
    }
    out
}

pub(crate) fn date(random: &mut Random) -> Option<Date> {
    let year = 1600 + random.below(700) as i16;
    Date::new(year, random.below(13) as u8, random.below(32) as u8)
}

pub(crate) fn money(random: &mut Random) -> Option<Money> {
    let code = *random.pick(&["USD", "GBP", "EUR", "JPY", "KWD"]);
    let minor = random.below(5_000_000) as i64;
    Currency::new(code).map(|currency| Money { minor, currency })
}

fn size(random: &mut Random) -> Option<Size> {
    let unit = *random.pick(Unit::ALL);
    (!random.one_in(8)).then(|| Size { millionths: random.below(900_000_000) as i64, unit })
}

fn other(random: &mut Random) -> Vec<(String, String)> {
    (0..random.below(2)).map(|n| (format!("new key {n}"), text(random, 4))).collect()
}

fn deal(random: &mut Random) -> Option<Deal> {
    random.one_in(2).then(|| Deal {
        how: text(random, 2),
        date: date(random),
        with: text(random, 3),
        place: text(random, 3),
        price: if random.one_in(3) { None } else { money(random) },
        note: text(random, 4),
        other: other(random),
    })
}

fn list<T>(random: &mut Random, most: usize, one: impl Fn(&mut Random) -> T) -> Vec<T> {
    (0..random.below(most + 1)).map(|_| one(random)).collect()
}

/// A record with anything in it.
pub(crate) fn record(random: &mut Random) -> Record {
    Record {
        number: Number::new(&format!(
            "{}.{}.{}",
            1990 + random.below(40),
            random.below(30),
            random.below(10)
        )),
        standing: *random.pick(Standing::ALL),
        title: text(random, 5),
        class: text(random, 2),
        kind: text(random, 3),
        materials: list(random, 3, |r| text(r, 2)),
        techniques: list(random, 2, |r| text(r, 1)),
        condition: text(random, 12),
        features: text(random, 8),
        subject: text(random, 2),
        date: text(random, 3),
        edtf: (*random.pick(&["", "188X", "1871/..", "1880~", "[1876,1877]"])).to_string(),
        attribution: random.one_in(2).then(|| *random.pick(Attribution::ALL)),
        maker: text(random, 2),
        description: text(random, 30),
        location: text(random, 3),
        recorder: text(random, 2),
        recorded: date(random),
        cautions: text(random, 8),
        singly: random.one_in(4),
        ask: text(random, 3),
        notes: text(random, 10),
        finding: text(random, 6),
        answers: (*random.pick(&["", "1/irons/p2/3.1/5.2+4u/1.640r/f~k7q3", "1/irons/7.12/9.x~aaaa"]))
            .to_string(),
        pack: text(random, 1),
        outline: list(random, 8, |r| r.below(2000) as i32 - 1000),
        other: other(random),
        acquired: deal(random),
        parted: deal(random),
        measurements: list(random, 3, |r| Measurement {
            what: (*r.pick(&["length", "weight", "height", "grip"])).to_string(),
            value: size(r),
            uncertainty: size(r),
            method: text(r, 1),
            other: other(r),
        }),
        marks: list(random, 2, |r| Mark {
            text: text(r, 3),
            sign: text(r, 1),
            place: text(r, 2),
            ..Mark::default()
        }),
        provenance: list(random, 2, |r| Event { when: text(r, 2), what: text(r, 5), ..Event::default() }),
        valuations: list(random, 2, |r| Valuation {
            low: money(r),
            high: money(r),
            basis: r.one_in(2).then(|| *r.pick(Worth::ALL)),
            date: date(r),
            source: text(r, 5),
            premium: [None, Some(Included::Yes), Some(Included::No)][r.below(3)],
            ..Valuation::default()
        }),
        photos: list(random, 2, |r| Photo {
            digest: cabinet::archive::digest(&r.bits().to_le_bytes()),
            view: text(r, 2),
            scale: r.one_in(2),
            ..Photo::default()
        }),
        opinions: list(random, 1, |r| Opinion {
            name: text(r, 2),
            date: date(r),
            text: text(r, 9),
            ..Opinion::default()
        }),
        unknown: list(random, 1, |r| Unknown {
            name: "new part".to_string(),
            lines: vec![("key".to_string(), text(r, 4))],
        }),
    }
}

/// A version of a record with anything in it.
pub(crate) fn version(random: &mut Random) -> Version {
    let stamp = Stamp {
        id: random.uuid(),
        version: random.uuid(),
        time: Moment(1 + (random.bits() % LAST.0 as u64) as i64),
        device: text(random, 2),
        deleted: random.one_in(8),
        ..Stamp::default()
    };
    let mut version = Version::after(&[], stamp, &record(random));
    version.stamp.after = (0..random.below(4)).map(|_| random.uuid()).collect();
    version
}

/// A record with nothing wrong in it, as the cabinet would let it be saved.
pub(crate) fn sound(random: &mut Random) -> Record {
    let mut record = record(random);
    for m in &mut record.measurements {
        m.uncertainty = None;
        if let Some(size) = &mut m.value {
            size.millionths += 1;
        }
    }
    record.valuations.retain_mut(|v| {
        v.basis = v.basis.or(Some(Worth::FairMarket));
        v.date = v.date.or(Date::new(2026, 10, 3));
        v.source.push_str("three sales");
        v.high = v.high.zip(v.low).map(|(h, low)| Money { minor: low.minor + h.minor, ..low });
        v.low.is_some()
    });
    record.tidied()
}
