//! Packed copies beside the files, for servers that send them.

use anyhow::{Context, Result};
use flate2::Compression;
use flate2::write::GzEncoder;
use std::io::Write;
use std::path::Path;

/// Writes `.br` and `.gz` beside every file that becomes smaller by it.
pub(crate) fn all(dist: &Path, names: &[String]) -> Result<()> {
    for name in names.iter().filter(|name| !name.ends_with(".png")) {
        let bytes = std::fs::read(dist.join(name)).with_context(|| format!("Cannot read {name}."))?;
        for (ending, packed) in [("br", brotli(&bytes)?), ("gz", gzip(&bytes)?)] {
            if packed.len() < bytes.len() {
                std::fs::write(dist.join(format!("{name}.{ending}")), packed)?;
            }
        }
    }
    Ok(())
}

fn brotli(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut packed = Vec::new();
    let parameters =
        brotli::enc::BrotliEncoderParams { quality: 11, size_hint: bytes.len(), ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut packed, &parameters)?;
    Ok(packed)
}

fn gzip(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(bytes)?;
    Ok(packer.finish()?)
}
