//! Sound inputs that went wrong in many small ways: refused with a sentence, or read and then usable.

use foreign::{READERS, reader};
use reason::Random;

const SEED: u64 = 20_261_129;

/// Inputs for a reader: the dear ones get fewer.
fn rounds(name: &str) -> usize {
    let usual = match name {
        // Each that is let in is simulated; each is compiled twice over to trace its faults.
        "files" => 150,
        // A model is made of each core.
        "halves" | "whole" => 3_000,
        // Tables of a hundred kilobytes; all readings of a lettering.
        "tables" | "marks" => 600,
        _ => 5_000,
    };
    if std::env::var_os("PRESSMARK_DEEP").is_some() { 20 * usual } else { usual }
}

/// Mutated inputs, and mutated ones of those that were let in: errors lie behind errors.
fn mutants_of(name: &str) {
    let reader = reader(name).expect("a reader of that name");
    let mut sound = (reader.seeds)();
    assert!(sound.len() > 1, "{name}: too few inputs to begin from");
    for seed in &sound {
        assert_eq!((reader.answered)(seed), Ok(true), "{name}: {:?}", String::from_utf8_lossy(seed));
    }
    let words: Vec<&[u8]> = reader.words.iter().map(|word| word.as_bytes()).collect();
    let mut random = Random::seeded(SEED);
    let (rounds, mut let_in) = (rounds(name), 0);
    for round in 0..rounds {
        let (at, other) = (random.below(sound.len()), random.below(sound.len()));
        let bytes = mutate::mutated(&sound[at], &sound[other], &words, || random.bits());
        match (reader.answered)(&bytes) {
            Ok(true) => {
                let_in += 1;
                if sound.len() < 500 {
                    sound.push(bytes);
                } else {
                    sound[at] = bytes;
                }
            }
            Ok(false) => {}
            Err(says) => unreachable!("{name}, round {round}: {says}: {:?}", String::from_utf8_lossy(&bytes)),
        }
    }
    println!("figure: foreign bytes: {name}: {rounds} tried, {let_in} let in");
    // If none were let in, the changes would be too coarse to say anything; only lettering is never refused.
    assert!(let_in > 0 && (let_in < rounds || name == "marks"), "{name}: {let_in} of {rounds} were let in");
}

macro_rules! each {
    ($($name:ident),*) => {
        $(#[test] fn $name() { mutants_of(stringify!($name)); })*

        #[test]
        fn every_reader_is_tried() {
            assert_eq!(READERS.map(|reader| reader.name), [$(stringify!($name)),*]);
        }
    };
}

each!(
    halves, whole, signature, handed, files, link, handover, answers, practice, cabinet, sheet, marks,
    tables, photograph, asked
);
