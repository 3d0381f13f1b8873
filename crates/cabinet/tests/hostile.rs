//! Files that went wrong or were made to harm: a sentence each, and nothing taken.

use crate::common::make::{sound, version};
use crate::common::zip::{export, import, picture};
use crate::common::{Random, deep};
use cabinet::archive::{Import, Writer, digest, photo_name};
use cabinet::csv::{Table, guess, head, row, take};
use cabinet::linked_art::linked_art;
use cabinet::record::{Date, Moment, Profile, Record, Uuid, Version, faults, lacks};
use cabinet::sheets::{one, sale_text};
use cabinet::text;

const TODAY: Date = Date { year: 2026, month: 11, day: 29 };

fn mutated(whole: &[u8], other: &[u8], barbs: &[&[u8]], random: &mut Random) -> Vec<u8> {
    mutate::mutated(whole, other, barbs, || random.bits())
}

fn rounds() -> usize {
    if deep() { 350_000 } else { 7_000 }
}

fn versions(random: &mut Random, count: usize) -> Vec<Version> {
    (0..count).map(|_| version(random)).collect()
}

const ZIP_BARBS: [&[u8]; 10] = [
    b"PK\x03\x04",
    b"PK\x01\x02",
    b"PK\x05\x06",
    b"PK\x06\x06",
    b"\xff\xff\xff\xff",
    b"\0\0\0\0",
    b"../",
    b"records/",
    b"\x08\x00",
    b"\xff\xff",
];

#[test]
fn archives_that_went_wrong() {
    let mut random = Random(20_261_129);
    let kept = versions(&mut random, 3);
    let pictures = [picture(1), picture(2)];
    let whole = export(&kept, &pictures);
    let other = export(&versions(&mut random, 1), &[]);
    let mut taken = 0;
    for round in 0..rounds() {
        let bytes = mutated(&whole, &other, &ZIP_BARBS, &mut random);
        let (found, largest) = import(&bytes);
        // No range is asked for that the file does not have.
        assert!(largest <= bytes.len() as u64, "round {round}");
        match found {
            // What is let in was changed where nothing is said: it is whole.
            Ok(found) => {
                taken += 1;
                assert_eq!(found.versions, kept, "round {round}");
                assert_eq!(found.photos.len(), pictures.len(), "round {round}");
            }
            Err(says) => assert!(
                !says.is_empty() && says.len() < 50 && says.iter().all(|s| s.ends_with('.')),
                "{says:?}"
            ),
        }
    }
    println!("figure: archives that went wrong: {}, of which harmless {taken}", rounds());
    assert!(taken > 0 && taken < rounds() / 2, "{taken}");
}

#[test]
fn archives_with_one_bad_record() {
    // Checks and sizes are right here, so that what stands inside is read.
    let mut random = Random(5);
    let kept = versions(&mut random, 2);
    let texts: Vec<String> = kept.iter().map(text::write).collect();
    let mut taken = 0;
    for round in 0..rounds() {
        let bad = mutated(texts[0].as_bytes(), texts[1].as_bytes(), &TEXT_BARBS, &mut random);
        let mut picture = picture(round as u64);
        let name = photo_name(&digest(&picture));
        if random.one_in(8) {
            picture = mutated(&picture, &bad, &ZIP_BARBS, &mut random);
        }
        let mut writer = Writer::new(Moment(1_795_000_000_000));
        let mut bytes = Vec::new();
        for (name, data) in
            [("records/a.txt", texts[1].as_bytes()), ("records/b.txt", &bad), (&name, &picture)]
        {
            bytes.extend(writer.entry(name, data).expect("room"));
            bytes.extend(data);
        }
        bytes.extend(writer.finish());
        // All of it or nothing: a bad record or picture takes the good ones with it.
        let good = text::read(&bad).is_ok()
            && digest(&picture) == name[7..71]
            && picture.starts_with(&[0xff, 0xd8, 0xff]);
        let (found, _) = import(&bytes);
        assert_eq!(found.is_ok(), good, "round {round}: {:?}", found.err());
        if let Ok(found) = found {
            taken += 1;
            assert_eq!((found.versions.len(), found.photos.len()), (2, 1));
        }
    }
    assert!(taken > rounds() / 100 && taken < rounds(), "{taken}");
}

