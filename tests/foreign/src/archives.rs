//! What is handed to the desk: a ZIP, or a file by itself.

use crate::project::files;
use crate::{Reader, must, sentence};
use compile::{LARGEST_PACK, LONGEST_FILE};
use desk::{MOST_ENTRIES, taken, unzip};

/// A ZIP of anybody's.
pub(crate) const HANDED: Reader = Reader {
    name: "handed",
    seeds: || {
        let mut seeds = files("crates/desk/tests/fixtures", "zip");
        // Bombs say nothing that smaller ones would not.
        seeds.retain(|zip| unzip(zip, |_| true).is_ok_and(|all| !all.is_empty()));
        seeds.extend(desk::starter(true));
        seeds
    },
    words: &[
        "PK\u{3}\u{4}",
        "PK\u{1}\u{2}",
        "PK\u{5}\u{6}",
        "PK\u{6}\u{6}",
        "../",
        "\0\0\0\0",
        "\u{8}\0",
        "pack.toml",
        "kinds.csv",
        "__MACOSX/",
    ],
    answered: |bytes| {
        let read = match unzip(bytes, |_| true) {
            Ok(all) => {
                let size: usize = all.iter().map(|(_, data)| data.len()).sum();
                must(all.len() <= MOST_ENTRIES && size <= LARGEST_PACK, "more than is read")?;
                must(all.iter().all(|(_, data)| data.len() <= LONGEST_FILE), "longer than is read")?;
                true
            }
            Err(says) => sentence(&says).map(|()| false)?,
        };
        if let Err(faults) = taken(&[("pack.zip".to_string(), bytes.to_vec())]) {
            must(!faults.is_empty(), "refused without a fault")?;
            faults.iter().try_for_each(|fault| sentence(&format!("{fault} This is all.")))?;
        }
        Ok(read)
    },
};
