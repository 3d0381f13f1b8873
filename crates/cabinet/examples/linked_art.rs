//! Writes documents of Linked Art into a folder, for `cargo xtask bench linked-art`: records made at random, as anybody, an
//! insurer and a buyer may see them.

#[path = "../tests/common/mod.rs"]
#[allow(dead_code, reason = "what the tests share is more than an example uses")]
mod common;

use cabinet::linked_art::linked_art;
use cabinet::record::Profile;
use common::Random;
use std::path::PathBuf;

fn main() -> std::io::Result<()> {
    let folder: PathBuf = std::env::args_os().nth(1).unwrap_or_default().into();
    for seed in 0..300 {
        let mut random = Random(seed);
        let (id, mut record) = (random.uuid(), common::make::sound(&mut random));
        record.class = (*random.pick(&["toy", "pressing iron", "trivet", ""])).to_string();
        record.materials.push("cast iron".to_string());
        record.techniques.push("sand casting".to_string());
        let profile = Profile::ALL[seed as usize % 3];
        std::fs::write(folder.join(format!("{seed}.json")), linked_art(id, &record, profile))?;
    }
    Ok(())
}
