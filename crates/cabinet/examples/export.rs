//! Writes an export of invented records to a file, to be opened with other programs: `cargo run -p cabinet --example export
//! -- <file>`.

#[path = "../tests/common/mod.rs"]
#[allow(dead_code, reason = "what the tests share is more than an example uses")]
mod common;

use cabinet::record::Version;
use common::Random;
use common::make::version;
use common::zip::{export, picture};

fn main() -> std::io::Result<()> {
    let mut random = Random(1);
    let versions: Vec<Version> = (0..20).map(|_| version(&mut random)).collect();
    let pictures: Vec<Vec<u8>> = (0..20).map(picture).collect();
    std::fs::write(std::env::args_os().nth(1).unwrap_or_default(), export(&versions, &pictures))
}
