//! Prints the hash of random consultations over a pack, natively. Usage: `walk <core file> <book file>
//! <consultations> <seed>`.

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut words = std::env::args().skip(1);
    let mut next = |what: &str| words.next().ok_or(format!("Name the {what}."));
    let core = std::fs::read(next("file of the core")?)?;
    let book = std::fs::read(next("file of the book")?)?;
    let n = next("number of consultations")?.parse()?;
    let walk = tests::wander(&core, &book, n, next("seed")?.parse()?)?;
    println!("{} {} {}", walk.consultations, walk.answers, walk.hash);
    Ok(())
}
