//! A few bytes can announce huge lists, and many bytes can hold very many small items. What a reader takes for them is
//! counted here, by an allocator that keeps the books.
#![allow(
    unsafe_code,
    reason = "a global allocator cannot be written without; it hands everything on to the system's"
)]

mod common;

use pack::{LARGEST_BOOK, LARGEST_CORE, read_book, read_core};
use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering};

struct Counting;

static NOW: AtomicUsize = AtomicUsize::new(0);
static MOST: AtomicUsize = AtomicUsize::new(0);

// SAFETY: every call goes to the system's allocator unchanged; only sums are kept beside it.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let now = NOW.fetch_add(layout.size(), Ordering::Relaxed) + layout.size();
        MOST.fetch_max(now, Ordering::Relaxed);
        // SAFETY: as promised by the caller.
        unsafe { System.alloc(layout) }
    }
    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Ordering::Relaxed);
        // SAFETY: as promised by the caller.
        unsafe { System.dealloc(at, layout) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

/// The most that was held at once beyond what was held before.
fn taken(read: impl FnOnce()) -> usize {
    let before = NOW.load(Ordering::Relaxed);
    MOST.store(before, Ordering::Relaxed);
    read();
    MOST.load(Ordering::Relaxed) - before
}

/// A whole number as the format writes it.
fn number(mut n: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    while n >= 0x80 {
        bytes.push((n & 0x7f) as u8 | 0x80);
        n >>= 7;
    }
    bytes.push(n as u8);
    bytes
}

/// Header, fields of the head of a core (six texts), then what comes.
fn core_of(rest: &[Vec<u8>]) -> Vec<u8> {
    let mut bytes = b"PRSMARKc\x01\0".to_vec();
    bytes.extend([0; 6]);
    rest.iter().for_each(|r| bytes.extend(r));
    bytes
}

/// Header, id and digest of a book, then what comes.
fn book_of(rest: &[Vec<u8>]) -> Vec<u8> {
    let mut bytes = b"PRSMARKb\x01\0".to_vec();
    bytes.extend([0; 9]);
    rest.iter().for_each(|r| bytes.extend(r));
    bytes
}

/// A list of as many items as fit, each of these bytes.
fn filled(mut bytes: Vec<u8>, largest: usize, item: &[u8]) -> Vec<u8> {
    let n = (largest - bytes.len() - 8) / item.len();
    bytes.extend(number(n as u64));
    (0..n).for_each(|_| bytes.extend(item));
    bytes
}

// One test only: others beside it would be counted too.
#[test]
fn memory_stays_within_what_the_bytes_warrant() {
    // A list announced by a few bytes, as large as a number can be.
    for n in [1 << 20, u64::from(u32::MAX), u64::MAX >> 1, u64::MAX] {
        for before in 0..9 {
            let mut parts = vec![vec![0]; before];
            parts.push(number(n));
            for bytes in [core_of(&parts), book_of(&parts)] {
                let took = taken(|| drop((read_core(&bytes), read_book(&bytes))));
                assert!(took < 1000, "{took} bytes for a list of {n} announced in {}", bytes.len());
            }
        }
    }
    // As many of the smallest items as a pack may be large: eight bytes of lists and one of text for each byte, and a
    // megabyte for small packs. Basis: practice; a phone gives a page a few hundred megabytes.
    let warranted = |n: usize| (1 << 20) + 9 * n;
    let empty = |n: usize| vec![vec![0]; n];
    let kind = [&[0; 6][..], &number(64), &[0; 64], &[0]].concat();
    let question = [&[0; 16][..]].concat();
    for (what, bytes) in [
        ("places", filled(core_of(&[]), LARGEST_CORE, &[0; 3])),
        ("overlaps", filled(core_of(&empty(5)), LARGEST_CORE, &[0])),
        ("questions", filled(core_of(&empty(6)), LARGEST_CORE, &question)),
        ("kinds", filled(core_of(&empty(7)), LARGEST_CORE, &kind)),
        ("candidates", filled(core_of(&empty(8)), LARGEST_CORE, &[0; 6])),
        ("role tables", filled(core_of(&empty(9)), LARGEST_CORE, &[0; 2])),
        ("sources", filled(book_of(&[]), LARGEST_BOOK, &[0; 2])),
        ("texts of kinds", filled(book_of(&empty(1)), LARGEST_BOOK, &[0; 4])),
        ("texts of questions", filled(book_of(&empty(2)), LARGEST_BOOK, &[0; 2])),
        ("figures", filled(book_of(&empty(3)), LARGEST_BOOK, &[0; 3])),
        ("notes", filled(book_of(&[vec![0, 1, 0, 0]]), LARGEST_BOOK, &[0])),
    ] {
        let took = taken(|| drop((read_core(&bytes), read_book(&bytes))));
        println!(
            "{what}: {} kB of {} kB, {:.1}x",
            took >> 10,
            bytes.len() >> 10,
            took as f64 / bytes.len() as f64
        );
        assert!(took <= warranted(bytes.len()), "{what}: {took} bytes taken for {}", bytes.len());
    }
    // And what honest packs take.
    let irons = common::irons();
    for (what, bytes) in [("core", irons.core_bytes), ("book", irons.book_bytes)] {
        let took = taken(|| drop((read_core(&bytes), read_book(&bytes))));
        println!("{what} of the bundled pack: {} kB of {} kB", took >> 10, bytes.len() >> 10);
        // Half of what is warranted, so that a pack like it has room to grow. Basis: practice.
        assert!(took <= 4 * bytes.len(), "{what}: {took} bytes taken for {}", bytes.len());
    }
}
