//! Bytes that went wrong: changed, cut, doubled, mixed with others. Never in here: a generator of its own, so that every
//! test keeps its draws.

/// One to three changes to `whole`, drawn by uniform `bits`. A part of `other` is put in now and then, and so are `barbs`:
/// pieces that mean something to the reader.
pub fn mutated(whole: &[u8], other: &[u8], barbs: &[&[u8]], mut bits: impl FnMut() -> u64) -> Vec<u8> {
    let mut below = |n: usize| (bits() % n.max(1) as u64) as usize;
    let mut bytes = whole.to_vec();
    for _ in 0..1 + below(3) {
        let at = below(bytes.len() + 1);
        let until = (at + below(40)).min(bytes.len());
        match below(9) {
            0 | 1 if at < bytes.len() => bytes[at] = below(256) as u8,
            2 if at < bytes.len() => bytes[at] = [0, 1, 0x7f, 0x80, 0xfe, 0xff][below(6)],
            3 => drop(bytes.drain(at..until)),
            4 => {
                let part = bytes[at..until].to_vec();
                bytes.splice(at..at, part);
            }
            5 if !barbs.is_empty() => {
                let until = until.min(at + below(4));
                bytes.splice(at..until, barbs[below(barbs.len())].iter().copied());
            }
            6 => {
                let from = below(other.len());
                let part = other[from..(from + below(60)).min(other.len())].to_vec();
                bytes.splice(at..until, part);
            }
            7 if below(4) == 0 => bytes.truncate(at),
            _ if until > at + 1 => bytes[at..until].reverse(),
            _ => {}
        }
    }
    bytes
}