const TEXT_BARBS: [&[u8]; 14] = [
    b"\n[mark]\n",
    b"\n| ",
    b"\n: ",
    b"id: ",
    b"\xff",
    b"\0",
    b"\n[acquired]\n[acquired]\n",
    b"\nversion: 919108f7-52d1-4320-9bac-f847db4148a8\n",
    b"99999999999999999999",
    b"value: -1 mm\n",
    b"low: 1e9 USD\n",
    b"\r\n",
    "\u{202e}\u{2028}".as_bytes(),
    b"format 2",
];

/// Nothing that was read upsets anything that is done with it.
fn used(version: &Version) {
    let record = &version.record;
    assert_eq!(text::read(text::write(version).as_bytes()).as_ref(), Ok(version));
    let _ = (faults(record, TODAY), lacks(record, TODAY), record.valued());
    let document = linked_art(version.stamp.id, record, Profile::Insurance);
    assert!(serde_json::from_str::<serde_json::Value>(&document).is_ok(), "{document}");
    assert!(!one(version.stamp.id, record, Profile::Sale, TODAY).blocks.is_empty());
    assert!(!sale_text(record).blocks.is_empty());
}

#[test]
fn texts_that_went_wrong() {
    let mut random = Random(6);
    let texts: Vec<String> = versions(&mut random, 8).iter().map(text::write).collect();
    let mut taken = 0;
    for _ in 0..rounds() {
        let [one, other] = [random.pick(&texts).clone(), random.pick(&texts).clone()];
        let bytes = mutated(one.as_bytes(), other.as_bytes(), &TEXT_BARBS, &mut random);
        match text::read(&bytes) {
            Ok(version) => {
                taken += 1;
                used(&version);
            }
            Err(faults) => {
                let lines = bytes.iter().filter(|b| **b == b'\n').count() + 1;
                assert!(!faults.is_empty() && faults.len() <= text::MOST_FAULTS + 1);
                assert!(faults.iter().all(|f| f.line <= lines && f.says.ends_with('.')), "{faults:?}");
            }
        }
    }
    println!("figure: texts that went wrong: {}, of which can still be read {taken}", rounds());
    assert!(taken > rounds() / 20 && taken < rounds() / 10 * 9, "{taken}");
}

const TABLE_BARBS: [&[u8]; 12] =
    [b"\"", b"\"\"", b",", b";", b"\t", b"\r", b"\n", b"\0", b"=", b"1.234", b"3/10/2026", b"\xff"];

#[test]
fn tables_that_went_wrong() {
    let mut random = Random(7);
    let records: Vec<(Uuid, Record)> = (0..4).map(|_| (random.uuid(), sound(&mut random))).collect();
    let tables: Vec<String> =
        records.windows(2).map(|w| head() + &row(w[0].0, &w[0].1) + &row(w[1].0, &w[1].1)).collect();
    let mut taken = 0;
    for _ in 0..rounds() {
        let [one, other] = [random.pick(&tables).clone(), random.pick(&tables).clone()];
        let bytes = mutated(one.as_bytes(), other.as_bytes(), &TABLE_BARBS, &mut random);
        let known = |id: Uuid| records.iter().find(|(k, _)| *k == id).map(|(_, r)| r.clone());
        let mut next = 0_u8;
        let mut fresh = || {
            next += 1;
            Uuid::of_random([next; 16])
        };
        let found = Table::read(&bytes)
            .and_then(|t| take(&t, &guess(&t.heads), &known, &mut fresh, TODAY.later(200)));
        match found {
            Ok(found) => {
                taken += 1;
                for (id, record) in &found.records {
                    assert_eq!(&record.tidied(), record);
                    assert!(known(*id).is_some() || faults(record, TODAY.later(200)).is_empty());
                }
            }
            Err(faults) => assert!(!faults.is_empty() && faults.iter().all(|f| !f.says.is_empty())),
        }
    }
    println!("figure: tables that went wrong: {}, of which can still be taken {taken}", rounds());
    assert!(taken > rounds() / 20 && taken < rounds() / 10 * 9, "{taken}");
}

/// A file with one entry changed in list and header alike.
fn with(change: &dyn Fn(&mut Vec<u8>)) -> Vec<String> {
    let mut bytes = export(&versions(&mut Random(1), 1), &[picture(1)]);
    change(&mut bytes);
    let (found, _) = import(&bytes);
    found.err().unwrap_or_default()
}

/// Puts a name in place of another of the same length, everywhere.
fn renamed(bytes: &mut [u8], from: &str, to: &str) {
    assert_eq!(from.len(), to.len());
    for at in 0..bytes.len() - from.len() {
        if bytes[at..].starts_with(from.as_bytes()) {
            bytes[at..at + to.len()].copy_from_slice(to.as_bytes());
        }
    }
}

