//! What a reference file becomes, and the way of a file that stands for itself.

use super::{Parsed, missing, parse};
use crate::fault::{Fault, Faults};
use crate::files::Files;
use sha2::{Digest, Sha256};
use units::Basis;

/// Tables made of plain files, and their bytes.
#[derive(Debug, Clone, PartialEq)]
pub struct Made<T> {
    /// The tables.
    pub made: T,
    /// Their bytes.
    pub bytes: Vec<u8>,
    /// SHA-256 of the bytes, 64 lower-case hexadecimal digits.
    pub digest: String,
    /// How many figures in the files rest on what.
    pub counts: [(Basis, usize); 4],
}

impl<T> Made<T> {
    pub(super) fn new(made: T, bytes: Vec<u8>, counts: [usize; 4]) -> Made<T> {
        let digest: [u8; 32] = Sha256::digest(&bytes).into();
        let mut named = Basis::ALL.map(|b| (b, 0));
        for (count, n) in named.iter_mut().zip(counts) {
            count.1 = n;
        }
        Made { made, bytes, digest: crate::hex(&digest), counts: named }
    }
}

/// How a file becomes tables: the file, all files, the place for faults, and whether it could be parsed as a whole.
type Read<T> = fn(&Parsed<'_>, &Files, &Faults, bool) -> Option<Made<T>>;

/// Compiles one file of a folder; the others are left alone.
///
/// # Errors
/// Every fault of the file, in order of line; never an empty list.
pub(super) fn alone<T>(files: &Files, name: &str, read: Read<T>) -> Result<Made<T>, Vec<Fault>> {
    let Some(text) = files.get(name) else { return Err(vec![missing(name)]) };
    let one = Files::new(vec![(name.to_string(), text.to_string())]);
    let faults = Faults::default();
    if !one.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let (parsed, mut unparsed) = parse(&one, &faults);
    unparsed.retain(|f| f.file == name);
    let found = parsed.first().and_then(|file| read(file, &one, &faults, unparsed.is_empty()));
    let list = faults.into_sorted(&unparsed).0;
    found.filter(|_| list.is_empty()).ok_or(list)
}
