//! One reader, by the name in `PRESSMARK_READER`: whatever bytes it is handed, what `foreign` says of it holds. Before the
//! first run the sound inputs and the words are laid out where `PRESSMARK_SEEDS` says.
#![no_main]

use foreign::Reader;
use libfuzzer_sys::fuzz_target;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use std::{env, fs};

static READER: LazyLock<&Reader> = LazyLock::new(|| {
    let name = env::var("PRESSMARK_READER").expect("the name of a reader in PRESSMARK_READER");
    foreign::reader(&name).expect("a reader of that name")
});

fuzz_target!(
    init: {
        if let Some(folder) = env::var_os("PRESSMARK_SEEDS").map(PathBuf::from) {
            lay_out(&folder).expect("a folder that can be written");
        }
    },
    |bytes: &[u8]| {
        if let Err(says) = (READER.answered)(bytes) {
            panic!("{says}");
        }
    }
);

/// Writes the seeds as files into a folder and the words as a dictionary beside it.
fn lay_out(folder: &Path) -> std::io::Result<()> {
    fs::create_dir_all(folder)?;
    // The packs are compiled for the first input, which takes longer than any input may.
    assert_eq!((READER.answered)(&(READER.seeds)()[0]), Ok(true), "a sound input is let in");
    for (at, seed) in (READER.seeds)().iter().enumerate() {
        fs::write(folder.join(format!("seed-{at}")), seed)?;
    }
    let quoted = |word: &&str| {
        let bytes: String = word.bytes().map(|byte| format!("\\x{byte:02x}")).collect();
        format!("\"{bytes}\"\n")
    };
    fs::write(folder.with_extension("words"), READER.words.iter().map(quoted).collect::<String>())
}
