//! `speed OUT`: times the next question and writes what the peer needs.

fn main() -> anyhow::Result<()> {
    let out = std::env::args().nth(1).unwrap_or_else(|| "target/engine/speed".to_owned());
    proof::speed::measure(std::path::Path::new(&out))
}
