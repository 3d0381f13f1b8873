//! Out and in again: the same bytes of meaning.

use crate::common::make::{record, version};
use crate::common::zip::{export, import, picture};
use crate::common::{Random, deep};
use cabinet::archive::{digest, record_name};
use cabinet::record::{Part, Stamp, Version};
use cabinet::text;
use proptest::prelude::*;

proptest! {
    #[test]
    fn text_comes_back(seed: u64) {
        let version = version(&mut Random(seed));
        let written = text::write(&version);
        prop_assert_eq!(text::read(written.as_bytes()), Ok(version.clone()));
        // What an editor may do to a text: other line ends, a mark at its beginning, blanks at the ends of lines.
        let edited = format!("\u{feff}{}", written.replace('\n', "  \r\n"));
        prop_assert_eq!(text::read(edited.as_bytes()), Ok(version));
    }

    #[test]
    fn tidying_twice_is_tidying_once(seed: u64) {
        let once = record(&mut Random(seed)).tidied();
        prop_assert_eq!(once.tidied(), once);
    }

    #[test]
    fn a_file_comes_back(seed: u64, count in 1_usize..6, pictures in 0_u64..4) {
        let mut random = Random(seed);
        let versions: Vec<Version> = (0..count).map(|_| version(&mut random)).collect();
        let pictures: Vec<Vec<u8>> = (0..pictures).map(picture).collect();
        let (found, _) = import(&export(&versions, &pictures));
        let found = found.map_err(|f| TestCaseError::fail(f.join("\n")))?;
        prop_assert_eq!(found.versions, versions);
        let names: Vec<String> = found.photos.into_iter().map(|(digest, _)| digest).collect();
        prop_assert_eq!(names, pictures.iter().map(|p| digest(p)).collect::<Vec<_>>());
    }
}

#[test]
fn a_text_explains_itself() {
    let mut random = Random(7);
    let mut version = version(&mut random);
    version.record.title = "Small flat iron".to_string();
    version.record.condition = "A chip at the left heel.\nThe sole is worn.".to_string();
    let text = text::write(&version);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "Pressmark record, format 1");
    assert!(lines[1].starts_with("# ") && lines.contains(&"title: Small flat iron"), "{text}");
    let at = lines.iter().position(|l| *l == "condition: A chip at the left heel.");
    assert_eq!(at.map(|at| lines[at + 1]), Some("| The sole is worn."));
}

#[test]
fn faults_have_lines() {
    let text = "Pressmark record, format 1\nid: x\n| more\nno colon\ntitle: A\ntitle: B\n\n[measurement]\nvalue: 64\n| \n[\n";
    let faults = text::read(text.as_bytes()).expect_err("many faults");
    let lines: Vec<usize> = faults.iter().map(|f| f.line).collect();
    assert_eq!(lines, [4, 11, 2, 6, 9, 0, 0], "{faults:?}");
    for (text, part) in [
        ("", "is no record"),
        ("Pressmark record, format 2\n", "format 2"),
        ("Pressmark record, format 1\n[acquired]\nhow: bought\n[acquired]\nhow: found", "twice"),
    ] {
        let faults = text::read(text.as_bytes()).expect_err(text);
        assert!(faults[0].says.contains(part), "{faults:?}");
    }
    assert_eq!(text::read(b"Pressmark record, format 1\nid: \xff").map_err(|f| f[0].line), Err(2));
    assert!(text::read(&vec![b'x'; 300_000]).is_err());
}

#[test]
fn unknown_lines_are_kept() {
    let mut random = Random(3);
    let version = version(&mut random);
    let text = text::write(&version).replace("\nstate:", "\nglaze: blue\n| and green\nstate:")
        + "\n[kiln]\nheat: much\n";
    let read = text::read(text.as_bytes()).expect("a record");
    assert!(read.record.other.contains(&("glaze".to_string(), "blue\nand green".to_string())));
    assert!(read.record.unknown.iter().any(|u| u.name == "kiln" && !u.lines().is_empty()));
    assert_eq!(text::read(text::write(&read).as_bytes()), Ok(read));
}

#[test]
fn two_states_with_one_id_go_into_one_file() {
    let mut random = Random(5);
    let one = version(&mut random);
    let mut two = one.clone();
    two.record.title = "Changed by hand".to_string();
    assert_eq!(record_name(&one), record_name(&two));
    let (found, _) = import(&export(&[one.clone(), two.clone()], &[]));
    assert_eq!(found.map(|f| f.versions), Ok(vec![one, two]));
}

#[test]
fn the_past_of_a_version() {
    let mut random = Random(9);
    let stamp = |random: &mut Random| Stamp { id: random.uuid(), version: random.uuid(), ..Stamp::default() };
    let mut last = Version::after(&[], stamp(&mut random), &record(&mut random));
    for _ in 0..100 {
        let next = Version::after(&[&last], stamp(&mut random), &last.record);
        assert_eq!(next.stamp.after[0], last.stamp.version);
        last = next;
    }
    assert_eq!(last.stamp.after.len(), cabinet::record::MOST_AFTER);
}

#[test]
fn archives_of_another_program() {
    // Made by Python's zipfile: `zip/make.py`.
    for bytes in [include_bytes!("zip/stored.zip").as_slice(), include_bytes!("zip/streamed.zip")] {
        let found = import(bytes).0.expect("an export that was packed again");
        assert_eq!(found.versions.len(), 1);
        assert_eq!(found.versions[0].record.title, "Small flat iron");
        assert_eq!(found.photos[0].0, found.versions[0].record.photos[0].digest);
        assert_eq!(found.notes, ["1 other thing lies in the file and is left."]);
    }
    let says = import(include_bytes!("zip/packed.zip")).0.expect_err("compressed");
    assert!(says.iter().any(|s| s.contains("packed again by another program")), "{says:?}");
}

#[test]
fn a_large_file_in_small_pieces() {
    // Photographs of 20 kilobytes, as the page makes them small (invented size).
    let (records, pictures) = if deep() { (5_000, 10_000) } else { (500, 1_000) };
    let mut random = Random(20_261_129);
    let versions: Vec<Version> = (0..records).map(|_| version(&mut random)).collect();
    let pictures: Vec<Vec<u8>> = (0..pictures)
        .map(|n| {
            let mut picture = picture(n);
            picture.resize(20_000, n as u8);
            picture
        })
        .collect();
    let start = std::time::Instant::now();
    let bytes = export(&versions, &pictures);
    let out = start.elapsed();
    let (found, largest) = import(&bytes);
    let whole = start.elapsed() - out;
    println!(
        "figure: {records} records with {} photographs, {} bytes: out {out:?}, in {whole:?}, largest piece {largest} bytes",
        pictures.len(),
        bytes.len()
    );
    let found = found.expect("a sound file");
    assert_eq!((found.versions.len(), found.photos.len()), (versions.len(), pictures.len()));
    assert_eq!(found.versions, versions);
    // Nothing is asked for that is larger than the list of entries or the end of the file.
    assert!(largest <= (160 * (versions.len() + pictures.len()) as u64).max(66_000), "{largest}");
}