fn last(bytes: &[u8], what: &[u8]) -> usize {
    (0..bytes.len()).rev().find(|at| bytes[*at..].starts_with(what)).unwrap_or_default()
}

/// A file with one byte changed, so far behind the last of a signature.
fn at(what: &[u8], behind: usize, change: &dyn Fn(&mut u8)) -> Vec<String> {
    with(&|b| {
        let at = last(b, what) + behind;
        change(&mut b[at]);
    })
}

#[test]
fn archives_made_to_harm() {
    let told = |says: Vec<String>, part: &str| {
        assert!(says.iter().any(|s| s.contains(part)), "{part} is not in {says:?}")
    };
    assert_eq!(with(&|_| {}), Vec::<String>::new());
    // Names that lead elsewhere.
    for (from, to) in [
        ("index.csv", "../dx.csv"),
        ("index.csv", "/ndex.csv"),
        ("index.csv", "i/../.csv"),
        ("index.csv", "C:dex.csv"),
        ("index.csv", "i\\dex.csv"),
        ("index.csv", "i//ex.csv"),
        ("index.csv", "index.cs."),
    ] {
        told(with(&|b| renamed(b, from, to)), "name");
    }
    // Two of one name, capitals apart.
    let twins = |b: &mut Vec<u8>| {
        let mut writer = Writer::new(Moment(1));
        b.clear();
        for name in ["records/a.txt", "records/A.txt"] {
            b.extend(writer.entry(name, b"").unwrap_or_default());
        }
        b.extend(writer.finish());
    };
    told(with(&twins), "Two entries");
    // Sizes that lie: the list's, then both.
    told(at(b"PK\x01\x02", 20, &|b| *b ^= 1), "two sizes");
    let grown = |b: &mut Vec<u8>| {
        let at = last(b, b"PK\x01\x02");
        b[at + 22] = 1;
        b[at + 26] = 1;
    };
    told(with(&grown), "runs into");
    // Packed, locked, the long form, several disks, a list that is elsewhere, an end that is not there.
    told(at(b"PK\x01\x02", 10, &|b| *b = 8), "packed again");
    told(at(b"PK\x01\x02", 8, &|b| *b |= 1), "password");
    let long = |b: &mut Vec<u8>| {
        let at = last(b, b"PK\x05\x06");
        b[at + 8..at + 12].fill(0xff);
    };
    told(with(&long), "zip64");
    told(at(b"PK\x05\x06", 4, &|b| *b = 1), "several parts");
    told(at(b"PK\x05\x06", 16, &|b| *b ^= 1), "does not fit");
    let fewer = |b: &mut Vec<u8>| {
        let at = last(b, b"PK\x05\x06");
        b[at + 8] -= 1;
        b[at + 10] -= 1;
    };
    told(with(&fewer), "more in the list");
    told(with(&|b| b.truncate(b.len() - 1)), "end is missing");
    told(with(&Vec::clear), "end is missing");
    // Data that was changed under its check; a picture that is another.
    told(at(&[0xff, 0xd8, 0xff], 3, &|b| *b ^= 1), "check does not hold");
    // One place for two entries.
    let overlap = |b: &mut Vec<u8>| {
        let at = last(b, b"PK\x01\x02");
        b[at + 42..at + 46].fill(0);
    };
    told(with(&overlap), "runs into");
    // A file that changes while it is read.
    let mut import = Import::new(100_000);
    import.give(b"short");
    assert!(import.wants().is_none());
    told(import.finish().err().unwrap_or_default(), "moved or changed");
    assert!(Import::new(u64::MAX).wants().is_some_and(|w| w.to - w.from < 70_000));
}

#[test]
fn what_does_not_fit_is_not_written() {
    let mut writer = Writer::new(Moment(1));
    for name in ["", "../x", "/x", "a\\b", "a:b", &"x".repeat(300)] {
        assert!(writer.entry(name, b"").is_err(), "{name}");
    }
    // Bit 11 of the flags says that the name is UTF-8 (APPNOTE 4.4.4).
    assert_eq!(writer.entry("x", b"").map(|head| head[6..8].to_vec()), Ok(vec![0, 8]));
    assert!(writer.entry("x", b"").is_err(), "twice");
    let mut writer = Writer::new(Moment(1));
    let written = (0..70_000).take_while(|n| writer.entry(&format!("photos/{n}"), b"").is_ok()).count();
    assert_eq!(written, cabinet::archive::MOST_ENTRIES);
}
