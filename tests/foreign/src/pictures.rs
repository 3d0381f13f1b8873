//! The head of a photograph, and the messages of the program that works on one.

use crate::project::files;
use crate::{Reader, must};
use picture::ask::{Asked, Patch, Spot, Told, Valued};
use picture::strip::{about, stripped};

/// A JPEG of any telephone's.
pub(crate) const PHOTOGRAPH: Reader = Reader {
    name: "photograph",
    seeds: || {
        let mut seeds = files("tests/fixtures/picture", "jpg");
        // A head is what is read; larger pictures only make the search slower.
        seeds.retain(|jpeg| jpeg.len() < 8_000);
        seeds
    },
    words: &[
        "Exif\0\0",
        "II*\0",
        "MM\0*",
        "JFIF\0",
        "ICC_PROFILE\0",
        "Adobe",
        "\0\u{8}",
        "\u{12}\u{1}\u{3}\0",
    ],
    answered: |bytes| {
        let seen = about(bytes);
        match (stripped(bytes), seen) {
            (Ok(kept), Ok(seen)) => {
                must(
                    (1..=8).contains(&seen.turned) && seen.width > 0 && seen.height > 0,
                    "a picture of no size",
                )?;
                let again = about(&kept).map_err(|_| "what is left cannot be read")?;
                must(
                    !again.place && again.equivalent.is_none() && again.turned == 1,
                    "more is left than should be",
                )?;
                must(stripped(&kept).as_ref() == Ok(&kept), "stripped twice is not stripped once")?;
                Ok(true)
            }
            // A size may be missing; nothing is read in it then.
            (Ok(kept), Err(_)) => {
                must(stripped(&kept).as_ref() == Ok(&kept), "stripped twice is not stripped once")
                    .map(|()| false)
            }
            (Err(_), seen) => must(seen.is_err() || bytes.len() > 20, "a head of nothing").map(|()| false),
        }
    },
};

/// Numbers of four bytes, as the page asks the darkroom and as it answers.
pub(crate) const ASKED: Reader = Reader {
    name: "asked",
    seeds: || {
        let at = |n: i32| Spot { x: 100 * n, y: 7 * n };
        let asked = [
            Asked::Propose,
            Asked::Card { edges: core::array::from_fn(|n| at(n as i32)), tap: 40 },
            Asked::Coin { diameter: 2425, rim: (0..6).map(at).collect(), tap: 40 },
            Asked::Length { ends: [at(1), at(9)], height: [0, 300], tap: 40 },
            Asked::Cut {
                around: (0..3).map(at).collect(),
                height: 200,
                patches: vec![Patch { at: at(2), radius: 30, piece: true }],
            },
            Asked::Compare(vec![(0..5).map(at).collect(), (0..4).map(at).collect()]),
        ];
        let told = [
            Told::Opened { width: 640, height: 480, equivalent: 26, place: true },
            Told::Proposed(None),
            Told::Placed { above: 3000, leans: 120 },
            Told::Length(Valued { length: 640, low: 630, high: 650, u: 50, by_height: 20 }),
            Told::Compared(vec![[1, 2], [3, 4]]),
        ];
        let bytes = |words: Vec<i32>| words.into_iter().flat_map(i32::to_le_bytes).collect();
        asked.iter().map(Asked::words).chain(told.iter().map(Told::words)).map(bytes).collect()
    },
    words: &["\0\0\0\0", "\u{1}\0\0\0", "\u{8}\0\0\0", "\u{7f}\u{7f}\u{7f}\u{7f}"],
    answered: |bytes| {
        let word = |four: &[u8]| four.iter().rev().fold(0_u32, |word, byte| word << 8 | u32::from(*byte));
        let words: Vec<i32> = bytes.chunks_exact(4).map(|four| word(four).cast_signed()).collect();
        let (asked, told) = (Asked::of(&words), Told::of(&words));
        let read = asked.is_some() || told.is_some();
        must(asked.is_none_or(|asked| asked.words() == words), "what is asked does not come back")?;
        must(told.is_none_or(|told| told.words() == words), "what is told does not come back")?;
        Ok(read)
    },
};
