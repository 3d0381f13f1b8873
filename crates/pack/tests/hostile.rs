//! Bytes that went wrong, by accident or by intent: a sentence, or a pack that holds together. Never a panic, never
//! more memory than the bytes warrant.

use crate::common::{SEED, sentence, tiny};
use pack::{read_book, read_core, write_book, write_core};
use reason::{Answer, Model, Random, Told, weigh};

/// What must hold of any bytes handed over as a core; true when they were read.
fn core_answered(bytes: &[u8]) -> Result<bool, String> {
    let core = match read_core(bytes) {
        Ok(core) => core,
        Err(fault) => return sentence(&fault.0).map(|()| false),
    };
    let again = write_core(&core).and_then(|b| read_core(&b));
    if again.as_ref() != Ok(&core) {
        return Err("what was read does not come back".to_string());
    }
    // A core that was let in can be reckoned with: one answer to each question, at each place.
    let model = Model::from_core(&core).map_err(|says| format!("let in, but: {says}"))?;
    for place in 0..core.places.len() {
        let told =
            |question| Answer { question, told: Told::OneOf(vec![question % 2]), sure: question % 3 > 0 };
        let answers: Vec<Answer> = (0..core.questions.len()).map(told).collect();
        let sum: f64 = weigh(&model, place, &answers).p.iter().sum();
        // Basis of the bound: probabilities sum to one, but for rounding.
        if sum.is_nan() || (sum - 1.0).abs() >= 1e-9 {
            return Err(format!("the chances sum to {sum}"));
        }
    }
    Ok(true)
}

fn book_answered(bytes: &[u8]) -> Result<bool, String> {
    match read_book(bytes) {
        Ok(book) if read_book(&write_book(&book)).as_ref() == Ok(&book) => Ok(true),
        Ok(_) => Err("what was read does not come back".to_string()),
        Err(fault) => sentence(&fault.0).map(|()| false),
    }
}

type Check = fn(&[u8]) -> Result<bool, String>;

fn halves() -> [(Vec<u8>, Check); 2] {
    let c = tiny();
    [(c.core_bytes, core_answered as Check), (c.book_bytes, book_answered as Check)]
}

#[test]
fn every_single_bit_and_byte_changed() {
    for (whole, answered) in halves() {
        let (mut read, mut refused) = (0, 0);
        for at in 0..whole.len() {
            let bits = (0..8).map(|bit| whole[at] ^ (1 << bit));
            for byte in bits.chain([0, 0x7f, 0x80, 0xff]).filter(|b| *b != whole[at]) {
                let mut bytes = whole.clone();
                bytes[at] = byte;
                match answered(&bytes) {
                    Ok(true) => read += 1,
                    Ok(false) => refused += 1,
                    Err(says) => unreachable!("byte {at} as {byte}: {says}"),
                }
            }
        }
        // Letters of texts may change unseen; lengths, counts, indices and sums may not.
        assert!(read > 0 && refused > whole.len(), "{read} read, {refused} refused");
    }
}

#[test]
fn every_part_of_a_pack_is_refused() {
    for (whole, answered) in halves() {
        for end in 0..whole.len() {
            assert_eq!(answered(&whole[..end]), Ok(false), "the first {end} bytes");
        }
        assert_eq!(answered(&whole), Ok(true));
    }
}

/// Numbers of up to 64 bits and more, as the format writes them.
const NUMBERS: [&[u8]; 5] = [&[0x7f], &[0xff, 0], &[0xff, 0xff, 0x03], &[0xff; 9], &[0x80; 10]];

/// A half that went wrong behind its header, which is tried by itself; once in fifty with the header.
fn mutated(whole: &[u8], other: &[u8], random: &mut Random) -> Vec<u8> {
    let from = if random.below(50) == 0 { 0 } else { 10 };
    let bytes = mutate::mutated(&whole[from..], other, &NUMBERS, || random.bits());
    [&whole[..from], &bytes].concat()
}

#[test]
fn many_changes_at_random() {
    let rounds = if std::env::var_os("PRESSMARK_DEEP").is_some() { 500_000 } else { 20_000 };
    let [core, book] = halves();
    let mut random = Random::seeded(SEED);
    let mut read = [0, 0];
    for round in 0..rounds {
        let half = round % 2;
        let ((whole, answered), (other, _)) = if half == 0 { (&core, &book) } else { (&book, &core) };
        let bytes = mutated(whole, other, &mut random);
        match answered(&bytes) {
            Ok(was_read) => read[half] += usize::from(was_read),
            Err(says) => unreachable!("round {round}: {says}"),
        }
    }
    // Changes that stay within a text are let in; if none were, the mutator would be of no use.
    assert!(read.iter().all(|n| *n > rounds / 1000 && *n < rounds / 4), "{read:?} of {rounds} were read");
}

#[test]
fn bytes_at_random_behind_a_true_header() {
    let mut random = Random::seeded(SEED);
    for (whole, answered) in halves() {
        for _ in 0..5_000 {
            let mut bytes = whole[..10].to_vec();
            let few = random.below(4) > 0;
            bytes.extend(
                (0..random.below(300)).map(|_| if few { random.below(4) } else { random.below(256) } as u8),
            );
            assert_eq!(answered(&bytes), Ok(false), "{bytes:?}");
        }
    }
}
