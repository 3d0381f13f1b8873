//! Exports made and read as the page would: in pieces, by ranges.

use cabinet::archive::{Export, Found, Import, digest};
use cabinet::record::{Moment, Version};

/// A picture that is enough of a JPEG to be let in.
pub(crate) fn picture(n: u64) -> Vec<u8> {
    [vec![0xff, 0xd8, 0xff], n.to_le_bytes().to_vec()].concat()
}

/// All of it as one file.
pub(crate) fn export(versions: &[Version], pictures: &[Vec<u8>]) -> Vec<u8> {
    let (mut export, mut out) =
        Export::begin(Moment(1_795_000_000_000), versions.len(), pictures.len(), "number\r\n")
            .expect("an export");
    for version in versions {
        out.extend(export.record(version).expect("a record"));
    }
    for picture in pictures {
        out.extend(export.photo(&digest(picture), picture).expect("a photograph"));
        out.extend(picture);
    }
    out.extend(export.finish());
    out
}

/// Reads a file, range by range; the number is the largest range that was asked for.
pub(crate) fn import(bytes: &[u8]) -> (Result<Found, Vec<String>>, u64) {
    let mut import = Import::new(bytes.len() as u64);
    let mut largest = 0;
    while let Some(want) = import.wants() {
        assert!(want.from <= want.to, "{want:?}");
        largest = largest.max(want.to - want.from);
        import.give(bytes.get(want.from as usize..want.to as usize).unwrap_or_default());
    }
    (import.finish(), largest)
}
