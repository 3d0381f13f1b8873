//! Bytes that went wrong: changed, cut, doubled, mixed with others.

use super::Random;

/// Some changes to bytes; `barbs` are pieces put in anywhere.
pub(crate) fn mutated(whole: &[u8], other: &[u8], barbs: &[&[u8]], random: &mut Random) -> Vec<u8> {
    let mut bytes = whole.to_vec();
    for _ in 0..1 + random.below(3) {
        let at = random.below(bytes.len() + 1);
        let until = (at + random.below(40)).min(bytes.len());
        match random.below(9) {
            0 | 1 if at < bytes.len() => bytes[at] = random.bits() as u8,
            2 if at < bytes.len() => bytes[at] = [0, 1, 0x7f, 0x80, 0xfe, 0xff][random.below(6)],
            3 => drop(bytes.drain(at..until)),
            4 => {
                let part = bytes[at..until].to_vec();
                bytes.splice(at..at, part);
            }
            5 => drop(bytes.splice(at..until.min(at + random.below(4)), random.pick(barbs).iter().copied())),
            6 => {
                let from = random.below(other.len());
                let part = other[from..(from + random.below(60)).min(other.len())].to_vec();
                bytes.splice(at..until, part);
            }
            7 if random.one_in(4) => bytes.truncate(at),
            _ if until > at + 1 => bytes[at..until].reverse(),
            _ => {}
        }
    }
    bytes
}
